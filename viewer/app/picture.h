#pragma once
// `plumbline picture`: pictures without a window or a display.

#include <filesystem>
#include <string>

#include "viewer/app/shot.h"

namespace plumbline::app {

struct PictureWish {
    Shot shot;
    double time_s = 0;
    std::filesystem::path output;  ///< a PNG file
    bool window = false;           ///< the whole window with its panels, not the picture alone
    std::string brief;             ///< with `window`: this sheet of the brief beside the picture
    bool start_panel = false;      ///< with `window`: as it opens with no file
    std::filesystem::path set;     ///< not empty: a set of pictures into this folder instead
    int moments = 4;               ///< in the set
};

/// @return exit code: 0 done, 2 nothing written (what is wrong stands on stderr)
int runPicture(const PictureWish& wish);

}  // namespace plumbline::app
