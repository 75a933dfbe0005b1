#include "engine/fly/dynamics.h"

#include <algorithm>
#include <cmath>

namespace plumbline::fly {

Dynamics::Dynamics(const World& world, const Law& law)
    : w_(world),
      law_(law),
      line_S_(rotate(law.q_SL, Vec3(1, 0, 0))),
      line_right_S_(rotate(law.q_SL, Vec3(0, 1, 0))),
      q_rolled_SL_(law.roll.empty() ? law.q_SL : law.q_SL * rotationX(law.roll.total_rad())),
      q_alpha0_(rotationY(world.aero.alpha0_rad())),
      steady_from_s_(law.throttle.arrived_s()),
      steady_(world.power.lever(law.throttle.command_frac)) {}

// Direction of the air velocity whose path over the ground is the line, drawn back to it where it
// has been left.
Vec3 Dynamics::groundLine(const StateVector& y, double speed, const Vec3& wind) const {
    constexpr double kBack_m = 120;  // chosen: several lengths of the lift's lag
    const Vec3 off = Vec3(y[kX], y[kY], y[kZ]) - law_.origin_S_m;
    Vec3 across = (wind - line_S_ * glm::dot(wind, line_S_)) / -speed;
    across -= (off - line_S_ * glm::dot(off, line_S_)) / kBack_m;
    const double size2 = glm::dot(across, across);
    if (size2 > 0.25) across *= 0.5 / std::sqrt(size2);
    return across + line_S_ * std::sqrt(1 - std::min(size2, 0.25));
}

// Acceleration that bends the path over the ground by a curvature in the arc's plane. Along the
// path over the ground it is what the forces along the air velocity leave; across it the curve's.
Vec3 Dynamics::groundCurve(double speed, const Vec3& tangent, const Vec3& wind, double curvature,
                           const Vec3& g_S, double& ground_speed) const {
    const Vec3 velocity = tangent * speed + wind;
    ground_speed = std::sqrt(glm::dot(velocity, velocity));
    const Vec3 along = velocity / ground_speed, normal = glm::cross(line_right_S_, along);
    const Vec3 across = normal * (curvature * ground_speed * ground_speed);
    // simplified: thrust less drag is left out of the part that the small crab angle turns across
    const double cosine = std::max(glm::dot(along, tangent), 0.5);
    const double gain = (glm::dot(g_S, tangent) - glm::dot(across, tangent)) / cosine;
    return along * gain + across;
}

void Dynamics::either(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    if (law_.form == Form::Held)
        eitherHeld(t, y, dy, m);
    else
        eitherShaped(t, y, dy, m);
}

void Dynamics::derivative(double t, const StateVector& y, StateVector& dy) const {
    either(t, y, &dy, nullptr);
}

Moment Dynamics::derivativeAndMoment(double t, const StateVector& y, StateVector& dy) const {
    Moment m;
    either(t, y, &dy, &m);
    return m;
}

Moment Dynamics::moment(double t, const StateVector& y) const {
    Moment m;
    either(t, y, nullptr, &m);
    return m;
}

Quat Dynamics::attitude(double t, const StateVector& y) const {
    return law_.form == Form::Held ? eitherHeldAttitude(t, y) : moment(t, y).q_SB;
}

ode::Outcome<kStates> Dynamics::integrate(const Event& event, double t0, const StateVector& y0,
                                          double t1, double h_first,
                                          const ode::Tolerance<kStates>& tolerance,
                                          std::vector<ode::DenseStep<kStates>>& steps,
                                          std::int64_t& evaluations,
                                          const StateVector* slope) const {
    const IntegrationTask task{t0, y0, t1, h_first, tolerance, steps, evaluations, slope};
    return law_.form == Form::Held ? integrateHeld(event, task) : integrateShaped(event, task);
}

}  // namespace plumbline::fly
