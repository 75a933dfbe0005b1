#pragma once
// Figures and a few letters as strokes, for what is written on things in the scene.

#include <string_view>
#include <vector>

#include <glm/ext/vector_float2.hpp>

namespace plumbline::scene {

/// A line of strokes: x from 0, y from 0 to 1 (some letters a quarter below), the text's height
/// being 1.
using Stroke2 = std::vector<glm::vec2>;

/// Digits, `-`, `:`, `/`, `%` and the letters of units; others leave a gap.
std::vector<Stroke2> strokesOf(std::string_view text);
/// How wide it is.
float strokesWidth(std::string_view text);

}  // namespace plumbline::scene
