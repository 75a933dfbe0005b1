#include "engine/review/turns.h"

#include <cmath>

#include "engine/review/doubts.h"

namespace plumbline::review {
namespace {

/// Angle about z of where the nose points, or on the way down the canopy.
double facing_rad(const path::Sample& s) {
    constexpr double kSteep = 0.7;
    const Vec3 nose = rotate(s.q_SB, Vec3(1, 0, 0)), canopy = rotate(s.q_SB, Vec3(0, 0, -1));
    const Vec3 facing = nose.z < -kSteep ? canopy : nose;
    return std::atan2(facing.y, facing.x);
}

/// Where the turning comes to rest, at most so long from a moment, back (-1) or on (1).
double restFrom_s(const path::Path& path, double time_s, double sense, double most_s) {
    constexpr double kStep_s = 0.02, kRest_radps = 6 * kPi / 180;  // chosen: hardly to be seen
    double at_s = time_s;
    while (std::fabs(at_s - time_s) < most_s && at_s > 0 && at_s < path.duration_s()) {
        const Vec3 rate = path::sampleAt(path, at_s).rate_B_radps;
        if (std::hypot(rate.x, rate.z) < kRest_radps) break;
        at_s += sense * kStep_s;
    }
    return at_s;
}

}  // namespace

TurnsMeasure measureTurns(const path::Path& path, const Piece& piece) {
    // chosen: an autorotation needs so long to begin, and less to stop
    constexpr double kBegins_s = 3, kStops_s = 1;
    // chosen: the nose is not quite down yet where the turning ends, and swings there
    constexpr double kRest_rad = 3 * kPi / 180;
    const path::Sample first = path::sampleAt(path, restFrom_s(path, piece.start_s, -1, kBegins_s));
    const path::Sample last = path::sampleAt(path, restFrom_s(path, piece.stop_s, 1, kStops_s));
    TurnsMeasure m;
    m.turns = std::fabs(piece.turned_rad) / (2 * kPi);
    m.height_lost_m = first.position_S_m.z - last.position_S_m.z;
    const double place_m = apartSigma_m(std::fmax(placeSigma_m(first), placeSigma_m(last)));
    if (place_m > 0)
        m.height_sigma_m = std::hypot(
            place_m, kEdge_s * std::hypot(first.velocity_S_mps.z, last.velocity_S_mps.z));
    // Angles about z grow to the left.
    m.heading_change_rad = std::remainder(facing_rad(first) - facing_rad(last), 2 * kPi);
    const double ends = std::hypot(static_cast<double>(first.attitude_sigma_rad),
                                   static_cast<double>(last.attitude_sigma_rad));
    m.heading_sigma_rad = ends > 0 ? std::hypot(ends, kRest_rad) : 0;
    // An autorotation comes and goes with less than its full rate: the whole turns are counted,
    // their fraction is that of the headings.
    if (piece.motion == Motion::Spin) {
        const double part = std::copysign(1.0, piece.turned_rad) * m.heading_change_rad / (2 * kPi);
        m.turns = std::fmax(0, part + std::round(m.turns - part));
        m.turns_sigma = m.heading_sigma_rad / (2 * kPi);
    } else if (ends > 0) {
        // Its ends fade out: a tenth of a turn is what tells one from the next.
        constexpr double kFades = 0.05;
        m.turns_sigma = std::hypot(kFades, ends / (2 * kPi));
    }
    return m;
}

double turnedTooFar_rad(const TurnsMeasure& flown, const TurnsMeasure& planned, bool right) {
    const double to_right =
        std::remainder(flown.heading_change_rad - planned.heading_change_rad, 2 * kPi);
    return right ? to_right : -to_right;
}

}  // namespace plumbline::review
