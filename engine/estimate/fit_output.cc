// The fit at every inertial sample.

#include <algorithm>
#include <cmath>

#include "engine/estimate/flight_fit.h"

namespace plumbline::estimate {

Solution FlightFit::output() const {
    Solution out;
    out.time_s = streams_.inertial.time_s;
    out.states.resize(inertial_.size());
    const auto put = [&](std::size_t i, const Mat3& r, const Vec& v, const Vec& p,
                         const Preintegrator& at) {
        State& s = out.states[i];
        // From the time that the sample describes to the one it carries; and the rates lag.
        s.q_SI = toQuat(r * expMap((age_s_ + gains_.lag_s) * at.rate()));
        const Vec a = r * at.force() + kGravity_S;
        s.velocity_S_mps = fromEigen(v + age_s_ * a);
        s.position_S_m = fromEigen(p + age_s_ * (v + 0.5 * age_s_ * a));
        s.rate_I_radps = fromEigen(at.rate());
        s.force_I_mps2 = fromEigen(at.force());
    };
    double field_turn2 = 0;  // what iron that no fit finds may turn the heading
    if (field_on_ && !with_fixes_) {
        const double share = settings_.field_offset_share * field_.earth_S.norm() /
                             std::hypot(field_.earth_S.x(), field_.earth_S.y());
        field_turn2 = share * share;
    }
    Preintegrator sum(inertial_, noise_, gains_, settings_);
    for (std::size_t k = 0; k + 1 < nodes_.size(); ++k) {
        const Node& a = nodes_[k];
        const Node& b = nodes_[k + 1];
        // Between nodes the sensors lead; what they miss at the next node is spread over the way.
        sum.start(a.sample, a.bias);
        while (sum.sample() < b.sample) sum.advance(false);
        const double dt = sum.step().duration_s;
        const Mat3 end = a.attitude * sum.step().rotation;
        const Vec miss = logMap(b.attitude * end.transpose());
        const Vec miss_v =
            b.velocity - a.velocity - dt * kGravity_S - a.attitude * sum.step().velocity;
        const Vec miss_p = b.position - a.position - dt * a.velocity - 0.5 * dt * dt * kGravity_S -
                           a.attitude * sum.step().position;
        const Vec bend = miss_p - 0.5 * dt * miss_v;
        sum.start(a.sample, a.bias);
        for (;;) {
            const double t = sum.step().duration_s, u = t / dt;
            const std::size_t i = sum.sample();
            if (i == b.sample && k + 2 < nodes_.size()) break;
            const Mat3 r = expMap(u * miss) * a.attitude * sum.step().rotation;
            const Vec v = a.velocity + t * kGravity_S + a.attitude * sum.step().velocity +
                          u * miss_v + (6 * u * (1 - u) / dt) * bend;
            const Vec p = a.position + t * a.velocity + 0.5 * t * t * kGravity_S +
                          a.attitude * sum.step().position + (0.5 * u * t) * miss_v +
                          (u * u * (3 - 2 * u)) * bend;
            put(i, r, v, p, sum);
            const auto f = static_cast<float>(u);
            State& s = out.states[i];
            const double unsure = with_fixes_ ? 0 : settings_.time_s * settings_.time_s;
            const Vec rate_S = r * sum.rate();
            const double level2 = rate_S.head<2>().squaredNorm(), up2 = rate_S.z() * rate_S.z();
            const double tilt = (1 - u) * errors_[k].tilt + u * errors_[k + 1].tilt;
            const double turn = (1 - u) * errors_[k].heading + u * errors_[k + 1].heading;
            const double tilt2 = tilt * tilt + unsure * level2;
            s.tilt_sigma_rad = static_cast<float>(std::sqrt(tilt2));
            s.attitude_sigma_rad = static_cast<float>(
                std::sqrt(0.9 * tilt2 + 0.9 * turn * turn + unsure * up2 + field_turn2));
            s.position_sigma_m = (1 - f) * errors_[k].position + f * errors_[k + 1].position;
            if (i == b.sample) break;
            sum.advance(false);
        }
    }
    Calibration& c = out.calibration;
    c.rate_bias_start_radps = fromEigen(nodes_.front().bias);
    c.rate_bias_stop_radps = fromEigen(nodes_.back().bias);
    c.rate_gain = fromEigen(Vec::Ones() + gains_.rate.diagonal());
    c.force_bias_mps2 = fromEigen(gains_.force_bias);
    c.force_gain = fromEigen(Vec::Ones() + gains_.force);
    c.force_lag_s = gains_.lag_s;
    c.gnss_latency_s = latency_s_;
    c.antenna_I_m = fromEigen(antenna_);
    out.has_position = with_fixes_;
    out.has_heading = with_fixes_ || field_on_;
    out.gnss_rejected_s = rejected_fixes_s_;
    // and those that were no part of the fit, being out of reach of the others
    std::size_t kept = 0;
    for (const GnssFix& fix : streams_.gnss) {
        if (kept < fixes_.size() && fixes_[kept].time_s == fix.time_s)
            ++kept;
        else
            out.gnss_rejected_s.push_back(fix.time_s);
    }
    std::sort(out.gnss_rejected_s.begin(), out.gnss_rejected_s.end());
    out.heights_rejected_s = rejected_heights_s_;
    out.gnss_rejected = out.gnss_rejected_s.size();
    out.heights_rejected = out.heights_rejected_s.size();
    out.field_used = field_on_;
    out.airspeed_used = airspeed_on_;
    out.wind_S_mps = fromEigen(wind_);
    out.wind_sigma_mps = airspeed_on_ ? wind_sigma_ : 0;
    c.airspeed_gain = 1 + air_gain_;
    c.airspeed_offset_mps = air_offset_;
    return out;
}

}  // namespace plumbline::estimate
