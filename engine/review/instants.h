#pragma once
// A path looked at fifty times a second, as the reviewer's eye sees it; and the rolls in it.

#include <vector>

#include "engine/review/pieces.h"

namespace plumbline::review {

inline constexpr double kStep_s = 0.02;
// chosen, both: for what an eye calls a stall, and a roll
inline constexpr double kSlow_mps = 20;
inline constexpr double kRolls_radps = 15 * kPi / 180;

struct Instant {
    Vec3 nose, canopy, way, rate_B;  // way: unit vector, nose where too slow to tell
    double speed_mps = 0, backwards_mps = 0;
    bool snaps = false;
    bool flies = true;           // fast, and the nose near the way
    double bends_radps = 0;      // what makes it a bend to the eye
    double way_bends_radps = 0;  // of the way alone
    double about_way_radps = 0;
    double about_up_radps = 0;  ///< to the left positive
};

double angleBetween(const Vec3& a, const Vec3& b);

/// @param path  with known attitude
std::vector<Instant> instantsOf(const path::Path& path);

/// The rolls from one instant to another, that one not included.
///
/// Rolls of one sense run on over a pause too short for a point. A roll's angle is that between the
/// attitudes before and after it, the turns between them counted by its rate: the gain of a rate
/// sensor is no error of it.
std::vector<Roll> rollsOf(const std::vector<Instant>& instants, std::size_t from, std::size_t to);

}  // namespace plumbline::review
