#pragma once
// A gate of the plan by the speed at its top: what the tops of imperfect flights are held against.

#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "engine/check/gates.h"
#include "engine/variant/variant.h"

namespace plumbline::margins {

/// simplified: at the mass and in the air of the plan. The usual spreads of mass and temperature
/// move a gate by two metres, knots of speed by more.
class GateCurve {
public:
    /// @param path  samples of the solution that the gate is of
    GateCurve(const check::Gate& gate, const fly::Solution& solution, const path::Path& path);

    std::int32_t figure() const { return figure_; }
    double time_s() const { return time_s_; }
    /// Least height to come round, above show centre.
    double least_m(double airspeed_mps) const;
    /// How far the flight's own top lies above that; nothing where it did not come so far.
    std::optional<double> marginOf(const path::Path& flight) const;

private:
    static constexpr std::size_t kSpeeds = 7;
    std::int32_t figure_ = -1;
    std::int32_t first_element_ = 0, last_element_ = 0;  ///< that the top is looked for in
    double time_s_ = 0;
    double slowest_mps_ = 0, step_mps_ = 0;
    std::array<double, kSpeeds> least_at_m_{};
};

/// Of every gate of the plan, in their order.
std::vector<GateCurve> gateCurvesOf(const variant::Flown& flown);

}  // namespace plumbline::margins
