#pragma once
// An aircraft read from a .glb: triangles by node, with what moves. No GL.

#include <cstdint>
#include <string>
#include <vector>

#include <glm/ext/matrix_float4x4.hpp>
#include <glm/ext/vector_float3.hpp>
#include <glm/ext/vector_uint4.hpp>

#include "engine/base/expected.h"

namespace plumbline::render {

struct ModelVertex {
    glm::vec3 position{0};  ///< node axes [m]
    glm::vec3 normal{0, 0, 1};
    std::uint8_t colour[4] = {200, 200, 200, 255};  ///< display space
};

/// What a part does, from its node's name; the local x axis is the hinge or the shaft.
enum class PartRole {
    Fixed,
    Canopy,
    Cockpit,
    AileronLeft,
    AileronRight,
    Elevator,
    Rudder,
    PropellerBlades,
    PropellerDisc
};

struct ModelPart {
    PartRole role = PartRole::Fixed;
    glm::mat4 body_from_node{1};
    std::uint32_t first_index = 0;
    std::uint32_t index_count = 0;
    bool translucent = false;
    bool two_sided = false;
    float roughness = 0.5F;
};

struct AircraftModel {
    std::vector<ModelVertex> vertices;
    std::vector<std::uint32_t> indices;
    std::vector<ModelPart> parts;
    float span_m = 8;
};

/// How a user's model lies in its file.
struct ModelAxes {
    std::string nose = "+z";  ///< the axis that points to the nose: "+x", "-z"...
    std::string up = "+y";    ///< the one towards the canopy
};

/// glTF axes (+y up, +z forward unless `axes` says otherwise) become body axes (x forward, y right,
/// z down) here and nowhere else. Colours are COLOR_0 where present (display space), else the
/// material's base colour, with its texture where each vertex lies. A model whose middle lies
/// further from its origin than half its size is moved there.
/// @param folder  of the file, for what a .gltf names beside itself
/// @errors neither .glb nor .gltf, no triangles, an index or accessor outside its buffer, over 2
/// million vertices, axes that are none, a model that is taller or longer than any aeroplane of its
/// span; a sentence with the remedy
Expected<AircraftModel, std::string> readAircraftModel(const std::uint8_t* bytes, std::size_t size,
                                                       const std::string& folder = "",
                                                       const ModelAxes& axes = {});

/// A plain shape without wings, for when there is no model or the attitude is not known.
AircraftModel markerModel();

}  // namespace plumbline::render
