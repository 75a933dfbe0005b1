#include "engine/math/frames.h"

#include <algorithm>
#include <cmath>

#include <glm/geometric.hpp>
#include <glm/mat3x3.hpp>

namespace plumbline {
namespace {

constexpr double kNearVertical_rad = 0.01 * kPi / 180;  ///< contract of attitudeAngles

double wrapTurn(double angle_rad) {
    const double wrapped = angle_rad - 2 * kPi * std::floor(angle_rad / (2 * kPi));
    // A tiny negative angle rounds up to a whole turn.
    return wrapped >= 2 * kPi ? 0 : std::max(wrapped, 0.0);
}

/// The level, upright attitude that looks along a heading: site z is up and body z is down (half a
/// turn about x); headings grow clockwise, angles about z_S the other way.
Quat levelAttitude(double heading_rad, double show_line_bearing_rad) {
    return rotationZ(show_line_bearing_rad - heading_rad) * Quat(0, 1, 0, 0);
}

}  // namespace

Quat axisAngle(const Vec3& axis, double angle_rad) {
    const Vec3 v = std::sin(0.5 * angle_rad) * axis;
    return Quat(std::cos(0.5 * angle_rad), v.x, v.y, v.z);
}
Quat rotationX(double angle_rad) {
    return Quat(std::cos(0.5 * angle_rad), std::sin(0.5 * angle_rad), 0, 0);
}
Quat rotationY(double angle_rad) {
    return Quat(std::cos(0.5 * angle_rad), 0, std::sin(0.5 * angle_rad), 0);
}
Quat rotationZ(double angle_rad) {
    return Quat(std::cos(0.5 * angle_rad), 0, 0, std::sin(0.5 * angle_rad));
}

Quat rotationFromVector(const Vec3& rotation_vector_rad) {
    const double q = glm::dot(rotation_vector_rad, rotation_vector_rad);
    // Half a radian and less by series to rounding: sin(a/2)/a and cos(a/2) in q = a^2.
    if (q < 0.25) {
        const double scale =
            0.5 * (1 - q * (1.0 / 24) *
                           (1 - q * (1.0 / 80) *
                                    (1 - q * (1.0 / 168) *
                                             (1 - q * (1.0 / 288) * (1 - q * (1.0 / 440))))));
        const double cosine =
            1 - q * (1.0 / 8) *
                    (1 - q * (1.0 / 48) *
                             (1 - q * (1.0 / 120) * (1 - q * (1.0 / 224) * (1 - q * (1.0 / 360)))));
        const Vec3 v = scale * rotation_vector_rad;
        return Quat(cosine, v.x, v.y, v.z);
    }
    const double angle = std::sqrt(q);
    const Vec3 v = (std::sin(0.5 * angle) / angle) * rotation_vector_rad;
    return Quat(std::cos(0.5 * angle), v.x, v.y, v.z);
}

Vec3 vectorFromRotation(const Quat& q) {
    const double sign = q.w < 0 ? -1 : 1;
    const Vec3 v = sign * Vec3(q.x, q.y, q.z);
    const double s = glm::length(v);
    if (s < 1e-12) return 2.0 * v;  // atan2(s, w) / s = 1 to the last digit
    return (2 * std::atan2(s, sign * q.w) / s) * v;
}

Quat quatFromAxes(const Vec3& x_axis, const Vec3& y_axis, const Vec3& z_axis) {
    return glm::normalize(glm::quat_cast(glm::dmat3(x_axis, y_axis, z_axis)));
}

AttitudeAngles attitudeAngles(const Quat& q_SB, double show_line_bearing_rad,
                              double held_heading_rad) {
    const Vec3 nose_S = rotate(q_SB, Vec3(1, 0, 0));
    const double level_part = std::hypot(nose_S.x, nose_S.y);
    AttitudeAngles angles;
    angles.pitch_rad = std::atan2(nose_S.z, level_part);
    angles.heading_rad = level_part < std::sin(kNearVertical_rad)
                             ? wrapTurn(held_heading_rad)
                             : headingOf(nose_S, show_line_bearing_rad);
    const Quat q_S0 =
        levelAttitude(angles.heading_rad, show_line_bearing_rad) * rotationY(angles.pitch_rad);
    const Quat q_0B = glm::conjugate(q_S0) * q_SB;
    const double roll = 2 * std::atan2(q_0B.x, q_0B.w);  // in [-2 pi, 2 pi]
    angles.roll_rad = roll > kPi ? roll - 2 * kPi : roll <= -kPi ? roll + 2 * kPi : roll;
    return angles;
}

Quat attitudeFromAngles(const AttitudeAngles& angles, double show_line_bearing_rad) {
    return levelAttitude(angles.heading_rad, show_line_bearing_rad) * rotationY(angles.pitch_rad) *
           rotationX(angles.roll_rad);
}

double headingOf(const Vec3& direction_S, double show_line_bearing_rad) {
    return wrapTurn(show_line_bearing_rad - std::atan2(direction_S.y, direction_S.x));
}

LoadFactors loadFactors(const Vec3& specific_force_B_mps2) {
    return {-specific_force_B_mps2.z / kGravity_mps2, specific_force_B_mps2.y / kGravity_mps2,
            specific_force_B_mps2.x / kGravity_mps2};
}

}  // namespace plumbline
