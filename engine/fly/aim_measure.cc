#include "engine/fly/aim_measure.h"

#include <algorithm>
#include <cmath>

namespace plumbline::fly {
namespace {

using Step = ode::DenseStep<kStates>;

/// Slope of a component against the share of the step.
double slopeAt(const Step& s, int i, double u) {
    const double v = 1 - u;
    const double a = s.r4[i] + v * s.r5[i], b = s.r3[i] + u * a, c = s.r2[i] + v * b;
    const double slope_b = a - u * s.r5[i];
    const double slope_c = -b + v * slope_b;
    return c + u * slope_c;
}

struct Range {
    double least = 0, greatest = 0;
    void take(double value) {
        least = std::min(least, value);
        greatest = std::max(greatest, value);
    }
};

/// Where the slope vanishes within a step: the component has an extreme there.
void takeExtreme(const Step& s, int i, Range& range) {
    double low = 0, high = 1;
    const bool falls = slopeAt(s, i, low) < 0;
    if (falls == (slopeAt(s, i, high) < 0)) return;
    constexpr int kCuts = 40;  // the value's error falls with the square of the place's
    for (int cut = 0; cut < kCuts; ++cut) {
        const double mid = 0.5 * (low + high);
        (falls == (slopeAt(s, i, mid) < 0) ? low : high) = mid;
    }
    range.take(s.at(s.start + 0.5 * (low + high) * s.size)[i]);
}

Range rangeOf(const Flight& flight, std::size_t first, std::size_t last, int i, double start) {
    Range range{start, start};
    for (std::size_t s = first; s < last; ++s) {
        const Segment& segment = flight.segments[s];
        for (std::size_t k = 0; k < segment.step_count; ++k) {
            const Step& step = flight.steps[segment.first_step + k];
            range.take(step.r1[i]);
            range.take(step.r1[i] + step.r2[i]);
            takeExtreme(step, i, range);
        }
    }
    return range;
}

bool isLevelRun(const Segment& segment) {
    constexpr double kLevel = 1e-6;
    return segment.law.shape == Shape::PathLine && segment.law.roll.empty() &&
           std::fabs(rotate(segment.law.q_SL, Vec3(1, 0, 0)).z) < kLevel;
}

/// The middle of the figure proper: the runs in and out are not what the crowd sees centred.
double centre(const Flight& flight, std::size_t first, std::size_t last, double start_x_m) {
    std::size_t from = first, to = last;
    while (from < to && isLevelRun(flight.segments[from])) ++from;
    while (to > from && isLevelRun(flight.segments[to - 1])) --to;
    if (from == to) {
        from = first;
        to = last;
    }
    const double start =
        from == to ? start_x_m : flight.steps[flight.segments[from].first_step].r1[kX];
    const Range x = rangeOf(flight, from, to, kX, start);
    return 0.5 * (x.least + x.greatest);
}

double quantityOf(routine::Aim::Quantity quantity, const Joint& joint) {
    using Quantity = routine::Aim::Quantity;
    switch (quantity) {
        case Quantity::X:
            return joint.position_S_m.x;
        case Quantity::Y:
            return joint.position_S_m.y;
        case Quantity::Height:
            return joint.position_S_m.z;
        case Quantity::Speed:
            break;
    }
    return glm::length(joint.air_velocity_S_mps);
}

}  // namespace

double measureAim(const routine::Aim& aim, const Solution::Impl& flown, std::size_t figure) {
    using At = routine::Aim::At;
    const Flight::Mark& start = flown.checkpoints[figure].flight;
    const Flight::Mark& end = flown.checkpoints[figure + 1].flight;
    const auto heights = [&] {
        return rangeOf(flown.flight, start.segments, end.segments, kZ, start.joint.position_S_m.z);
    };
    switch (aim.at) {
        case At::Centre:
            return centre(flown.flight, start.segments, end.segments, start.joint.position_S_m.x);
        case At::Top:
            return heights().greatest;
        case At::Lowest:
            return heights().least;
        case At::Start:
            return quantityOf(aim.quantity, start.joint);
        case At::End:
            break;
    }
    return quantityOf(aim.quantity, end.joint);
}

}  // namespace plumbline::fly
