// Keys to actions, and the sheet that lists them.

#include "viewer/ui/keys.h"

#include <algorithm>
#include <array>
#include <span>

#include "viewer/model/action_list.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

bool pressed(int key, bool repeat = false) {
    return ImGui::IsKeyPressed(static_cast<ImGuiKey>(key), repeat);
}

constexpr std::size_t kKeyLines = 14;

struct KeyLine {
    const char* keys;
    const char* does;
};

struct KeyGroup {
    const char* title;
    std::array<KeyLine, kKeyLines> lines;
};

constexpr std::array<KeyGroup, 4> kGroups{{
    {"Writing",
     {{{"F2", "Find anything to do, by its words"},
       {"F4", "Add a figure from the shelf"},
       {"Enter", "Write in the open figure; Esc ends"},
       {"Ctrl Enter", "A new figure below"},
       {"Alt \u2191 \u2193", "The number at the caret, a step"},
       {"Tab", "Take the word offered"},
       {"Ctrl Z, Y", "Undo, redo"},
       {"Ctrl D, M", "Double, mirror the figure"},
       {"Shift Delete", "Remove the figure"},
       {"Alt Shift \u2191 \u2193", "Move it up, down"},
       {"Ctrl N O S", "New, open, save"},
       {"Ctrl Space", "Play while writing"},
       {"N", "Say something of this moment"},
       {"Z", "Fly it imperfectly many times"}}}},
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
       {"Shift L", "Lanes of the timeline"},
       {"M", "Music, or silence"},
       {"Click the path", "Go to that moment"},
       {"F9", "Walk it through, called out"}}}},
    {"View",
     {{{"1 \u2013 6", "The six views, as on their tabs"},
       {"Shift 1 \u2013 6", "The second view"},
       {"V", "Second view small, beside, none"},
       {"Drag", "Turn the head or the eye"},
       {"Right drag", "Move the seat, map or target"},
       {"Wheel", "Lens or distance"},
       {"R", "View as at first (or double-click)"},
       {"F", "Follow the aircraft, or let go"},
       {"A W D S X", "Cockpit: left, up, right, ahead, panel"},
       {"Shift S", "In the crowd: sit, stand"},
       {"G", "Sighting frames on the wings"},
       {"H", "More height threads"},
       {"C", "Colour by load, speed, height, apart"},
       {"E", "Ground in reach without engine"}}}},
    {"Window",
     {{{"[ ]", "Fold the sheet, the timeline"},
       {"P, F11", "Picture only; full screen"},
       {"T", "Light or dark"},
       {"Shift C", "Colours of the path, or greys"},
       {"U", "Units"},
       {"Ctrl \u2212 =", "Smaller, larger; Ctrl 0 as at first"},
       {"F1 or ?", "These keys"},
       {"F3", "Help on what the pointer is on"},
       {"Esc", "Close what is open on top"},
       {"B", "Beside the path as it was saved"},
       {"Ctrl Q", "Quit"},
       {"J Y K", "Flight or plan; in step; what to mend"},
       {"F5", "How the season goes, in plots"},
       {"F6 F7", "Brief; the narrator's prompter"}}}},
}};

/// While the prompter has the keyboard.
constexpr KeyGroup kPrompterKeys{"The narrator's prompter",
                                 {{{"Space", "Play, pause; live: hold, go on"},
                                   {"Page down, up", "The next cue, the one before"},
                                   {"\u2212 =", "Rehearse slower, faster"},
                                   {"\u2190 \u2192", "One second; with Shift five"},
                                   {"M", "Music, or silence"},
                                   {"Enter", "Live from here; then: this cue is now"},
                                   {"X", "The next figure is left out"},
                                   {"A", "This figure is flown again"},
                                   {"Backspace", "Take the last re-timing back"},
                                   {"Shift Enter", "Live no more"},
                                   {"W", "The words in a second window"},
                                   {"\u2191 \u2193", "Larger, smaller words"},
                                   {"Shift \u2191 \u2193", "A faster, slower speaker"},
                                   {"F7 or Esc", "Close it; a show that is live goes on"}}}};

unsigned modifiersNow() {
    const ImGuiIO& io = ImGui::GetIO();
    return (io.KeyShift ? model::kShift : 0U) | (io.KeyCtrl ? model::kControl : 0U) |
           (io.KeyAlt ? model::kAlt : 0U);
}

/// What can be done while the season is looked at.
bool ofTheWindow(ActionKind kind) {
    switch (kind) {
        case ActionKind::ToggleTrends:
        case ActionKind::CycleUnits:
        case ActionKind::ToggleTheme:
        case ActionKind::SetScale:
        case ActionKind::ScaleBy:
        case ActionKind::ToggleKeyHelp:
        case ActionKind::ToggleFullScreen:
        case ActionKind::Quit:
            return true;
        default:
            return false;
    }
}

/// Keys of the list of actions. @param writing  plain keys are letters then
void handleListed(const model::Model& model, model::Actions& actions, bool writing) {
    const unsigned modifiers = modifiersNow();
    for (const model::ActionEntry& entry : model::actionList()) {
        if (entry.key == 0 || entry.modifiers != modifiers) continue;
        const bool function_key = entry.key >= kKeyF1;
        const bool plain = !function_key && (modifiers & (model::kControl | model::kAlt)) == 0;
        if (writing && plain) continue;
        if (model.trends.open && !ofTheWindow(entry.kind)) continue;
        if (!pressed(entry.key, entry.repeats) || !model::offered(model, entry)) continue;
        model::Action action;
        action.kind = entry.kind;
        action.index = entry.index;
        action.value = entry.value;
        actions.push(std::move(action));
    }
}

/// What was typed, as UTF-8; what Control makes of letters is no text.
std::string typed() {
    std::string out;
    const ImGuiIO& io = ImGui::GetIO();
    if (io.KeyCtrl) return out;
    for (const ImWchar wide : io.InputQueueCharacters) {
        const auto code = static_cast<std::uint32_t>(wide);
        if (code < 32 || code == 127) continue;
        if (code < 0x80) {
            out += static_cast<char>(code);
        } else if (code < 0x800) {
            out += static_cast<char>(0xC0U | (code >> 6U));
            out += static_cast<char>(0x80U | (code & 0x3FU));
        } else {
            out += static_cast<char>(0xE0U | (code >> 12U));
            out += static_cast<char>(0x80U | ((code >> 6U) & 0x3FU));
            out += static_cast<char>(0x80U | (code & 0x3FU));
        }
    }
    return out;
}

void handleListKeys(model::Actions& actions) {
    if (pressed(kKeyEscape)) actions.push(ActionKind::CloseList);
    if (pressed(kKeyDown, true)) actions.pushIndex(ActionKind::ListMove, 1);
    if (pressed(kKeyUp, true)) actions.pushIndex(ActionKind::ListMove, -1);
    if (pressed(kKeyPageDown, true)) actions.pushIndex(ActionKind::ListMove, 8);
    if (pressed(kKeyPageUp, true)) actions.pushIndex(ActionKind::ListMove, -8);
    if (pressed(kKeyEnter) || pressed(kKeypadEnter)) actions.pushIndex(ActionKind::ListTake, -1);
    if (pressed(kKeyBackspace, true)) actions.push(ActionKind::ListTakeOut);
    const std::string text = typed();
    if (!text.empty()) actions.pushText(ActionKind::ListType, text);
}

void moveCaret(model::Actions& actions, model::CaretMove move) {
    model::Action action;
    action.kind = ActionKind::MoveCaret;
    action.index = static_cast<int>(move);
    action.x = ImGui::GetIO().KeyShift ? 1 : 0;
    actions.push(std::move(action));
}

void handleWritingKeys(const model::Model& model, model::Actions& actions) {
    using model::CaretMove;
    const ImGuiIO& io = ImGui::GetIO();
    const bool control = io.KeyCtrl;
    if (io.KeyAlt && !io.KeyCtrl) {
        const auto step = [&](int steps) {
            model::Action action;
            action.kind = ActionKind::StepNumber;
            action.index = steps;
            actions.push(std::move(action));
        };
        if (!io.KeyShift && pressed(kKeyUp, true)) step(1);
        if (!io.KeyShift && pressed(kKeyDown, true)) step(-1);
    } else if (!model.editor.script) {  // there lines are as they are wrapped
        if (pressed(kKeyUp, true)) moveCaret(actions, CaretMove::Up);
        if (pressed(kKeyDown, true)) moveCaret(actions, CaretMove::Down);
    }
    if (pressed(kKeyLeft, true)) {
        moveCaret(actions, control ? CaretMove::WordLeft : CaretMove::Left);
    }
    if (pressed(kKeyRight, true)) {
        moveCaret(actions, control ? CaretMove::WordRight : CaretMove::Right);
    }
    if (pressed(kKeyHome)) {
        moveCaret(actions, control ? CaretMove::Start : CaretMove::LineStart);
    }
    if (pressed(kKeyEnd)) moveCaret(actions, control ? CaretMove::End : CaretMove::LineEnd);
    if (pressed(kKeyPageUp, true)) actions.push(ActionKind::PreviousFigure);
    if (pressed(kKeyPageDown, true)) actions.push(ActionKind::NextFigure);
    if (control) {
        if (pressed('A')) moveCaret(actions, CaretMove::All);
        if (pressed('C')) actions.push(ActionKind::Copy);
        if (pressed('X')) actions.push(ActionKind::Cut);
        if (pressed('V')) actions.push(ActionKind::Paste);
        if (pressed(' ')) actions.push(ActionKind::TogglePlay);
        return;
    }
    if (pressed(kKeyBackspace, true)) actions.pushIndex(ActionKind::TakeOut, -1);
    if (!io.KeyShift && pressed(kKeyDelete, true)) actions.pushIndex(ActionKind::TakeOut, 1);
    if (pressed(kKeyTab) && model.editor.script) {
        const int row = model::openRow(model) + (io.KeyShift ? -1 : 1);
        if (row >= 0 && row < static_cast<int>(model.rows.size())) {
            actions.pushIndex(ActionKind::GoToFigure, row);
            actions.pushIndex(ActionKind::WriteScript, row);
        }
    } else if (pressed(kKeyTab)) {
        if (!model::offersAt(model.editor).empty()) {
            actions.pushIndex(ActionKind::TakeOffer, 0);
        } else {
            actions.pushText(ActionKind::TypeText, "    ");
        }
    }
    const std::string text = typed();
    if (!text.empty()) actions.pushText(ActionKind::TypeText, text);
    if (pressed(kKeyEnter, true) || pressed(kKeypadEnter, true)) {
        actions.pushText(ActionKind::TypeText, "\n");
    }
}

void handleTrendKeys(const model::Model& model, model::Actions& actions) {
    if (pressed(kKeyEscape)) actions.push(ActionKind::ToggleTrends);
    const model::TrendChoice choice = model::trendChoice(model.trends);
    const auto choose = [&](int figure, int measure) {
        model::Action action;
        action.kind = ActionKind::ChooseTrend;
        action.index = figure;
        action.value = measure;
        actions.push(std::move(action));
    };
    const auto step = [](int key, int back_key) {
        return (pressed(key, true) ? 1 : 0) - (pressed(back_key, true) ? 1 : 0);
    };
    const int down = step(kKeyDown, kKeyUp), right = step(kKeyRight, kKeyLeft);
    if (choice.figure >= 0 && (down != 0 || right != 0))
        choose(std::max(0, choice.figure + down), std::max(0, choice.measure + right));
    handleListed(model, actions, false);
}

void handleEscape(const model::Model& model, model::Actions& actions) {
    if (!pressed(kKeyEscape)) return;
    if (model.session.key_help) {
        actions.push(ActionKind::ToggleKeyHelp);
    } else if (model.editor.writing) {
        actions.push(ActionKind::StopWriting);
    } else if (model.prompter.on) {
        actions.pushIndex(ActionKind::Prompter, static_cast<int>(model::PrompterDo::OnOff));
    } else if (model.walk.on) {
        actions.pushIndex(ActionKind::WalkThrough, static_cast<int>(model::WalkDo::OnOff));
    } else if (!model.problems.empty() || !model.message.text.empty()) {
        actions.push(ActionKind::DismissMessage);
    } else if (model.start_panel) {
        actions.push(ActionKind::CloseStart);
    } else if (model.brief.on) {
        actions.push(ActionKind::ToggleBrief);
    } else if (model.session.picture_only) {
        actions.push(ActionKind::TogglePictureOnly);
    } else if (model.full_screen) {
        actions.push(ActionKind::ToggleFullScreen);
    }
}

}  // namespace

void handleKeys(const model::Model& model, model::Actions& actions) {
    if (model.list.kind != model::ListKind::None) {
        handleListKeys(actions);
        return;
    }
    for (std::size_t i = 0; i < model.question.choices.size(); ++i) {
        if (!model.editor.writing && pressed('1' + static_cast<int>(i))) {
            actions.push(model.question.choices[i].action);
            return;
        }
    }
    if (model.trends.open && !model.session.key_help) {
        handleTrendKeys(model, actions);
        return;
    }
    handleEscape(model, actions);
    const bool writing = model.editor.writing && !model.session.key_help;
    handleListed(model, actions, writing);
    if (writing) handleWritingKeys(model, actions);
}

void drawKeyHelp(const PanelInput& in) {
    if (!in.model.session.key_help) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    // Everything behind waits until it is closed.
    if (press("key help", in.layout.window).clicked) in.actions.push(ActionKind::ToggleKeyHelp);
    c.fill(in.layout.window, faded(theme.under, 0.72));
    const std::span<const KeyGroup> groups =
        in.model.prompter.on ? std::span(&kPrompterKeys, 1) : std::span<const KeyGroup>(kGroups);
    const float column = c.px(344);
    const int most = column * 4 + c.px(80) < in.layout.window.width ? 4 : 2;
    const int columns = std::min(most, static_cast<int>(groups.size()));
    const float line = c.px(columns == 2 ? 22 : 26);
    const float group_height = c.px(40) + line * kKeyLines;
    const float width = column * static_cast<float>(columns) + c.px(48);
    const int rows = static_cast<int>(groups.size()) / columns;
    const float height = group_height * static_cast<float>(rows) + c.px(40);
    const Rect box{std::round((in.layout.window.width - width) / 2),
                   std::round(std::max(0.0F, (in.layout.window.height - height) / 2)), width,
                   height};
    c.fill(box, theme.raised);
    for (std::size_t g = 0; g < groups.size(); ++g) {
        const int place = static_cast<int>(g);
        const float x = box.x + c.px(32) + static_cast<float>(place % columns) * column;
        float y = box.y + c.px(24) + static_cast<float>(place / columns) * group_height;
        c.text(x, y, kHead, theme.ink, groups[g].title);
        y += c.px(32);
        for (const KeyLine& entry : groups[g].lines) {
            if (entry.keys == nullptr) break;  // a shorter group
            c.text(x, y, kStrong, theme.ink, entry.keys);
            c.text(x + c.px(106), y, kBody, theme.ink2, entry.does);
            y += line;
        }
    }
}

}  // namespace plumbline::ui
