#pragma once
// Triangles of what stands on the airfield.

#include <vector>

#include "engine/data/site.h"
#include "viewer/render/airfield.h"
#include "viewer/render/landscape.h"

namespace plumbline::render {

using SolidVertices = std::vector<AirfieldPainter::SolidVertex>;

/// Hangars, tower, hut, and the site's obstacles as plain prisms.
SolidVertices buildStanding(const Landscape& landscape, const data::Site& site);
void addPole(SolidVertices& out, glm::vec2 foot, float height_m, float radius_m, glm::vec3 colour);
void addTube(SolidVertices& out, glm::vec3 from, glm::vec3 to, float radius_from_m,
             float radius_to_m, glm::vec3 colour);

}  // namespace plumbline::render
