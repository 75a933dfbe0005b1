#pragma once
// Small tools to paint textures on the processor.

#include <algorithm>
#include <cstdint>

#include <glm/common.hpp>
#include <glm/ext/vector_float2.hpp>

namespace plumbline::render {

inline float lattice(int x, int y, std::uint32_t seed) {
    std::uint32_t h = static_cast<std::uint32_t>(x) * 1597334673U ^
                      static_cast<std::uint32_t>(y) * 3812015801U ^ seed * 974711U;
    h = (h ^ (h >> 15)) * 2246822519U;
    h = (h ^ (h >> 13)) * 3266489917U;
    return static_cast<float>((h ^ (h >> 16)) >> 8) / 16777216.0F;
}

/// Smooth value noise, 0..1.
inline float noise(const glm::vec2& p, std::uint32_t seed) {
    const glm::vec2 i = glm::floor(p);
    glm::vec2 f = p - i;
    f = f * f * (3.0F - 2.0F * f);
    const int x = static_cast<int>(i.x);
    const int y = static_cast<int>(i.y);
    return glm::mix(glm::mix(lattice(x, y, seed), lattice(x + 1, y, seed), f.x),
                    glm::mix(lattice(x, y + 1, seed), lattice(x + 1, y + 1, seed), f.x), f.y);
}

/// Sum of octaves, each half as strong; 0..1, mean near 0.47.
inline float fractal(glm::vec2 p, std::uint32_t seed, int octaves) {
    float sum = 0;
    float weight = 0.5F;
    for (int i = 0; i < octaves; ++i) {
        sum += weight * noise(p, seed + static_cast<std::uint32_t>(i));
        p = p * 2.03F + 17.3F;
        weight *= 0.5F;
    }
    return sum;
}

inline float smooth(float low, float high, float x) {
    const float f = std::clamp((x - low) / (high - low), 0.0F, 1.0F);
    return f * f * (3 - 2 * f);
}

inline std::uint8_t toByte(float unit) {
    return static_cast<std::uint8_t>(std::clamp(unit, 0.0F, 1.0F) * 255.0F + 0.5F);
}

}  // namespace plumbline::render
