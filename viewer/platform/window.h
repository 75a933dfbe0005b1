#pragma once
// A window with a GL context, its input as a queue of plain events. Lengths and positions are
// framebuffer pixels, origin top left, on every system.

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "viewer/platform/surface.h"

namespace plumbline::platform {

/// Keys by the character a US layout prints on them, or by name. Letters and digits follow their
/// ASCII codes, so `static_cast<Key>('Z')` is the Z key.
enum class Key : std::int32_t {
    Unknown = 0,
    Space = ' ',
    Apostrophe = '\'',
    Comma = ',',
    Minus = '-',
    Period = '.',
    Slash = '/',
    Digit0 = '0',
    Digit9 = '9',
    Semicolon = ';',
    Equal = '=',
    A = 'A',
    C = 'C',
    V = 'V',
    X = 'X',
    Y = 'Y',
    Z = 'Z',
    LeftBracket = '[',
    Backslash = '\\',
    RightBracket = ']',
    Grave = '`',
    Escape = 128,
    Enter,
    Tab,
    Backspace,
    Insert,
    Delete,
    Right,
    Left,
    Down,
    Up,
    PageUp,
    PageDown,
    Home,
    End,
    KeypadEnter,
    F1 = 160,  ///< F2.. follow
    F12 = 171,
    LeftShift = 180,
    LeftControl,
    LeftAlt,
    LeftSuper,
    RightShift,
    RightControl,
    RightAlt,
    RightSuper,
    Count = 192
};

struct Modifiers {
    bool shift = false;
    bool control = false;
    bool alt = false;
    bool super = false;
};

enum class EventKind {
    KeyDown,      ///< key, modifiers, repeated
    KeyUp,        ///< key, modifiers
    Character,    ///< code_point: typed text
    PointerMove,  ///< x_px, y_px
    ButtonDown,   ///< button, x_px, y_px, modifiers
    ButtonUp,     ///< button, x_px, y_px, modifiers
    Scroll,       ///< scroll_x, scroll_y in notches, y > 0 away from the person
    Focus,        ///< focused
    Resize,       ///< ask pixelSize() and pixelRatio()
    Drop,         ///< files, UTF-8 paths
    CloseWish     ///< the person wants to close the window; nothing closes by itself
};

struct Event {
    EventKind kind = EventKind::Focus;
    Key key = Key::Unknown;
    bool repeated = false;
    Modifiers modifiers;
    std::uint32_t code_point = 0;
    int button = 0;  ///< 0 left, 1 right, 2 middle
    double x_px = 0, y_px = 0;
    double scroll_x = 0, scroll_y = 0;
    bool focused = true;
    std::vector<std::string> files;
};

struct PixelSize {
    int width_px = 0;
    int height_px = 0;
};

enum class Cursor { Arrow, Text, Hand, ResizeAcross, ResizeDown, Crosshair };

class Window;

struct WindowSettings {
    std::string title;
    int width = 1280;  ///< in the system's window units (pixels / pixel ratio on some systems)
    int height = 720;
    bool visible = true;
    bool wait_for_display = true;  ///< swap in step with the display
    Window* shares = nullptr;      ///< textures with this one, whose context stays current
    bool beside = false;           ///< fills another display than the shared window's, if any
};

class Window {
public:
    /// Opens the window and makes its context current.
    /// @errors no display, no OpenGL 3.3; a sentence that says what to do instead
    static Expected<std::unique_ptr<Window>, std::string> create(const WindowSettings& settings);
    virtual ~Window() = default;

    virtual GlLoader loader() const = 0;
    /// Events since the last call; waits up to `wait_s` for the first one (0: does not wait).
    virtual std::vector<Event> takeEvents(double wait_s) = 0;
    virtual void swap() = 0;
    /// Its context is the one that draws from here on.
    virtual void makeCurrent() = 0;

    virtual PixelSize pixelSize() const = 0;
    /// Pixels per unit of user-interface length (1, 1.25, 2...), as the system sets it.
    virtual double pixelRatio() const = 0;
    virtual void setTitle(const std::string& title) = 0;
    virtual void setCursor(Cursor cursor) = 0;
    virtual void setFullScreen(bool on) = 0;
    virtual bool fullScreen() const = 0;

    /// UTF-8; empty when the clipboard holds no text. Ask only on a paste: some systems log an
    /// error when it is empty.
    virtual std::string clipboardText() = 0;
    virtual void setClipboardText(const std::string& text) = 0;
};

}  // namespace plumbline::platform
