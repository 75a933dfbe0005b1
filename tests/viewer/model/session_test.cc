#include "viewer/model/session.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

TEST(Session, ComesBackAsItWas) {
    Session session;
    session.theme = ThemeChoice::Light;
    session.units = UnitChoice::Feet;
    session.ui_scale = 1.375;
    session.window_width = 1920;
    session.sheet_folded = true;
    session.sheet_width = 300;
    session.view.seat_x_m = -123.25;
    session.view.lens_mm = 85;
    session.marks.band_quantity = scene::Quantity::Height;
    session.marks.grey = true;
    session.marks.sighting = false;
    session.marks.gates = false;
    session.marks.reach = true;
    session.second_place = SecondPlace::Beside;
    session.second_chosen = true;
    session.second.view = scene::View::Chase;
    session.lane_wishes[static_cast<std::size_t>(Lane::Power)] = LaneWish::Shown;
    session.lane_wishes[static_cast<std::size_t>(Lane::Load)] = LaneWish::Hidden;
    session.timeline_height = 300;
    session.letter_paper = true;
    session.words_per_min = 115;
    const Session back = sessionFromText(sessionText(session));
    EXPECT_EQ(back.theme, ThemeChoice::Light);
    EXPECT_EQ(back.units, UnitChoice::Feet);
    EXPECT_EQ(back.ui_scale, 1.375);
    EXPECT_TRUE(back.letter_paper);
    EXPECT_EQ(back.words_per_min, 115);
    EXPECT_EQ(back.window_width, 1920);
    EXPECT_TRUE(back.sheet_folded);
    EXPECT_EQ(back.sheet_width, 300);
    EXPECT_EQ(back.view.seat_x_m, -123.25);
    EXPECT_EQ(back.view.lens_mm, 85);
    EXPECT_EQ(back.marks.band_quantity, scene::Quantity::Height);
    EXPECT_TRUE(back.marks.grey);
    EXPECT_FALSE(back.marks.sighting);
    EXPECT_FALSE(back.marks.gates);
    EXPECT_TRUE(back.marks.reach);
    EXPECT_EQ(back.second_place, SecondPlace::Beside);
    EXPECT_TRUE(back.second_chosen);
    EXPECT_EQ(back.second.view, scene::View::Chase);
    EXPECT_EQ(back.lane_wishes, session.lane_wishes);
    EXPECT_EQ(back.timeline_height, 300);
}

TEST(Session, TheSecondViewGoesWithTheFirstUntilItIsChosen) {
    Session session;
    session.view.view = scene::View::Judge;
    EXPECT_EQ(secondViewOf(session).view, scene::View::Judge);
    EXPECT_EQ(secondViewOf(session).lens_mm, 540);
    session.view.view = scene::View::Cockpit;
    EXPECT_EQ(secondViewOf(session).view, scene::View::Crowd);
    session.reviewing = true;  // what the judge saw stands beside the flight
    EXPECT_EQ(secondViewOf(session).view, scene::View::Judge);
    session.view.view = scene::View::Judge;
    EXPECT_EQ(secondViewOf(session).lens_mm, 540);
    session.second.view = scene::View::Map;
    session.second_chosen = true;
    EXPECT_EQ(secondViewOf(session).view, scene::View::Map);
}

TEST(Session, RubbishChangesNothing) {
    const Session fresh;
    for (const char* text :
         {"", "=", "theme", "theme = \"pink\"", "ui_scale = 1e9", "ui_scale = nan",
          "lens_mm = \"x\"", "window_width = -3", "\xff\xfe\n\0"}) {
        const Session read = sessionFromText(text);
        EXPECT_EQ(sessionText(read), sessionText(fresh)) << text;
    }
}

}  // namespace
}  // namespace plumbline::model
