#include <cmath>

#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

bool project(const Camera& camera, int width_px, int height_px, const Vec3& point_S_m, double& x_px,
             double& y_px, double& distance_m) {
    const Vec3 offset_m = point_S_m - camera.eye_S_m;
    const Vec3 right_S = glm::normalize(glm::cross(camera.forward_S, camera.up_S));
    const Vec3 up_S = glm::cross(right_S, camera.forward_S);
    const double ahead_m = glm::dot(offset_m, camera.forward_S);
    distance_m = glm::length(offset_m);
    if (ahead_m <= 1e-6) return false;
    const double half_px = 0.5 * height_px;
    const double scale_px = camera.orthographic
                                ? half_px / camera.half_height_m
                                : half_px / std::tan(0.5 * camera.vertical_fov_rad) / ahead_m;
    x_px = 0.5 * width_px + scale_px * glm::dot(offset_m, right_S);
    y_px = half_px - scale_px * glm::dot(offset_m, up_S);
    return true;
}

}  // namespace plumbline::scene
