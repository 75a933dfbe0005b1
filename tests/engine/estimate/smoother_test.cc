// Flights of the demo through made-up sensors, and what must not matter.

#include "engine/estimate/smoother.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/units/units.h"
#include "tests/figures/scores.h"
#include "tests/figures/sensor_simulator.h"
#include "tests/property/random_routine.h"

namespace plumbline::estimate {
namespace {

/// Two minutes of the demo, ten samples to each inertial one; a loop, a hammerhead's verticals and
/// rolls are in it.
const path::Path& flown() {
    static const path::Path path = [] {
        const auto work = load::loadDemo();
        path::Path all =
            fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(2000);
        all.samples.resize(std::min<std::size_t>(all.samples.size(), 240001));
        return all;
    }();
    return path;
}

struct Outcome {
    figures::Mean tilt_deg, total_deg, height_m, across_m;
    double in_tilt = 0, in_position = 0;
};

Outcome compare(const Solution& solution, double from_s = 0) {
    Outcome out;
    for (std::size_t i = 0; i < solution.states.size(); ++i) {
        if (solution.time_s[i] < from_s) continue;
        const path::Sample truth = path::sampleAt(flown(), solution.time_s[i]);
        const State& state = solution.states[i];
        const auto e = figures::attitudeError(state.q_SI, truth.q_SB);
        const Vec3 d = state.position_S_m - truth.position_S_m;
        out.tilt_deg.add(e.inclination_rad / units::kDegree_rad);
        out.total_deg.add(e.total_rad / units::kDegree_rad);
        out.height_m.add(d.z);
        out.across_m.add(std::hypot(d.x, d.y));
        out.in_tilt += e.inclination_rad <= 2 * state.tilt_sigma_rad;
        out.in_position += glm::length(d) <= 2 * state.position_sigma_m;
    }
    out.in_tilt /= static_cast<double>(out.tilt_deg.count);
    out.in_position /= static_cast<double>(out.tilt_deg.count);
    return out;
}

TEST(Smoother, ADisplayComesBackFromItsSensors) {
    const Solution solution = smooth(figures::simulateSensors(flown(), {}, 1));
    ASSERT_TRUE(solution.has_position && solution.has_heading);
    const Outcome out = compare(solution);
    EXPECT_LT(out.tilt_deg.rms(), 0.5);
    EXPECT_LT(out.tilt_deg.most, 2);
    EXPECT_LT(out.total_deg.rms(), 1);
    EXPECT_LT(out.height_m.rms(), 2);
    EXPECT_LT(out.across_m.rms(), 3);
    EXPECT_GT(out.in_tilt, 0.9);
    EXPECT_GT(out.in_position, 0.8);  // the fixes' slow error is one draw in two minutes
}

TEST(Smoother, TheSensorsErrorsAreFound) {
    figures::SensorErrors errors;
    errors.gnss_latency_s = 0.15;
    const Streams streams = figures::simulateSensors(flown(), errors, 3);
    const Solution solution = smooth(streams);
    const Calibration& c = solution.calibration;
    for (int a = 0; a < 3; ++a) {
        EXPECT_NEAR(std::abs(c.rate_bias_start_radps[a]) / units::kDegree_rad, 0.4, 0.03);
        EXPECT_NEAR(std::abs(1 / c.rate_gain[a] - 1), 0.005, 0.0015);
    }
    EXPECT_NEAR(c.gnss_latency_s, 0.15, 0.01);
    EXPECT_LT(compare(solution).tilt_deg.rms(), 0.5);
}

TEST(Smoother, MountingDoesNotMatter) {
    Streams streams = figures::simulateSensors(flown(), {}, 2);
    const Quat q_BI = axisAngle(glm::normalize(Vec3(1, -2, 0.5)), 2.1);
    for (Vec3& v : streams.inertial.rate_I_radps) v = unrotate(q_BI, v);
    for (Vec3& v : streams.inertial.force_I_mps2) v = unrotate(q_BI, v);
    Solution solution = smooth(streams);
    for (State& state : solution.states) state.q_SI = state.q_SI * glm::conjugate(q_BI);
    EXPECT_LT(compare(solution).total_deg.rms(), 1);
}

TEST(Smoother, JumpsOfTheFixesAreLetGo) {
    Streams streams = figures::simulateSensors(flown(), {}, 4);
    for (std::size_t i = 40; i < streams.gnss.size(); i += 97)
        streams.gnss[i].position_S_m += Vec3(150, -80, 60);
    streams.gnss[100].position_S_m = Vec3(3e6, 0, 0);
    const Solution solution = smooth(streams);
    EXPECT_GE(solution.gnss_rejected, streams.gnss.size() / 97);
    // and they are named by their times
    for (std::size_t i = 40; i < streams.gnss.size(); i += 97)
        EXPECT_TRUE(std::binary_search(solution.gnss_rejected_s.begin(),
                                       solution.gnss_rejected_s.end(), streams.gnss[i].time_s));
    const Outcome out = compare(solution);
    EXPECT_LT(out.tilt_deg.rms(), 0.5);
    EXPECT_LT(out.across_m.rms(), 4);
}

TEST(Smoother, AnOutageWidensTheBounds) {
    Streams streams = figures::simulateSensors(flown(), {}, 5);
    std::erase_if(streams.gnss,
                  [](const GnssFix& fix) { return fix.time_s > 35 && fix.time_s < 95; });
    const Solution solution = smooth(streams);
    const auto at = [&](double t) { return solution.states[static_cast<std::size_t>(t * 200)]; };
    EXPECT_GT(at(65).position_sigma_m, 1.3 * at(20).position_sigma_m);
    const Outcome out = compare(solution);
    EXPECT_LT(out.tilt_deg.rms(), 0.5);
    EXPECT_GT(out.in_position, 0.8);
}

TEST(Smoother, HolesInTheInertialStreamAreBridged) {
    Streams streams = figures::simulateSensors(flown(), {}, 6);
    auto& inertial = streams.inertial;
    const std::size_t from = 4000, count = 100;  // half a second
    const auto cut = [&](auto& v) {
        v.erase(v.begin() + static_cast<std::ptrdiff_t>(from),
                v.begin() + static_cast<std::ptrdiff_t>(from + count));
    };
    cut(inertial.time_s);
    cut(inertial.rate_I_radps);
    cut(inertial.force_I_mps2);
    EXPECT_LT(compare(smooth(streams), 25).tilt_deg.rms(), 0.6);
}

/// An hour of a circling flight whose sensors are known in closed form: at rest in its own axes,
/// turning once in 40 s with the wings level on a table that moves.
struct Circling {
    double w = 2 * kPi / 40, speed = 20, hz = 50;
    Streams streams;
};
Circling hourOfCircling() {
    Circling made;
    const double w = made.w, speed = made.speed, hz = made.hz;
    Streams& streams = made.streams;
    for (int i = 0; i < 3600 * 50; ++i) {
        const double t = i / hz;
        streams.inertial.time_s.push_back(t);
        streams.inertial.rate_I_radps.push_back({0, 0, w});
        streams.inertial.force_I_mps2.push_back({0, speed * w, kGravity_mps2});
        if (i % 50 != 0) continue;
        GnssFix fix;
        fix.time_s = t;
        fix.position_S_m = {speed / w * std::sin(w * t), -speed / w * std::cos(w * t), 100};
        fix.velocity_S_mps = {speed * std::cos(w * t), speed * std::sin(w * t), 0};
        fix.has_velocity = true;
        streams.gnss.push_back(fix);
    }
    return made;
}

// Smoothed once for both tests of it: under sanitizers it takes half a minute.
const Circling& theHour() {
    static const Circling kHour = hourOfCircling();
    return kHour;
}
const Solution& theHourSmoothed() {
    static const Solution kSolution = smooth(theHour().streams);
    return kSolution;
}

TEST(Smoother, LongRecordingsInPartsAreOneFlight) {
    const Circling& flight = theHour();
    const Streams& streams = flight.streams;
    const double w = flight.w, speed = flight.speed, hz = flight.hz;
    const Solution& solution = theHourSmoothed();
    ASSERT_EQ(solution.states.size(), streams.inertial.size());
    figures::Mean turn_deg, jump_m;
    for (std::size_t i = 1; i < solution.states.size(); ++i) {
        ASSERT_GT(solution.time_s[i], solution.time_s[i - 1]);
        const double t = solution.time_s[i];
        turn_deg.add(figures::attitudeError(solution.states[i].q_SI, rotationZ(w * t)).total_rad /
                     units::kDegree_rad);
        jump_m.add(
            glm::length(solution.states[i].position_S_m - solution.states[i - 1].position_S_m));
    }
    EXPECT_LT(turn_deg.most, 0.5);
    EXPECT_LT(jump_m.most, 1.05 * speed / hz);
}

TEST(Smoother, HowTheWorkIsDoneDoesNotMatter) {
    const Streams& streams = theHour().streams;
    const Solution& whole = theHourSmoothed();
    std::vector<double> time_s;
    std::vector<State> states;
    Work work;
    work.at_once = 3;
    work.run = [](std::size_t count, const std::function<void(std::size_t)>& job) {
        for (std::size_t i = count; i-- > 0;) job(i);
    };
    work.take = [&](double t, const State& state) {
        time_s.push_back(t);
        states.push_back(state);
    };
    const Solution handed = smooth(streams, {}, work);
    EXPECT_TRUE(handed.states.empty());
    EXPECT_TRUE(handed.has_position && handed.has_heading);
    ASSERT_EQ(time_s, whole.time_s);
    for (std::size_t i = 0; i < states.size(); ++i) {
        ASSERT_EQ(states[i].q_SI, whole.states[i].q_SI);
        ASSERT_EQ(states[i].position_S_m, whole.states[i].position_S_m);
        ASSERT_EQ(states[i].attitude_sigma_rad, whole.states[i].attitude_sigma_rad);
    }
}

TEST(Smoother, WithoutFixesTiltIsKnownAndHeadingFollowsTheField) {
    // Turned by hand about where it is: known angles, a clean field of 20 uT north, 45 down.
    Streams streams;
    std::vector<Quat> truth;
    const auto attitude = [](double t) {
        return rotationZ(0.5 + 0.9 * std::sin(0.7 * t)) * rotationY(0.6 * std::sin(1.1 * t)) *
               rotationX(0.8 * std::sin(0.9 * t));
    };
    for (int i = 0; i < 6000; ++i) {
        const double t = 0.01 * i, h = 1e-4;
        // a sample is the mean over the interval before it
        const Quat q = attitude(t - 0.005);
        streams.inertial.time_s.push_back(t);
        streams.inertial.rate_I_radps.push_back(
            vectorFromRotation(glm::conjugate(attitude(t - 0.005 - h)) * attitude(t - 0.005 + h)) /
                (2 * h) +
            Vec3(0.01, -0.02, 0.005));
        streams.inertial.force_I_mps2.push_back(unrotate(q, Vec3(0, 0, kGravity_mps2)));
        streams.field.push_back({t, unrotate(attitude(t), Vec3(0, 20, -45))});
        truth.push_back(attitude(t));
    }
    const Solution solution = smooth(streams);
    ASSERT_EQ(solution.states.size(), truth.size());
    EXPECT_FALSE(solution.has_position);
    EXPECT_TRUE(solution.has_heading);
    figures::Mean heading, tilt;
    for (std::size_t i = 0; i < truth.size(); ++i) {
        const auto e = figures::attitudeError(solution.states[i].q_SI, truth[i]);
        heading.add(e.heading_rad / units::kDegree_rad);
        tilt.add(e.inclination_rad / units::kDegree_rad);
    }
    EXPECT_LT(tilt.rms(), 0.3);
    EXPECT_LT(heading.rms(), 1);
}

TEST(Smoother, AnAerobaticFlightKeepsItsTiltWithInertialSensorsAlone) {
    Streams streams = figures::simulateSensors(flown(), {}, 7);
    streams.gnss.clear();
    streams.pressure_height_m.clear();
    const Solution solution = smooth(streams);
    ASSERT_EQ(solution.states.size(), streams.inertial.size());
    EXPECT_FALSE(solution.has_position || solution.has_heading);
    const Outcome out = compare(solution);
    // Two minutes tell little of where up is; what matters is that the bounds say so.
    EXPECT_LT(out.tilt_deg.rms(), 12);
    EXPECT_GT(out.in_tilt, 0.9);
}

TEST(Smoother, AirspeedTellsTheWind) {
    // Circling in a wind that is known, on wheels of a table that goes with the air: closed form.
    const double w = 2 * kPi / 40, speed = 40, hz = 50, gain = 1.03;
    const Vec3 wind(6, -3, 0);
    Streams streams;
    for (int i = 0; i < 300 * 50; ++i) {
        const double t = i / hz;
        streams.inertial.time_s.push_back(t);
        streams.inertial.rate_I_radps.push_back({0, 0, w});
        streams.inertial.force_I_mps2.push_back({0, speed * w, kGravity_mps2});
        if (i % 5 == 0) streams.airspeed_mps.push_back({t, gain * speed});
        if (i % 50 != 0) continue;
        GnssFix fix;
        fix.time_s = t;
        fix.position_S_m =
            Vec3(speed / w * std::sin(w * t), -speed / w * std::cos(w * t), 100) + t * wind;
        fix.velocity_S_mps = Vec3(speed * std::cos(w * t), speed * std::sin(w * t), 0) + wind;
        fix.has_velocity = true;
        streams.gnss.push_back(fix);
    }
    const Solution solution = smooth(streams);
    ASSERT_TRUE(solution.airspeed_used);
    EXPECT_LT(glm::length(solution.wind_S_mps - wind), 0.1);
    EXPECT_GT(solution.wind_sigma_mps, 0.05);
    EXPECT_LT(solution.wind_sigma_mps, 2);
    EXPECT_NEAR(
        (solution.calibration.airspeed_gain * speed + solution.calibration.airspeed_offset_mps) /
            speed,
        gain, 0.005);
    // with a third of the fixes gone in one hole the airspeed still bounds the speed
    std::erase_if(streams.gnss,
                  [](const GnssFix& fix) { return fix.time_s > 100 && fix.time_s < 200; });
    const Solution hole = smooth(streams);
    EXPECT_LT(glm::length(hole.wind_S_mps - wind), 0.5);
}

TEST(Smoother, TellsHowFarItIs) {
    const Streams streams = figures::simulateSensors(flown(), {}, 1);
    double last = 0;
    int calls = 0;
    Work work;
    work.progress = [&](double share) {
        EXPECT_GE(share, last);
        last = share;
        ++calls;
    };
    smooth(streams, {}, work);
    EXPECT_EQ(last, 1);
    EXPECT_GT(calls, 3);
}

TEST(Smoother, AbsurdNumbersGiveNumbersOrNothing) {
    for (std::uint64_t draw = 1; draw <= 40; ++draw) {
        test::Random random(draw);
        const auto number = [&](double scale) {
            return scale * (2 * random.share() - 1) * (random.chance(0.06) ? 1000 : 1);
        };
        const auto vector = [&](double scale) {
            const double x = number(scale), y = number(scale);
            return Vec3(x, y, number(scale));
        };
        Streams streams;
        double t = 0;
        for (int i = 0; i < 300; ++i) {
            t += 0.01 + std::abs(number(0.02));
            streams.inertial.time_s.push_back(t);
            streams.inertial.rate_I_radps.push_back(vector(5));
            streams.inertial.force_I_mps2.push_back(vector(40));
            if (i % 20 != 0 || draw % 2 == 0) continue;
            GnssFix fix;
            fix.time_s = t;
            fix.position_S_m = vector(100);
            fix.velocity_S_mps = vector(50);
            fix.has_velocity = true;
            streams.gnss.push_back(fix);
        }
        for (const State& state : smooth(streams).states) {
            const Vec3 sum = state.position_S_m + state.velocity_S_mps;
            ASSERT_TRUE(std::isfinite(sum.x + sum.y + sum.z)) << draw;
            ASSERT_NEAR(glm::length(state.q_SI), 1, 1e-6) << draw;
        }
    }
}

TEST(Smoother, TooLittleIsNoSolution) {
    Streams streams;
    EXPECT_TRUE(smooth(streams).states.empty());
    streams.inertial.time_s = {0, 0.01};
    streams.inertial.rate_I_radps.resize(2);
    streams.inertial.force_I_mps2.resize(2);
    EXPECT_TRUE(smooth(streams).states.empty());
}

}  // namespace
}  // namespace plumbline::estimate
