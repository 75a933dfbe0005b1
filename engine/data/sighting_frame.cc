#include "engine/data/sighting_frame.h"

#include <cmath>

namespace plumbline::data {

FrameShape frameShapeOf(const Aircraft& aircraft) {
    // chosen: what the pictures from the cockpit show
    constexpr double kOutOfHalfSpan = 0.9, kBar_m = 1.1, kLeg_m = 0.8;
    const SightingFrame& frame = aircraft.sighting;
    const AircraftGeometry& geometry = aircraft.geometry;
    FrameShape shape;
    const double out_m = frame.out_m > 0 ? frame.out_m : kOutOfHalfSpan * 0.5 * geometry.span_m;
    shape.hub_B_m = {frame.forward_m.value_or(geometry.eye_B_m.x), -out_m,
                     frame.up_m ? -*frame.up_m : geometry.eye_B_m.z};
    shape.bar_m = frame.bar_m > 0 ? frame.bar_m : kBar_m;
    const double leg_m = frame.leg_m > 0 ? frame.leg_m : kLeg_m;
    shape.feet_m = {Vec3(0.30, 0.05, leg_m), Vec3(-0.10, 0.35, leg_m), Vec3(0.05, -0.15, leg_m)};
    return shape;
}

double barAngle_rad(double climb_rad, double zero_lift_rad) {
    // A bar has two ends: half a turn is the same bar.
    const double angle = std::remainder(-zero_lift_rad - climb_rad, kPi);
    return angle <= -kPi / 2 + 1e-12 ? angle + kPi : angle;
}

}  // namespace plumbline::data
