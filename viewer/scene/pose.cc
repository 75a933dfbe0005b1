#include "viewer/scene/pose.h"

#include <algorithm>
#include <cmath>

#include "engine/units/units.h"

namespace plumbline::scene {

namespace {

// chosen: travel of the built-in model's surfaces, and what stirs them; looks only
constexpr double kAileronTravel_rad = 24 * units::kDegree_rad;
constexpr double kElevatorTravel_rad = 26 * units::kDegree_rad;
constexpr double kRudderTravel_rad = 28 * units::kDegree_rad;
constexpr double kFullHelix = 0.13;  ///< p b / 2V at full aileron where the aircraft says nothing
constexpr double kSlowest_mps = 12;  ///< below it the propeller's wash works the tail
constexpr double kSpanWithoutData_m = 8;

double heldWithin(double wish_rad, double travel_rad) {
    return travel_rad * std::tanh(wish_rad / travel_rad);
}

void setSurfaces(AircraftPose& pose, const path::Sample& sample, const data::Aircraft& aircraft) {
    const double speed_mps =
        std::max(sample.airspeed_mps > 0 ? sample.airspeed_mps : glm::length(sample.velocity_S_mps),
                 kSlowest_mps);
    const double span_m =
        aircraft.geometry.span_m > 0 ? aircraft.geometry.span_m : kSpanWithoutData_m;
    const double length_m =
        aircraft.geometry.length_m > 0 ? aircraft.geometry.length_m : 0.8 * span_m;
    const double full_helix =
        aircraft.limits.roll_helix > 0 ? aircraft.limits.roll_helix : kFullHelix;
    const Vec3& rate = sample.rate_B_radps;
    pose.aileron_rad = heldWithin(
        kAileronTravel_rad * rate.x * span_m / (2 * speed_mps) / full_helix, kAileronTravel_rad);
    // The tail meets the air at q l / V from its own turning and at the angle of attack.
    const double aoa_rad = std::abs(sample.aoa_rad) < 0.5 * kPi ? sample.aoa_rad : 0;
    pose.elevator_rad =
        heldWithin(1.6 * rate.y * 0.6 * length_m / speed_mps + 0.5 * aoa_rad, kElevatorTravel_rad);
    pose.rudder_rad = heldWithin(1.6 * rate.z * 0.6 * length_m / speed_mps, kRudderTravel_rad);
}

}  // namespace

Quat attitudeAlong(const Vec3& velocity_S_mps) {
    const double speed_mps = glm::length(velocity_S_mps);
    const Vec3 nose_S = speed_mps > 0.1 ? velocity_S_mps / speed_mps : Vec3(1, 0, 0);
    Vec3 right_S = glm::cross(nose_S, Vec3(0, 0, 1));
    const double flat = glm::length(right_S);
    right_S = flat > 1e-3 ? right_S / flat : Vec3(1, 0, 0);
    right_S = glm::normalize(right_S - glm::dot(right_S, nose_S) * nose_S);
    return quatFromAxes(nose_S, right_S, glm::cross(nose_S, right_S));
}

AircraftPose poseAt(const path::Path& path, const data::Aircraft& aircraft, double time_s) {
    const path::Sample sample = path::sampleAt(path, time_s);
    AircraftPose pose;
    pose.position_S_m = sample.position_S_m;
    pose.attitude_known = path::attitudeShown(path, sample);
    pose.q_SB = pose.attitude_known ? sample.q_SB : attitudeAlong(sample.velocity_S_mps);
    pose.span_m = aircraft.geometry.span_m > 0 ? aircraft.geometry.span_m : kSpanWithoutData_m;
    if (pose.attitude_known) setSurfaces(pose, sample, aircraft);
    const double turns_ps = aircraft.power.rated_rpm > 0 ? aircraft.power.rated_rpm / 60 : 45;
    const double sense = aircraft.power.clockwise_from_cockpit ? 1 : -1;
    pose.propeller_rad = sense * std::fmod(turns_ps * time_s, 1.0) * 2 * kPi;
    pose.propeller_blur = 1;
    return pose;
}

}  // namespace plumbline::scene
