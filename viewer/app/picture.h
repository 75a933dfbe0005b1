#pragma once
// `plumbline picture`: pictures without a window or a display.

#include <filesystem>
#include <optional>

#include "viewer/model/document.h"
#include "viewer/model/session.h"

namespace plumbline::app {

struct PictureWish {
    model::OpenWish open;
    scene::View view = scene::View::Crowd;
    std::optional<double> lens_mm;
    double time_s = 0;
    int width_px = 1280;
    int height_px = 720;
    std::filesystem::path output;  ///< a PNG file
    bool window = false;           ///< the whole window with its panels, not the picture alone
    bool start_panel = false;      ///< with `window`: as it opens with no file
    model::ThemeChoice theme = model::ThemeChoice::Dark;
    model::UnitChoice units = model::UnitChoice::Aviation;
    double ui_scale = 1;
    std::filesystem::path set;  ///< not empty: a set of pictures into this folder instead
};

/// @return exit code: 0 done, 2 nothing written (what is wrong stands on stderr)
int runPicture(const PictureWish& wish);

}  // namespace plumbline::app
