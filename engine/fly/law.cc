// What a segment's law says of the shape: throttle, rolls, fades, and the curves flown.

#include <algorithm>
#include <cmath>

#include "engine/fly/dynamics.h"

namespace plumbline::fly {

double Throttle::at(double t) const {
    if (t >= arrived_s()) return command_frac;
    return command_frac + (from_frac - command_frac) * std::exp(-(t - start_s) / lag_s);
}

double Throttle::arrived_s() const {
    constexpr double kTimeConstants = 19;  // chosen: e^-19 = 6e-9 of the way is left
    return lag_s > 0 && from_frac != command_frac ? start_s + kTimeConstants * lag_s : -1e300;
}

void RollProgram::add(double angle_rad, double rate_radps, double accel_radps2,
                      double pause_before_s) {
    Piece piece;
    piece.start_s = duration_s_ + (pieces_.empty() ? 0.0 : pause_before_s);
    piece.angle_rad = angle_rad;
    double rate = std::fabs(rate_radps);
    const double angle = std::fabs(angle_rad);
    // A smooth step's steepest slope is 1.5 times its mean: that is where the limit holds.
    double ramp = accel_radps2 > 0 ? 1.5 * rate / accel_radps2 : 0;
    if (rate * ramp > angle) {
        rate = std::sqrt(angle * accel_radps2 / 1.5);
        ramp = 1.5 * rate / accel_radps2;
    }
    piece.rate_radps = std::copysign(rate, angle_rad);
    piece.ramp_s = ramp;
    piece.steady_s = rate > 0 ? angle / rate - ramp : 0;
    duration_s_ = piece.start_s + 2 * ramp + piece.steady_s;
    total_rad_ += angle_rad;
    way_total_rad_ += std::fabs(angle_rad);
    pieces_.push_back(piece);
}

double RollProgram::angle(double time_s) const {
    const double t = time_s - start_s_;
    double angle = 0;
    for (const Piece& p : pieces_) {
        if (t <= p.start_s) break;
        angle += p.angleAt(t - p.start_s);
    }
    return angle;
}

double RollProgram::way(double time_s) const {
    const double t = time_s - start_s_;
    double way = 0;
    for (const Piece& p : pieces_) {
        if (t <= p.start_s) break;
        way += std::fabs(p.angleAt(t - p.start_s));
    }
    return way;
}

double RollProgram::Piece::angleAt(double u) const {
    if (u >= 2 * ramp_s + steady_s) return angle_rad;
    if (u < ramp_s) return rate_radps * ramp_s * smoothStepIntegral(u / ramp_s);
    if (u <= ramp_s + steady_s) return rate_radps * (0.5 * ramp_s + u - ramp_s);
    return angle_rad -
           rate_radps * ramp_s * smoothStepIntegral((2 * ramp_s + steady_s - u) / ramp_s);
}

double RollProgram::rate(double time_s) const {
    const double t = time_s - start_s_;
    for (const Piece& p : pieces_) {
        const double u = t - p.start_s;
        if (u < 0) return 0;
        if (u > 2 * p.ramp_s + p.steady_s) continue;
        if (u < p.ramp_s) return p.rate_radps * smoothStep(u / p.ramp_s);
        if (u <= p.ramp_s + p.steady_s) return p.rate_radps;
        return p.rate_radps * smoothStep((2 * p.ramp_s + p.steady_s - u) / p.ramp_s);
    }
    return 0;
}

void RollProgram::appendBreaks(std::vector<double>& breaks) const {
    for (const Piece& p : pieces_) {
        const double s = start_s_ + p.start_s;
        breaks.push_back(s);
        breaks.push_back(s + p.ramp_s);
        breaks.push_back(s + p.ramp_s + p.steady_s);
        breaks.push_back(s + 2 * p.ramp_s + p.steady_s);
    }
}

RollProgram RollProgram::part(std::size_t first, std::size_t last) const {
    RollProgram out;
    out.start_s_ = start_s_;
    for (std::size_t i = first; i < last && i < pieces_.size(); ++i) {
        const Piece& p = pieces_[i];
        out.pieces_.push_back(p);
        out.total_rad_ += p.angle_rad;
        out.way_total_rad_ += std::fabs(p.angle_rad);
        out.duration_s_ = p.start_s + 2 * p.ramp_s + p.steady_s;
    }
    return out;
}

double IncidenceProgram::at(double t) const {
    const double on = smootherStep((t - start_s) / onset_s);
    const double off = smootherStep((t - release_s) / release_time_s);
    return from_rad + (held_rad - from_rad) * on + (to_rad - held_rad) * off;
}

void IncidenceProgram::appendBreaks(std::vector<double>& breaks) const {
    for (const double t : {start_s + onset_s, release_s, release_s + release_time_s})
        breaks.push_back(t);
}

Vec3 Fade3::value(double t) const {
    const double u = t - start_s;
    return u >= x.duration_s ? Vec3(0) : Vec3(x.value(u), y.value(u), z.value(u));
}

Vec3 Fade3::rate(double t) const {
    const double u = t - start_s;
    return u >= x.duration_s ? Vec3(0) : Vec3(x.rate(u), y.rate(u), z.rate(u));
}

namespace {

// A turn's curvature: ramps up by a smooth step over `ramp`, steady over `arc`, down again; peak so
// that it turns `turn`.
struct TurnShape {
    double turn, ramp, arc;
    double peak() const { return ramp + arc > 0 ? turn / (ramp + arc) : 0; }
    double length() const { return 2 * ramp + arc; }
    double curvature(double s) const {
        if (s <= 0 || s >= length()) return 0;
        if (s < ramp) return peak() * smoothStep(s / ramp);
        if (s <= ramp + arc) return peak();
        return peak() * smoothStep((length() - s) / ramp);
    }
    double turned(double s) const {
        if (s <= 0) return 0;
        if (s >= length()) return turn;
        if (s < ramp) return peak() * ramp * smoothStepIntegral(s / ramp);
        if (s <= ramp + arc) return peak() * (0.5 * ramp + s - ramp);
        return turn - peak() * ramp * smoothStepIntegral((length() - s) / ramp);
    }
};

}  // namespace

double PlanCurve::heading_rad(double s) const {
    const TurnShape first{turn1_rad, ramp1_m, arc1_m}, second{turn2_rad, ramp2_m, arc2_m};
    return heading0_rad + first.turned(s) + second.turned(s - first.length() - straight_m) +
           heading_miss.value(s);
}

double PlanCurve::curvature_pm(double s) const {
    const TurnShape first{turn1_rad, ramp1_m, arc1_m}, second{turn2_rad, ramp2_m, arc2_m};
    return first.curvature(s) + second.curvature(s - first.length() - straight_m) +
           heading_miss.rate(s);
}

// The height rises by a quintic.
double PlanCurve::slope(double s) const {
    const double length = length_m();
    return rise_m / length * smootherStepSlope(s / length) + slope_miss.value(s);
}

double PlanCurve::slopeRate_pm(double s) const {
    const double length = length_m(), u = std::clamp(s / length, 0.0, 1.0);
    return rise_m / (length * length) * 60 * u * (1 - u) * (1 - 2 * u) + slope_miss.rate(s);
}

std::array<double, 8> PlanCurve::breaks_m() const {
    const double turned = 2 * ramp1_m + arc1_m, straight = turned + straight_m;
    std::array<double, 8> all{ramp1_m,
                              ramp1_m + arc1_m,
                              turned,
                              straight,
                              straight + ramp2_m,
                              straight + ramp2_m + arc2_m,
                              heading_miss.duration_s,
                              length_m()};
    std::sort(all.begin(), all.end());
    return all;
}

double Law::loadRate_gps(double t) const {
    const auto rate = [](double u, double rise, double duration_s) {
        return u > 0 && u < 1 ? rise * 6 * u * (1 - u) / duration_s : 0;
    };
    const double since = t - start_s;
    return rate(onset_s > 0 ? since / onset_s : 1, load1_g - late_g - load0_g, onset_s) +
           rate((since - onset_s) / kLate_s, late_g, kLate_s);
}

std::array<double, 8> Law::breaks_m() const {
    // The end is the event's business: a step is to pass it by a little.
    constexpr double kPast_m = 0.02;
    if (shape == Shape::Track) {
        std::array<double, 8> breaks = plan.breaks_m();
        breaks.back() += kPast_m;
        return breaks;
    }
    const double end = 2 * ramp_m + plateau_m + kPast_m;
    return {ramp_m, ramp_m + plateau_m, end, end, end, end, end, end};
}

// The heading follows the roll: most while the lift lies level, least while only the fuselage could
// turn the path. Over every half roll the share is the same.
double rollingHeading(const Law& law, double t, double& rate_radps) {
    constexpr double kEven = 0.6;  // chosen: share of the turning that goes with the lift's place
    const double total = law.roll.wayTotal_rad();
    const double way = law.roll.way(t), per_way = law.turned_rad / total;
    // A quarter roll more than a whole number of halves leaves a sine, which is spread over it all.
    const double even = 0.5 * kEven * std::sin(2 * total) / total;
    rate_radps = per_way * (1 - kEven * std::cos(2 * way) + even) * std::fabs(law.roll.rate(t));
    return law.heading0_rad + per_way * (way - 0.5 * kEven * std::sin(2 * way) + even * way);
}

double turnBank(const Law& law, double t) {
    const double ramp = law.bank_ramp_s;
    const double up = (t - law.start_s) / ramp, down = (t - law.bank_down_s) / ramp;
    return law.bank_rad * (smootherStep(up) - smootherStep(down));
}

double arcCurvature(const Law& law, double distance_m) {
    const double s = distance_m - law.distance0_m;
    const double end = 2 * law.ramp_m + law.plateau_m;
    if (s <= 0 || s >= end) return 0;
    if (s < law.ramp_m) return law.curvature_pm * smoothStep(s / law.ramp_m);
    if (s <= law.ramp_m + law.plateau_m) return law.curvature_pm;
    return law.curvature_pm * smoothStep((end - s) / law.ramp_m);
}

}  // namespace plumbline::fly
