#include "engine/record/sensor_streams.h"

#include <algorithm>

#include "engine/record/gather_sensors.h"

namespace plumbline::record {

estimate::Streams inertialStreams(SensorLog& sensors, double zero_s) {
    if (sensors.rate_I_radps.size() < kFewestSamples ||
        sensors.force_I_mps2.size() < kFewestSamples)
        return {};
    estimate::Streams streams;
    std::vector<double>& time_s = streams.inertial.time_s;
    std::vector<Vec3>& rate = streams.inertial.rate_I_radps;
    std::vector<Vec3>& force = streams.inertial.force_I_mps2;
    const double from_s = sensors.force_I_mps2.clock_s.front();
    const double to_s = sensors.force_I_mps2.clock_s.back();
    time_s = std::move(sensors.rate_I_radps.clock_s);
    rate = std::move(sensors.rate_I_radps.values);
    if (sensors.force_I_mps2.clock_s == time_s) {
        force = std::move(sensors.force_I_mps2.values);
    } else {
        Follower<Vec3> follower(sensors.force_I_mps2);
        force.reserve(time_s.size());
        for (const double clock_s : time_s) {
            follower.go(clock_s);
            force.push_back(follower.linear());
        }
    }
    sensors.rate_I_radps = sensors.force_I_mps2 = {};
    std::size_t kept = 0;
    for (std::size_t i = 0; i < time_s.size(); ++i) {
        // A sensor that is not ready yet gives zeros; a real one never feels nothing at all.
        if (time_s[i] < from_s || time_s[i] > to_s || force[i] == Vec3(0)) continue;
        time_s[kept] = time_s[i] - zero_s;
        rate[kept] = rate[i];
        force[kept] = force[i];
        ++kept;
    }
    time_s.resize(kept);
    rate.resize(kept);
    force.resize(kept);
    const Series<double>& heights = sensors.pressure_height_m;
    for (std::size_t i = 0; i < heights.size(); ++i)
        streams.pressure_height_m.push_back({heights.clock_s[i] - zero_s, heights.values[i]});
    for (std::size_t i = 0; i < sensors.field_I.size(); ++i)
        streams.field.push_back({sensors.field_I.clock_s[i] - zero_s, sensors.field_I.values[i]});
    sensors.field_I = {};
    const Series<double>& air = sensors.airspeed_mps;
    if (!sensors.airspeed_indicated)
        for (std::size_t i = 0; i < air.size(); ++i)
            streams.airspeed_mps.push_back({air.clock_s[i] - zero_s, air.values[i]});
    return streams;
}

void SampleMaker::add(double time_s, const estimate::State& state) {
    rate_I_radps_ += state.rate_I_radps;
    force_I_mps2_ += state.force_I_mps2;
    passed_ += 1;
    if (!samples_.empty() && time_s - samples_.back().time_s < kPathStep_s) return;
    path::Sample sample;
    sample.time_s = time_s;
    sample.position_S_m = state.position_S_m;
    sample.velocity_S_mps = state.velocity_S_mps;
    sample.q_SB = state.q_SI;
    sample.rate_B_radps = rate_I_radps_ / passed_;
    sample.specific_force_B_mps2 = force_I_mps2_ / passed_;
    rate_I_radps_ = force_I_mps2_ = Vec3(0);
    passed_ = 0;
    sample.attitude_sigma_rad = state.attitude_sigma_rad;
    sample.position_sigma_m = state.position_sigma_m;
    samples_.push_back(sample);
}

void SampleMaker::turnToBody(const Quat& q_BI) {
    for (path::Sample& sample : samples_) {
        sample.q_SB = sample.q_SB * glm::conjugate(q_BI);
        sample.rate_B_radps = rotate(q_BI, sample.rate_B_radps);
        sample.specific_force_B_mps2 = rotate(q_BI, sample.specific_force_B_mps2);
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
