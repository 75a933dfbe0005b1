#include "viewer/scene/views.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/viewer/scene/made_paths.h"
#include "tests/viewer/scene/made_world.h"
#include "viewer/scene/chase.h"
#include "viewer/scene/hand_follow.h"

namespace plumbline::scene {
namespace {

double angleBetween(const Vec3& a, const Vec3& b) {
    return std::atan2(glm::length(glm::cross(a, b)), glm::dot(a, b));
}

/// Largest turn of the camera from frame to frame at 60 frames/s, as a rate, with its up vector.
struct Turning {
    double forward_radps = 0, up_radps = 0, lowest_eye_m = 1e9, largest_jump_m = 0;
};
Turning turningOf(View view, const path::Path& path) {
    ViewSettings settings;
    settings.view = view;
    const data::Site site = siteWithCrowd();
    const data::Aircraft aircraft = smallAircraft();
    Turning worst;
    constexpr double kFrame_s = 1.0 / 60;
    Camera before = cameraAt(settings, path, site, aircraft, 0, 16.0 / 9);
    for (double t = kFrame_s; t < path.duration_s(); t += kFrame_s) {
        const Camera now = cameraAt(settings, path, site, aircraft, t, 16.0 / 9);
        worst.forward_radps =
            std::max(worst.forward_radps, angleBetween(before.forward_S, now.forward_S) / kFrame_s);
        worst.up_radps = std::max(worst.up_radps, angleBetween(before.up_S, now.up_S) / kFrame_s);
        worst.lowest_eye_m = std::min(worst.lowest_eye_m, now.eye_S_m.z);
        worst.largest_jump_m =
            std::max(worst.largest_jump_m, glm::length(now.eye_S_m - before.eye_S_m));
        EXPECT_NEAR(glm::length(now.forward_S), 1, 1e-9);
        EXPECT_NEAR(glm::length(now.up_S), 1, 1e-9);
        EXPECT_NEAR(glm::dot(now.forward_S, now.up_S), 0, 1e-9);
        before = now;
    }
    return worst;
}

TEST(Lens, VerticalFieldFollowsFromTheFrame) {
    // A full frame is 36 x 24 mm: at its own aspect the vertical field is that of 12 mm half
    // height.
    EXPECT_NEAR(verticalFieldOfView(50, 1.5), 2 * std::atan(12.0 / 50), 1e-12);
    // The horizontal field does not depend on the picture's aspect.
    for (const double aspect : {1.0, 16.0 / 9, 2.4}) {
        const double half_width = std::tan(0.5 * verticalFieldOfView(37, aspect)) * aspect;
        EXPECT_NEAR(half_width, 18.0 / 37, 1e-12);
    }
}

TEST(Lens, EightMetresAtThreeHundredSpanAboutOneAndAHalfDegrees) {
    EXPECT_NEAR(apparentAngle(8, 300), 2 * std::atan(4.0 / 300), 1e-12);
    EXPECT_NEAR(apparentAngle(8, 300) / units::kDegree_rad, 1.528, 5e-4);
    EXPECT_NEAR(apparentAngle(2, 1), kPi / 2, 1e-12);  // 45 deg to each side
}

TEST(Projection, KnownPointsFallOnTheirPixels) {
    Camera camera;
    camera.eye_S_m = {10, -100, 2};
    camera.forward_S = {0, 1, 0};
    camera.up_S = {0, 0, 1};
    camera.vertical_fov_rad = kPi / 2;
    double x = 0, y = 0, distance_m = 0;
    ASSERT_TRUE(project(camera, 1600, 900, {10, 0, 2}, x, y, distance_m));
    EXPECT_NEAR(x, 800, 1e-9);
    EXPECT_NEAR(y, 450, 1e-9);
    EXPECT_NEAR(distance_m, 100, 1e-9);
    // 45 deg up is the upper edge, as far to the right is half a height from the middle; the
    // crowd's right is +x.
    ASSERT_TRUE(project(camera, 1600, 900, {110, 0, 102}, x, y, distance_m));
    EXPECT_NEAR(x, 800 + 450, 1e-9);
    EXPECT_NEAR(y, 0, 1e-9);
    EXPECT_FALSE(project(camera, 1600, 900, {10, -101, 2}, x, y, distance_m));
}

TEST(Projection, TheMapHasTheCrowdAtTheBottomAndItsRightOnTheRight) {
    ViewSettings settings;
    settings.view = View::Map;
    settings.map_half_height_m = 500;
    const path::Path path = levelPass(50, 60);
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 3, 16.0 / 9);
    double x0 = 0, y0 = 0, x1 = 0, y1 = 0, d = 0;
    ASSERT_TRUE(project(camera, 1600, 900, {0, 0, 0}, x0, y0, d));
    ASSERT_TRUE(project(camera, 1600, 900, {100, -150, 300}, x1, y1, d));
    EXPECT_NEAR(x1 - x0, 100 * 0.9, 1e-6);  // 900 px for 1000 m, whatever the height
    EXPECT_NEAR(y1 - y0, 150 * 0.9, 1e-6);  // downwards
}

TEST(Projection, TheFittedMapShowsAllOfPathAndBox) {
    data::Site site = siteWithCrowd();
    site.box = data::Box{-500, 500, -50, 400, 1000};
    ViewSettings settings;
    settings.view = View::Map;
    const path::Path path = levelPass(50, 60, -900, 30);
    for (const double aspect : {0.7, 1.0, 2.5}) {
        const Camera camera = cameraAt(settings, path, site, smallAircraft(), 3, aspect);
        const int height_px = 1000, width_px = static_cast<int>(1000 * aspect);
        for (const Vec3& point :
             {Vec3(-900, 0, 50), Vec3(900, 0, 50), Vec3(500, 400, 0), Vec3(0, -150, 0)}) {
            double x = 0, y = 0, d = 0;
            ASSERT_TRUE(project(camera, width_px, height_px, point, x, y, d));
            EXPECT_GT(x, 0);
            EXPECT_LT(x, width_px);
            EXPECT_GT(y, 0);
            EXPECT_LT(y, height_px);
        }
        EXPECT_DOUBLE_EQ(camera.half_height_m, mapFitHalfHeight(path, site, aspect));
    }
}

TEST(CrowdView, TheSeatIsWhereTheSettingsSay) {
    ViewSettings settings;
    settings.seat_x_m = 150;
    const Camera camera =
        cameraAt(settings, levelPass(80, 60), siteWithCrowd(), smallAircraft(), 4, 16.0 / 9);
    EXPECT_DOUBLE_EQ(camera.eye_S_m.x, 150);
    EXPECT_DOUBLE_EQ(camera.eye_S_m.y, -154);
    EXPECT_DOUBLE_EQ(camera.eye_S_m.z, 1.7);
    EXPECT_NEAR(camera.forward_S.z * camera.forward_S.z + camera.up_S.z * camera.up_S.z, 1, 1e-9)
        << "the camera is held level";
}

TEST(CrowdView, AStillCameraLooksWhereItIsTurned) {
    ViewSettings settings;
    settings.follow = false;
    settings.crowd_azimuth_rad = 30 * units::kDegree_rad;
    settings.crowd_elevation_rad = 20 * units::kDegree_rad;
    const Camera camera =
        cameraAt(settings, levelPass(80, 60), siteWithCrowd(), smallAircraft(), 4, 16.0 / 9);
    EXPECT_NEAR(camera.forward_S.x, std::cos(20 * units::kDegree_rad) * 0.5, 1e-12);  // towards +x
    EXPECT_NEAR(camera.forward_S.z, std::sin(20 * units::kDegree_rad), 1e-12);
    EXPECT_GT(camera.up_S.z, 0.9);
}

TEST(CrowdView, HorizonAndAircraftStayInThePictureBelowFifteenDegrees) {
    // Lenses whose half field is over 10 deg, where both fit.
    for (const double lens_mm : {24.0, 37.0, 50.0}) {
        const double half_rad = 0.5 * verticalFieldOfView(lens_mm, 16.0 / 9);
        for (double elevation_deg = 0; elevation_deg <= 15; elevation_deg += 0.25) {
            const double elevation_rad = elevation_deg * units::kDegree_rad;
            const double held_rad = heldElevation(elevation_rad, half_rad);
            EXPECT_LT(held_rad, half_rad) << lens_mm << " mm, " << elevation_deg;
            EXPECT_LT(std::abs(elevation_rad - held_rad), 0.55 * half_rad);
        }
    }
    // High up the aircraft is in the middle, and on the way no jump and no way back.
    const double half_rad = 0.5 * verticalFieldOfView(37, 16.0 / 9);
    EXPECT_NEAR(heldElevation(60 * units::kDegree_rad, half_rad), 60 * units::kDegree_rad, 1e-12);
    double before_rad = heldElevation(-0.1, half_rad);
    for (double e = -0.1; e < 1.5; e += 0.002) {
        const double held_rad = heldElevation(e, half_rad);
        EXPECT_GE(held_rad, before_rad - 1e-12);
        EXPECT_LT(held_rad - before_rad, 2.5 * 0.002);
        before_rad = held_rad;
    }
}

TEST(CrowdView, ALongLensKeepsTheAircraftInThePicture) {
    const path::Path path = levelPass(60, 85);  // 85 m/s past a seat 154 m away: 31 deg/s
    const data::Site site = siteWithCrowd();
    for (const double lens_mm : {24.0, 37.0, 135.0, 400.0}) {
        ViewSettings settings;
        settings.lens_mm = lens_mm;
        for (double t = 0; t < 15; t += 0.1) {
            const Camera camera = cameraAt(settings, path, site, smallAircraft(), t, 16.0 / 9);
            double x = 0, y = 0, d = 0;
            ASSERT_TRUE(project(camera, 1600, 900, path::sampleAt(path, t).position_S_m, x, y, d));
            EXPECT_GT(x, 400) << lens_mm << " mm at " << t;
            EXPECT_LT(x, 1200);
            EXPECT_GT(y, 80);
            EXPECT_LT(y, 820);
        }
    }
}

TEST(CrowdView, ASteadyTurnLagsAQuarterOfASecondLessTheLead) {
    // An aircraft that circles the eye at a constant rate: a critically damped follower's steady
    // lag is rate x 2 / w = rate x 0.25 s.
    const double rate_radps = 0.1, radius_m = 300;
    const path::Path path = pathOf(20, [=](double t, path::Sample& s) {
        const double a = rate_radps * t;
        s.position_S_m = {radius_m * std::cos(a), radius_m * std::sin(a), 0};
        s.velocity_S_mps = radius_m * rate_radps * Vec3(-std::sin(a), std::cos(a), 0);
        s.q_SB = attitudeOf(s.velocity_S_mps, {0, 0, 1});
    });
    const double half_rad = 0.5 * verticalFieldOfView(24, 1.5);
    const Vec3 look_S = handFollow(path, {0, 0, 0}, 10, half_rad);
    const double behind_rad = rate_radps * 10 - std::atan2(look_S.y, look_S.x);
    const double lead_rad = 0.4 * units::kDegree_rad / std::sqrt(2.0);  // at 0.1 rad/s
    EXPECT_NEAR(behind_rad, 0.25 * rate_radps - lead_rad, 0.001);
}

TEST(CrowdView, FollowsWithoutJumpsThroughLoopsLinesAndSlides) {
    for (const path::Path& path : {roundLoop(), slidePath(), hammerhead(), levelPass(60, 85)}) {
        for (const View view : {View::Crowd, View::Judge}) {
            const Turning worst = turningOf(view, path);
            // The aircraft itself turns at most 85/150 rad/s about the seat.
            EXPECT_LT(worst.forward_radps, 1.6);
            EXPECT_LT(worst.up_radps, 1.6);
            EXPECT_EQ(worst.largest_jump_m, 0);
        }
    }
}

TEST(CrowdView, PlayingAndScrubbingGiveTheSamePicture) {
    const path::Path path = roundLoop();
    ViewSettings settings;
    for (const View view : {View::Crowd, View::Chase}) {
        settings.view = view;
        const Camera first = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 9.37, 1.6);
        cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 2, 1.6);
        const Camera again = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 9.37, 1.6);
        EXPECT_EQ(first.forward_S, again.forward_S);
        EXPECT_EQ(first.eye_S_m, again.eye_S_m);
    }
}

TEST(JudgeView, TheSeatIsTheSitesViewpoint) {
    data::Site site = siteWithCrowd();
    site.viewpoints.push_back({"judge", {20, -210, 3}});
    ViewSettings settings;
    settings.view = View::Judge;
    const Camera camera = cameraAt(settings, levelPass(80, 60), site, smallAircraft(), 4, 1.6);
    EXPECT_EQ(camera.eye_S_m, Vec3(20, -210, 3));
}

TEST(CockpitView, TheEyeTurnsWithTheAircraft) {
    const data::Aircraft aircraft = smallAircraft();
    ViewSettings settings;
    settings.view = View::Cockpit;
    settings.head_up_rad = 0;
    const path::Path level = levelPass(100, 60);
    Camera camera = cameraAt(settings, level, siteWithCrowd(), aircraft, 5, 1.6);
    // Level to crowd right: the eye 0.75 m behind the centre of gravity and 0.7 m above it.
    const Vec3 place = path::sampleAt(level, 5).position_S_m;
    EXPECT_NEAR(glm::length(camera.eye_S_m - (place + Vec3(-0.75, 0, 0.7))), 0, 1e-9);
    EXPECT_NEAR(glm::length(camera.forward_S - Vec3(1, 0, 0)), 0, 1e-9);
    EXPECT_NEAR(glm::length(camera.up_S - Vec3(0, 0, 1)), 0, 1e-9);
    settings.head_right_rad = kPi / 2;  // along the right wing: towards the crowd
    camera = cameraAt(settings, level, siteWithCrowd(), aircraft, 5, 1.6);
    EXPECT_NEAR(glm::length(camera.forward_S - Vec3(0, -1, 0)), 0, 1e-9);
    settings.head_right_rad = 0;
    settings.head_up_rad = kPi / 2;
    camera = cameraAt(settings, level, siteWithCrowd(), aircraft, 5, 1.6);
    EXPECT_NEAR(glm::length(camera.forward_S - Vec3(0, 0, 1)), 0, 1e-9);
    EXPECT_NEAR(glm::length(camera.up_S - Vec3(-1, 0, 0)), 0, 1e-9);
}

TEST(CockpitView, StraightUpWithTheCanopyToTheCrowd) {
    // The anchor of engine/math/frames.h: right wing to +x.
    const path::Path up = pathOf(4, [](double t, path::Sample& s) {
        s.position_S_m = {0, 0, 100 + 40 * t};
        s.velocity_S_mps = {0, 0, 40};
        s.q_SB = Quat(0.5, -0.5, -0.5, -0.5);
    });
    ViewSettings settings;
    settings.view = View::Cockpit;
    settings.head_up_rad = 0;
    Camera camera = cameraAt(settings, up, siteWithCrowd(), smallAircraft(), 2, 1.6);
    EXPECT_NEAR(glm::length(camera.forward_S - Vec3(0, 0, 1)), 0, 1e-9);
    EXPECT_NEAR(glm::length(camera.up_S - Vec3(0, -1, 0)), 0, 1e-9);
    EXPECT_NEAR(glm::length(camera.eye_S_m - Vec3(0, -0.7, 180 - 0.75)), 0, 1e-9);
    settings.head_right_rad = kPi / 2;
    camera = cameraAt(settings, up, siteWithCrowd(), smallAircraft(), 2, 1.6);
    EXPECT_NEAR(glm::length(camera.forward_S - Vec3(1, 0, 0)), 0, 1e-9);
}

TEST(ChaseView, FliesBehindInLevelFlight) {
    ViewSettings settings;
    settings.view = View::Chase;
    settings.chase_azimuth_rad = 0;
    const path::Path path = levelPass(100, 60);
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 10, 1.6);
    const Vec3 place = path::sampleAt(path, 10).position_S_m;
    EXPECT_NEAR(camera.eye_S_m.x, place.x - 22 * std::cos(0.22), 1e-6);
    EXPECT_NEAR(camera.eye_S_m.y, 0, 1e-6);
    EXPECT_NEAR(camera.eye_S_m.z, place.z + 22 * std::sin(0.22), 1e-6);
    // Turned a quarter, the eye is off the right wing: towards the crowd.
    settings.chase_azimuth_rad = kPi / 2;
    const Camera side = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 10, 1.6);
    EXPECT_LT(side.eye_S_m.y, -20);
}

TEST(ChaseView, HasNoFlipsThroughLoopsLinesAndSlides) {
    for (const path::Path& path : {roundLoop(), slidePath(), hammerhead()}) {
        const Turning worst = turningOf(View::Chase, path);
        EXPECT_LT(worst.forward_radps, 1.6);  // no faster than a head turns
        EXPECT_LT(worst.up_radps, 1.6);
        EXPECT_LT(worst.largest_jump_m,
                  1.7);  // 60 m/s is 1 m a frame, the eye's own swing the rest
    }
}

TEST(ChaseView, HoldsItsHeadingOnVerticalsAndFollowsOutOfAHammerhead) {
    const path::Path slide = slidePath();
    // From the middle of the upline to the end of the slide nothing gives a new course.
    const double top_s = 4 + 0.5 * kPi * 80 / 60 + 60 / kGravity_mps2;
    EXPECT_NEAR(chaseHeading(slide, top_s - 3).heading_rad, 0, 0.02);
    EXPECT_NEAR(chaseHeading(slide, top_s + 2.5).heading_rad, 0, 0.02);
    // A hammerhead leaves the way it came; the eye has swung round past the crowd's side (+y).
    const path::Path turned = hammerhead();
    const double heading_rad = chaseHeading(turned, turned.duration_s()).heading_rad;
    EXPECT_GT(heading_rad, 2.6);
    EXPECT_LT(heading_rad, kPi + 0.1);
}

TEST(ChaseView, TheEyeStaysAboveTheGround) {
    ViewSettings settings;
    settings.view = View::Chase;
    settings.chase_elevation_rad = -1.2;
    settings.chase_distance_m = 200;
    const path::Path path = levelPass(5, 60);
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 10, 1.6);
    EXPECT_GT(camera.eye_S_m.z, 1);
    double x = 0, y = 0, d = 0;
    ASSERT_TRUE(project(camera, 1600, 1000, path::sampleAt(path, 10).position_S_m, x, y, d));
    EXPECT_NEAR(x, 800, 1e-6);
    EXPECT_NEAR(y, 500, 1e-6);
}

TEST(FreeView, OrbitsFromTheCrowdSide) {
    ViewSettings settings;
    settings.view = View::Free;
    settings.orbit_azimuth_rad = 0;
    settings.orbit_elevation_rad = 0.3;
    settings.orbit_distance_m = 500;
    settings.orbit_target_S_m = {10, 20, 100};
    Camera camera = cameraAt(settings, {}, siteWithCrowd(), smallAircraft(), 0, 1.6);
    EXPECT_NEAR(camera.eye_S_m.x, 10, 1e-9);
    EXPECT_NEAR(camera.eye_S_m.y, 20 - 500 * std::cos(0.3), 1e-9);
    EXPECT_NEAR(camera.eye_S_m.z, 100 + 500 * std::sin(0.3), 1e-9);
    settings.orbit_azimuth_rad = kPi / 2;
    camera = cameraAt(settings, {}, siteWithCrowd(), smallAircraft(), 0, 1.6);
    EXPECT_NEAR(camera.eye_S_m.x, 10 + 500 * std::cos(0.3), 1e-9);
}

TEST(ViewWords, GoThereAndBack) {
    for (int i = 0; i < kViewCount; ++i) {
        View view = View::Free;
        ASSERT_TRUE(viewFromWord(viewWord(static_cast<View>(i)), view));
        EXPECT_EQ(static_cast<int>(view), i);
    }
    View view = View::Judge;
    EXPECT_FALSE(viewFromWord("Crowd", view));
    EXPECT_FALSE(viewFromWord("", view));
    EXPECT_EQ(view, View::Judge);
}

}  // namespace
}  // namespace plumbline::scene
