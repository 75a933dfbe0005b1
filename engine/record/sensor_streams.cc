#include "engine/record/sensor_streams.h"

#include <algorithm>

#include "engine/record/gather_sensors.h"

namespace plumbline::record {

namespace {

// chosen: fewer are no flight
constexpr std::size_t kFewestSamples = 200;

}  // namespace

estimate::Streams inertialStreams(const SensorLog& sensors, double zero_s) {
    if (sensors.rate_I_radps.size() < kFewestSamples ||
        sensors.force_I_mps2.size() < kFewestSamples)
        return {};
    estimate::Streams streams;
    Follower<Vec3> force(sensors.force_I_mps2);
    const double from_s = sensors.force_I_mps2.clock_s.front();
    const double to_s = sensors.force_I_mps2.clock_s.back();
    for (std::size_t i = 0; i < sensors.rate_I_radps.size(); ++i) {
        const double clock_s = sensors.rate_I_radps.clock_s[i];
        if (clock_s < from_s || clock_s > to_s) continue;
        force.go(clock_s);
        // A sensor that is not ready yet gives zeros; a real one never feels nothing at all.
        if (force.linear() == Vec3(0)) continue;
        streams.inertial.time_s.push_back(clock_s - zero_s);
        streams.inertial.rate_I_radps.push_back(sensors.rate_I_radps.values[i]);
        streams.inertial.force_I_mps2.push_back(force.linear());
    }
    const Series<double>& heights = sensors.pressure_height_m;
    for (std::size_t i = 0; i < heights.size(); ++i)
        streams.pressure_height_m.push_back({heights.clock_s[i] - zero_s, heights.values[i]});
    for (std::size_t i = 0; i < sensors.field_I.size(); ++i)
        streams.field.push_back({sensors.field_I.clock_s[i] - zero_s, sensors.field_I.values[i]});
    const Series<double>& air = sensors.airspeed_mps;
    if (!sensors.airspeed_indicated)
        for (std::size_t i = 0; i < air.size(); ++i)
            streams.airspeed_mps.push_back({air.clock_s[i] - zero_s, air.values[i]});
    return streams;
}

void appendSamples(const estimate::Solution& solution, const Quat& q_BI,
                   std::vector<path::Sample>& samples) {
    Vec3 rate_I_radps(0), force_I_mps2(0);
    double passed = 0;
    if (!solution.states.empty()) {  // growing would hold hours of them three times
        const double length_s = solution.time_s.back() - solution.time_s.front();
        const auto most = static_cast<std::size_t>(length_s / kPathStep_s) + 2;
        samples.reserve(samples.size() + std::min(most, solution.states.size()));
    }
    for (std::size_t i = 0; i < solution.states.size(); ++i) {
        const double t = solution.time_s[i];
        const estimate::State& state = solution.states[i];
        rate_I_radps += state.rate_I_radps;
        force_I_mps2 += state.force_I_mps2;
        passed += 1;
        if (!samples.empty() && t - samples.back().time_s < kPathStep_s) continue;
        path::Sample sample;
        sample.time_s = t;
        sample.position_S_m = state.position_S_m;
        sample.velocity_S_mps = state.velocity_S_mps;
        sample.q_SB = state.q_SI * glm::conjugate(q_BI);
        sample.rate_B_radps = rotate(q_BI, rate_I_radps / passed);
        sample.specific_force_B_mps2 = rotate(q_BI, force_I_mps2 / passed);
        rate_I_radps = force_I_mps2 = Vec3(0);
        passed = 0;
        sample.attitude_sigma_rad = state.attitude_sigma_rad;
        sample.position_sigma_m = state.position_sigma_m;
        samples.push_back(sample);
    }
}

bool forcesAreOfTheBody(const SensorLog& sensors) {
    const Series<Vec3>& force = sensors.force_I_mps2;
    const Series<Quat>& q = sensors.q_EB;
    if (force.size() < q.size() / 2 || force.size() < kFewestSamples) return false;
    Vec3 sum(0);
    for (const Vec3& v : force.values) sum += v;
    const double size = glm::length(sum) / static_cast<double>(force.size());
    // chosen: on average it presses the pilot into the seat, with about gravity's size
    return -sum.z > 0.8 * glm::length(sum) && size > 0.5 * kGravity_mps2;
}

void noteIfUnsure(ImportedTrack& track) {
    std::size_t unsure = 0;
    for (const path::Sample& sample : track.path.samples)
        unsure += path::attitudeShown(track.path, sample) ? 0 : 1;
    if (2 * unsure < track.path.samples.size()) return;
    track.path.known.attitude = track.path.known.bank = false;
    track.notes.push_back(
        "The attitude is too unsure to be shown: the sensors and the fixes tell too little.");
}

}  // namespace plumbline::record
