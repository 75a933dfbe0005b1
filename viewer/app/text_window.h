#pragma once
// The prompter's words in a window of their own: on the second display where there is one.

#include <memory>
#include <vector>

#include "viewer/app/stage.h"
#include "viewer/platform/window.h"

namespace plumbline::app {

class TextWindow {
public:
    /// @param first  the program's window; outlives this
    explicit TextWindow(platform::Window& first) : first_(first) {}

    /// Opens or closes as the prompter wishes, draws its words; the first window's context is
    /// current before and after.
    /// @return its keys, for whom they are the same as those of the first
    std::vector<platform::Event> frame(Stage& stage);

private:
    bool open(model::Model& model);

    platform::Window& first_;
    std::unique_ptr<platform::Window> window_;
};

}  // namespace plumbline::app
