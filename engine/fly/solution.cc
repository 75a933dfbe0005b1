#include "engine/fly/solution.h"

#include <algorithm>
#include <cmath>

namespace plumbline::fly {

path::Sample Solution::Impl::sampleIn(const Segment& segment, double time_s) const {
    const StateVector y = flight.stateOf(segment, time_s);
    const Moment m = Dynamics(*world, segment.law).moment(time_s, y);
    path::Sample s;
    s.time_s = time_s;
    s.position_S_m = Vec3(y[kX], y[kY], y[kZ] + world->raise_m);
    s.velocity_S_mps = m.air_velocity_S_mps + world->wind.at(y[kZ]);
    s.q_SB = glm::normalize(m.q_SB);
    s.rate_B_radps = flight.bodyRate(segment, time_s);
    s.specific_force_B_mps2 = m.specific_force_B_mps2;
    s.airspeed_mps = m.speed_mps;
    s.aoa_rad = m.alpha_rad;
    s.sideslip_rad = m.beta_rad;
    s.power_frac = segment.law.throttle.at(time_s);
    s.mass_kg = y[kMass];
    s.fuel_kg = fuel_at_start_kg - (mass_at_start_kg - y[kMass]);
    s.head_temperature_k = y[kHead];
    s.element = segment.element;
    return s;
}

Solution::Solution() = default;
Solution::Solution(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

bool Solution::empty() const { return !impl_ || impl_->flight.segments.empty(); }
double Solution::sameUntil_s() const { return impl_ ? impl_->same_until_s : 0; }
double Solution::duration_s() const { return impl_ ? impl_->duration_s : 0; }
std::int64_t Solution::evaluations() const { return impl_ ? impl_->flight.evaluations : 0; }

const std::vector<SolveNote>& Solution::notes() const {
    static const std::vector<SolveNote> kNone;
    return impl_ ? impl_->flight.notes : kNone;
}

const std::vector<FoundValue>& Solution::found() const {
    static const std::vector<FoundValue> kNone;
    return impl_ ? impl_->found : kNone;
}

namespace {

// Consecutive quaternions on one side, so that files and interpolation never jump sign.
void alignSigns(std::vector<path::Sample>& samples) {
    for (std::size_t i = 1; i < samples.size(); ++i)
        if (glm::dot(samples[i - 1].q_SB, samples[i].q_SB) < 0) samples[i].q_SB = -samples[i].q_SB;
}

}  // namespace

path::Path Solution::samplePath(double rate_hz) const { return samplePathAgain(rate_hz, {}); }

path::Path Solution::samplePathAgain(double rate_hz, const path::Path& before) const {
    path::Path path;
    if (!impl_) return path;
    path = impl_->frame;
    const std::vector<Segment>& segments = impl_->flight.segments;
    path.samples.reserve(static_cast<std::size_t>(impl_->duration_s * rate_hz) +
                         2 * segments.size() + 2);
    const double joint_gap_s = 1e-6;
    const double taken_s = before.samples.empty() ? 0 : impl_->same_until_s - joint_gap_s;
    for (const path::Sample& sample : before.samples) {
        if (sample.time_s >= taken_s) break;
        path.samples.push_back(sample);
    }
    std::int64_t tick = 0;
    std::size_t first = 0;
    if (!path.samples.empty()) {
        while (first < segments.size() && segments[first].start_s < taken_s) ++first;
        tick = static_cast<std::int64_t>(std::ceil(taken_s * rate_hz));
    }
    for (std::size_t i = first; i < segments.size(); ++i) {
        const Segment& s = segments[i];
        const bool new_element = i == 0 || segments[i - 1].element != s.element;
        if (new_element &&
            (path.samples.empty() || path.samples.back().time_s < s.start_s - joint_gap_s)) {
            path.samples.push_back(impl_->sampleIn(s, s.start_s));
            if (std::fabs(static_cast<double>(tick) / rate_hz - s.start_s) < joint_gap_s) ++tick;
        }
        for (; static_cast<double>(tick) / rate_hz < s.stop_s; ++tick) {
            const double t = std::max(static_cast<double>(tick) / rate_hz, s.start_s);
            if (!path.samples.empty() && t < path.samples.back().time_s + joint_gap_s) continue;
            path.samples.push_back(impl_->sampleIn(s, t));
        }
    }
    if (!segments.empty() && path.samples.back().time_s < segments.back().stop_s - joint_gap_s)
        path.samples.push_back(impl_->sampleIn(segments.back(), segments.back().stop_s));
    alignSigns(path.samples);
    return path;
}

std::vector<path::Sample> Solution::sampleTimes(const std::vector<double>& times_s) const {
    std::vector<path::Sample> out;
    if (!impl_ || impl_->flight.segments.empty()) return out;
    const std::vector<Segment>& segments = impl_->flight.segments;
    std::size_t i = 0;
    out.reserve(times_s.size());
    for (const double t : times_s) {
        while (i + 1 < segments.size() && segments[i].stop_s < t) ++i;
        out.push_back(
            impl_->sampleIn(segments[i], std::clamp(t, segments[i].start_s, segments[i].stop_s)));
    }
    alignSigns(out);
    return out;
}

}  // namespace plumbline::fly
