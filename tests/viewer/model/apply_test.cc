#include <cmath>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

/// Three figures of ten seconds, two findings.
Model modelOfThree() {
    auto path = std::make_shared<path::Path>();
    path->samples.resize(2);
    path->samples[1].time_s = 30;
    auto shown = std::make_shared<Shown>();
    shown->workspace = std::make_shared<load::Workspace>();
    for (int i = 0; i < 3; ++i) {
        OutlineRow row;
        row.name = std::to_string(i);
        row.start_s = 10 * i;
        row.stop_s = 10 * i + 10;
        shown->outline.push_back(row);
    }
    shown->findings.resize(2);
    shown->findings[0].time_s = 4;
    shown->findings[1].time_s = 25;
    shown->source.path = path;
    OpenResult result;
    result.shown = shown;
    Model model;
    show(model, result);
    return model;
}

void push(Model& model, ActionKind kind, double value = 0, int index = 0) {
    Action action;
    action.kind = kind;
    action.value = value;
    action.index = index;
    apply(model, action);
}

TEST(Apply, FiguresForwardAndBack) {
    Model model = modelOfThree();
    push(model, ActionKind::NextFigure);
    EXPECT_EQ(model.clock.time_s(), 10);
    push(model, ActionKind::Seek, 17);
    push(model, ActionKind::PreviousFigure);
    EXPECT_EQ(model.clock.time_s(), 10) << "to this figure's start first";
    push(model, ActionKind::PreviousFigure);
    EXPECT_EQ(model.clock.time_s(), 0);
    push(model, ActionKind::GoToFigure, 0, 2);
    EXPECT_EQ(model.clock.time_s(), 20);
    push(model, ActionKind::GoToFigure, 0, 99);
    EXPECT_EQ(model.clock.time_s(), 20);
}

TEST(Apply, ALoopCanBeMarkedAtBothEnds) {
    Model model = modelOfThree();
    push(model, ActionKind::Seek, 4);
    push(model, ActionKind::MarkIn);
    EXPECT_FALSE(model.clock.loop());
    push(model, ActionKind::Seek, 12);
    push(model, ActionKind::MarkOut);
    ASSERT_TRUE(model.clock.loop());
    EXPECT_EQ(model.clock.loop()->start_s, 4);
    EXPECT_EQ(model.clock.loop()->stop_s, 12);
    EXPECT_EQ(model.clock.time_s(), 4);
    // The beginning moves on; an end before it is no loop and changes nothing.
    push(model, ActionKind::Seek, 6);
    push(model, ActionKind::MarkIn);
    EXPECT_EQ(model.clock.loop()->start_s, 6);
    push(model, ActionKind::Seek, 5);
    push(model, ActionKind::MarkOut);
    EXPECT_EQ(model.clock.loop()->stop_s, 12);
    // Without a beginning it begins at the start.
    Model other = modelOfThree();
    push(other, ActionKind::Seek, 3);
    push(other, ActionKind::MarkOut);
    ASSERT_TRUE(other.clock.loop());
    EXPECT_EQ(other.clock.loop()->start_s, 0);
}

TEST(Apply, ACameraThatIsLetGoKeepsLookingWhereItLooked) {
    Model model = modelOfThree();
    auto shown = std::make_shared<Shown>(*model.shown);
    auto path = std::make_shared<path::Path>();
    for (int i = 0; i <= 300; ++i) {
        path::Sample sample;
        sample.time_s = 0.1 * i;
        sample.position_S_m = {200, 46, 201.7};  // stands still, 200 m off each way from the seat
        path->samples.push_back(sample);
    }
    shown->source.path = path;
    data::Site site;
    site.crowd_line_y_m = -150;
    shown->source.world = scene::makeWorld(site, {}, 1);
    model.shown = shown;
    push(model, ActionKind::Seek, 10);
    push(model, ActionKind::ToggleFollow);
    EXPECT_FALSE(model.session.view.follow);
    EXPECT_NEAR(model.session.view.crowd_azimuth_rad, kPi / 4, 0.02);
    // The hand holds the picture a little lower than the aircraft, for the horizon's sake.
    EXPECT_NEAR(model.session.view.crowd_elevation_rad, std::atan(std::sqrt(0.5)), 0.05);
}

TEST(Apply, TheCrowdsSeatIsAnywhereSittingOrStanding) {
    Model model = modelOfThree();
    const scene::ViewSettings before = model.session.view;
    Action pan;
    pan.kind = ActionKind::PanView;
    pan.x = -3;
    pan.y = 2;
    apply(model, pan);
    EXPECT_GT(model.session.view.seat_x_m, before.seat_x_m);
    EXPECT_GT(model.session.view.rows_back_m, before.rows_back_m);
    push(model, ActionKind::SitOrStand);
    EXPECT_LT(model.session.view.eye_height_m, before.eye_height_m);
    push(model, ActionKind::SitOrStand);
    EXPECT_EQ(model.session.view.eye_height_m, before.eye_height_m);
    push(model, ActionKind::SitOrStand);
    push(model, ActionKind::ResetView);
    EXPECT_EQ(model.session.view.seat_x_m, before.seat_x_m);
    EXPECT_EQ(model.session.view.rows_back_m, before.rows_back_m);
    EXPECT_EQ(model.session.view.eye_height_m, before.eye_height_m);
}

TEST(Apply, TheSecondViewHasSettingsOfItsOwn) {
    Model model = modelOfThree();
    const double lens_mm = model.session.view.lens_mm;
    push(model, ActionKind::ZoomView, -20, 1);
    EXPECT_TRUE(model.session.second_chosen);
    EXPECT_EQ(model.session.view.lens_mm, lens_mm);
    EXPECT_LT(secondViewOf(model.session).lens_mm, 100);
    push(model, ActionKind::SetSecondView, 0, static_cast<int>(scene::View::Map));
    EXPECT_EQ(secondViewOf(model.session).view, scene::View::Map);
    EXPECT_EQ(model.session.view.view, scene::View::Crowd);
    push(model, ActionKind::ResetView, 0, 1);
    EXPECT_FALSE(model.session.second_chosen);
    EXPECT_EQ(model.session.second_place, SecondPlace::Inset);
    push(model, ActionKind::CycleSecond);
    EXPECT_EQ(model.session.second_place, SecondPlace::Beside);
}

TEST(Apply, FindingsOneAfterTheOther) {
    Model model = modelOfThree();
    push(model, ActionKind::NextFinding);
    EXPECT_EQ(model.clock.time_s(), 4);
    push(model, ActionKind::NextFinding);
    EXPECT_EQ(model.clock.time_s(), 25);
    push(model, ActionKind::NextFinding);
    EXPECT_EQ(model.clock.time_s(), 25) << "there is none after the last";
    push(model, ActionKind::PreviousFinding);
    EXPECT_EQ(model.clock.time_s(), 4);
}

TEST(Apply, LoopIsTheFigureOfNow) {
    Model model = modelOfThree();
    push(model, ActionKind::Seek, 12);
    push(model, ActionKind::ToggleLoop);
    ASSERT_TRUE(model.clock.loop().has_value());
    EXPECT_EQ(model.clock.loop()->start_s, 10);
    EXPECT_EQ(model.clock.loop()->stop_s, 20);
    push(model, ActionKind::GoToFigure, 0, 2);
    EXPECT_FALSE(model.clock.loop().has_value()) << "another figure ends the loop";
}

TEST(Apply, ViewsStayWithinWhatAPersonCanDo) {
    Model model = modelOfThree();
    scene::ViewSettings& view = model.session.view;
    for (int i = 0; i < 200; ++i) push(model, ActionKind::ZoomView, 1);
    EXPECT_EQ(view.lens_mm, 400);
    push(model, ActionKind::SetView, 0, static_cast<int>(scene::View::Cockpit));
    Action turn;
    turn.kind = ActionKind::TurnView;
    turn.x = 50;
    turn.y = -50;
    apply(model, turn);
    EXPECT_LE(view.head_right_rad, 2.61) << "a head does not turn right round";
    EXPECT_LE(view.head_up_rad, 1.51);
    push(model, ActionKind::ResetView);
    EXPECT_EQ(view.head_right_rad, 0);
    push(model, ActionKind::SetView, 0, static_cast<int>(scene::View::Crowd));
    push(model, ActionKind::ResetView);
    EXPECT_TRUE(view.follow);
    EXPECT_EQ(view.lens_mm, scene::ViewSettings().lens_mm);
}

TEST(Apply, PlayClosesTheStartPanelAndGoesOn) {
    Model model = modelOfThree();
    model.start_panel = true;
    model.clock.play();
    push(model, ActionKind::TogglePlay);
    EXPECT_FALSE(model.start_panel);
    EXPECT_TRUE(model.clock.playing());
    push(model, ActionKind::TogglePlay);
    EXPECT_FALSE(model.clock.playing());
}

TEST(Apply, StepsAreFramesAndStandStill) {
    Model model = modelOfThree();
    model.clock.play();
    push(model, ActionKind::StepFrames, 3);
    EXPECT_FALSE(model.clock.playing());
    EXPECT_NEAR(model.clock.time_s(), 3.0 / 25, 1e-12);
}

TEST(Apply, MessagesLeaveByThemselves) {
    Model model = modelOfThree();
    model.message.text = "words";
    model.message.left_s = kMessage_s;
    advance(model, kMessage_s - 0.1);
    EXPECT_FALSE(model.message.text.empty());
    advance(model, 0.2);
    EXPECT_TRUE(model.message.text.empty());
}

}  // namespace
}  // namespace plumbline::model
