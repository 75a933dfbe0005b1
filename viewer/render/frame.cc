#include "viewer/render/frame.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace plumbline::render {
namespace {

glm::vec3 colour(unsigned rgb) {
    return glm::vec3(static_cast<float>((rgb >> 16) & 255U), static_cast<float>((rgb >> 8) & 255U),
                     static_cast<float>(rgb & 255U)) /
           255.0F;
}

struct LightStop {
    double elevation_deg;
    Light light;
};

/// Far enough that the haze has closed over everything.
constexpr double kFar_m = 60000;

std::array<LightStop, 4> lightStops() {
    const Light night{colour(0x2b4468),
                      colour(0xc9a08c),
                      colour(0xe07a4e),
                      colour(0xffb080),
                      colour(0x4c5668),
                      0.0F,
                      1.0F};
    const Light low{colour(0x3b5f8a),
                    colour(0xe8c9a4),
                    colour(0xff9f5a),
                    colour(0xffc890),
                    colour(0x7a8798),
                    0.80F,
                    1.0F};
    const Light evening{colour(0x3d6f9f),
                        colour(0xe6dac6),
                        colour(0xfbc27c),
                        colour(0xffe2b8),
                        colour(0x8299ab),
                        1.0F,
                        0.85F};
    const Light day{colour(0x4f83b8),
                    colour(0xd7e0e2),
                    colour(0xf6d3a0),
                    colour(0xfff0d8),
                    colour(0x8299ab),
                    1.0F,
                    0.15F};
    return {{{-3, night}, {5, low}, {15, evening}, {45, day}}};
}

}  // namespace

Light lightFor(double sun_elevation_rad) {
    const auto stops = lightStops();
    const double elevation_deg = sun_elevation_rad * 180 / kPi;
    if (elevation_deg <= stops.front().elevation_deg) return stops.front().light;
    for (std::size_t i = 1; i < stops.size(); ++i) {
        if (elevation_deg > stops[i].elevation_deg) continue;
        const LightStop& a = stops[i - 1];
        const LightStop& b = stops[i];
        const float f = static_cast<float>((elevation_deg - a.elevation_deg) /
                                           (b.elevation_deg - a.elevation_deg));
        Light out;
        out.zenith = glm::mix(a.light.zenith, b.light.zenith, f);
        out.horizon = glm::mix(a.light.horizon, b.light.horizon, f);
        out.glow = glm::mix(a.light.glow, b.light.glow, f);
        out.sunlight = glm::mix(a.light.sunlight, b.light.sunlight, f);
        out.ambient = glm::mix(a.light.ambient, b.light.ambient, f);
        out.sun_strength = glm::mix(a.light.sun_strength, b.light.sun_strength, f);
        out.low = glm::mix(a.light.low, b.light.low, f);
        return out;
    }
    return stops.back().light;
}

glm::mat4 clipFromRelative(const scene::Camera& camera, int width_px, int height_px, double near_m,
                           double far_m) {
    const Vec3 right = glm::normalize(glm::cross(camera.forward_S, camera.up_S));
    const Vec3 up = glm::cross(right, camera.forward_S);
    const double aspect = static_cast<double>(width_px) / std::max(height_px, 1);
    glm::dmat4 m(0.0);
    if (camera.orthographic) {
        const double sy = 1.0 / camera.half_height_m;
        const double sx = sy / aspect;
        const double sz = -2.0 / (far_m - near_m);
        const double oz = -(far_m + near_m) / (far_m - near_m);
        for (int k = 0; k < 3; ++k) {
            m[k] = glm::dvec4(right[k] * sx, up[k] * sy, -camera.forward_S[k] * sz, 0.0);
        }
        m[3] = glm::dvec4(0, 0, oz, 1);
    } else {
        const double sy = 1.0 / std::tan(camera.vertical_fov_rad / 2);
        const double sx = sy / aspect;
        const double a = (far_m + near_m) / (far_m - near_m);
        const double b = -2 * far_m * near_m / (far_m - near_m);
        for (int k = 0; k < 3; ++k) {
            m[k] =
                glm::dvec4(right[k] * sx, up[k] * sy, camera.forward_S[k] * a, camera.forward_S[k]);
        }
        m[3] = glm::dvec4(0, 0, b, 0);
    }
    return glm::mat4(m);
}

Frame makeFrame(const scene::DrawList& list, int width_px, int height_px) {
    const scene::Camera& camera = list.camera;
    Frame frame;
    frame.list = &list;
    frame.width_px = width_px;
    frame.height_px = height_px;
    frame.orthographic = camera.orthographic;
    frame.near_m = std::max(camera.near_m, 0.02);
    const double half_height_px = height_px / 2.0;
    frame.focal_px = static_cast<float>(
        camera.orthographic ? half_height_px / camera.half_height_m
                            : half_height_px / std::tan(camera.vertical_fov_rad / 2));
    // Lines keep their share of the picture, but never vanish in an inset.
    frame.line_scale = std::max(static_cast<float>(height_px) / 720.0F, 0.6F);

    const Vec3 right = glm::normalize(glm::cross(camera.forward_S, camera.up_S));
    const Vec3 up = glm::cross(right, camera.forward_S);
    FrameBlock& block = frame.block;
    block.clip_from_rel = clipFromRelative(camera, width_px, height_px, frame.near_m, kFar_m);
    block.eye = glm::vec4(glm::vec3(camera.eye_S_m), static_cast<float>(list.time_s));
    block.right = glm::vec4(glm::vec3(right), static_cast<float>(width_px));
    block.up = glm::vec4(glm::vec3(up), static_cast<float>(height_px));
    block.forward = glm::vec4(glm::vec3(camera.forward_S), frame.focal_px);

    double visibility_m = 10000;
    if (list.world) {
        frame.light = lightFor(list.world->sun_elevation_rad);
        block.sun = glm::vec4(glm::vec3(list.world->sun_S), frame.light.low);
        visibility_m = list.world->weather.visibility_m;
    } else {
        block.sun = glm::vec4(0.5F, 0.5F, 0.707F, frame.light.low);
    }
    block.zenith = glm::vec4(frame.light.zenith, 1);
    block.horizon = glm::vec4(frame.light.horizon, 1);
    block.glow = glm::vec4(frame.light.glow, 1);
    block.sunlight = glm::vec4(frame.light.sunlight, frame.light.sun_strength);
    block.ambient = glm::vec4(frame.light.ambient, 1);
    const double haze_length_m = std::clamp(0.5 * visibility_m, 2600.0, 5200.0);
    block.haze = glm::vec4(static_cast<float>(1 / haze_length_m), camera.orthographic ? 0 : 1,
                           camera.orthographic ? 1 : 0, 0);
    return frame;
}

}  // namespace plumbline::render
