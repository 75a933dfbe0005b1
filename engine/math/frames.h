#pragma once
// Frames, rotations and their sign conventions: the one page that every other header refers to.
//
//   S  site: origin at show centre on the ground; x along the show line to crowd right,
//      y away from the crowd, z up
//   B  body (ISO 1151): x forward, y right wing, z down (wheels)
//   W  wind: x along the air-relative velocity, z in the plane of symmetry to the belly side,
//      y completes (right)
//   L  line: the nominal frame of a line: as B, but x is the zero-lift axis / the path that the
//      line prescribes
//   N  north-east-down, at the edges only
//
// `q_SB` turns body components into site components: v_S = rotate(q_SB, v_B). Scalar first; never
// built from raw memory. Anchors (both signs of q mean the same attitude):
//   level, upright, flying to crowd right, right wing to the crowd (-y):
//      q_SB = (0, 1, 0, 0)
//   straight up, canopy to the crowd, right wing to +x:
//      q_SB = (0.5, -0.5, -0.5, -0.5)

#include <glm/ext/quaternion_double.hpp>
#include <glm/ext/vector_double3.hpp>
#include <glm/gtc/quaternion.hpp>

#include "engine/base/constants.h"

namespace plumbline {

using Vec3 = glm::dvec3;
using Quat = glm::dquat;

inline Vec3 rotate(const Quat& q_AB, const Vec3& v_B) { return q_AB * v_B; }
inline Vec3 unrotate(const Quat& q_AB, const Vec3& v_A) { return glm::conjugate(q_AB) * v_A; }

/// Rotation by `angle_rad` about a unit axis (right-hand rule).
Quat axisAngle(const Vec3& axis, double angle_rad);
Quat rotationX(double angle_rad);
Quat rotationY(double angle_rad);
Quat rotationZ(double angle_rad);

/// Exponential map: rotation vector [rad] to unit quaternion; series near zero.
Quat rotationFromVector(const Vec3& rotation_vector_rad);
/// Inverse of rotationFromVector; the shorter way round (length <= pi).
Vec3 vectorFromRotation(const Quat& q);

/// Columns of the rotation matrix of q_SB: the body axes in site components.
Quat quatFromAxes(const Vec3& x_axis, const Vec3& y_axis, const Vec3& z_axis);

/// Pitch, roll and heading of an attitude, only for people and files.
///
/// pitch in [-pi/2, pi/2], nose up positive; roll in (-pi, pi], right wing down positive; heading
/// is the true bearing of the nose, clockwise from north, [0, 2 pi). Within 0.01 deg of vertical
/// the heading is `held_heading_rad` and roll takes the rest.
struct AttitudeAngles {
    double pitch_rad = 0;
    double roll_rad = 0;
    double heading_rad = 0;
};
/// @param show_line_bearing_rad  true bearing of +x_S
AttitudeAngles attitudeAngles(const Quat& q_SB, double show_line_bearing_rad,
                              double held_heading_rad);

/// Attitude from pitch, roll and heading (inverse of attitudeAngles away from the vertical).
Quat attitudeFromAngles(const AttitudeAngles& angles, double show_line_bearing_rad);

/// True bearing of a horizontal direction in site axes, [0, 2 pi).
double headingOf(const Vec3& direction_S, double show_line_bearing_rad);

/// Load factors that an accelerometer at the centre of gravity reads, from the specific force in
/// body axes. normal = -f_z/g0 (level flight +1), lateral = f_y/g0, axial = f_x/g0.
struct LoadFactors {
    double normal_g = 0;
    double lateral_g = 0;
    double axial_g = 0;
};
LoadFactors loadFactors(const Vec3& specific_force_B_mps2);

}  // namespace plumbline
