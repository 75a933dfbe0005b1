#pragma once
// The aircraft's model as the first part of a glTF scene.

#include <string>

#include "engine/out/flight.h"
#include "engine/out/gltf_document.h"

namespace plumbline::out {

struct GltfModel {
    GltfDocument document;  ///< its own scene is still in it
    int node = 0;  ///< root of all that scene shows; axes M, at the aircraft's size, about its
                   ///< centre of gravity
    double span_m = 0;
};

/// The model's file, or the built-in one. A user's model is turned, scaled to the span and, where
/// its middle lies further from its origin than half its size, moved there.
/// @errors a sentence
Expected<GltfModel, std::string> readGltfModel(const FlownModel& model,
                                               const load::FileSource& files);

}  // namespace plumbline::out
