#include "engine/fly/solution.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace plumbline::fly {

namespace {

using Rates = Sampling::Rates;

/// A moment to be sampled.
struct Place {
    std::size_t segment;
    double time_s;
};

/// Samples moments in turn; keeps what moments of one segment share.
class Sampler {
public:
    Sampler(const Solution::Impl& impl, Rates rates) : impl_(impl), rates_(rates) {}

    path::Sample operator()(const Place& place) {
        const Segment& segment = impl_.flight.segments[place.segment];
        if (!dynamics_ || place.segment != index_) {
            dynamics_.emplace(*impl_.world, segment.law);
            index_ = place.segment;
        }
        const double time_s = place.time_s;
        const StateVector y = impl_.flight.stateOf(segment, time_s);
        const Moment m = dynamics_->moment(time_s, y);
        path::Sample s;
        s.time_s = time_s;
        s.position_S_m = Vec3(y[kX], y[kY], y[kZ] + impl_.world->raise_m);
        s.velocity_S_mps = m.air_velocity_S_mps + impl_.world->wind.at(y[kZ]);
        s.q_SB = glm::normalize(m.q_SB);
        if (rates_ == Rates::Exact)
            s.rate_B_radps = impl_.flight.bodyRate(*dynamics_, segment, time_s);
        s.specific_force_B_mps2 = m.specific_force_B_mps2;
        s.airspeed_mps = m.speed_mps;
        s.aoa_rad = m.alpha_rad;
        s.sideslip_rad = m.beta_rad;
        s.power_frac = segment.law.throttle.at(time_s);
        s.mass_kg = y[kMass];
        s.fuel_kg = impl_.fuel_at_start_kg - (impl_.mass_at_start_kg - y[kMass]);
        s.head_temperature_k = y[kHead];
        s.element = segment.element;
        return s;
    }

private:
    const Solution::Impl& impl_;
    Rates rates_;
    std::size_t index_ = 0;
    std::optional<Dynamics> dynamics_;
};

/// Fills the samples from the first one of the places on.
void sampleAll(const Solution::Impl& impl, const Sampling& sampling,
               const std::vector<Place>& places, std::vector<path::Sample>& samples) {
    constexpr std::size_t kJob = 1024;  // chosen: a job well above what handing it out costs
    const std::size_t first = samples.size();
    samples.resize(first + places.size());
    sampling.executor((places.size() + kJob - 1) / kJob, [&](std::size_t job) {
        Sampler sampler(impl, sampling.rates);
        const std::size_t end = std::min(places.size(), (job + 1) * kJob);
        for (std::size_t i = job * kJob; i < end; ++i) samples[first + i] = sampler(places[i]);
    });
}

// Consecutive quaternions on one side, so that files and interpolation never jump sign.
void alignSigns(std::vector<path::Sample>& samples, std::size_t from) {
    for (std::size_t i = std::max<std::size_t>(from, 1); i < samples.size(); ++i)
        if (glm::dot(samples[i - 1].q_SB, samples[i].q_SB) < 0) samples[i].q_SB = -samples[i].q_SB;
}

// Second order in the spacing; first at the ends.
void ratesFromNeighbours(std::vector<path::Sample>& samples, std::size_t from) {
    const auto turnedTo = [&](std::size_t i, std::size_t j) {
        return vectorFromRotation(glm::conjugate(samples[i].q_SB) * samples[j].q_SB) /
               (samples[j].time_s - samples[i].time_s);
    };
    for (std::size_t i = from; i < samples.size(); ++i) {
        Vec3& rate = samples[i].rate_B_radps;
        if (samples.size() < 2) continue;
        if (i == 0 || i + 1 == samples.size()) {
            rate = i == 0 ? turnedTo(0, 1) : turnedTo(i, i - 1);
            continue;
        }
        const double before_s = samples[i].time_s - samples[i - 1].time_s,
                     after_s = samples[i + 1].time_s - samples[i].time_s;
        rate =
            (turnedTo(i, i - 1) * after_s + turnedTo(i, i + 1) * before_s) / (before_s + after_s);
    }
}

}  // namespace

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

path::Path Solution::samplePath(const Sampling& sampling) const {
    return samplePathAgain(sampling, {});
}

path::Path Solution::samplePath(double rate_hz) const {
    Sampling sampling;
    sampling.rate_hz = rate_hz;
    return samplePath(sampling);
}

path::Path Solution::samplePathAgain(const Sampling& sampling, const path::Path& before) const {
    path::Path path;
    if (!impl_) return path;
    path = impl_->frame;
    const double rate_hz = sampling.rate_hz;
    const std::vector<Segment>& segments = impl_->flight.segments;
    const double joint_gap_s = 1e-6;
    const double taken_s = before.samples.empty() ? 0 : impl_->same_until_s - joint_gap_s;
    const auto taken_end = std::lower_bound(
        before.samples.begin(), before.samples.end(), taken_s,
        [](const path::Sample& sample, double time_s) { return sample.time_s < time_s; });
    const std::size_t taken = static_cast<std::size_t>(taken_end - before.samples.begin());
    std::int64_t tick = 0;
    std::size_t first = 0;
    double last_s = -std::numeric_limits<double>::infinity();
    if (taken > 0) {
        while (first < segments.size() && segments[first].start_s < taken_s) ++first;
        tick = static_cast<std::int64_t>(std::ceil(taken_s * rate_hz));
        last_s = before.samples[taken - 1].time_s;
    }
    std::vector<Place> places;
    const auto add = [&](std::size_t segment, double time_s) {
        places.push_back({segment, time_s});
        last_s = time_s;
    };
    places.reserve(static_cast<std::size_t>(impl_->duration_s * rate_hz) + 2 * segments.size() + 2);
    for (std::size_t i = first; i < segments.size(); ++i) {
        const Segment& s = segments[i];
        const bool new_element = i == 0 || segments[i - 1].element != s.element;
        if (new_element && last_s < s.start_s - joint_gap_s) {
            add(i, s.start_s);
            if (std::fabs(static_cast<double>(tick) / rate_hz - s.start_s) < joint_gap_s) ++tick;
        }
        for (; static_cast<double>(tick) / rate_hz < s.stop_s; ++tick) {
            const double t = std::max(static_cast<double>(tick) / rate_hz, s.start_s);
            if (t >= last_s + joint_gap_s) add(i, t);
        }
    }
    if (!segments.empty() && last_s < segments.back().stop_s - joint_gap_s)
        add(segments.size() - 1, segments.back().stop_s);
    path.samples.reserve(taken + places.size());
    path.samples.assign(before.samples.begin(), taken_end);
    sampleAll(*impl_, sampling, places, path.samples);
    alignSigns(path.samples, taken);
    // What was the last sample of what is taken over has a new neighbour.
    if (sampling.rates == Rates::ForEye)
        ratesFromNeighbours(path.samples, taken > 0 ? taken - 1 : 0);
    return path;
}

std::vector<path::Sample> Solution::sampleTimes(const std::vector<double>& times_s) const {
    std::vector<path::Sample> out;
    if (!impl_ || impl_->flight.segments.empty()) return out;
    const std::vector<Segment>& segments = impl_->flight.segments;
    std::vector<Place> places;
    places.reserve(times_s.size());
    std::size_t i = 0;
    for (const double t : times_s) {
        while (i + 1 < segments.size() && segments[i].stop_s < t) ++i;
        places.push_back({i, std::clamp(t, segments[i].start_s, segments[i].stop_s)});
    }
    sampleAll(*impl_, Sampling(), places, out);
    alignSigns(out, 0);
    return out;
}

}  // namespace plumbline::fly
