#include "viewer/app/window_input.h"

#include <imgui.h>

#include "viewer/ui/keys.h"

namespace plumbline::app {
namespace {

using platform::Event;
using platform::EventKind;
using platform::Key;

static_assert(static_cast<int>(Key::Escape) == ui::kKeyEscape);
static_assert(static_cast<int>(Key::Enter) == ui::kKeyEnter);
static_assert(static_cast<int>(Key::Right) == ui::kKeyRight);
static_assert(static_cast<int>(Key::Left) == ui::kKeyLeft);
static_assert(static_cast<int>(Key::Down) == ui::kKeyDown);
static_assert(static_cast<int>(Key::Up) == ui::kKeyUp);
static_assert(static_cast<int>(Key::PageUp) == ui::kKeyPageUp);
static_assert(static_cast<int>(Key::PageDown) == ui::kKeyPageDown);
static_assert(static_cast<int>(Key::Home) == ui::kKeyHome);
static_assert(static_cast<int>(Key::Tab) == ui::kKeyTab);
static_assert(static_cast<int>(Key::Backspace) == ui::kKeyBackspace);
static_assert(static_cast<int>(Key::Delete) == ui::kKeyDelete);
static_assert(static_cast<int>(Key::End) == ui::kKeyEnd);
static_assert(static_cast<int>(Key::KeypadEnter) == ui::kKeypadEnter);
static_assert(static_cast<int>(Key::F1) == ui::kKeyF1);
static_assert(static_cast<int>(Key::F1) + 4 == ui::kKeyF5);
static_assert(static_cast<int>(Key::F1) + 5 == ui::kKeyF6);
static_assert(static_cast<int>(Key::F1) + 6 == model::kKeyF7);
static_assert(static_cast<int>(Key::F1) + 7 == ui::kKeyF8);
static_assert(static_cast<int>(Key::F1) + 8 == model::kKeyF9);
static_assert(static_cast<int>(Key::F1) + 10 == ui::kKeyF11);

void setModifiers(ImGuiIO& io, const platform::Modifiers& modifiers) {
    io.KeyCtrl = modifiers.control;
    io.KeyShift = modifiers.shift;
    io.KeyAlt = modifiers.alt;
    io.KeySuper = modifiers.super;
}

bool isModifier(Key key) { return key >= Key::LeftShift && key <= Key::RightSuper; }

/// A release does not yet know of its own key: GLFW reports the modifiers before the event.
void setOwnModifier(ImGuiIO& io, Key key, bool down) {
    if (key == Key::LeftShift || key == Key::RightShift) io.KeyShift = down;
    if (key == Key::LeftControl || key == Key::RightControl) io.KeyCtrl = down;
    if (key == Key::LeftAlt || key == Key::RightAlt) io.KeyAlt = down;
    if (key == Key::LeftSuper || key == Key::RightSuper) io.KeySuper = down;
}

void releaseAll(ImGuiIO& io) {
    for (bool& down : io.KeysDown) down = false;
    for (bool& down : io.MouseDown) down = false;
    setModifiers(io, platform::Modifiers());
}

void feedOne(ImGuiIO& io, const Event& event) {
    switch (event.kind) {
        case EventKind::KeyDown:
        case EventKind::KeyUp: {
            const bool down = event.kind == EventKind::KeyDown;
            setModifiers(io, event.modifiers);
            if (isModifier(event.key)) setOwnModifier(io, event.key, down);
            if (event.key != Key::Unknown) io.KeysDown[static_cast<int>(event.key)] = down;
            break;
        }
        case EventKind::PointerMove:
            io.MousePos = ImVec2(static_cast<float>(event.x_px), static_cast<float>(event.y_px));
            break;
        case EventKind::ButtonDown:
        case EventKind::ButtonUp:
            io.MousePos = ImVec2(static_cast<float>(event.x_px), static_cast<float>(event.y_px));
            if (event.button >= 0 && event.button < 5) {
                io.MouseDown[event.button] = event.kind == EventKind::ButtonDown;
            }
            setModifiers(io, event.modifiers);
            break;
        case EventKind::Scroll:
            io.MouseWheel += static_cast<float>(event.scroll_y);
            io.MouseWheelH += static_cast<float>(event.scroll_x);
            break;
        case EventKind::Focus:
            if (!event.focused) releaseAll(io);
            break;
        case EventKind::Character:
            io.AddInputCharacter(event.code_point);
            break;
        case EventKind::Resize:
        case EventKind::Drop:
        case EventKind::CloseWish:
            break;
    }
}

}  // namespace

void WindowInput::push(std::vector<Event> events) {
    for (Event& event : events) waiting_.push_back(std::move(event));
}

WindowInput::Taken WindowInput::feed() {
    Taken taken;
    ImGuiIO& io = ImGui::GetIO();
    bool pressed = false;
    Key released = Key::Unknown;
    while (!waiting_.empty()) {
        const Event event = waiting_.front();
        const bool press =
            event.kind == EventKind::ButtonDown ||
            (event.kind == EventKind::KeyDown && !event.repeated && !isModifier(event.key));
        const bool after = event.kind == EventKind::ButtonUp || event.kind == EventKind::KeyUp ||
                           event.kind == EventKind::PointerMove;
        if (pressed && (press || after)) break;
        // Up and down again in one frame would look as if it had been held.
        if (press && event.kind == EventKind::KeyDown && event.key == released) break;
        if (event.kind == EventKind::KeyUp && !isModifier(event.key)) released = event.key;
        pressed = pressed || press;
        feedOne(io, event);
        for (const std::string& file : event.files) {
            taken.dropped.push_back(std::filesystem::u8path(file));
        }
        taken.close = taken.close || event.kind == EventKind::CloseWish;
        waiting_.pop_front();
        if (event.kind == EventKind::ButtonUp) break;
    }
    return taken;
}

}  // namespace plumbline::app
