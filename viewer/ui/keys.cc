// Keys to actions, and the sheet that lists them.

#include "viewer/ui/keys.h"

#include <array>

#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

bool pressed(int key, bool repeat = false) { return ImGui::IsKeyPressed(key, repeat); }

constexpr std::size_t kKeyLines = 12;

struct KeyLine {
    const char* keys;
    const char* does;
};

struct KeyGroup {
    const char* title;
    std::array<KeyLine, kKeyLines> lines;
};

constexpr std::array<KeyGroup, 3> kGroups{{
    {"Time",
     {{{"Space", "Play, pause"},
       {"\u2190 \u2192", "One second; with Shift five"},
       {", .", "One frame back, on"},
       {"Page up, down", "Figure before, next"},
       {"Home", "To the start"},
       {"\u2212 =", "Slower, faster"},
       {"L", "Loop this figure, or no loop"},
       {"I O", "Loop from here; to here"},
       {"F8", "Next finding; with Shift back"},
       {"Wheel on lanes", "Zoom; with Shift move"},
       {"M", "Music, or silence"},
       {"", ""}}}},
    {"View",
     {{{"1 \u2013 6", "The six views, as on their tabs"},
       {"Shift 1 \u2013 6", "The second view"},
       {"V", "Second view small, beside, none"},
       {"Drag", "Turn the head or the eye"},
       {"Right drag", "Move the seat, map or target"},
       {"Wheel", "Lens or distance"},
       {"R", "View as at first (or double-click)"},
       {"F", "Follow the aircraft, or let go"},
       {"A W D S", "In the cockpit: left, up, right, ahead"},
       {"G", "Sighting frames on the wings"},
       {"H", "More height threads"},
       {"C", "Colour by load, speed, height, apart"}}}},
    {"Window",
     {{{"[ ]", "Fold the sheet, the timeline"},
       {"P", "Picture only"},
       {"F11", "Full screen"},
       {"T", "Light or dark"},
       {"Shift C", "Colours of the path, or greys"},
       {"U", "Units"},
       {"Ctrl \u2212 =", "Smaller, larger; Ctrl 0 as at first"},
       {"F1 or ?", "These keys"},
       {"Esc", "Close what is open on top"},
       {"Ctrl Q", "Quit"},
       {"", ""},
       {"", ""}}}},
}};

void handleTimeKeys(model::Actions& actions, bool shift) {
    if (pressed(' ')) actions.push(ActionKind::TogglePlay);
    if (pressed(kKeyLeft, true)) actions.push(ActionKind::SeekBy, shift ? -5.0 : -1.0);
    if (pressed(kKeyRight, true)) actions.push(ActionKind::SeekBy, shift ? 5.0 : 1.0);
    if (pressed(',', true)) actions.push(ActionKind::StepFrames, -1.0);
    if (pressed('.', true)) actions.push(ActionKind::StepFrames, 1.0);
    if (pressed(kKeyPageUp, true)) actions.push(ActionKind::PreviousFigure);
    if (pressed(kKeyPageDown, true)) actions.push(ActionKind::NextFigure);
    if (pressed(kKeyHome)) actions.push(ActionKind::ToStart);
    if (pressed('-')) actions.pushIndex(ActionKind::SpeedBy, -1);
    if (pressed('=')) actions.pushIndex(ActionKind::SpeedBy, 1);
    if (pressed('M')) actions.push(ActionKind::ToggleMusic);
    if (pressed('L')) actions.push(ActionKind::ToggleLoop);
    if (pressed('I')) actions.push(ActionKind::MarkIn);
    if (pressed('O')) actions.push(ActionKind::MarkOut);
    if (pressed(kKeyF8)) {
        actions.push(shift ? ActionKind::PreviousFinding : ActionKind::NextFinding);
    }
}

}  // namespace

void handleKeys(const model::Model& model, model::Actions& actions) {
    const ImGuiIO& io = ImGui::GetIO();
    if (pressed(kKeyF1) || (pressed('/') && io.KeyShift)) actions.push(ActionKind::ToggleKeyHelp);
    if (pressed(kKeyF11)) actions.push(ActionKind::ToggleFullScreen);
    if (pressed(kKeyEscape)) {
        if (model.session.key_help) {
            actions.push(ActionKind::ToggleKeyHelp);
        } else if (!model.problems.empty() || !model.message.text.empty()) {
            actions.push(ActionKind::DismissMessage);
        } else if (model.start_panel) {
            actions.push(ActionKind::CloseStart);
        } else if (model.session.picture_only) {
            actions.push(ActionKind::TogglePictureOnly);
        } else if (model.full_screen) {
            actions.push(ActionKind::ToggleFullScreen);
        }
    }
    if (io.KeyCtrl) {
        if (pressed('Q')) actions.push(ActionKind::Quit);
        if (pressed('-')) actions.pushIndex(ActionKind::ScaleBy, -1);
        if (pressed('=')) actions.pushIndex(ActionKind::ScaleBy, 1);
        if (pressed('0')) actions.push(ActionKind::SetScale, 1.0);
        return;
    }
    handleTimeKeys(actions, io.KeyShift);
    for (int i = 0; i < scene::kViewCount; ++i) {
        if (pressed('1' + i)) {
            actions.pushIndex(io.KeyShift ? ActionKind::SetSecondView : ActionKind::SetView, i);
        }
    }
    const bool cockpit =
        model.session.view.view == scene::View::Cockpit ||
        (model.session.second_chosen && model.session.second.view == scene::View::Cockpit);
    if (cockpit) {
        const auto look = [&actions](model::Look where) {
            actions.pushIndex(ActionKind::LookTo, static_cast<int>(where));
        };
        if (pressed('W')) look(model::Look::Up);
        if (pressed('A')) look(model::Look::Left);
        if (pressed('S')) look(model::Look::Ahead);
        if (pressed('D')) look(model::Look::Right);
    }
    if (pressed(kKeyEnter)) actions.push(ActionKind::CloseStart);
    if (pressed('R')) actions.push(ActionKind::ResetView);
    if (pressed('F')) actions.push(ActionKind::ToggleFollow);
    if (pressed('V')) actions.push(ActionKind::CycleSecond);
    if (pressed('H')) actions.push(ActionKind::ToggleThreads);
    if (pressed('G')) actions.push(ActionKind::ToggleSighting);
    if (pressed('C')) {
        actions.push(io.KeyShift ? ActionKind::ToggleGrey : ActionKind::CycleQuantity);
    }
    if (pressed('[')) actions.push(ActionKind::ToggleSheet);
    if (pressed(']')) actions.push(ActionKind::ToggleTimeline);
    if (pressed('P')) actions.push(ActionKind::TogglePictureOnly);
    if (pressed('T')) actions.push(ActionKind::ToggleTheme);
    if (pressed('U')) actions.push(ActionKind::CycleUnits);
}

void drawKeyHelp(const PanelInput& in) {
    if (!in.model.session.key_help) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    // Everything behind waits until it is closed.
    if (press("key help", in.layout.window).clicked) in.actions.push(ActionKind::ToggleKeyHelp);
    c.fill(in.layout.window, faded(theme.under, 0.72));
    const float column = c.px(344);
    const bool across = column * 3 + c.px(80) < in.layout.window.width;
    const float line = c.px(26);
    const float group_height = c.px(40) + line * kKeyLines;
    const float width = across ? column * 3 + c.px(48) : column + c.px(72);
    const float height = across ? group_height + c.px(40) : group_height * 3 + c.px(24);
    const Rect box{std::round((in.layout.window.width - width) / 2),
                   std::round(std::max(0.0F, (in.layout.window.height - height) / 2)), width,
                   height};
    c.fill(box, theme.raised);
    for (std::size_t g = 0; g < kGroups.size(); ++g) {
        const auto n = static_cast<float>(g);
        const float x = box.x + c.px(32) + (across ? n * column : 0);
        float y = box.y + c.px(24) + (across ? 0 : n * group_height);
        c.text(x, y, kHead, theme.ink, kGroups[g].title);
        y += c.px(32);
        for (const KeyLine& entry : kGroups[g].lines) {
            c.text(x, y, kStrong, theme.ink, entry.keys);
            c.text(x + c.px(106), y, kBody, theme.ink2, entry.does);
            y += line;
        }
    }
}

}  // namespace plumbline::ui
