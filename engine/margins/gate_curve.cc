#include "engine/margins/gate_curve.h"

#include <algorithm>

namespace plumbline::margins {
namespace {

constexpr double kSampled_hz = 50;
// chosen: three standard deviations of the usual spread of speed and then some
constexpr double kFaster_mps = 15;
constexpr double kAlong_m = 3;       // chosen: a wave of a level line at the top
constexpr double kSlowest_mps = 10;  // chosen: no top that is flown over is slower

}  // namespace

GateCurve::GateCurve(const check::Gate& gate, const fly::Solution& solution, const path::Path& path)
    : time_s_(gate.time_s) {
    const std::int32_t element = path.samples[gate.sample].element;
    figure_ = path::figureOf(path, path.samples[gate.sample]);
    // An early or late hand has the top in the element before or behind.
    const auto ofFigure = [&](std::int32_t e) {
        return e >= 0 && e < static_cast<std::int32_t>(path.elements.size()) &&
               path.elements[static_cast<std::size_t>(e)].figure == figure_;
    };
    first_element_ = ofFigure(element - 1) ? element - 1 : element;
    last_element_ = ofFigure(element + 1) ? element + 1 : element;
    slowest_mps_ =
        std::max(gate.airspeed_mps - kFaster_mps, std::min(kSlowest_mps, gate.airspeed_mps));
    step_mps_ = (gate.airspeed_mps + kFaster_mps - slowest_mps_) / (kSpeeds - 1);
    for (std::size_t i = 0; i < kSpeeds; ++i)
        // At rest at the top it is not the speed that counts.
        least_at_m_[i] =
            gate.vertical ? gate.complete_m
                          : check::gateAt(gate, slowest_mps_ + static_cast<double>(i) * step_mps_,
                                          solution, path)
                                .complete_m;
}

double GateCurve::least_m(double airspeed_mps) const {
    constexpr double kLast = kSpeeds - 1;
    const double at = std::clamp((airspeed_mps - slowest_mps_) / step_mps_, 0.0, kLast);
    const auto i = std::min(static_cast<std::size_t>(at), kSpeeds - 2);
    const double part = at - static_cast<double>(i);
    return least_at_m_[i] + part * (least_at_m_[i + 1] - least_at_m_[i]);
}

std::optional<double> GateCurve::marginOf(const path::Path& flight) const {
    // Samples come element by element.
    const auto below = [](const path::Sample& s, std::int32_t element) {
        return s.element < element;
    };
    const auto begin =
        std::lower_bound(flight.samples.begin(), flight.samples.end(), first_element_, below);
    const auto end = std::lower_bound(begin, flight.samples.end(), last_element_ + 1, below);
    const auto top = std::max_element(begin, end, [](const path::Sample& a, const path::Sample& b) {
        return a.position_S_m.z < b.position_S_m.z;
    });
    if (top == end) return std::nullopt;
    // A top that is flown along, as after half a loop, counts where it asks most.
    double least = 0;
    for (auto s = begin; s != end; ++s)
        if (s->position_S_m.z > top->position_S_m.z - kAlong_m)
            least = std::max(least, least_m(s->airspeed_mps));
    return top->position_S_m.z - least;
}

std::vector<GateCurve> gateCurvesOf(const variant::Flown& flown) {
    const load::Workspace& w = flown.workspace;
    const path::Path path = flown.solution.samplePath(kSampled_hz);
    std::vector<GateCurve> curves;
    for (const check::Gate& gate :
         check::gatesOf(w.aircraft, w.site, w.pilot, flown.solution, path))
        curves.emplace_back(gate, flown.solution, path);
    return curves;
}

}  // namespace plumbline::margins
