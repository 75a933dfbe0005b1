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
    const Session back = sessionFromText(sessionText(session));
    EXPECT_EQ(back.theme, ThemeChoice::Light);
    EXPECT_EQ(back.units, UnitChoice::Feet);
    EXPECT_EQ(back.ui_scale, 1.375);
    EXPECT_EQ(back.window_width, 1920);
    EXPECT_TRUE(back.sheet_folded);
    EXPECT_EQ(back.sheet_width, 300);
    EXPECT_EQ(back.view.seat_x_m, -123.25);
    EXPECT_EQ(back.view.lens_mm, 85);
    EXPECT_EQ(back.marks.band_quantity, scene::Quantity::Height);
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
