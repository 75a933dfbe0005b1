#pragma once
// What one turn of a window's loop does, whoever turns it: ours on a desktop, the browser's.

#include <chrono>
#include <string>

#include "viewer/app/stage.h"
#include "viewer/app/text_window.h"
#include "viewer/app/window_input.h"
#include "viewer/platform/window.h"

namespace plumbline::app {

class WindowLoop {
public:
    WindowLoop(platform::Window& window, Stage& stage)
        : window_(window), stage_(stage), text_window_(window) {}

    /// Input, one frame, what the window is to be told.
    /// @param may_wait  for input, where nothing moves
    /// @return false: nothing was drawn, the window has no size now
    bool frame(bool may_wait);

private:
    platform::Window& window_;
    Stage& stage_;
    WindowInput input_;
    TextWindow text_window_;
    std::chrono::steady_clock::time_point before_ = std::chrono::steady_clock::now();
    int settle_ = kSettle;
    bool first_ = true;
    std::string title_;

    static constexpr int kSettle = 3;  // frames until hover and pointer shape have settled
};

}  // namespace plumbline::app
