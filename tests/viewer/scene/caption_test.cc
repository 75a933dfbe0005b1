#include "viewer/scene/caption.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/viewer/scene/made_paths.h"
#include "tests/viewer/scene/made_world.h"

namespace plumbline::scene {
namespace {

// A recording without a site has no crowd: nobody's row is claimed.
TEST(Caption, SaysWhereNoCrowdLineIsKnown) {
    const path::Path path = pathOf(2, [](double, path::Sample& s) {
        s.position_S_m = {150, 240, 180};
    });
    for (const View view : {View::Crowd, View::Judge}) {
        ViewSettings settings;
        settings.view = view;
        const Camera camera = cameraAt(settings, path, data::Site(), smallAircraft(), 1, 1.6);
        EXPECT_LT(glm::length(camera.eye_S_m), 10) << "where the flight begins";
        const ViewCaption caption = captionAt(settings, camera, path, smallAircraft(), 1, World());
        EXPECT_EQ(caption.where.find("No crowd line known"), 0U) << caption.where;
    }
}

TEST(Caption, TellsSeatDistanceSpanAndDelay) {
    ViewSettings settings;
    settings.seat_x_m = 150;
    const path::Path path = pathOf(2, [](double, path::Sample& s) {
        s.position_S_m = {150, -154 + 240, 1.7 + 180};  // a 3-4-5 triangle: 300 m from the eye
        s.q_SB = attitudeOf({1, 0, 0}, {0, 0, 1});
    });
    const data::Aircraft aircraft = smallAircraft();
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), aircraft, 1, 1.6);
    World world;
    world.site = siteWithCrowd();
    world.sun_elevation_rad = -0.1;
    ViewCaption caption = captionAt(settings, camera, path, aircraft, 1, world);
    EXPECT_EQ(caption.where, "Row 3, 150 m right of centre, 37 mm, standing");
    // 300 m / 340.294 m/s = 0.8816 s (speed of sound at sea level: ICAO Doc 7488).
    EXPECT_EQ(caption.distance, "Aircraft 300 m away, spans 1.5\u00b0, heard 0.88 s late");
    World cold = world;
    cold.speed_of_sound_mps = 300;
    EXPECT_NE(captionAt(settings, camera, path, aircraft, 1, cold).distance.find("heard 1.00 s"),
              std::string::npos);
    settings.seat_x_m = 0;
    settings.eye_height_m = 1.2;
    caption = captionAt(settings, camera, path, aircraft, 1, world);
    EXPECT_EQ(caption.where, "Row 3, at show centre, 37 mm, sitting");
}

TEST(Caption, TellsWhenTheAircraftFliesIntoTheSunForTheCrowd) {
    // Ahead of the eye and 60 deg up; the sun by 10 deg and then by 14 deg higher.
    ViewSettings settings;
    const path::Path path = pathOf(2, [](double, path::Sample& s) {
        s.position_S_m = {0, -154 + 100, 1.7 + 100 * std::sqrt(3.0)};
        s.q_SB = attitudeOf({1, 0, 0}, {0, 0, 1});
    });
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 1, 1.6);
    World world;
    const auto sunAt = [&world](double elevation_deg) {
        world.sun_elevation_rad = elevation_deg * kPi / 180;
        world.sun_S = {0, std::cos(world.sun_elevation_rad), std::sin(world.sun_elevation_rad)};
    };
    sunAt(70);
    EXPECT_NEAR(sunAngle(camera.eye_S_m, {0, -54, 1.7 + 100 * std::sqrt(3.0)}, world),
                10 * kPi / 180, 1e-9);
    EXPECT_EQ(captionAt(settings, camera, path, smallAircraft(), 1, world).glare,
              "In the glare: sun 10\u00b0 from the aircraft");
    sunAt(74);
    EXPECT_EQ(captionAt(settings, camera, path, smallAircraft(), 1, world).glare, "");
    sunAt(70);
    world.sun_elevation_rad = -0.01;
    EXPECT_EQ(captionAt(settings, camera, path, smallAircraft(), 1, world).glare, "");
}

TEST(Caption, SaysWhatIsNotKnown) {
    path::Path path = levelPass(50, 60);
    path.known.bank = false;
    ViewSettings settings;
    data::Aircraft unknown_type;
    unknown_type.geometry.span_m = 8;  // to be drawn with only
    for (int i = 0; i < kViewCount; ++i) {
        settings.view = static_cast<View>(i);
        const Camera camera = cameraAt(settings, path, siteWithCrowd(), unknown_type, 1, 1.6);
        const ViewCaption caption = captionAt(settings, camera, path, unknown_type, 1, World());
        EXPECT_NE(caption.distance.find("bank not known"), std::string::npos);
        EXPECT_EQ(caption.distance.find("spans"), std::string::npos);
        EXPECT_FALSE(caption.where.empty());
    }
}

TEST(Caption, SaysHowSurelyARecordingTellsIt) {
    path::Path path = levelPass(50, 60);
    ViewSettings settings;
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 1, 1.6);
    const auto words = [&] {
        return captionAt(settings, camera, path, smallAircraft(), 1, World()).distance;
    };
    EXPECT_EQ(words().find("to within"), std::string::npos) << "a plan has no error";
    for (path::Sample& sample : path.samples) {
        sample.position_sigma_m = 1.6F;
        sample.attitude_sigma_rad = static_cast<float>(1.2 * kPi / 180);
    }
    EXPECT_NE(words().find("to within 5 m, attitude to within 3\u00b0"), std::string::npos)
        << words();
    for (path::Sample& sample : path.samples) sample.attitude_sigma_rad = 0.5F;
    EXPECT_NE(words().find("bank not known"), std::string::npos);
}

TEST(Caption, FarAwayIsToldInKilometresAndIsNotHeard) {
    const path::Path path = pathOf(2, [](double, path::Sample& s) {
        s.position_S_m = {0, 40e3, 300};
    });
    ViewSettings settings;
    const Camera camera = cameraAt(settings, path, siteWithCrowd(), smallAircraft(), 1, 1.6);
    World world;
    world.site = siteWithCrowd();
    const ViewCaption caption = captionAt(settings, camera, path, smallAircraft(), 1, world);
    EXPECT_EQ(caption.distance.find("Aircraft 40 km away"), 0U) << caption.distance;
    EXPECT_EQ(caption.distance.find("heard"), std::string::npos);
    const auto words = [](double height_m) { return "[" + std::to_string(height_m) + "]"; };
    settings.view = View::Map;
    EXPECT_EQ(captionAt(settings, camera, path, smallAircraft(), 1, world, words).distance,
              "Aircraft 40 km from show centre, [300.000000] high");
}

}  // namespace
}  // namespace plumbline::scene
