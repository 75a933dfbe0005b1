#include "viewer/scene/sighting.h"

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/viewer/scene/made_paths.h"

namespace plumbline::scene {
namespace {

data::Aircraft aircraftWith(double zero_lift_aoa_rad) {
    data::Aircraft aircraft;
    aircraft.geometry.span_m = 8;
    aircraft.geometry.wing_area_m2 = 10;
    aircraft.geometry.eye_B_m = {-0.5, 0, -0.6};
    aircraft.aero.zero_lift_aoa_rad = zero_lift_aoa_rad;
    return aircraft;
}

/// 300 m up, the zero-lift axis along `axis_S`, the canopy towards `canopy_S`, flying along it.
path::Sample sampleOf(const Vec3& axis_S, const Vec3& canopy_S, double zero_lift_aoa_rad = 0) {
    path::Sample sample;
    sample.position_S_m = {0, 0, 300};
    // The body lies nose below its zero-lift axis by that incidence.
    sample.q_SB = attitudeOf(axis_S, canopy_S) * rotationY(zero_lift_aoa_rad);
    sample.velocity_S_mps = 60.0 * glm::normalize(axis_S);
    return sample;
}

SightingReading readingOf(const data::Aircraft& aircraft, const path::Sample& sample, bool right,
                          const Vec3& wind_S_mps = Vec3(0)) {
    const auto reading = readSighting(aircraft, sample, wind_S_mps, right);
    EXPECT_TRUE(reading.has_value());
    return reading.value_or(SightingReading());
}

TEST(Sighting, TheHorizonDipsByHalfADegreeAndMoreAtThreeHundredMetres) {
    // acos(R / (R + h)) = sqrt(2 h / R) to second order: 0.0097044 rad for 6371 km.
    EXPECT_NEAR(horizonDip(300), std::sqrt(2 * 300.0 / 6371000), 1e-6);
    EXPECT_NEAR(horizonDip(300) / units::kDegree_rad, 0.56, 0.005);
    EXPECT_EQ(horizonDip(0), 0);
    EXPECT_EQ(horizonDip(-5), 0);
}

TEST(Sighting, EachBarLiesAlongTheHorizonAtItsAngle) {
    const double half = std::sqrt(0.5);
    struct Case {
        Vec3 axis_S, canopy_S;
        Bar bar;
    };
    // Upright and inverted, up and down.
    const Case cases[] = {{{0, 0, 1}, {0, -1, 0}, Bar::Vertical},
                          {{0, 0, -1}, {1, 0, 0}, Bar::Vertical},
                          {{1, 0, 0}, {0, 0, 1}, Bar::Level},
                          {{-1, 0, 0}, {0, 0, -1}, Bar::Level},
                          {{half, 0, half}, {-half, 0, half}, Bar::Climbing45},
                          {{half, 0, -half}, {half, 0, half}, Bar::Descending45},
                          {{half, 0, -half}, {-half, 0, -half}, Bar::Climbing45},
                          {{half, 0, half}, {half, 0, -half}, Bar::Descending45}};
    for (const double zero_lift_rad : {0.0, 2 * units::kDegree_rad, -1.5 * units::kDegree_rad}) {
        const data::Aircraft aircraft = aircraftWith(zero_lift_rad);
        for (const Case& c : cases) {
            for (const bool right : {false, true}) {
                const path::Sample sample = sampleOf(c.axis_S, c.canopy_S, zero_lift_rad);
                const SightingReading reading = readingOf(aircraft, sample, right);
                const double eye_m = 300 + rotate(sample.q_SB, aircraft.geometry.eye_B_m).z;
                EXPECT_EQ(reading.bar, c.bar);
                EXPECT_NEAR(reading.angle_rad, 0, 1e-12);
                EXPECT_NEAR(reading.pull_rad, 0, 1e-12);
                EXPECT_NEAR(reading.right_low_rad, 0, 1e-12);
                EXPECT_NEAR(reading.path_rad, 0, 1e-12);
                // Level with the eye, so above the horizon by its dip.
                EXPECT_NEAR(reading.left_above_rad, reading.right_above_rad, 1e-12);
                EXPECT_NEAR(reading.left_above_rad, horizonDip(eye_m), 1e-12);
            }
        }
    }
}

TEST(Sighting, ShowsAPitchErrorAsItIsAndWhichWayToGo) {
    const data::Aircraft aircraft = aircraftWith(0);
    const double lean = 2.8 * units::kDegree_rad;
    // Straight up with the canopy to +x, but leaning 2.8 deg towards the wheels (-x).
    const path::Sample up =
        sampleOf({-std::sin(lean), 0, std::cos(lean)}, {std::cos(lean), 0, std::sin(lean)});
    const SightingReading left = readingOf(aircraft, up, false);
    const SightingReading right = readingOf(aircraft, up, true);
    EXPECT_NEAR(left.pull_rad, lean, 1e-12);
    EXPECT_NEAR(right.pull_rad, lean, 1e-12);
    EXPECT_NEAR(left.attitude_rad, -lean, 1e-12);
    // Opposite in the two pictures: the left wing looks to the left.
    EXPECT_NEAR(left.angle_rad, -lean, 1e-12);
    EXPECT_NEAR(right.angle_rad, lean, 1e-12);
    EXPECT_NEAR(left.right_low_rad, 0, 1e-12);
    // Nose high in level flight: push.
    const path::Sample high =
        sampleOf({std::cos(lean), 0, std::sin(lean)}, {-std::sin(lean), 0, std::cos(lean)});
    EXPECT_EQ(readingOf(aircraft, high, false).bar, Bar::Level);
    EXPECT_NEAR(readingOf(aircraft, high, false).pull_rad, -lean, 1e-12);
}

TEST(Sighting, ShowsAYawErrorByOppositeOffsetsOnTheTwoWings) {
    const data::Aircraft aircraft = aircraftWith(0);
    path::Sample up = sampleOf({0, 0, 1}, {0, -1, 0});
    // About the body's z axis to the right: the nose leans to the right wing.
    up.q_SB = up.q_SB * rotationZ(3 * units::kDegree_rad);
    const SightingReading reading = readingOf(aircraft, up, false);
    EXPECT_NEAR(reading.right_low_rad, 3 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(reading.left_above_rad - reading.right_above_rad, 6 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(reading.angle_rad, 0, 1e-12);
    // Wings that point up and down show no horizon beside any bar.
    path::Sample knife = sampleOf({1, 0, 0}, {0, -1, 0});
    EXPECT_FALSE(readSighting(aircraft, knife, Vec3(0), true).has_value());
}

TEST(Sighting, HasParallaxWhereTheHubIsNotAtTheEyesHeight) {
    data::Aircraft aircraft = aircraftWith(0);
    aircraft.sighting.out_m = 3;
    aircraft.sighting.up_m = 0.65;  // 5 cm over the eye, 3 m away
    const SightingReading reading = readingOf(aircraft, sampleOf({1, 0, 0}, {0, 0, 1}), false);
    EXPECT_NEAR(reading.left_above_rad, std::atan(0.05 / 3) + horizonDip(300.6), 1e-5);
}

TEST(Sighting, TellsWhatTheWindDoesToThePath) {
    const data::Aircraft aircraft = aircraftWith(0);
    // Straight up through the air, canopy to -x, wind to +x: the path leans to the wheels.
    path::Sample up = sampleOf({0, 0, 1}, {-1, 0, 0});
    up.velocity_S_mps = {6, 0, 60};
    const SightingReading reading = readingOf(aircraft, up, false, Vec3(6, 0, 0));
    EXPECT_NEAR(reading.attitude_rad, 0, 1e-12);
    EXPECT_NEAR(reading.path_rad, -std::atan(0.1), 1e-12);
    EXPECT_NEAR(reading.wind_rad, -std::atan(0.1), 1e-12);
}

TEST(Sighting, InThePictureTheBarCoversTheHorizonLine) {
    SceneSource source;
    const double dip_rad = horizonDip(300.5);
    // Straight up with the canopy to the crowd; its left wing points to -x.
    source.path = std::make_shared<path::Path>(pathOf(4, [](double t, path::Sample& s) {
        s.position_S_m = {0, 0, 300};
        s.velocity_S_mps = {0, 0, 60};
        s.q_SB = attitudeOf({0, 0, 1}, {0, -1, 0});
        s.time_s = t;
    }));
    source.aircraft = std::make_shared<data::Aircraft>(aircraftWith(0));
    source.world = makeWorld({}, {}, 1);
    ViewSettings view;
    view.view = View::Cockpit;
    view.head_right_rad = -kPi / 2;
    view.head_up_rad = 0;
    const DrawList list = buildDrawList(source, view, Marks{}, 2, 1280, 720);
    ASSERT_TRUE(list.sighting.has_value());
    const double focal_px = 360 / std::tan(list.camera.vertical_fov_rad / 2);
    bool bar_seen = false, horizon_seen = false;
    for (const Polyline& line : list.lines) {
        if (line.on_ground || line.depth_test || line.halo_px <= 0) continue;
        for (const Vec3& p : line.points_S_m) {
            double x = 0, y = 0, distance_m = 0;
            if (!project(list.camera, 1280, 720, p, x, y, distance_m)) continue;
            // The horizon stands upright in the middle of the picture.
            if (line.dash_m > 0) {
                if (std::abs(y - 360) > 300) continue;
                horizon_seen = true;
                EXPECT_NEAR(std::abs(x - 640), focal_px * std::tan(dip_rad), 1.5);
            } else {
                bar_seen = true;
                EXPECT_NEAR(x, 640, 1e-6);
            }
        }
    }
    EXPECT_TRUE(bar_seen);
    EXPECT_TRUE(horizon_seen);
    // Looking ahead there is nothing to read.
    view.head_right_rad = 0;
    EXPECT_FALSE(buildDrawList(source, view, Marks{}, 2, 1280, 720).sighting.has_value());
}

TEST(Sighting, ARecordingIsJudgedOnlyAsSurelyAsItKnowsItsAttitude) {
    SightingReading reading;
    reading.pull_rad = 2.8 * kPi / 180;
    EXPECT_TRUE(sightingJudged(reading, 0)) << "a plan";
    EXPECT_TRUE(sightingJudged(reading, 2.7 * kPi / 180));
    EXPECT_FALSE(sightingJudged(reading, 2.9 * kPi / 180)) << "it could be off the other way";
    reading.pull_rad = 0.1 * kPi / 180;
    EXPECT_TRUE(sightingJudged(reading, 0.4 * kPi / 180)) << "right within half a degree";
    EXPECT_FALSE(sightingJudged(reading, 0.6 * kPi / 180));
}

}  // namespace
}  // namespace plumbline::scene
