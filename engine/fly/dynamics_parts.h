#pragma once
// What the held and the shaped equations share: fast small-angle functions, axes of a quaternion,
// and the stepper called straight on one shape's equations.

#include <algorithm>
#include <cmath>

#include "engine/fly/dynamics.h"

namespace plumbline::fly {

// Symbols: q S dynamic pressure times wing area [N]; L, D, Y, T lift, drag, side force, thrust [N];
// f specific force [m/s2] along x_W, y_W and -z_W (n); g gravity (with the wind-gradient term) in
// W; alpha, beta incidence and sideslip.

// Incidence below the stall is small: the series to the eleventh power is exact to 1e-15 within
// half a radian.
inline void sineAndCosine(double x, double& sine, double& cosine) {
    if (std::fabs(x) > 0.5) {
        sine = std::sin(x);
        cosine = std::cos(x);
        return;
    }
    const double q = x * x;
    if (q < 0.01) {
        sine = x * (1 - q * (1.0 / 6) *
                            (1 - q * (1.0 / 20) * (1 - q * (1.0 / 42) * (1 - q * (1.0 / 72)))));
        cosine = 1 - q * 0.5 *
                         (1 - q * (1.0 / 12) *
                                  (1 - q * (1.0 / 30) * (1 - q * (1.0 / 56) * (1 - q / 90))));
        return;
    }
    sine =
        x * (1 - q * (1.0 / 6) *
                     (1 - q * (1.0 / 20) *
                              (1 - q * (1.0 / 42) *
                                       (1 - q * (1.0 / 72) *
                                                (1 - q * (1.0 / 110) * (1 - q * (1.0 / 156)))))));
    cosine =
        1 -
        q * 0.5 *
            (1 - q * (1.0 / 12) *
                     (1 - q * (1.0 / 30) *
                              (1 - q * (1.0 / 56) * (1 - q * (1.0 / 90) * (1 - q * (1.0 / 132))))));
}

// Of an incidence that a wing flies at, to 1e-7; beyond 0.45 rad held.
inline double smallCosine(double x) {
    const double q = std::min(x * x, 0.2);
    return 1 - q * (0.5 - q * (1.0 / 24 - q * (1.0 / 720)));
}

// atan2(w, u) for the small incidence of an attitude held along the path: to rounding within 0.15.
inline double incidence(double w, double u) {
    const double r = w / u;
    if (!(u > 0) || std::fabs(r) > 0.15) return std::atan2(w, u);
    const double q = r * r;
    return r *
           (1 + q * (-1.0 / 3 +
                     q * (1.0 / 5 +
                          q * (-1.0 / 7 +
                               q * (1.0 / 9 + q * (-1.0 / 11 +
                                                   q * (1.0 / 13 + q * (-1.0 / 15 + q / 17))))))));
}

// Columns of the rotation matrix of a quaternion of any length: the axes in site components.
struct Dynamics::Rotation {
    Vec3 x, y, z;
    explicit Rotation(const Quat& q) {
        const double n = 2 / (q.w * q.w + q.x * q.x + q.y * q.y + q.z * q.z);
        const double xx = n * q.x * q.x, yy = n * q.y * q.y, zz = n * q.z * q.z;
        const double xy = n * q.x * q.y, xz = n * q.x * q.z, yz = n * q.y * q.z;
        const double wx = n * q.w * q.x, wy = n * q.w * q.y, wz = n * q.w * q.z;
        x = Vec3(1 - yy - zz, xy + wz, xz - wy);
        y = Vec3(xy - wz, 1 - xx - zz, yz + wx);
        z = Vec3(xz + wy, yz - wx, 1 - xx - yy);
    }
    Vec3 to(const Vec3& v_B) const { return x * v_B.x + y * v_B.y + z * v_B.z; }
    Vec3 from(const Vec3& v_S) const {
        return Vec3(glm::dot(x, v_S), glm::dot(y, v_S), glm::dot(z, v_S));
    }
};

// Where a shape given by distance has a kink in a higher derivative, a step is made to end: as near
// as speed, its gain and the gain's change foretell it.
class Kinks {
public:
    explicit Kinks(const Law& law) : places_m_(law.breaks_m()) {
        for (double& place : places_m_) place += law.distance0_m;
    }
    double operator()(const StateVector& y, const StateVector& slope, double h) {
        constexpr double kNear_m = 0.05;  // chosen: a kink so near the step's end does no harm
        const double here = y[kDistance], gain = slope[kSpeed];
        const double way = here - last_m_;
        // d(gain)/dt from the step before.
        const double change = way > 0 ? (gain - last_gain_) * slope[kDistance] / way : 0;
        if (way > 0 || last_m_ < -1e299) {
            last_m_ = here;
            last_gain_ = gain;
            change_ = change;
        }
        while (next_ < places_m_.size() && places_m_[next_] < here + kNear_m) ++next_;
        if (next_ == places_m_.size()) return h;
        const double left = places_m_[next_] - here;
        double time = left / slope[kDistance];
        for (int i = 0; i < 3; ++i)
            time = left / (slope[kDistance] + time * (0.5 * gain + time * change_ / 6));
        if (!(time > 0)) return h;
        return h >= time ? time : 2 * h > time ? 0.5 * time : h;
    }

private:
    std::array<double, 8> places_m_;
    std::size_t next_ = 0;
    double last_m_ = -1e300, last_gain_ = 0, change_ = 0;
};

// One copy of the stepper for each shape, its equations called directly.
template <class Equations, class Limit = ode::Unlimited>
ode::Outcome<kStates> integrateEquations(const Equations& equations, const Dynamics::Event& event,
                                         const IntegrationTask& task, Limit&& limit = {}) {
    const auto f = [&](double t, const StateVector& y, StateVector& dy) {
        ++task.evaluations;
        equations(t, y, dy);
    };
    return ode::integrate<kStates>(f, event, task.t0, task.y0, task.t1, task.h_first,
                                   task.tolerance, task.steps, task.slope, limit);
}

}  // namespace plumbline::fly
