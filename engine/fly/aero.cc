#include "engine/fly/aero.h"

#include <algorithm>

#include "engine/math/root.h"

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
    sideslip_sine_max_ = std::sin(aircraft.aero.sideslip_max_rad);
    upper_rad_ = kPi;
    lower_rad_ = -kPi;
    placeStall(kPeakOverUsed * aircraft.aero.cl_max, 1);
    placeStall(kPeakOverUsed * aircraft.aero.cl_min, -1);
    alpha_max_rad_ = usedAlpha(aircraft.aero.cl_max, alpha_max_rad_);
    alpha_min_rad_ = usedAlpha(aircraft.aero.cl_min, alpha_min_rad_);
    // chosen: the last part, where the lift curve is nearly flat
    ease_rad_ =
        0.07 * std::max(0.0, std::min(alpha_max_rad_ - alpha0_rad_, alpha0_rad_ - alpha_min_rad_));
    sin_alpha_max_ = std::sin(alpha_max_rad_);
    sin_alpha_min_ = std::sin(alpha_min_rad_);
    cl_max_ = lift(alpha_max_rad_);
    cl_min_ = lift(alpha_min_rad_);
    cn_max_ = normal(alpha_max_rad_);
    cn_min_ = normal(alpha_min_rad_);
    tabulateNormal();
}

// Between the places where the lift curve leaves its line the inverse is smooth: a spline of it is
// good to 1e-9.
void AeroModel::tabulateNormal() {
    constexpr int kPoints = 96;
    table_low_cn_ = normal(alpha0_rad_ + lower_rad_);
    table_high_cn_ = normal(alpha0_rad_ + upper_rad_);
    if (!(table_high_cn_ > table_low_cn_ + 1e-6)) {
        table_low_cn_ = table_high_cn_ = 0;  // a wing that hardly lifts
        upper_edge_ = edgeOf(1);
        lower_edge_ = edgeOf(-1);
        return;
    }
    const double step = (table_high_cn_ - table_low_cn_) / (kPoints - 1);
    std::vector<double> alpha(kPoints);
    double guess = alpha0_rad_ + lower_rad_;
    for (int i = 0; i < kPoints; ++i) {
        const double cn = table_low_cn_ + i * step;
        for (int k = 0; k < 8; ++k) {
            constexpr double kSmall = 1e-5;
            const double slope = (normal(guess + kSmall) - normal(guess - kSmall)) / (2 * kSmall);
            const double shift = (normal(guess) - cn) / slope;
            guess -= shift;
            // The next one would move it by the square of this one.
            if (std::fabs(shift) < 1e-8) break;
        }
        alpha[static_cast<std::size_t>(i)] = guess;
    }
    alpha_of_normal_ = UniformSpline(table_low_cn_, step, alpha);
    // A natural end of the table is the least exact: the root finder takes over there.
    table_low_cn_ += 4 * step;
    table_high_cn_ -= 4 * step;
    // The demand softens before the lift curve rounds off, or after.
    table_high_cn_ = std::min(table_high_cn_, (1 - kSoftShare) * cn_max_);
    table_low_cn_ = std::max(table_low_cn_, (1 - kSoftShare) * cn_min_);
    upper_edge_ = edgeOf(1);
    lower_edge_ = edgeOf(-1);
}

AeroModel::Edge AeroModel::edgeOf(double sign) const {
    // The ends of a table are the least exact: it reaches a little past what is read.
    constexpr int kPoints = 129, kPast = 4;
    Edge edge;
    const double most = sign > 0 ? cn_max_ : -cn_min_;
    const double start = sign > 0 ? table_high_cn_ : -table_low_cn_;
    edge.limit_rad = sign > 0 ? alpha_max_rad_ : alpha_min_rad_;
    edge.end = (1 + kSoftShare) * most;
    const double step = std::max(edge.end - start, 1e-9) / (kPoints - 1);
    std::vector<double> alpha;
    for (int i = -kPast; i < kPoints + kPast; ++i)
        alpha.push_back(alphaForNormal(softened(sign * (start + i * step))));
    edge.table = UniformSpline(start - kPast * step, step, alpha);
    return edge;
}

// Incidence on the rising side at which a lift coefficient is reached; the peak's own when it never
// is.
double AeroModel::usedAlpha(double cl, double alpha_peak_rad) const {
    const auto short_of = [&](double alpha) { return std::fabs(cl) - std::fabs(lift(alpha)); };
    const double at_peak = short_of(alpha_peak_rad);
    if (at_peak >= 0) return alpha_peak_rad;
    return zeroBetween(short_of, alpha0_rad_, alpha_peak_rad, std::fabs(cl), at_peak, 1e-14);
}

// The start of the rounding is bracketed: the greatest lift grows with it.
void AeroModel::placeStall(double wanted, double sign) {
    double& start = sign > 0 ? upper_rad_ : lower_rad_;
    double& alpha_best = sign > 0 ? alpha_max_rad_ : alpha_min_rad_;
    const auto short_of = [&](double from_rad) {
        start = sign * from_rad;
        const auto height = [&](double x) { return sign * lift(alpha0_rad_ + sign * x); };
        const double best = peakBetween(height, from_rad, from_rad + kWidth_rad, 1e-9);
        alpha_best = alpha0_rad_ + sign * best;
        return std::fabs(wanted) - height(best);
    };
    const double most = std::fabs(wanted) / std::max(slope_prad_, 1e-6);
    const double at_none = short_of(0), at_most = short_of(most);
    if (at_none > 0 && at_most < 0)
        short_of(zeroBetween(short_of, 0.0, most, at_none, at_most, 1e-13));
    else if (at_none <= 0)
        short_of(0);
}

double AeroModel::lift(double alpha_rad) const {
    double slope = 0;
    return liftAndSlope(alpha_rad, slope);
}

double AeroModel::liftAndSlope(double alpha_rad, double& slope) const {
    const double x = alpha_rad - alpha0_rad_, line = slope_prad_ * x;
    const double past = stalledShare(x);
    slope = slope_prad_;
    if (past <= 0) return line;
    const double s = std::sin(alpha_rad), c = std::cos(alpha_rad), plate = cn_plate_ * s * c;
    const double u = (x > 0 ? x - upper_rad_ : lower_rad_ - x) * kInverseWidth;
    const double growth =
        u >= 1 ? 0 : std::copysign(30 * u * u * (1 - u) * (1 - u) * kInverseWidth, x);
    slope = (1 - past) * slope_prad_ + past * cn_plate_ * (c * c - s * s) + growth * (plate - line);
    return (1 - past) * line + past * plate;
}

double AeroModel::normal(double alpha_rad) const {
    const double s = std::sin(alpha_rad), c = std::cos(alpha_rad);
    const Coefficients k = atSines(alpha_rad, s, c, 0);
    return k.lift * c + k.drag * s;
}

namespace {

// Newton with a falling-back bracket: monotone between the stalls, so the bracket always holds the
// root. The function gives value and slope.
template <class Function>
double monotoneRoot(Function&& f, double lo, double hi, double guess) {
    double x = std::clamp(guess, lo, hi);
    for (int i = 0; i < 40; ++i) {
        double slope = 0;
        const double y = f(x, slope);
        (y < 0 ? lo : hi) = x;
        double next = slope > 0 ? x - y / slope : lo;
        // Before the bracket is asked: it has closed on the root from one side only.
        if (std::fabs(next - x) < 1e-12) return next;
        if (!(next > lo && next < hi)) next = 0.5 * (lo + hi);
        x = next;
    }
    return x;
}

}  // namespace

double AeroModel::softened(double cn) const {
    const double most = cn > 0 ? cn_max_ : -cn_min_;
    return std::copysign(towardsLimit(std::fabs(cn), most, kSoftShare * most), cn);
}

double AeroModel::alphaForNormal(double cn) const {
    if (cn >= cn_max_) return alpha_max_rad_;
    if (cn <= cn_min_) return alpha_min_rad_;
    if (cn > table_low_cn_ && cn < table_high_cn_) return alpha_of_normal_(cn);
    const auto f = [&](double a, double& slope) {
        constexpr double kSmall = 1e-5;
        const double y = normal(a);
        slope = (normal(a + kSmall) - y) / kSmall;
        return y - cn;
    };
    return monotoneRoot(f, alpha_min_rad_, alpha_max_rad_, alpha0_rad_ + cn / slope_prad_);
}

double AeroModel::alphaNearStall(double qs_n, double thrust_n, double force_n, double a) const {
    if (qs_n * cl_max_ + thrust_n * sin_alpha_max_ <= force_n) return alpha_max_rad_;
    if (qs_n * cl_min_ + thrust_n * sin_alpha_min_ >= force_n) return alpha_min_rad_;
    const auto f = [&](double x, double& slope) {
        const double cl = liftAndSlope(x, slope);
        slope = qs_n * slope + thrust_n * std::cos(x);
        return qs_n * cl + thrust_n * std::sin(x) - force_n;
    };
    return monotoneRoot(f, alpha_min_rad_, alpha_max_rad_, a);
}

}  // namespace plumbline::fly
