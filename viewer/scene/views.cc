#include "viewer/scene/views.h"

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

constexpr std::array<const char*, kViewCount> kWords = {"crowd", "judge", "cockpit",
                                                        "chase", "map",   "free"};

}  // namespace

const char* viewWord(View view) { return kWords.at(static_cast<std::size_t>(view)); }

bool viewFromWord(const std::string& word, View& view) {
    for (std::size_t i = 0; i < kWords.size(); ++i) {
        if (word == kWords[i]) {
            view = static_cast<View>(i);
            return true;
        }
    }
    return false;
}

double sunAngle(const Vec3& eye_S_m, const Vec3& position_S_m, const World& world) {
    const Vec3 to_S_m = position_S_m - eye_S_m;
    const double distance_m = glm::length(to_S_m);
    if (world.sun_elevation_rad <= 0 || distance_m < 1) return kPi;
    const Vec3 sun_S = glm::normalize(world.sun_S);
    return std::atan2(glm::length(glm::cross(to_S_m, sun_S)), glm::dot(to_S_m, sun_S));
}

double verticalFieldOfView(double lens_mm, double picture_aspect) {
    constexpr double kHalfFrame_mm = 18;
    return 2 * std::atan(kHalfFrame_mm / (lens_mm * picture_aspect));
}

double apparentAngle(double span_m, double distance_m) {
    return 2 * std::atan2(0.5 * span_m, distance_m);
}

}  // namespace plumbline::scene
