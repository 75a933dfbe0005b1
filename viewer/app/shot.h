#pragma once
// What a picture or a film shows, and how: read from the command line, put into a stage.

#include <optional>
#include <string>

#include "viewer/app/stage.h"
#include "viewer/model/document.h"
#include "viewer/model/session.h"

namespace plumbline::app {

struct Shot {
    model::OpenWish open;
    scene::View view = scene::View::Crowd;
    std::optional<double> lens_mm;
    std::optional<double> seat_x_m, rows_back_m, eye_height_m;
    double head_right_rad = 0;
    double head_up_rad = scene::kRestingLook_rad;
    int width_px = 1280;
    int height_px = 720;
    ui::BurntIn burnt;
    model::ThemeChoice theme = model::ThemeChoice::Dark;
    model::UnitChoice units = model::UnitChoice::Aviation;
    double ui_scale = 1;
};

/// Opens what the shot is of and sets the stage up for it.
/// @return 0, or the exit code after saying on stderr what is wrong
int prepare(Stage& stage, const Shot& shot);

/// Says what is wrong. @return 2
int fail(const std::string& what);

}  // namespace plumbline::app
