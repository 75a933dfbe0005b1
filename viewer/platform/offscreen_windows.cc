// Offscreen context: that of a window which is never shown, since the system gives none without.

#include <utility>

#include "viewer/platform/surface.h"
#include "viewer/platform/window.h"

namespace plumbline::platform {
namespace {

class HiddenWindow final : public Offscreen {
public:
    explicit HiddenWindow(std::unique_ptr<Window> window) : window_(std::move(window)) {}
    GlLoader loader() const override { return window_->loader(); }

private:
    std::unique_ptr<Window> window_;
};

}  // namespace

Expected<std::unique_ptr<Offscreen>, std::string> Offscreen::create() {
    WindowSettings settings;
    settings.title = "plumbline";
    settings.width = 16;
    settings.height = 16;
    settings.visible = false;
    settings.wait_for_display = false;
    auto window = Window::create(settings);
    if (!window) return Unexpected<std::string>(window.error());
    std::unique_ptr<Offscreen> made = std::make_unique<HiddenWindow>(std::move(*window));
    return made;
}

}  // namespace plumbline::platform
