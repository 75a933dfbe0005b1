// Bank told from places: a turn in closed form, a recorded flight, and where nothing may be told.

#include "engine/record/bank_from_path.h"

#include <cmath>
#include <functional>

#include <gtest/gtest.h>

#include "engine/out/path_csv.h"
#include "engine/record/csv_log.h"
#include "engine/record/gzip.h"
#include "engine/record/read_recording.h"
#include "engine/record/track_path.h"
#include "engine/units/units.h"
#include "tests/engine/record/test_data.h"
#include "tests/figures/scores.h"

namespace plumbline::record {
namespace {

FixLog logOf(const std::function<Vec3(double)>& placeAt, double hz, double duration_s) {
    FixLog log;
    log.kind = "CSV";
    log.file = "made";
    log.geodetic = false;
    for (int i = 0; i <= duration_s * hz; ++i) {
        Fix fix;
        fix.clock_s = i / hz;
        fix.position_S_m = placeAt(fix.clock_s);
        log.fixes.push_back(fix);
    }
    return log;
}

std::string unpacked(const std::string& name) {
    const std::string packed = readTestData("sensors/" + name);
    return unpackGzip({name, packed})->bytes;
}

TEST(BankFromPath, ALevelTurnHasTheBankOfItsRadius) {
    // tan(bank) = v^2 / (r g), any handbook (FAA-H-8083-25C, chapter 5): 60 m/s, 45 deg
    const double speed = 60, radius = speed * speed / kGravity_mps2;
    for (const double side : {1.0, -1.0}) {
        const auto track = trackFromLogs({logOf(
            [&](double t) {
                const double a = speed / radius * t;
                return Vec3(radius * std::sin(a), side * radius * (std::cos(a) - 1), 300);
            },
            5, 40)});
        ASSERT_TRUE(track);
        ASSERT_TRUE(track->path.known.bank && track->path.known.attitude);
        EXPECT_FALSE(track->path.known.side_load);
        for (double t = 2; t < 38; t += 0.7) {
            const path::Sample at = path::sampleAt(track->path, t);
            const AttitudeAngles angles = attitudeAngles(at.q_SB, kPi / 2, 0);
            EXPECT_NEAR(angles.roll_rad / units::kDegree_rad, side * 45, 0.5) << t;
            EXPECT_TRUE(path::attitudeShown(track->path, at)) << t;
        }
    }
}

TEST(BankFromPath, AHandfulOfFixesTellsNone) {
    const auto track =
        trackFromLogs({logOf([](double t) { return Vec3(60 * t, 2 * t * t, 300); }, 1, 9)});
    ASSERT_TRUE(track);
    EXPECT_FALSE(track->path.known.bank);
    for (const path::Sample& sample : track->path.samples) EXPECT_EQ(sample.attitude_sigma_rad, 0);
}

TEST(BankFromPath, ALoopMayBePushedAndIsNotTold) {
    const auto track = trackFromLogs({logOf(
        [](double t) {
            const double a = 0.5 * t;
            return Vec3(120 * std::sin(a), 0, 300 - 120 * std::cos(a));
        },
        10, 12)});
    ASSERT_TRUE(track);
    EXPECT_FALSE(track->path.known.attitude || track->path.known.bank);
    ASSERT_EQ(track->notes.size(), 1u);
    EXPECT_NE(track->notes.front().find("alike"), std::string::npos);
}

TEST(BankFromPath, ScatteredFixesTellNoBank) {
    // straight and level with three metres of scatter: a second derivative drowns in it
    const auto scatter = [](double t, double f) { return 3 * std::sin(f * t * t + 17 * f * t); };
    const auto track = trackFromLogs({logOf(
        [&](double t) { return Vec3(40 * t, scatter(t, 31.7), 300 + scatter(t, 47.3)); }, 5, 60)});
    ASSERT_TRUE(track);
    std::size_t shown = 0;
    for (const path::Sample& sample : track->path.samples)
        shown += path::attitudeShown(track->path, sample);
    EXPECT_LT(static_cast<double>(shown), 0.02 * static_cast<double>(track->path.samples.size()));
}

TEST(BankFromPath, ARecordedFlightBanksAsItsSensorsSay) {
    // 1 Hz fixes with velocities of an unmanned aircraft against the attitude solved on board
    const std::string gnss = unpacked("unmanned_gnss.csv.gz");
    const auto track = readRecording(gnss, "gnss");
    ASSERT_TRUE(track) << describe(track.error());
    ASSERT_TRUE(track->path.known.bank);
    const auto reference = readCsvLog({"reference", unpacked("unmanned_reference.csv.gz")});
    const auto& q = reference->sensors.q_EB;
    figures::Mean bank;
    std::size_t told = 0, in = 0;
    for (const path::Sample& sample : track->path.samples) {
        const double clock_s = sample.time_s + track->path.clock_offset_s;
        if (clock_s < 215 || clock_s > 418 || sample.attitude_sigma_rad > 1) continue;
        ++told;
        std::size_t at = 0;
        while (at + 1 < q.size() && q.clock_s[at] < clock_s) ++at;
        bank.add(std::remainder(attitudeAngles(sample.q_SB, kPi / 2, 0).roll_rad -
                                    attitudeAngles(q.values[at], kPi / 2, 0).roll_rad,
                                2 * kPi) /
                 units::kDegree_rad);
        in += figures::attitudeError(sample.q_SB, q.values[at]).total_rad <=
              2 * sample.attitude_sigma_rad;
    }
    EXPECT_GT(told, 60u);
    EXPECT_LT(bank.rms(), 7);
    EXPECT_GT(static_cast<double>(in), 0.8 * static_cast<double>(told));
}

TEST(BankFromPath, WhatIsNotToldStaysSoInAPathFile) {
    const auto track = trackFromLogs(
        {logOf([](double t) { return Vec3(300 * std::sin(0.2 * t), 300 * std::cos(0.2 * t), 200); },
               5, 20)});
    ASSERT_TRUE(track && track->path.known.bank && track->path.known.load);
    const std::string written = out::pathCsv(track->path);
    const auto read = readRecording(written, "path.csv");
    ASSERT_TRUE(read) << describe(read.error());
    EXPECT_TRUE(read->path.known.bank && read->path.known.load);
    EXPECT_FALSE(read->path.known.side_load);
    EXPECT_NEAR(read->path.samples[20].attitude_sigma_rad,
                track->path.samples[20].attitude_sigma_rad, 1e-4);
}

}  // namespace
}  // namespace plumbline::record
