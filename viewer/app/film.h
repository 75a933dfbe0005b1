#pragma once
// `plumbline film`: a film of a stretch of the replay, through ffmpeg.

#include <filesystem>

#include "viewer/app/shot.h"

namespace plumbline::app {

struct FilmWish {
    Shot shot;
    double start_s = 0;
    std::optional<double> stop_s;  ///< none: the end
    double frames_ps = 30;
    double speed = 1;              ///< of the replay: 0.5 is slow motion
    std::filesystem::path output;  ///< ends in .mp4 or .webm
    std::filesystem::path log;     ///< the window, as it was worked in then; empty: the replay
};

/// @return exit code: 0 done, 2 nothing written (what is wrong stands on stderr)
int runFilm(const FilmWish& wish);

}  // namespace plumbline::app
