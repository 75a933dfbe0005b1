#include "engine/record/sensor_path.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/earth/atmosphere.h"
#include "engine/estimate/mounting.h"
#include "engine/record/clock_match.h"
#include "engine/record/coverage.h"
#include "engine/record/curve_fit.h"
#include "engine/record/gather_sensors.h"
#include "engine/record/join_fixes.h"
#include "engine/record/placeless_path.h"
#include "engine/record/sensor_streams.h"
#include "engine/record/track_path.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

// chosen: a box is set square by eye to within two degrees, as are its sensors in it
constexpr double kSquareSlack_rad = 1 * kPi / 180;
// chosen: where forward is found from the path, incidence and drift are in it
constexpr double kAnywaySlack_rad = 3 * kPi / 180;

class SensorPath {
public:
    SensorPath(const FixLog& fixes, Gathered& sensors, const Wishes& wishes)
        : wishes_(wishes),
          log_(fixes),
          gathered_(sensors),
          sensors_(sensors.sensors),
          track_(startTrack(fixes)),
          positions_S_m_(positionsOf(fixes)) {}

    /// False when the clocks cannot be brought together.
    bool matchClocks();
    /// An indicated airspeed made a true one, with the height of the fix before.
    void makeAirspeedTrue();
    bool fromAttitude();
    bool fromSensors();
    ImportedTrack take();

private:
    double startClock() const { return log_.fixes.front().clock_s; }
    void note(std::string sentence) { track_.notes.push_back(std::move(sentence)); }
    /// True where the airspeed reaches over all of them.
    bool addAirspeed(std::vector<path::Sample>& samples) const;

    const Wishes& wishes_;
    const FixLog& log_;
    Gathered& gathered_;
    SensorLog& sensors_;
    ImportedTrack track_;
    std::vector<Vec3> positions_S_m_;
    double first_s_ = 0;  ///< of the path, from the first fix
    std::vector<double> rejected_fixes_s_, rejected_heights_s_;
};

ImportedTrack SensorPath::take() {
    if (track_.streams.empty()) track_.streams = coverageOf(log_.fixes, sensors_, startClock());
    for (StreamCoverage& stream : track_.streams) {
        if (stream.name == "Places") stream.rejected_s = std::move(rejected_fixes_s_);
        if (stream.name == "Pressure") stream.rejected_s = std::move(rejected_heights_s_);
        shiftTimes(stream, -first_s_);
    }
    return std::move(track_);
}

bool SensorPath::matchClocks() {
    const auto spanOf = [](const std::vector<double>& t) {
        return t.empty() ? std::pair(1e300, -1e300) : std::pair(t.front(), t.back());
    };
    const auto& timed =
        sensors_.rate_I_radps.size() > 0 ? sensors_.rate_I_radps.clock_s : sensors_.q_EB.clock_s;
    const auto [from_s, to_s] = spanOf(timed);
    const double shared_s =
        std::min(to_s, log_.fixes.back().clock_s) - std::max(from_s, log_.fixes.front().clock_s);
    const double shorter_s =
        std::min(to_s - from_s, log_.fixes.back().clock_s - log_.fixes.front().clock_s);
    // chosen: files of one recorder share most of their time
    if (gathered_.clock == log_.clock && shared_s > 0.3 * shorter_s) return true;
    const std::optional<ClockMatch> match =
        record::matchClocks(sensors_.force_I_mps2, log_.fixes, positions_S_m_);
    if (!match) return false;
    const auto shift = [&](auto& series) {
        for (double& t : series.clock_s) t += match->offset_s;
    };
    shift(sensors_.rate_I_radps);
    shift(sensors_.force_I_mps2);
    shift(sensors_.field_I);
    shift(sensors_.pressure_height_m);
    shift(sensors_.airspeed_mps);
    shift(sensors_.q_EB);
    note("The clock of " + gathered_.file + " was brought to that of " + log_.file + " by " +
         formatFixed(match->offset_s, 1) + " s: there the loads felt follow from the path (" +
         formatFixed(100 * match->likeness, 0) + " % alike).");
    return true;
}

void SensorPath::makeAirspeedTrue() {
    if (!sensors_.airspeed_indicated) return;
    Series<double>& air = sensors_.airspeed_mps;
    const double sea_level_m = log_.geodetic ? log_.fixes.front().place.elevation_m : 0;
    std::size_t fix = 0;
    for (std::size_t i = 0; i < air.size(); ++i) {
        while (fix + 1 < log_.fixes.size() && log_.fixes[fix + 1].clock_s <= air.clock_s[i]) ++fix;
        // simplified: the standard day's density; a day 15 K warmer makes it 2.5 % low
        const double height_m = std::clamp(sea_level_m + positions_S_m_[fix].z, -1000.0, 15000.0);
        air.values[i] *=
            std::sqrt(earth::kSeaLevelDensity_kgpm3 / earth::standardAir(height_m).density_kgpm3);
    }
    sensors_.airspeed_indicated = false;
}

bool SensorPath::addAirspeed(std::vector<path::Sample>& samples) const {
    const Series<double>& air = sensors_.airspeed_mps;
    if (air.size() < 2) return false;
    Follower<double> airspeed(air);
    for (path::Sample& sample : samples) {
        airspeed.go(sample.time_s + startClock());
        sample.airspeed_mps = std::max(0.0, airspeed.linear());
    }
    // chosen: a few seconds without are bridged
    const double first_s = samples.front().time_s + startClock();
    const double last_s = samples.back().time_s + startClock();
    return air.clock_s.front() < first_s + 3 && air.clock_s.back() > last_s - 3;
}

bool SensorPath::fromAttitude() {
    const Series<Quat>& q = sensors_.q_EB;
    if (q.size() < kFewestSamples / 4) return false;
    // Places between fixes by their cubics.
    path::Path course;
    for (std::size_t i = 0; i < log_.fixes.size(); ++i) {
        path::Sample sample;
        sample.time_s = log_.fixes[i].clock_s - startClock();
        sample.position_S_m = positions_S_m_[i];
        course.samples.push_back(sample);
    }
    Accelerations accelerations;
    differentiate(course.samples, &accelerations);
    Series<Vec3> acceleration;
    for (std::size_t i = 0; i < log_.fixes.size(); ++i) {
        if (log_.fixes[i].has_velocity && log_.fixes[i].has_vertical_velocity)
            course.samples[i].velocity_S_mps = log_.fixes[i].velocity_E_mps;
        acceleration.add(log_.fixes[i].clock_s, accelerations.value_S_mps2[i]);
    }
    Follower<Vec3> curve(acceleration);
    const bool felt = forcesAreOfTheBody(sensors_);
    std::size_t next_force = 0;
    Follower<Quat> attitude(q);
    std::vector<path::Sample>& samples = track_.path.samples;
    for (std::size_t i = 0; i < q.size(); ++i) {
        const double clock_s = q.clock_s[i], t = clock_s - startClock();
        if (t < 0 || t > course.duration_s()) continue;
        if (!samples.empty() && t - samples.back().time_s < kPathStep_s) continue;
        path::Sample sample = path::sampleAt(course, t);
        sample.time_s = t;
        sample.q_SB = q.values[i];
        curve.go(clock_s);
        sample.specific_force_B_mps2 =
            unrotate(sample.q_SB, curve.linear() + Vec3(0, 0, kGravity_mps2));
        // What was felt since the last sample is surer than what the curve tells.
        Vec3 sum(0);
        double count = 0;
        const Series<Vec3>& force = sensors_.force_I_mps2;
        for (; felt && next_force < force.size() && force.clock_s[next_force] <= clock_s;
             ++next_force) {
            sum += force.values[next_force];
            count += 1;
        }
        if (count > 0) sample.specific_force_B_mps2 = sum / count;
        samples.push_back(sample);
    }
    if (samples.size() < 2) return false;
    const double first_s = samples.front().time_s;
    const bool airspeed = addAirspeed(samples);
    ratesFromAttitudes(samples);
    for (path::Sample& sample : samples) sample.time_s -= first_s;
    track_.path.clock_offset_s += first_s;
    first_s_ = first_s;
    // chosen: slower fixes cut corners off the load
    track_.path.known = {
        true,  true,  airspeed, static_cast<double>(acceleration.size()) > 4 * course.duration_s(),
        false, false, false};
    note("The attitude is the one that the log brings; how sure it is the log does not tell.");
    return true;
}

bool SensorPath::fromSensors() {
    if (sensors_.rate_I_radps.size() < kFewestSamples ||
        sensors_.force_I_mps2.size() < kFewestSamples)
        return false;
    const double zero_s = startClock();
    track_.streams = coverageOf(log_.fixes, sensors_, zero_s);
    estimate::Streams streams = inertialStreams(sensors_, zero_s);
    for (std::size_t i = 0; i < log_.fixes.size(); ++i) {
        const Fix& fix = log_.fixes[i];
        estimate::GnssFix made;
        made.time_s = fix.clock_s - zero_s;
        made.position_S_m = positions_S_m_[i];
        made.velocity_S_mps = fix.velocity_E_mps;
        made.has_velocity = fix.has_velocity;
        made.has_vertical_velocity = fix.has_vertical_velocity;
        // chosen: a receiver that tells less than this counts its own noise only
        if (fix.horizontal_sigma_m > 0)
            made.horizontal_sigma_m = std::max(0.5F, fix.horizontal_sigma_m);
        if (fix.vertical_sigma_m > 0) made.vertical_sigma_m = std::max(0.8F, fix.vertical_sigma_m);
        streams.gnss.push_back(made);
    }
    std::vector<path::Sample>& samples = track_.path.samples;
    SampleMaker maker(samples);
    estimate::MountingSearch search;
    estimate::Work work;
    work.progress = [this](double share) {
        wishes_.tell(0.2 + 0.7 * share, "finding attitude and path");
    };
    work.run = wishes_.run;
    work.at_once = wishes_.at_once;
    work.take = [&](double time_s, const estimate::State& state) {
        maker.add(time_s, state);
        search.add(state, true);
    };
    if (!streams.inertial.time_s.empty()) {  // growing would hold hours of them three times
        const auto& t = streams.inertial.time_s;
        const auto most = static_cast<std::size_t>((t.back() - t.front()) / kPathStep_s) + 2;
        samples.reserve(std::min(most, t.size()));
    }
    const estimate::Solution solution = estimate::smooth(streams, {}, work);
    streams = {};
    if (samples.size() < 2 || !solution.has_position) {
        samples.clear();
        return false;
    }
    rejected_fixes_s_ = solution.gnss_rejected_s;
    rejected_heights_s_ = solution.heights_rejected_s;

    estimate::Mounting mounting = search.find();
    const bool stated = wishes_.q_BI.has_value();
    if (stated) {
        mounting.q_BI = *wishes_.q_BI;
        mounting.known = true;
    }
    maker.turnToBody(mounting.q_BI);
    // How the box sits adds to how surely the sensors' own attitude is known.
    const double slack_rad = mounting.square || stated ? kSquareSlack_rad : kAnywaySlack_rad;
    for (path::Sample& sample : samples)
        sample.attitude_sigma_rad = static_cast<float>(
            std::hypot(static_cast<double>(sample.attitude_sigma_rad), slack_rad));
    const bool airspeed = addAirspeed(samples);
    const double first_s = samples.front().time_s;
    for (path::Sample& sample : samples) sample.time_s -= first_s;
    track_.path.clock_offset_s += first_s;
    first_s_ = first_s;
    track_.path.known = {true, true, airspeed, true, false, false, false};
    noteIfUnsure(track_);

    const estimate::Calibration& c = solution.calibration;
    note("The attitude was estimated from rates, forces and fixes, looking at the whole flight.");
    note("Found: rate bias " + formatFixed(c.rate_bias_start_radps.x / units::kDegree_rad, 2) +
         ", " + formatFixed(c.rate_bias_start_radps.y / units::kDegree_rad, 2) + ", " +
         formatFixed(c.rate_bias_start_radps.z / units::kDegree_rad, 2) + " deg/s; fixes " +
         formatFixed(c.gnss_latency_s, 2) + " s late.");
    if (solution.gnss_rejected + solution.heights_rejected > 0)
        note(std::to_string(solution.gnss_rejected) + " fixes and " +
             std::to_string(solution.heights_rejected) +
             " pressure heights did not fit the rest and were let go.");
    // chosen: a wind that is off by more helps nobody
    if (solution.airspeed_used && solution.wind_sigma_mps < 2) {
        const Vec3& wind = solution.wind_S_mps;
        note("Airspeed and fixes together: wind on average from " +
             formatFixed(headingOf(-wind, kPi / 2) / units::kDegree_rad, 0) + " deg, " +
             formatFixed(glm::length(wind), 0) + " m/s, to within " +
             formatFixed(std::max(1.0, std::ceil(2 * solution.wind_sigma_mps)), 0) + " m/s.");
    }
    if (solution.unsolved_s > 0)
        note("For " + formatFixed(solution.unsolved_s / 60, 0) +
             " minutes nothing could be found that fits all sensors; they are left out.");
    if (!mounting.known) {
        track_.path.known.bank = track_.path.known.attitude = false;
        note("How the sensors sit in the aircraft could not be told: too little motion.");
    } else if (stated) {
        note("The sensors sit in the aircraft as you say.");
    } else {
        note(mounting.square
                 ? "The sensors sit square in the aircraft."
                 : "The sensors sit " +
                       formatFixed(mounting.off_square_rad / units::kDegree_rad, 0) +
                       " deg off square; forward is where the aircraft goes on average.");
    }
    return true;
}

}  // namespace

Expected<ImportedTrack, Problems> pathFromSensors(std::vector<FixLog> logs, const Wishes& wishes) {
    Expected<Gathered, Problems> gathered = gatherSensors(logs);
    if (!gathered) return Unexpected(std::move(gathered).error());
    if (std::all_of(logs.begin(), logs.end(), [](const FixLog& log) { return log.fixes.empty(); }))
        return pathWithoutPlace(std::move(*gathered), wishes);
    Expected<FixLog, Problems> joined = joinFixes(logs);
    if (!joined) return Unexpected(std::move(joined).error());
    SensorPath maker(*joined, *gathered, wishes);
    Problem left;
    left.where.file = gathered->file;
    if (!maker.matchClocks()) {
        left.what = "its sensors cannot be brought to the clock of " + joined->file;
        left.remedy = "only the path is used; give logs that share a clock or more of the flight";
    } else if (maker.makeAirspeedTrue(); maker.fromAttitude() || maker.fromSensors()) {
        ImportedTrack track = maker.take();
        track.warnings.insert(track.warnings.end(), gathered->warnings.begin(),
                              gathered->warnings.end());
        warnOfDepth(*joined, track);
        return track;
    } else {
        left.what = "its sensors are too few or too short for an attitude";
        left.remedy = "only the path is used";
    }
    Expected<ImportedTrack, Problems> track = trackFromLogs(std::move(logs));
    if (!track) return track;
    track->warnings.push_back(left);
    return track;
}

}  // namespace plumbline::record
