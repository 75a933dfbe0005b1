#pragma once
// What a site has on its ground, as outlines.

#include <string>
#include <vector>

#include "engine/data/site.h"

namespace plumbline::out {

struct GroundMark {
    enum class Kind { ShowLine, CrowdLine, Box, Runway, Strip, Obstacle };
    Kind kind = Kind::ShowLine;
    std::string name;
    /// Two ends of a line, or the corners of an area in order, the last one not the first again.
    std::vector<Vec3> points_S_m;
    double top_m = 0;  ///< of an obstacle, above show centre

    bool line() const { return kind == Kind::ShowLine || kind == Kind::CrowdLine; }
};

std::vector<GroundMark> groundMarks(const data::Site& site);

}  // namespace plumbline::out
