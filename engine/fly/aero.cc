#include "engine/fly/aero.h"

#include <algorithm>

namespace plumbline::fly {

AeroModel::AeroModel(const data::Aircraft& aircraft)
    : slope_prad_(aircraft.aero.lift_slope_prad),
      alpha0_rad_(aircraft.aero.zero_lift_aoa_rad),
      cd0_(aircraft.aero.cd0),
      induced_k_(aircraft.aero.induced_k),
      side_slope_prad_(aircraft.aero.side_force_slope_prad),
      inverse_cy_max_(aircraft.aero.cy_max > 0 ? 1 / aircraft.aero.cy_max : 0),
      sideslip_drag_(aircraft.aero.sideslip_drag),
      cn_plate_(aircraft.aero.cn_plate),
      cd_tail_first_(aircraft.aero.cd_tail_first) {
    upper_rad_ = kPi;
    lower_rad_ = -kPi;
    placeStall(aircraft.aero.cl_max, 1);
    placeStall(aircraft.aero.cl_min, -1);
    cl_max_ = lift(alpha_max_rad_);
    cl_min_ = lift(alpha_min_rad_);
    cn_max_ = normal(alpha_max_rad_);
    cn_min_ = normal(alpha_min_rad_);
}

// The start of the rounding is bracketed: the greatest lift grows with it.
void AeroModel::placeStall(double wanted, double sign) {
    double lo = 0, hi = std::fabs(wanted) / std::max(slope_prad_, 1e-6);
    double& start = sign > 0 ? upper_rad_ : lower_rad_;
    double& alpha_best = sign > 0 ? alpha_max_rad_ : alpha_min_rad_;
    const auto greatest = [&] {
        double best = 0;
        // Golden-section search of the hump just past the start of the rounding.
        double a = std::fabs(start), b = a + kWidth_rad;
        constexpr double g = 0.6180339887498949;
        for (int i = 0; i < 60; ++i) {
            const double x1 = b - g * (b - a), x2 = a + g * (b - a);
            if (sign * lift(alpha0_rad_ + sign * x1) < sign * lift(alpha0_rad_ + sign * x2))
                a = x1;
            else
                b = x2;
        }
        alpha_best = alpha0_rad_ + sign * 0.5 * (a + b);
        best = sign * lift(alpha_best);
        return best;
    };
    for (int i = 0; i < 60; ++i) {
        start = sign * 0.5 * (lo + hi);
        (greatest() < std::fabs(wanted) ? lo : hi) = 0.5 * (lo + hi);
    }
}

double AeroModel::lift(double alpha_rad) const {
    const double past = stalledShare(alpha_rad - alpha0_rad_);
    const double line = slope_prad_ * (alpha_rad - alpha0_rad_);
    if (past <= 0) return line;
    return (1 - past) * line + past * cn_plate_ * std::sin(alpha_rad) * std::cos(alpha_rad);
}

double AeroModel::normal(double alpha_rad) const {
    const double s = std::sin(alpha_rad), c = std::cos(alpha_rad);
    const Coefficients k = atSines(alpha_rad, s, c, 0);
    return k.lift * c + k.drag * s;
}

namespace {

// Newton with a falling-back bracket: monotone between the stalls, so the bracket always holds the root.
template <class Function>
double monotoneRoot(Function&& f, double lo, double hi, double guess) {
    double x = std::clamp(guess, lo, hi);
    constexpr double kStep = 1e-6;
    for (int i = 0; i < 40; ++i) {
        const double y = f(x);
        (y < 0 ? lo : hi) = x;
        const double slope = (f(x + kStep) - f(x - kStep)) / (2 * kStep);
        double next = slope > 0 ? x - y / slope : lo;
        if (!(next > lo && next < hi)) next = 0.5 * (lo + hi);
        if (std::fabs(next - x) < 1e-13) return next;
        x = next;
    }
    return x;
}

}  // namespace

double AeroModel::alphaForNormal(double cn) const {
    if (cn >= cn_max_) return alpha_max_rad_;
    if (cn <= cn_min_) return alpha_min_rad_;
    return monotoneRoot([&](double a) { return normal(a) - cn; }, alpha_min_rad_, alpha_max_rad_,
                        alpha0_rad_ + cn / slope_prad_);
}

double AeroModel::alphaForForce(double qs_n, double thrust_n, double force_n) const {
    const double line = qs_n * slope_prad_;
    if (!(line + thrust_n > 0)) return force_n > 0 ? alpha_max_rad_ : alpha_min_rad_;
    double a = (force_n + line * alpha0_rad_) / (line + thrust_n);
    // On the straight part of the lift curve only the thrust's sine is not linear: two Newton steps end at 1e-14.
    if (a - alpha0_rad_ < upper_rad_ && a - alpha0_rad_ > lower_rad_) {
        for (int i = 0; i < 2; ++i) {
            const double s = std::sin(a), c = std::cos(a);
            a -= (line * (a - alpha0_rad_) + thrust_n * s - force_n) / (line + thrust_n * c);
        }
        if (a - alpha0_rad_ < upper_rad_ && a - alpha0_rad_ > lower_rad_) return a;
    }
    const auto f = [&](double x) { return qs_n * lift(x) + thrust_n * std::sin(x) - force_n; };
    if (f(alpha_max_rad_) <= 0) return alpha_max_rad_;
    if (f(alpha_min_rad_) >= 0) return alpha_min_rad_;
    return monotoneRoot(f, alpha_min_rad_, alpha_max_rad_, a);
}

double AeroModel::betaForForce(double qs_n, double thrust_cos_alpha_n, double force_n) const {
    const double line = qs_n * side_slope_prad_;
    if (!(line + thrust_cos_alpha_n > 0) || force_n == 0) return 0;
    constexpr double kMost = 0.8660254037844386;  // sine of 60 deg
    // In s = sin(beta) the force is monotone: q S CY(s) - T cos(alpha) s.
    double s = std::clamp(-force_n / (line + thrust_cos_alpha_n), -kMost, kMost);
    for (int i = 0; i < 12; ++i) {
        const double ratio = side_slope_prad_ * s * inverse_cy_max_;
        const double root = std::sqrt(1 + ratio * ratio);
        const double y = -line * s / root - thrust_cos_alpha_n * s - force_n;
        const double slope = -line / (root * root * root) - thrust_cos_alpha_n;
        const double next = std::clamp(s - y / slope, -kMost, kMost);
        if (std::fabs(next - s) < 1e-14) {
            s = next;
            break;
        }
        s = next;
    }
    return std::asin(s);
}

}  // namespace plumbline::fly
