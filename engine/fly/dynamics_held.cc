// Held: the attitude is given or follows from moments; the air velocity is a Cartesian vector.

#include <algorithm>
#include <cmath>
#include <type_traits>

#include "engine/fly/dynamics_parts.h"

namespace plumbline::fly {
namespace {

// Pitching moment of wing and tail about the centre of gravity. The tail is a plate of its own at
// an arm: the flow it meets includes the pitch rate, so one expression gives static stability and
// damping, forwards and backwards. simplified: no downwash, no elevator, no slipstream over the
// tail.
double pitchMoment_nm(const data::Aircraft& aircraft, double density, double u, double w,
                      double pitch_rate, double normal_force_n) {
    const data::AircraftInertia& i = aircraft.inertia;
    const double w_tail = w + pitch_rate * i.tail_arm_m;
    const double speed2 = u * u + w_tail * w_tail;
    if (!(speed2 > 0)) return 0;
    const double s = w_tail / std::sqrt(speed2);
    const double plate = std::max(aircraft.aero.cn_plate, 1e-3);
    const double ratio = i.tail_lift_slope_prad / plate * s;
    const double cn = i.tail_lift_slope_prad * s / std::sqrt(1 + ratio * ratio);
    const double tail_n = 0.5 * density * speed2 * i.tail_area_m2 * cn;
    return -tail_n * i.tail_arm_m - normal_force_n * i.static_margin_m;
}

// What is left on the airframe of the propeller's torque, right positive: the constant-speed
// propeller takes the power at its rated speed, the airframe turns against it.
double torque_nm(const World& world, const PowerModel::Lever& lever, double density) {
    const data::AircraftPower& p = world.aircraft.power;
    const double torque = world.power.shaftPower_w(lever, density) / (p.rated_rpm * 2 * kPi / 60);
    return (p.clockwise_from_cockpit ? -1 : 1) * world.aircraft.rotation.net_torque_frac * torque;
}

// Rolling moment per rate: of the whole wing in the wind along it, forwards or backwards, and of
// the part in the slipstream (as broad as the propeller) in the speed that the propeller adds.
double rollDamping_nms(const data::Aircraft& a, double density, double u, double thrust) {
    const double disc2 = 0.25 * kPi * a.power.propeller_diameter_m * a.power.propeller_diameter_m;
    const double ahead = std::max(u, 0.0);
    const double push = std::max(thrust, 0.0) / (2 * density * std::max(disc2, 1e-3));
    const double added = 2 * (std::sqrt(0.25 * ahead * ahead + push) - 0.5 * ahead);
    const double span = a.geometry.span_m, broad = std::min(a.power.propeller_diameter_m, span);
    const double inner = broad / span;  // of the area; of the span squared its square
    return 0.25 * density * a.rotation.roll_damping * a.geometry.wing_area_m2 * span * span *
           (std::fabs(u) + added * inner * inner * inner);
}

// Calls `f` with the shape as a constant.
template <class F>
void ofHeldShape(Shape shape, F&& f) {
    const auto with = [&]<Shape kShape>() { f(std::integral_constant<Shape, kShape>()); };
    switch (shape) {
        case Shape::Yaw:
            return with.template operator()<Shape::Yaw>();
        case Shape::Tilt:
            return with.template operator()<Shape::Tilt>();
        case Shape::Free:
            return with.template operator()<Shape::Free>();
        case Shape::Torque:
            return with.template operator()<Shape::Torque>();
        case Shape::Tumble:
            return with.template operator()<Shape::Tumble>();
        default:
            return with.template operator()<Shape::Hold>();
    }
}

}  // namespace

template <Shape kShape>
Quat Dynamics::heldAttitude(double t, const StateVector& y) const {
    Quat q = law_.q_SL;
    if constexpr (kShape == Shape::Tumble) {
        q = q * axisAngle(law_.tumble_axis_L, law_.roll.angle(t));
    } else if (!law_.roll.empty()) {
        const double since = t - law_.roll.start_s();
        if (since >= law_.roll.duration_s())
            q = q_rolled_SL_;
        else if (since > 0)
            q = q * rotationX(law_.roll.angle(t));
    }
    if constexpr (kShape == Shape::Yaw) {
        q = q *
            rotationZ(law_.profile_angle_rad * smootherStep((t - law_.start_s) / law_.profile_s));
    } else if constexpr (kShape == Shape::Tilt) {
        // Starts at rest and runs on with its end rate: u^3 (with zero rate and acceleration at the
        // start).
        const double u = std::clamp((t - law_.start_s) / law_.profile_s, 0.0, 1.0);
        q = q * rotationY(law_.profile_angle_rad * u * u * u);
    } else if constexpr (kShape == Shape::Free) {
        q = q * rotationY(y[kPitch]);
    } else if constexpr (kShape == Shape::Torque) {
        q = q * rotationX(y[kPitch]);
    }
    if (law_.fade.active(t)) q = q * rotationFromVector(law_.fade.value(t));
    return w_.aero.alpha0_rad() == 0 ? q : q * q_alpha0_;
}

template <Shape kShape>
void Dynamics::held(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    const Vec3 velocity_S(y[kVelocity], y[kVelocity + 1], y[kVelocity + 2]);
    const Quat q_SB = heldAttitude<kShape>(t, y);
    const Rotation axes(q_SB);
    const Vec3 v_B = axes.from(velocity_S);
    const World::Air air = w_.air(y[kZ]);
    const PowerModel::Lever lever = leverAt(t);
    const PowerModel::Running running =
        w_.power.running(lever, air.density_kgpm3, air.unit_speed_mps);
    const double thrust = w_.power.thrust_n(running, v_B.x);
    const double plane2 = v_B.x * v_B.x + v_B.z * v_B.z;
    const double speed = std::sqrt(plane2 + v_B.y * v_B.y);
    Vec3 force_B(thrust, 0, 0);
    double alpha = 0, beta = 0, normal_force = 0;
    if (speed > 1e-9) {
        const double plane = std::sqrt(plane2), per_speed = 1 / speed;
        const double sin_b = v_B.y * per_speed, cos_b = plane * per_speed;
        const double sin_a = plane > 0 ? v_B.z / plane : 0, cos_a = plane > 0 ? v_B.x / plane : 1;
        alpha = incidence(v_B.z, v_B.x);
        const Coefficients c = w_.aero.atSines(alpha, sin_a, cos_a, sin_b);
        const double qs = 0.5 * air.density_kgpm3 * speed * speed * w_.wing_area_m2;
        const double lift = qs * c.lift, drag = qs * c.drag, side = qs * c.side;
        const Vec3 aero_B = Vec3(-drag * cos_a * cos_b + lift * sin_a - side * cos_a * sin_b,
                                 -drag * sin_b + side * cos_b,
                                 -drag * sin_a * cos_b - lift * cos_a - side * sin_a * sin_b);
        normal_force = -aero_B.z;
        force_B += aero_B;
        if (m) beta = std::atan2(v_B.y, plane);
    }
    const Vec3 f_B = force_B * (1 / y[kMass]);
    if (dy) {
        StateVector& d = *dy;
        Vec3 wind(0), a_S = axes.to(f_B) + Vec3(0, 0, -kGravity_mps2);
        if (!w_.wind.calm()) {
            Vec3 gradient;
            wind = w_.wind.at(y[kZ], gradient);
            a_S -= gradient * (velocity_S.z + wind.z);
        }
        for (int i = 0; i < 3; ++i) {
            d[kX + i] = velocity_S[i] + wind[i];
            d[kVelocity + i] = a_S[i];
        }
        d[kMass] = -w_.power.fuelFlow_kgps(lever, air.density_kgpm3);
        d[kHead] = w_.power.headRate_kps(lever.share, air.density_kgpm3, air.temperature_k, speed,
                                         y[kHead]);
        d[kDistance] = speed;
        d[kPitch] = d[kPitchRate] = d[kTurned] = 0;
        if constexpr (kShape == Shape::Free) {
            d[kPitch] = y[kPitchRate];
            d[kPitchRate] = pitchMoment_nm(w_.aircraft, air.density_kgpm3, v_B.x, v_B.z,
                                           y[kPitchRate], normal_force) /
                            std::max(w_.aircraft.inertia.pitch_inertia_kgm2, 1e-3);
        } else if constexpr (kShape == Shape::Torque) {
            d[kPitch] = y[kPitchRate];
            d[kPitchRate] =
                (torque_nm(w_, lever, air.density_kgpm3) -
                 rollDamping_nms(w_.aircraft, air.density_kgpm3, v_B.x, thrust) * y[kPitchRate]) /
                std::max(w_.aircraft.rotation.roll_inertia_kgm2, 1e-3);
        }
    }
    if (m) {
        m->q_SB = q_SB;
        m->air_velocity_S_mps = velocity_S;
        m->specific_force_B_mps2 = f_B;
        m->alpha_rad = alpha;
        m->beta_rad = beta;
        m->speed_mps = speed;
    }
}

void Dynamics::eitherHeld(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    ofHeldShape(law_.shape, [&](auto shape) { held<shape.value>(t, y, dy, m); });
}

Quat Dynamics::eitherHeldAttitude(double t, const StateVector& y) const {
    Quat q;
    ofHeldShape(law_.shape, [&](auto shape) { q = heldAttitude<shape.value>(t, y); });
    return q;
}

ode::Outcome<kStates> Dynamics::integrateHeld(const Event& event,
                                              const IntegrationTask& task) const {
    if (law_.shape == Shape::Hold)
        return integrateEquations(
            [this](double t, const StateVector& y, StateVector& dy) {
                held<Shape::Hold>(t, y, &dy, nullptr);
            },
            event, task);
    return integrateEquations(
        [this](double t, const StateVector& y, StateVector& dy) { eitherHeld(t, y, &dy, nullptr); },
        event, task);
}

}  // namespace plumbline::fly
