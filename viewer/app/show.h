#pragma once
// `plumbline show`: the viewer in its window.

#include <string>

#include "viewer/model/document.h"

namespace plumbline::app {

/// Runs until the window is closed.
/// @param wish  no file: the demo behind the start panel
/// @param bench  measures start and frames for some seconds, prints them and ends
/// @return exit code: 0, or 2 when no window can be opened
/// @param log_file  every action, a line each; empty: none
int runShow(model::OpenWish wish, bool bench, const std::string& log_file);

}  // namespace plumbline::app
