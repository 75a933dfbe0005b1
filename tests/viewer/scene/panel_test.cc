#include "viewer/scene/panel.h"

#include <gtest/gtest.h>

#include "tests/viewer/scene/made_paths.h"
#include "viewer/scene/strokes.h"

namespace plumbline::scene {
namespace {

TEST(Panel, NeedlesGoClockwiseOverThreeQuartersOfATurn) {
    DialScale scale;
    scale.low = -10;
    scale.high = 12;
    EXPECT_NEAR(needleAngle(scale, -10), 1.25 * kPi, 1e-12);  // lower left
    EXPECT_NEAR(needleAngle(scale, 1), 0.5 * kPi, 1e-12);     // top
    EXPECT_NEAR(needleAngle(scale, 12), -0.25 * kPi, 1e-12);  // lower right
    EXPECT_NEAR(needleAngle(scale, 40), -0.25 * kPi, 1e-12);
}

TEST(Panel, IsInFrontOfThePilotAndOnlyInTheBuiltInAircraft) {
    SceneSource source;
    source.path = std::make_shared<path::Path>(levelPass(100, 60));
    auto aircraft = std::make_shared<data::Aircraft>();
    aircraft->geometry.span_m = 7.6;
    aircraft->geometry.eye_B_m = {-0.55, 0, -0.62};
    source.aircraft = aircraft;
    source.world = makeWorld({}, {}, 1);
    ViewSettings view;
    view.view = View::Cockpit;
    const auto strokes = [&] {
        int count = 0;
        const DrawList list = buildDrawList(source, view, Marks{}, 5, 1280, 720);
        for (const Polyline& line : list.lines) {
            if (!line.inside || line.round) continue;
            ++count;
            for (const Vec3& p : line.points_S_m) {
                const Vec3 from_eye = p - list.camera.eye_S_m;
                EXPECT_NEAR(from_eye.x, 0.55, 0.02);  // flying to +x: half a metre ahead
                EXPECT_LT(from_eye.z, -0.2);
                EXPECT_LT(std::abs(from_eye.y), 0.3);
            }
        }
        return count;
    };
    EXPECT_GT(strokes(), 100);
    view.head_right_rad = kPi / 2;
    EXPECT_EQ(strokes(), 0);
    view.head_right_rad = 0;
    auto other = std::make_shared<data::Aircraft>(*aircraft);
    other->model_file = "own.glb";
    source.aircraft = other;
    EXPECT_EQ(strokes(), 0);
}

TEST(Strokes, AreAsWideAsTheySayAndLeaveOutWhatTheyDoNotKnow) {
    for (const char* text : {"0123456789", "-10:55", "km/h", "%"}) {
        float right = 0;
        const auto strokes = strokesOf(text);
        EXPECT_FALSE(strokes.empty());
        for (const Stroke2& stroke : strokes) {
            EXPECT_GE(stroke.size(), 2U);
            for (const glm::vec2& p : stroke) {
                right = std::max(right, p.x);
                EXPECT_GE(p.x, 0);
                EXPECT_GE(p.y, -0.25F);
                EXPECT_LE(p.y, 1);
            }
        }
        EXPECT_LE(right, strokesWidth(text) + 1e-5F);
    }
    EXPECT_TRUE(strokesOf("? ").empty());
    EXPECT_EQ(strokesWidth(""), 0);
}

}  // namespace
}  // namespace plumbline::scene
