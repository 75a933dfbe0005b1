#include "engine/record/placeless_path.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/estimate/smoother.h"
#include "engine/record/clock_text.h"
#include "engine/record/coverage.h"
#include "engine/record/curve_fit.h"
#include "engine/record/sensor_streams.h"
#include "engine/record/track_path.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

// chosen: fewer are no flight
constexpr std::size_t kFewest = 50;
// chosen: pressure heights scatter by half a metre; over so much to either side they are a climb
constexpr double kHeightHalf_s = 0.5;

bool attitudesOf(const SensorLog& sensors, double zero_s, std::vector<path::Sample>& samples) {
    const Series<Quat>& q = sensors.q_EB;
    if (q.size() < kFewest) return false;
    for (std::size_t i = 0; i < q.size(); ++i) {
        if (!samples.empty() && q.clock_s[i] - zero_s - samples.back().time_s < kPathStep_s)
            continue;
        path::Sample sample;
        sample.time_s = q.clock_s[i] - zero_s;
        sample.q_SB = q.values[i];
        samples.push_back(sample);
    }
    ratesFromAttitudes(samples);
    return samples.size() > 1;
}

/// Forces of the body's axes at the samples, as means since the one before.
void addForces(const Series<Vec3>& force, double zero_s, std::vector<path::Sample>& samples) {
    std::size_t next = 0;
    Vec3 last(0);
    for (path::Sample& sample : samples) {
        Vec3 sum(0);
        double count = 0;
        for (; next < force.size() && force.clock_s[next] - zero_s <= sample.time_s; ++next) {
            sum += force.values[next];
            count += 1;
        }
        if (count > 0) last = sum / count;
        sample.specific_force_B_mps2 = last;
    }
}

void addHeights(const Series<double>& height, double zero_s, std::vector<path::Sample>& samples) {
    std::size_t from = 0, to = 0;
    double first_m = 0, sum = 0;
    bool first = true;
    for (path::Sample& sample : samples) {
        const double clock_s = sample.time_s + zero_s;
        for (; to < height.size() && height.clock_s[to] <= clock_s + kHeightHalf_s; ++to)
            sum += height.values[to];
        for (; from < to && height.clock_s[from] < clock_s - kHeightHalf_s; ++from)
            sum -= height.values[from];
        double z_m = &sample == samples.data() ? 0 : (&sample - 1)->position_S_m.z;
        if (to > from) {
            const double mean_m = sum / static_cast<double>(to - from);
            if (first) first_m = mean_m;
            first = false;
            z_m = mean_m - first_m;
        }
        sample.position_S_m.z = z_m;
    }
    differentiate(samples, nullptr);
}

}  // namespace

Expected<ImportedTrack, Problems> pathWithoutPlace(Gathered all, const Wishes& wishes) {
    SensorLog& sensors = all.sensors;
    ImportedTrack track;
    track.kind = all.kind;
    track.path.origin = path::Origin::Recording;
    track.path.name = all.file;
    track.path.show_line_bearing_rad = kPi / 2;
    track.warnings = all.warnings;
    std::vector<path::Sample>& samples = track.path.samples;
    const bool brought = sensors.q_EB.size() >= kFewest;
    const double zero_s = brought                           ? sensors.q_EB.clock_s.front()
                          : sensors.rate_I_radps.size() > 0 ? sensors.rate_I_radps.clock_s.front()
                                                            : 0;
    bool north = true, load = true;
    if (brought && attitudesOf(sensors, zero_s, samples)) {
        track.notes.push_back(
            "The attitude is the one that the log brings; how sure it is the log does not tell.");
        load = forcesAreOfTheBody(sensors);
        if (load) addForces(sensors.force_I_mps2, zero_s, samples);
    } else {
        track.streams = coverageOf({}, sensors, zero_s);
        estimate::Work work;
        work.progress = [&](double share) { wishes.tell(share, "finding the attitude"); };
        work.run = wishes.run;
        work.at_once = wishes.at_once;
        const estimate::Solution solution =
            estimate::smooth(inertialStreams(sensors, zero_s), {}, work);
        if (solution.states.empty())
            return failure(problem({all.file, 0, 0},
                                   "no place in this recording, and its sensors are too few or too "
                                   "short for an attitude",
                                   "give the log with positions too: several files of one flight "
                                   "are joined"),
                           all.warnings);
        north = solution.has_heading;
        SampleMaker maker(samples);
        for (std::size_t i = 0; i < solution.states.size(); ++i)
            maker.add(solution.time_s[i], solution.states[i]);
        maker.turnToBody(wishes.q_BI.value_or(Quat(1, 0, 0, 0)));
        for (path::Sample& sample : samples) sample.position_S_m = sample.velocity_S_mps = Vec3(0);
        if (!north) {  // only what leans counts: no direction is claimed
            std::size_t at = 0;
            for (path::Sample& sample : samples) {
                while (solution.time_s[at] < sample.time_s) ++at;
                sample.attitude_sigma_rad = solution.states[at].tilt_sigma_rad;
            }
        }
        track.notes.push_back("The attitude was estimated from rates and forces alone.");
        if (!wishes.q_BI)
            track.notes.push_back(
                "Without places the flight does not tell how the sensors sit: x is taken to point "
                "forward and z down; say it if it is otherwise.");
    }
    for (path::Sample& sample : samples) sample.position_sigma_m = 0;
    if (sensors.pressure_height_m.size() > 1)
        addHeights(sensors.pressure_height_m, zero_s, samples);
    track.notes.push_back(
        sensors.pressure_height_m.size() > 1
            ? "There is no place in this recording: the aircraft turns where it stands, and its "
              "height is that of the pressure above the first."
            : "There is no place in this recording: the aircraft turns where it stands.");
    if (!north)
        track.notes.push_back(
            "Headings count from an unknown direction and wander slowly: nothing tells north.");
    const double first_s = samples.front().time_s;
    for (path::Sample& sample : samples) sample.time_s -= first_s;
    const double start_s = zero_s + first_s;
    if (track.streams.empty()) track.streams = coverageOf({}, sensors, zero_s);
    for (StreamCoverage& stream : track.streams) shiftTimes(stream, -first_s);
    track.path.clock_offset_s = start_s;
    if (all.clock == Clock::Utc) {
        track.path.clock_offset_s = start_s - 86400 * std::floor(start_s / 86400);
        track.start_utc = formatUtc(start_s);
    }
    track.path.known = {true, true, false, load, false, false, false, load, false};
    if (!brought) noteIfUnsure(track);
    return track;
}

}  // namespace plumbline::record
