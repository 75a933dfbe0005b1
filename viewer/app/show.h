#pragma once
// `plumbline show`: the viewer in its window.

#include <string>

#include "viewer/model/document.h"

namespace plumbline::app {

/// Runs until the window is closed.
/// @param wish  no file: the demo behind the start panel
/// @return exit code: 0, or 2 when no window can be opened
int runShow(model::OpenWish wish);

}  // namespace plumbline::app
