#include "engine/estimate/smoother.h"

#include <algorithm>
#include <cmath>

#include "engine/estimate/flight_fit.h"

namespace plumbline::estimate {

namespace {

// chosen: memory for a part of this length is some 100 MB at 200 samples a second, and sensors
// change little in it
constexpr double kPart_s = 1200;
constexpr double kOverlap_s = 60;
// chosen: what rates and forces bridge well before the first fix and behind the last
constexpr double kBeyondFixes_s = 2;

template <class T>
void copySpan(const std::vector<T>& from, double start_s, double stop_s, std::vector<T>& to) {
    const auto before = [](const T& item, double time_s) { return item.time_s < time_s; };
    const auto first = std::lower_bound(from.begin(), from.end(), start_s, before);
    to.assign(first, std::lower_bound(first, from.end(), stop_s, before));
}

Streams span(const Streams& all, double start_s, double stop_s) {
    Streams part;
    const auto& t = all.inertial.time_s;
    const auto first = std::lower_bound(t.begin(), t.end(), start_s) - t.begin();
    const auto last = std::lower_bound(t.begin(), t.end(), stop_s) - t.begin();
    part.inertial.time_s.assign(t.begin() + first, t.begin() + last);
    part.inertial.rate_I_radps.assign(all.inertial.rate_I_radps.begin() + first,
                                      all.inertial.rate_I_radps.begin() + last);
    part.inertial.force_I_mps2.assign(all.inertial.force_I_mps2.begin() + first,
                                      all.inertial.force_I_mps2.begin() + last);
    copySpan(all.gnss, start_s, stop_s, part.gnss);
    copySpan(all.pressure_height_m, start_s, stop_s, part.pressure_height_m);
    copySpan(all.field, start_s, stop_s, part.field);
    copySpan(all.airspeed_mps, start_s, stop_s, part.airspeed_mps);
    return part;
}

State between(const State& a, const State& b, double u) {
    State s = u < 0.5 ? a : b;
    s.q_SI = glm::slerp(a.q_SI, b.q_SI, u);
    s.position_S_m = (1 - u) * a.position_S_m + u * b.position_S_m;
    s.velocity_S_mps = (1 - u) * a.velocity_S_mps + u * b.velocity_S_mps;
    return s;
}

/// Without a north each part starts at an angle of its own: turn the next one to meet the last.
void turnToMeet(const State& met, std::vector<State>& states, const State& at) {
    const Quat e = met.q_SI * glm::conjugate(at.q_SI);
    const Quat turn = rotationZ(2 * std::atan2(e.z, e.w));
    for (State& s : states) {
        s.q_SI = turn * s.q_SI;
        s.velocity_S_mps = rotate(turn, s.velocity_S_mps);
        s.position_S_m = rotate(turn, s.position_S_m);
    }
}

/// Hands on the first states, which are final, and gives their memory back.
void hand(Solution& all, std::size_t count, const Work& work) {
    for (std::size_t i = 0; i < count; ++i) work.take(all.time_s[i], all.states[i]);
    const auto n = static_cast<std::ptrdiff_t>(count);
    all.time_s = std::vector<double>(all.time_s.begin() + n, all.time_s.end());
    all.states = std::vector<State>(all.states.begin() + n, all.states.end());
}

void append(Solution& all, Solution part, const Work& work) {
    // Both hold the overlap, sample for sample: fade from one to the other.
    const auto& t = all.time_s;
    const std::size_t shared = static_cast<std::size_t>(
        t.end() - std::lower_bound(t.begin(), t.end(), part.time_s.front()));
    const std::size_t first = t.size() - shared;
    if (!part.has_heading && shared > 0)
        turnToMeet(all.states[first + shared / 2], part.states, part.states[shared / 2]);
    for (std::size_t i = 0; i < shared && i < part.states.size(); ++i) {
        const double u = static_cast<double>(i + 1) / static_cast<double>(shared + 1);
        part.states[i] = between(all.states[first + i], part.states[i], u);
    }
    if (work.take) {
        hand(all, first, work);
        all.time_s = std::move(part.time_s);
        all.states = std::move(part.states);
    } else {
        all.time_s.resize(first);
        all.states.resize(first);
        all.time_s.insert(all.time_s.end(), part.time_s.begin(), part.time_s.end());
        all.states.insert(all.states.end(), part.states.begin(), part.states.end());
    }
    all.calibration.rate_bias_stop_radps = part.calibration.rate_bias_stop_radps;
    all.has_position = all.has_position && part.has_position;
    all.has_heading = all.has_heading && part.has_heading;
    all.field_used = all.field_used && part.field_used;
    all.airspeed_used = all.airspeed_used || part.airspeed_used;
    // of several parts the surest wind stands for all
    if (part.wind_sigma_mps > 0 &&
        (all.wind_sigma_mps <= 0 || part.wind_sigma_mps < all.wind_sigma_mps)) {
        all.wind_S_mps = part.wind_S_mps;
        all.wind_sigma_mps = part.wind_sigma_mps;
    }
    const auto join = [](std::vector<double>& to, const std::vector<double>& more) {
        // the overlap's are told by both parts
        for (const double time_s : more)
            if (to.empty() || time_s > to.back()) to.push_back(time_s);
    };
    join(all.gnss_rejected_s, part.gnss_rejected_s);
    join(all.heights_rejected_s, part.heights_rejected_s);
    all.gnss_rejected = all.gnss_rejected_s.size();
    all.heights_rejected = all.heights_rejected_s.size();
}

/// Of what is there, all that the next part does not reach.
void handBefore(Solution& all, double before_s, const Work& work) {
    const auto& t = all.time_s;
    if (work.take)
        hand(all,
             static_cast<std::size_t>(std::lower_bound(t.begin(), t.end(), before_s) - t.begin()),
             work);
}

/// Parts of a recording, each overlapping the next.
struct Parts {
    double from_s = 0, to_s = 0;
    std::size_t count = 1;

    double start_s(std::size_t i) const {
        return from_s + (to_s - from_s) * static_cast<double>(i) / static_cast<double>(count);
    }
    double stop_s(std::size_t i) const {
        return i + 1 >= count ? to_s : start_s(i + 1) + kOverlap_s;
    }
};

}  // namespace

Solution smooth(const Streams& streams, const Settings& settings, const Work& work) {
    const auto& t = streams.inertial.time_s;
    // chosen: less tells nothing
    if (t.size() < 50 || t.back() - t.front() < 2) return {};
    Parts parts{t.front(), t.back() + 1};
    const bool with_fixes = streams.gnss.size() >= 5;
    if (with_fixes) {
        parts.from_s = std::max(parts.from_s, streams.gnss.front().time_s - kBeyondFixes_s);
        parts.to_s = std::min(parts.to_s, streams.gnss.back().time_s + kBeyondFixes_s);
    }
    const double length_s = parts.to_s - parts.from_s;
    if (length_s < 2) return {};
    if (length_s >= kPart_s + 2 * kOverlap_s)
        parts.count = static_cast<std::size_t>(std::ceil(length_s / kPart_s));
    const auto share = [&](double of_parts) { return of_parts / static_cast<double>(parts.count); };
    Solution all;
    bool begun = false;
    double unsolved_s = 0;
    const std::size_t at_once = std::max<std::size_t>(work.at_once, 1);
    std::vector<Solution> batch;
    for (std::size_t first = 0; first < parts.count; first += batch.size()) {
        batch.clear();
        batch.resize(std::min(at_once, parts.count - first));
        const auto job = [&](std::size_t j) {
            const Streams part = span(streams, parts.start_s(first + j), parts.stop_s(first + j));
            batch[j] = FlightFit(part, settings).run([&](double done) {
                // one part tells for all of the batch
                if (j == 0 && work.progress)
                    work.progress(share(static_cast<double>(first) +
                                        done * static_cast<double>(batch.size())));
            });
        };
        if (work.run)
            work.run(batch.size(), job);
        else
            for (std::size_t j = 0; j < batch.size(); ++j) job(j);
        for (std::size_t j = 0; j < batch.size(); ++j) {
            Solution part = std::move(batch[j]);
            // A hole in the fixes as long as a part leaves nothing to fit; the rest still counts.
            if (part.states.empty() || (!part.has_position && with_fixes)) {
                if (parts.count == 1) return part;
                unsolved_s += length_s / static_cast<double>(parts.count);
                continue;
            }
            if (begun)
                append(all, std::move(part), work);
            else
                all = std::move(part);
            begun = true;
            if (first + j + 1 < parts.count) handBefore(all, parts.start_s(first + j + 1), work);
        }
    }
    handBefore(all, parts.to_s + 1, work);
    all.unsolved_s = unsolved_s;
    return all;
}

}  // namespace plumbline::estimate
