// Recordings of sensors alone, and how sensors sit.

#include "engine/record/placeless_path.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "engine/out/path_csv.h"
#include "engine/record/read_recording.h"
#include "engine/units/units.h"

namespace plumbline::record {
namespace {

/// Turned by hand: a pitch that swings 40 deg, of axes forward, right, down; optionally a pressure
/// height that climbs a metre a second.
std::string swinging(bool with_height) {
    std::string csv = "t_s,gx_radps,gy_radps,gz_radps,ax_mps2,ay_mps2,az_mps2";
    csv += with_height ? ",pressure_altitude_m\n" : "\n";
    for (int i = 0; i < 4000; ++i) {
        const double t = 0.01 * i, mid = t - 0.005;
        const double pitch = 40 * units::kDegree_rad * std::sin(mid),
                     rate = 40 * units::kDegree_rad * std::cos(mid);
        csv += formatFixed(t, 3) + ",0," + formatFixed(rate, 6) + ",0," +
               formatFixed(kGravity_mps2 * std::sin(pitch), 5) + ",0," +
               formatFixed(-kGravity_mps2 * std::cos(pitch), 5);
        csv += with_height ? "," + formatFixed(100 + t, 2) + "\n" : "\n";
    }
    return csv;
}

TEST(PlacelessPath, SensorsAloneGiveAnAttitude) {
    const auto track = readRecording(swinging(false), "imu.csv");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_TRUE(track->path.known.attitude);
    EXPECT_FALSE(track->path.known.place);
    for (double t = 3; t < 36; t += 1.3) {
        const path::Sample at = path::sampleAt(track->path, t);
        const AttitudeAngles angles = attitudeAngles(at.q_SB, kPi / 2, 0);
        EXPECT_NEAR(angles.pitch_rad / units::kDegree_rad, 40 * std::sin(t), 1) << t;
        EXPECT_NEAR(angles.roll_rad / units::kDegree_rad, 0, 1) << t;
        EXPECT_EQ(at.position_S_m, Vec3(0));
        EXPECT_TRUE(path::attitudeShown(track->path, at));
    }
}

TEST(PlacelessPath, ThePressureTellsTheHeight) {
    const auto track = readRecording(swinging(true), "imu.csv");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_NEAR(path::sampleAt(track->path, 30).position_S_m.z, 30, 0.6);
    EXPECT_NEAR(path::sampleAt(track->path, 20).velocity_S_mps.z, 1, 0.3);
}

TEST(PlacelessPath, ThePathFileKeepsThatThereIsNoPlace) {
    const auto track = readRecording(swinging(false), "imu.csv");
    ASSERT_TRUE(track);
    const auto read = readRecording(out::pathCsv(track->path), "path.csv");
    ASSERT_TRUE(read) << describe(read.error());
    EXPECT_FALSE(read->path.known.place);
    EXPECT_TRUE(read->path.known.attitude);
}

TEST(PlacelessPath, AStatedMountingTurnsTheAxes) {
    const std::string csv = swinging(false);
    const NamedBytes input{"imu.csv", csv};
    Wishes wishes;
    // the box lies with its forward side to the right wing: its pitch is then a roll, nose level
    wishes.q_BI = readMounting("x right, z down");
    ASSERT_TRUE(wishes.q_BI);
    ColumnMap map;
    map.mounting = "x right, z down";
    Wishes by_map;
    by_map.columns = &map;
    for (const Wishes& said : {wishes, by_map}) {
        const auto track = readRecordings(std::span(&input, 1), said);
        ASSERT_TRUE(track) << describe(track.error());
        for (double t = 3; t < 36; t += 2.1) {
            const AttitudeAngles angles =
                attitudeAngles(path::sampleAt(track->path, t).q_SB, kPi / 2, 0);
            EXPECT_NEAR(angles.roll_rad / units::kDegree_rad, -40 * std::sin(t), 1) << t;
            EXPECT_NEAR(angles.pitch_rad / units::kDegree_rad, 0, 1) << t;
        }
    }
}

TEST(Mounting, WordsNameTwoAxes) {
    const auto same = readMounting("x forward, z down");
    ASSERT_TRUE(same);
    EXPECT_LT(glm::length(rotate(*same, Vec3(1, 2, 3)) - Vec3(1, 2, 3)), 1e-12);
    const auto other = readMounting("Y up z LEFT");
    ASSERT_TRUE(other);
    EXPECT_LT(glm::length(rotate(*other, Vec3(0, 1, 0)) - Vec3(0, 0, -1)), 1e-12);
    EXPECT_LT(glm::length(rotate(*other, Vec3(0, 0, 1)) - Vec3(0, -1, 0)), 1e-12);
    // x = y cross z: up cross left is (0,0,-1) x (0,-1,0) = (-1,0,0)
    EXPECT_LT(glm::length(rotate(*other, Vec3(1, 0, 0)) - Vec3(-1, 0, 0)), 1e-12);
    for (const char* bad :
         {"", "x forward", "x forward, x down", "x forward, y back", "x fore, z down",
          "w forward, z down", "x forward, z down, y right", "x: forward, z down"})
        EXPECT_FALSE(readMounting(bad)) << bad;
}

}  // namespace
}  // namespace plumbline::record
