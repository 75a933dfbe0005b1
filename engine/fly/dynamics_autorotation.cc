// Autorotation, of snaps and spins: shaped the other way round. Incidence and the roll about the
// path are given; the path follows from the forces, whose lift turns with the aircraft, so that it
// winds round by itself and the stalled wing's drag eats the speed.

#include <cmath>

#include "engine/fly/dynamics_parts.h"

namespace plumbline::fly {

void Dynamics::autorotation(double t, const StateVector& y, StateVector* dy, Moment* m) const {
    const double speed = std::max(y[kSpeed], 1.0);
    const double mass = y[kMass], per_mass = 1 / mass, per_speed = 1 / speed;
    const World::Air air = w_.air(y[kZ]);
    const PowerModel::Lever lever = leverAt(t);
    const PowerModel::Running running =
        w_.power.running(lever, air.density_kgpm3, air.unit_speed_mps);
    const double qs = 0.5 * air.density_kgpm3 * speed * speed * w_.wing_area_m2;

    double bank = law_.roll.angle(t), alpha = law_.incidence.at(t), beta = 0;
    if (law_.fade.active(t)) {
        const Vec3 left = law_.fade.value(t);
        bank += left.x;
        beta = left.y;
        alpha += left.z;
    }
    const double sin_r = std::sin(bank), cos_r = std::cos(bank);
    const double sin_a = std::sin(alpha), cos_a = std::cos(alpha);
    const double sin_b = std::sin(beta), cos_b = std::cos(beta);

    const Quat q_SP(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    Rotation axes(q_SP);
    const Vec3 y_P = axes.y;
    axes.y = y_P * cos_r + axes.z * sin_r;
    axes.z = axes.z * cos_r - y_P * sin_r;
    Vec3 g_S(0, 0, -kGravity_mps2), wind(0);
    if (!w_.wind.calm()) {
        Vec3 gradient;
        wind = w_.wind.at(y[kZ], gradient);
        g_S -= gradient * (speed * axes.x.z + wind.z);
    }
    const Vec3 g_W = axes.from(g_S);

    const Coefficients c = w_.aero.atSines(alpha, sin_a, cos_a, sin_b);
    const double thrust = w_.power.thrust_n(running, speed * cos_a * cos_b);
    const double f_x = (thrust * cos_a * cos_b - qs * c.drag) * per_mass;
    const double f_side = (qs * c.side - thrust * cos_a * sin_b) * per_mass;
    const double f_normal = (qs * c.lift + thrust * sin_a) * per_mass;
    if (dy) {
        StateVector& d = *dy;
        const double a_n = f_normal - g_W.z, a_y = f_side + g_W.y;
        const double q = (a_n * cos_r - a_y * sin_r) * per_speed,
                     r = (a_y * cos_r + a_n * sin_r) * per_speed;
        for (int i = 0; i < 3; ++i) d[kX + i] = speed * axes.x[i] + wind[i];
        d[kMass] = -w_.power.fuelFlow_kgps(lever, air.density_kgpm3);
        d[kHead] = w_.power.headRate_kps(lever.share, air.density_kgpm3, air.temperature_k, speed,
                                         y[kHead]);
        d[kDistance] = speed;
        d[kSpeed] = f_x + g_W.x;
        d[kTurned] = q;
        d[kQuat] = -0.5 * (q_SP.y * q + q_SP.z * r);
        d[kQuat + 1] = 0.5 * (q_SP.y * r - q_SP.z * q);
        d[kQuat + 2] = 0.5 * (q_SP.w * q - q_SP.x * r);
        d[kQuat + 3] = 0.5 * (q_SP.w * r + q_SP.x * q);
    }
    if (m) {
        const Quat q_WB = rotationZ(-beta) * rotationY(alpha);
        m->q_SB = glm::normalize(q_SP) * rotationX(bank) * q_WB;
        m->air_velocity_S_mps = axes.x * speed;
        m->specific_force_B_mps2 = unrotate(q_WB, Vec3(f_x, f_side, -f_normal));
        m->alpha_rad = m->wanted_alpha_rad = alpha;
        m->beta_rad = beta;
        m->speed_mps = speed;
    }
}

}  // namespace plumbline::fly
