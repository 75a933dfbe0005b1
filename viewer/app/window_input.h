#pragma once
// Window events to the toolkit's input, no faster than it can see them.

#include <deque>
#include <filesystem>
#include <vector>

#include "viewer/platform/window.h"

namespace plumbline::app {

/// The toolkit looks at keys and buttons once a frame. A press and its release in one frame would
/// be lost, so what comes after a press waits for the next frame.
class WindowInput {
public:
    void push(std::vector<platform::Event> events);
    bool empty() const { return waiting_.empty(); }

    /// What the toolkit does not handle.
    struct Taken {
        std::vector<std::filesystem::path> dropped;
        bool close = false;
    };
    /// Hands events of one frame to ImGuiIO. Before ImGui::NewFrame.
    Taken feed();

private:
    std::deque<platform::Event> waiting_;
};

}  // namespace plumbline::app
