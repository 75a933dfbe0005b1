#pragma once
// Quantities that colour the path, and their maps (colour-blind safe, lightness monotonic or
// symmetric about 0 g).

#include <span>
#include <string>

#include <glm/ext/vector_float3.hpp>

#include "engine/path/path.h"

namespace plumbline::scene {

enum class Quantity { Load, Speed, Height, Apart };
inline constexpr int kQuantityCount = 4;

struct QuantityRange {
    double low = 0;  ///< SI (g for load)
    double high = 1;
};

/// Load is always -6..+10 g; speed 0..1.05 of the fastest; height 0..highest; apart is the ghost's
/// (ghost.h), and no sample knows it.
QuantityRange rangeOf(Quantity quantity, const path::Path& path);
/// The range for a path whose highest value is known already.
QuantityRange rangeUpTo(Quantity quantity, double highest);
double valueOf(Quantity quantity, const path::Sample& sample);
/// Interpolated between the map's stops in display space; out of range: the end colour.
glm::vec3 mapColour(Quantity quantity, const QuantityRange& range, double value, bool grey = false);
std::span<const glm::vec3> mapStops(Quantity quantity);

}  // namespace plumbline::scene
