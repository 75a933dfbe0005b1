// The one window that a page in a browser has: its canvas. What happens in it is told by window.js.

#include <cstdint>
#include <cstdlib>
#include <utility>

#include <emscripten.h>
#include <emscripten/html5.h>

#include "viewer/platform/window.h"

// Of viewer/browser/library.js.
extern "C" {
void plumbline_listen();
void plumbline_measure();
int plumbline_width();
int plumbline_height();
double plumbline_ratio();
void plumbline_title(const char* text);
void plumbline_cursor(int shape);
void plumbline_full_screen(int on);
int plumbline_is_full_screen();
void plumbline_copy(const char* text);
char* plumbline_clipboard();
}

namespace plumbline::platform {
namespace {

std::vector<Event>& events() {
    static std::vector<Event> waiting;
    return waiting;
}

std::vector<std::string>& droppedFiles() {
    static std::vector<std::string> files;
    return files;
}

void* noAddress(const char*) { return nullptr; }

class WebWindow final : public Window {
public:
    GlLoader loader() const override { return &noAddress; }

    std::vector<Event> takeEvents(double) override {
        plumbline_measure();
        return std::exchange(events(), {});
    }

    void swap() override {}  // the browser shows what was drawn when the turn ends

    void makeCurrent() override {}  // there is no other

    PixelSize pixelSize() const override { return {plumbline_width(), plumbline_height()}; }
    double pixelRatio() const override { return plumbline_ratio(); }
    void setTitle(const std::string& title) override { plumbline_title(title.c_str()); }

    void setCursor(Cursor cursor) override {
        if (cursor == cursor_) return;
        cursor_ = cursor;
        plumbline_cursor(static_cast<int>(cursor));
    }

    void setFullScreen(bool on) override {
        if (on == wanted_full_) return;
        wanted_full_ = on;
        plumbline_full_screen(on ? 1 : 0);
    }
    bool fullScreen() const override { return plumbline_is_full_screen() != 0; }

    std::string clipboardText() override {
        char* const text = plumbline_clipboard();
        std::string out = text == nullptr ? "" : text;
        std::free(text);
        return out;
    }
    void setClipboardText(const std::string& text) override { plumbline_copy(text.c_str()); }

private:
    Cursor cursor_ = Cursor::Arrow;
    bool wanted_full_ = false;
};

}  // namespace

Expected<std::unique_ptr<Window>, std::string> Window::create(const WindowSettings& settings) {
    if (settings.shares != nullptr)
        return Unexpected<std::string>("a page in a browser has one window");
    EmscriptenWebGLContextAttributes wish;
    emscripten_webgl_init_context_attributes(&wish);
    wish.majorVersion = 2;
    wish.alpha = false;
    wish.depth = true;
    wish.stencil = false;
    wish.antialias = false;
    wish.powerPreference = EM_WEBGL_POWER_PREFERENCE_HIGH_PERFORMANCE;
    const EMSCRIPTEN_WEBGL_CONTEXT_HANDLE context =
        emscripten_webgl_create_context("#picture", &wish);
    if (context <= 0 || emscripten_webgl_make_context_current(context) != EMSCRIPTEN_RESULT_SUCCESS)
        return Unexpected<std::string>("this browser has no WebGL 2: try another one");
    emscripten_webgl_enable_extension(context, "WEBGL_debug_renderer_info");
    plumbline_listen();
    std::unique_ptr<Window> window = std::make_unique<WebWindow>();
    window->setTitle(settings.title);
    return window;
}

bool displayAvailable() { return true; }

}  // namespace plumbline::platform

using plumbline::platform::Event;
using plumbline::platform::EventKind;

extern "C" {

/// @param kind       as in window.js
/// @param code       key, letter, button or whether focused, as the kind has it
/// @param modifiers  1 shift, 2 control, 4 alt, 8 super
EMSCRIPTEN_KEEPALIVE void plumbline_event(int kind, int code, double x, double y, double sx,
                                          double sy, int modifiers, int repeated) {
    constexpr EventKind kKinds[] = {
        EventKind::KeyDown,    EventKind::KeyUp,    EventKind::Character, EventKind::PointerMove,
        EventKind::ButtonDown, EventKind::ButtonUp, EventKind::Scroll,    EventKind::Focus,
        EventKind::Resize,     EventKind::Drop};
    Event event;
    event.kind = kKinds[kind];
    event.x_px = x;
    event.y_px = y;
    event.scroll_x = sx;
    event.scroll_y = sy;
    event.modifiers = {(modifiers & 1) != 0, (modifiers & 2) != 0, (modifiers & 4) != 0,
                       (modifiers & 8) != 0};
    event.repeated = repeated != 0;
    switch (event.kind) {
        case EventKind::KeyDown:
        case EventKind::KeyUp:
            event.key = static_cast<plumbline::platform::Key>(code);
            break;
        case EventKind::Character:
            event.code_point = static_cast<std::uint32_t>(code);
            break;
        case EventKind::Focus:
            event.focused = code != 0;
            break;
        case EventKind::Drop:
            event.files = std::exchange(plumbline::platform::droppedFiles(), {});
            break;
        default:
            event.button = code;
    }
    plumbline::platform::events().push_back(std::move(event));
}

/// A file that was brought, before the event that tells of all.
/// @param path  UTF-8
EMSCRIPTEN_KEEPALIVE void plumbline_dropped(const char* path) {
    plumbline::platform::droppedFiles().emplace_back(path);
}
}
