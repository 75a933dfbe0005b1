#pragma once
// What one frame's shaders share: camera, light, haze.

#include <glm/ext/matrix_float4x4.hpp>
#include <glm/ext/vector_float2.hpp>
#include <glm/ext/vector_float3.hpp>
#include <glm/ext/vector_float4.hpp>

#include "engine/math/frames.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::render {

/// Colours of the day, display space, from the sun's elevation.
struct Light {
    glm::vec3 zenith{0.31F, 0.51F, 0.72F};
    glm::vec3 horizon{0.84F, 0.88F, 0.89F};
    glm::vec3 glow{0.96F, 0.83F, 0.63F};
    glm::vec3 sunlight{1, 0.94F, 0.85F};  ///< colour of what the sun shines on
    glm::vec3 ambient{0.51F, 0.6F, 0.67F};
    float sun_strength = 1;  ///< 0 when the sun is down
    float low = 0.15F;       ///< how much the low sun warms its side of the sky
};
Light lightFor(double sun_elevation_rad);

/// The Frame block of shader_common.cc, std140.
struct FrameBlock {
    glm::mat4 clip_from_rel{1};
    glm::vec4 eye{0};
    glm::vec4 right{0};
    glm::vec4 up{0};
    glm::vec4 forward{0};
    glm::vec4 sun{0};
    glm::vec4 zenith{0};
    glm::vec4 horizon{0};
    glm::vec4 glow{0};
    glm::vec4 sunlight{0};
    glm::vec4 ambient{0};
    glm::vec4 haze{0};
};

/// A frame being drawn.
struct Frame {
    const scene::DrawList* list = nullptr;
    FrameBlock block;
    Light light;
    int width_px = 0;
    int height_px = 0;
    double near_m = 0.5;
    float focal_px = 1;    ///< pixels per unit of (across / forward); per metre in the map
    float line_scale = 1;  ///< pixels per pixel of a picture 720 high
    bool orthographic = false;
    std::uint32_t framebuffer = 0;  ///< where the picture goes
    int x_px = 0;                   ///< its corner there
    int y_px = 0;

    const scene::Camera& camera() const { return list->camera; }
    glm::vec3 relative(const Vec3& point_S_m) const {
        return glm::vec3(point_S_m - list->camera.eye_S_m);
    }
    /// Clip coordinates of a point relative to the eye.
    glm::vec4 clip(const glm::vec3& relative_m) const {
        return block.clip_from_rel * glm::vec4(relative_m, 1.0F);
    }
    /// Pixels that one metre across the line of sight makes at a distance along it.
    float pixelsPerMetre(float forward_m) const {
        return orthographic ? focal_px : focal_px / (forward_m > 0.01F ? forward_m : 0.01F);
    }
};

Frame makeFrame(const scene::DrawList& list, int width_px, int height_px);

/// The matrix of makeFrame with other depth limits (the cockpit's own range).
glm::mat4 clipFromRelative(const scene::Camera& camera, int width_px, int height_px, double near_m,
                           double far_m);

}  // namespace plumbline::render
