// Windows through GLFW.

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#define GLFW_INCLUDE_NONE
#include <GLFW/glfw3.h>

#include "viewer/platform/window.h"

namespace plumbline::platform {
namespace {

void* loadGl(const char* name) { return reinterpret_cast<void*>(glfwGetProcAddress(name)); }

/// GLFW's library state, held as long as a window or a question about the display needs it.
class Library {
public:
    Library() : ready_(glfwInit() == GLFW_TRUE) {}
    bool ready() const { return ready_; }

private:
    bool ready_;  // never terminated: other windows may still be open; the system frees it at exit
};

std::string lastError() {
    const char* text = nullptr;
    glfwGetError(&text);
    return text == nullptr ? std::string() : std::string(text);
}

struct KeyPair {
    int glfw;
    Key key;
};
constexpr std::array<KeyPair, 24> kNamedKeys{{{GLFW_KEY_ESCAPE, Key::Escape},
                                              {GLFW_KEY_ENTER, Key::Enter},
                                              {GLFW_KEY_TAB, Key::Tab},
                                              {GLFW_KEY_BACKSPACE, Key::Backspace},
                                              {GLFW_KEY_INSERT, Key::Insert},
                                              {GLFW_KEY_DELETE, Key::Delete},
                                              {GLFW_KEY_RIGHT, Key::Right},
                                              {GLFW_KEY_LEFT, Key::Left},
                                              {GLFW_KEY_DOWN, Key::Down},
                                              {GLFW_KEY_UP, Key::Up},
                                              {GLFW_KEY_PAGE_UP, Key::PageUp},
                                              {GLFW_KEY_PAGE_DOWN, Key::PageDown},
                                              {GLFW_KEY_HOME, Key::Home},
                                              {GLFW_KEY_END, Key::End},
                                              {GLFW_KEY_KP_ENTER, Key::KeypadEnter},
                                              {GLFW_KEY_LEFT_SHIFT, Key::LeftShift},
                                              {GLFW_KEY_LEFT_CONTROL, Key::LeftControl},
                                              {GLFW_KEY_LEFT_ALT, Key::LeftAlt},
                                              {GLFW_KEY_LEFT_SUPER, Key::LeftSuper},
                                              {GLFW_KEY_RIGHT_SHIFT, Key::RightShift},
                                              {GLFW_KEY_RIGHT_CONTROL, Key::RightControl},
                                              {GLFW_KEY_RIGHT_ALT, Key::RightAlt},
                                              {GLFW_KEY_RIGHT_SUPER, Key::RightSuper},
                                              {GLFW_KEY_GRAVE_ACCENT, Key::Grave}}};

/// Shortcuts mean the letter that the person's own layout prints on the key, not its place.
Key keyFromGlfw(int key, int scancode) {
    if (key >= GLFW_KEY_F1 && key <= GLFW_KEY_F12) {
        return static_cast<Key>(static_cast<int>(Key::F1) + key - GLFW_KEY_F1);
    }
    if (key >= GLFW_KEY_KP_0 && key <= GLFW_KEY_KP_9) {
        return static_cast<Key>('0' + key - GLFW_KEY_KP_0);
    }
    for (const KeyPair& pair : kNamedKeys) {
        if (pair.glfw == key) return pair.key;
    }
    if (key >= GLFW_KEY_A && key <= GLFW_KEY_Z) {
        const char* name = glfwGetKeyName(key, scancode);
        if (name != nullptr && name[0] >= 'a' && name[0] <= 'z' && name[1] == '\0') {
            return static_cast<Key>(name[0] - 'a' + 'A');
        }
    }
    if (key >= GLFW_KEY_SPACE && key < 128) return static_cast<Key>(key);
    return Key::Unknown;
}

Modifiers modifiersFromGlfw(int mods) {
    Modifiers out;
    out.shift = (mods & GLFW_MOD_SHIFT) != 0;
    out.control = (mods & GLFW_MOD_CONTROL) != 0;
    out.alt = (mods & GLFW_MOD_ALT) != 0;
    out.super = (mods & GLFW_MOD_SUPER) != 0;
    return out;
}

int cursorShape(Cursor cursor) {
    switch (cursor) {
        case Cursor::Text:
            return GLFW_IBEAM_CURSOR;
        case Cursor::Hand:
            return GLFW_HAND_CURSOR;
        case Cursor::ResizeAcross:
            return GLFW_HRESIZE_CURSOR;
        case Cursor::ResizeDown:
            return GLFW_VRESIZE_CURSOR;
        case Cursor::Crosshair:
            return GLFW_CROSSHAIR_CURSOR;
        case Cursor::Arrow:
            break;
    }
    return GLFW_ARROW_CURSOR;
}

class GlfwWindow final : public Window {
public:
    GlfwWindow(GLFWwindow* window, bool wait_for_display) : window_(window) {
        glfwMakeContextCurrent(window_);
        glfwSwapInterval(wait_for_display ? 1 : 0);
        glfwSetWindowUserPointer(window_, this);
        connect();
    }
    GlfwWindow(const GlfwWindow&) = delete;
    GlfwWindow& operator=(const GlfwWindow&) = delete;
    ~GlfwWindow() override {
        for (GLFWcursor* cursor : cursors_) {
            if (cursor != nullptr) glfwDestroyCursor(cursor);
        }
        glfwDestroyWindow(window_);
    }

    GlLoader loader() const override { return &loadGl; }

    std::vector<Event> takeEvents(double wait_s) override {
        if (wait_s > 0 && events_.empty()) {
            glfwWaitEventsTimeout(wait_s);
        } else {
            glfwPollEvents();
        }
        std::vector<Event> out;
        out.swap(events_);
        return out;
    }

    void swap() override { glfwSwapBuffers(window_); }
    void makeCurrent() override { glfwMakeContextCurrent(window_); }
    GLFWwindow* handle() const { return window_; }

    /// Of all displays the first that this window does not lie on; null: there is one only.
    GLFWmonitor* anotherMonitor() {
        GLFWmonitor* mine = glfwGetWindowMonitor(window_);
        if (mine == nullptr) {
            glfwGetWindowPos(window_, &kept_[0], &kept_[1]);
            glfwGetWindowSize(window_, &kept_[2], &kept_[3]);
            mine = monitorUnderWindow();
        }
        int count = 0;
        GLFWmonitor** monitors = glfwGetMonitors(&count);
        for (int i = 0; i < count; ++i)
            if (monitors[i] != mine) return monitors[i];
        return nullptr;
    }

    PixelSize pixelSize() const override {
        PixelSize size;
        glfwGetFramebufferSize(window_, &size.width_px, &size.height_px);
        return size;
    }

    double pixelRatio() const override {
        float x = 1, y = 1;
        glfwGetWindowContentScale(window_, &x, &y);
        return x > 0 ? static_cast<double>(x) : 1.0;
    }

    void setTitle(const std::string& title) override { glfwSetWindowTitle(window_, title.c_str()); }

    void setCursor(Cursor cursor) override {
        if (cursor == cursor_) return;
        cursor_ = cursor;
        GLFWcursor*& made = cursors_[static_cast<std::size_t>(cursor)];
        if (made == nullptr) made = glfwCreateStandardCursor(cursorShape(cursor));
        glfwSetCursor(window_, made);
    }

    void setFullScreen(bool on) override {
        if (on == fullScreen()) return;
        if (on) {
            glfwGetWindowPos(window_, &kept_[0], &kept_[1]);
            glfwGetWindowSize(window_, &kept_[2], &kept_[3]);
            GLFWmonitor* monitor = monitorUnderWindow();
            if (monitor == nullptr) return;
            const GLFWvidmode* mode = glfwGetVideoMode(monitor);
            glfwSetWindowMonitor(window_, monitor, 0, 0, mode->width, mode->height,
                                 mode->refreshRate);
        } else {
            glfwSetWindowMonitor(window_, nullptr, kept_[0], kept_[1], kept_[2], kept_[3], 0);
        }
    }

    bool fullScreen() const override { return glfwGetWindowMonitor(window_) != nullptr; }

    std::string clipboardText() override {
        const char* text = glfwGetClipboardString(window_);
        return text == nullptr ? std::string() : std::string(text);
    }

    void setClipboardText(const std::string& text) override {
        glfwSetClipboardString(window_, text.c_str());
    }

private:
    static GlfwWindow& of(GLFWwindow* window) {
        return *static_cast<GlfwWindow*>(glfwGetWindowUserPointer(window));
    }

    GLFWmonitor* monitorUnderWindow() const {
        int count = 0;
        GLFWmonitor** monitors = glfwGetMonitors(&count);
        const int centre_x = kept_[0] + kept_[2] / 2;
        const int centre_y = kept_[1] + kept_[3] / 2;
        for (int i = 0; i < count; ++i) {
            int x = 0, y = 0;
            glfwGetMonitorPos(monitors[i], &x, &y);
            const GLFWvidmode* mode = glfwGetVideoMode(monitors[i]);
            if (centre_x >= x && centre_x < x + mode->width && centre_y >= y &&
                centre_y < y + mode->height) {
                return monitors[i];
            }
        }
        return glfwGetPrimaryMonitor();
    }

    /// Pixels per window unit; 1 except where the system scales windows itself.
    double unitScale() const {
        int width = 0, height = 0;
        glfwGetWindowSize(window_, &width, &height);
        return width > 0 ? static_cast<double>(pixelSize().width_px) / width : 1.0;
    }

    Event& push(EventKind kind) {
        Event event;
        event.kind = kind;
        event.x_px = pointer_x_px_;
        event.y_px = pointer_y_px_;
        events_.push_back(std::move(event));
        return events_.back();
    }

    void connect() {
        glfwSetKeyCallback(window_, [](GLFWwindow* w, int key, int scancode, int action, int mods) {
            Event& event =
                of(w).push(action == GLFW_RELEASE ? EventKind::KeyUp : EventKind::KeyDown);
            event.key = keyFromGlfw(key, scancode);
            event.repeated = action == GLFW_REPEAT;
            event.modifiers = modifiersFromGlfw(mods);
        });
        glfwSetCharCallback(window_, [](GLFWwindow* w, unsigned int code_point) {
            of(w).push(EventKind::Character).code_point = code_point;
        });
        glfwSetCursorPosCallback(window_, [](GLFWwindow* w, double x, double y) {
            GlfwWindow& self = of(w);
            const double scale = self.unitScale();
            self.pointer_x_px_ = x * scale;
            self.pointer_y_px_ = y * scale;
            self.push(EventKind::PointerMove);
        });
        glfwSetMouseButtonCallback(window_, [](GLFWwindow* w, int button, int action, int mods) {
            Event& event =
                of(w).push(action == GLFW_RELEASE ? EventKind::ButtonUp : EventKind::ButtonDown);
            event.button = button;
            event.modifiers = modifiersFromGlfw(mods);
        });
        glfwSetScrollCallback(window_, [](GLFWwindow* w, double x, double y) {
            Event& event = of(w).push(EventKind::Scroll);
            event.scroll_x = x;
            event.scroll_y = y;
        });
        glfwSetWindowFocusCallback(window_, [](GLFWwindow* w, int focused) {
            of(w).push(EventKind::Focus).focused = focused == GLFW_TRUE;
        });
        glfwSetFramebufferSizeCallback(
            window_, [](GLFWwindow* w, int, int) { of(w).push(EventKind::Resize); });
        glfwSetWindowContentScaleCallback(
            window_, [](GLFWwindow* w, float, float) { of(w).push(EventKind::Resize); });
        glfwSetWindowCloseCallback(window_, [](GLFWwindow* w) {
            glfwSetWindowShouldClose(w, GLFW_FALSE);
            of(w).push(EventKind::CloseWish);
        });
        glfwSetDropCallback(window_, [](GLFWwindow* w, int count, const char** paths) {
            Event& event = of(w).push(EventKind::Drop);
            for (int i = 0; i < count; ++i) event.files.emplace_back(paths[i]);
        });
    }

    GLFWwindow* window_;
    std::vector<Event> events_;
    double pointer_x_px_ = 0, pointer_y_px_ = 0;
    Cursor cursor_ = Cursor::Arrow;
    std::array<GLFWcursor*, 6> cursors_{};
    std::array<int, 4> kept_{0, 0, 1280, 720};  ///< x, y, width, height before full screen
};

Library& library() {
    static Library held;
    return held;
}

}  // namespace

bool displayAvailable() { return library().ready(); }

Expected<std::unique_ptr<Window>, std::string> Window::create(const WindowSettings& settings) {
    if (!library().ready()) {
        return Unexpected<std::string>("no display to open a window on (" + lastError() +
                                       "); pictures can still be made without one");
    }
    glfwDefaultWindowHints();
    glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
    glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
    glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
    glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
    glfwWindowHint(GLFW_DEPTH_BITS, 24);
    glfwWindowHint(GLFW_STENCIL_BITS, 0);
    glfwWindowHint(GLFW_VISIBLE, settings.visible ? GLFW_TRUE : GLFW_FALSE);
    glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
    // Desktops find name and icon of a running program by this.
    glfwWindowHintString(GLFW_X11_CLASS_NAME, "plumbline");
    glfwWindowHintString(GLFW_X11_INSTANCE_NAME, "plumbline");
#if defined(GLFW_WAYLAND_APP_ID)
    glfwWindowHintString(GLFW_WAYLAND_APP_ID, "plumbline");
#endif
    auto* shared = static_cast<GlfwWindow*>(settings.shares);
    GLFWmonitor* monitor =
        settings.beside && shared != nullptr ? shared->anotherMonitor() : nullptr;
    int width = settings.width, height = settings.height;
    if (shared != nullptr) {
        // Keys stay with the first window; the second stays where it is when that is clicked.
        glfwWindowHint(GLFW_FOCUSED, GLFW_FALSE);
        glfwWindowHint(GLFW_FOCUS_ON_SHOW, GLFW_FALSE);
        glfwWindowHint(GLFW_AUTO_ICONIFY, GLFW_FALSE);
    }
    if (monitor != nullptr) {
        const GLFWvidmode* mode = glfwGetVideoMode(monitor);
        width = mode->width;
        height = mode->height;
    }
    GLFWwindow* window = glfwCreateWindow(width, height, settings.title.c_str(), monitor,
                                          shared == nullptr ? nullptr : shared->handle());
    if (window == nullptr) {
        return Unexpected<std::string>("no window with OpenGL 3.3 (" + lastError() +
                                       "); update the graphics driver or set "
                                       "LIBGL_ALWAYS_SOFTWARE=1 for the software driver");
    }
    auto made = std::make_unique<GlfwWindow>(window, settings.wait_for_display);
    if (shared != nullptr) shared->makeCurrent();
    return std::unique_ptr<Window>(std::move(made));
}

}  // namespace plumbline::platform
