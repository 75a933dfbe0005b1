#pragma once
// Pictures of the user's.

#include <memory>
#include <string>

#include "engine/data/site.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::model {

/// Reads a JPEG or PNG file and where it lies.
/// @param reason  why it cannot be used, when null is returned
std::shared_ptr<const scene::GroundPicture> readAerial(const data::AerialPicture& aerial,
                                                       std::string& reason);

}  // namespace plumbline::model
