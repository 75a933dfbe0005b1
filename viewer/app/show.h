#pragma once
// `plumbline show`: the viewer in its window.

#include <string>

#include "viewer/model/document.h"

namespace plumbline::app {

struct ShowWish {
    model::OpenWish open;       ///< no file: the demo behind the start panel
    int width = 0, height = 0;  ///< of the window, screen units; 0: as it was left
    bool bench = false;         ///< measures start and frames for some seconds, prints them, ends
    std::string log_file;       ///< every action, a line each; empty: none
};

/// Runs until the window is closed.
/// @return exit code: 0, or 2 when no window can be opened
int runShow(ShowWish wish);

}  // namespace plumbline::app
