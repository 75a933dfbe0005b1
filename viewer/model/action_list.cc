#include "viewer/model/action_list.h"

#include <algorithm>
#include <array>

#include "engine/base/number_text.h"
#include "viewer/model/key_codes.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

using K = ActionKind;

constexpr int index(ListKind kind) { return static_cast<int>(kind); }
constexpr int index(Look look) { return static_cast<int>(look); }
constexpr int index(PrompterDo what) { return static_cast<int>(what); }
constexpr int index(WalkDo what) { return static_cast<int>(what); }

constexpr ActionEntry kList[] = {
    // Writing.
    {K::ShowList, "Find anything to do", kKeyF2, 0, index(ListKind::Anything), 0, false, "F2"},
    {K::ShowList, "Add a figure from the shelf", kKeyF4, 0, index(ListKind::Shelf), 0, false, "F4"},
    {K::WriteFigure, "Write in the open figure", kKeyEnter, 0, -1, 0, false, "Enter"},
    {K::AddFigure, "Add a figure of one line below", kKeyEnter, kControl, 0, 0, false,
     "Ctrl Enter"},
    {K::DoubleFigure, "Double the open figure", 'D', kControl, -1, 0, false, "Ctrl D"},
    {K::RemoveFigure, "Remove the open figure", kKeyDelete, kShift, -1, 0, false, "Shift Delete"},
    {K::MirrorFigure, "Mirror the open figure", 'M', kControl, -1, 0, false, "Ctrl M"},
    {K::MoveFigureBy, "Move the open figure up", kKeyUp, kAlt | kShift, -1, 0, true,
     "Alt Shift \u2191"},
    {K::MoveFigureBy, "Move the open figure down", kKeyDown, kAlt | kShift, 1, 0, true,
     "Alt Shift \u2193"},
    {K::Undo, "Undo the last change", 'Z', kControl, 0, 0, true, "Ctrl Z"},
    {K::Redo, "Redo what was undone", 'Y', kControl, 0, 0, true, "Ctrl Y"},
    {K::Redo, "Redo what was undone", 'Z', kControl | kShift, 0, 0, true, ""},
    {K::ToggleCompare, "Beside the path as it was saved", 'B', 0, 0, 0, false, "B"},
    {K::WriteFile, "Write the whole routine as text", 0, 0, 0, 0, false, ""},
    {K::WriteFile, "Change the aircraft", 0, 0, 1, 0, false, ""},
    {K::WriteFile, "Change the site", 0, 0, 2, 0, false, ""},
    {K::WriteFile, "Change the weather", 0, 0, 3, 0, false, ""},
    // Files and variants.
    {K::NewRoutine, "Begin a new routine", 'N', kControl, 0, 0, false, "Ctrl N"},
    {K::ShowList, "Open a routine or a recording", 'O', kControl, index(ListKind::OpenFile), 0,
     false, "Ctrl O"},
    {K::Save, "Save", 'S', kControl, 0, 0, false, "Ctrl S"},
    {K::ShowList, "Save under another name", 'S', kControl | kShift, index(ListKind::SaveFile), 0,
     false, "Ctrl Shift S"},
    {K::ShowList, "Export for other programs (glTF, KML, GPX, CSV)", 0, 0,
     index(ListKind::ExportFile), 0, false, ""},
    {K::ShowList, "Choose the show that is flown", 0, 0, index(ListKind::Shows), 0, false, ""},
    {K::ToggleMirror, "Fly it mirrored, or as written", 0, 0, 0, 0, false, ""},
    // Time.
    {K::TogglePlay, "Play or pause", ' ', 0, 0, 0, false, "Space"},
    {K::SeekBy, "Go back a second", kKeyLeft, 0, 0, -1, true, "\u2190"},
    {K::SeekBy, "Go on a second", kKeyRight, 0, 0, 1, true, "\u2192"},
    {K::SeekBy, "Go back five seconds", kKeyLeft, kShift, 0, -5, true, "Shift \u2190"},
    {K::SeekBy, "Go on five seconds", kKeyRight, kShift, 0, 5, true, "Shift \u2192"},
    {K::StepFrames, "Go back a frame", ',', 0, 0, -1, true, ","},
    {K::StepFrames, "Go on a frame", '.', 0, 0, 1, true, "."},
    {K::PreviousFigure, "Go to the figure before", kKeyPageUp, 0, 0, 0, true, "Page up"},
    {K::NextFigure, "Go to the next figure", kKeyPageDown, 0, 0, 0, true, "Page down"},
    {K::ToStart, "Go to the start", kKeyHome, 0, 0, 0, false, "Home"},
    {K::SpeedBy, "Play slower", '-', 0, -1, 0, false, "\u2212"},
    {K::SpeedBy, "Play faster", '=', 0, 1, 0, false, "="},
    {K::ToggleLoop, "Loop this figure, or no loop", 'L', 0, 0, 0, false, "L"},
    {K::MarkIn, "Loop from here", 'I', 0, 0, 0, false, "I"},
    {K::MarkOut, "Loop to here", 'O', 0, 0, 0, false, "O"},
    {K::ToggleMusic, "Music or silence", 'M', 0, 0, 0, false, "M"},
    {K::NextFinding, "Go to the next finding", kKeyF8, 0, 0, 0, false, "F8"},
    {K::PreviousFinding, "Go to the finding before", kKeyF8, kShift, 0, 0, false, "Shift F8"},
    // Views.
    {K::SetView, "Look from the crowd", '1', 0, 0, 0, false, "1"},
    {K::SetView, "Look from the judge's seat", '2', 0, 1, 0, false, "2"},
    {K::SetView, "Look from the cockpit", '3', 0, 2, 0, false, "3"},
    {K::SetView, "Look from behind the aircraft", '4', 0, 3, 0, false, "4"},
    {K::SetView, "Look from above", '5', 0, 4, 0, false, "5"},
    {K::SetView, "Look freely", '6', 0, 5, 0, false, "6"},
    {K::SetSecondView, "Second view from the crowd", '1', kShift, 0, 0, false, "Shift 1"},
    {K::SetSecondView, "Second view from the judge's seat", '2', kShift, 1, 0, false, "Shift 2"},
    {K::SetSecondView, "Second view from the cockpit", '3', kShift, 2, 0, false, "Shift 3"},
    {K::SetSecondView, "Second view from behind", '4', kShift, 3, 0, false, "Shift 4"},
    {K::SetSecondView, "Second view from above", '5', kShift, 4, 0, false, "Shift 5"},
    {K::SetSecondView, "Second view freely", '6', kShift, 5, 0, false, "Shift 6"},
    {K::CycleSecond, "Second view small, beside, none", 'V', 0, 0, 0, false, "V"},
    {K::LookTo, "Look along the left wing", 'A', 0, index(Look::Left), 0, false, "A"},
    {K::LookTo, "Look along the right wing", 'D', 0, index(Look::Right), 0, false, "D"},
    {K::LookTo, "Look up in the cockpit", 'W', 0, index(Look::Up), 0, false, "W"},
    {K::LookTo, "Look ahead in the cockpit", 'S', 0, index(Look::Ahead), 0, false, "S"},
    {K::LookTo, "Look at the instruments", 'X', 0, index(Look::Panel), 0, false, "X"},
    {K::SitOrStand, "Sit or stand in the crowd", 'S', kShift, 0, 0, false, "Shift S"},
    {K::ResetView, "View as at first", 'R', 0, 0, 0, false, "R"},
    {K::ToggleFollow, "Follow the aircraft, or let go", 'F', 0, 0, 0, false, "F"},
    {K::ToggleThreads, "More height threads", 'H', 0, 0, 0, false, "H"},
    {K::ToggleSighting, "Sighting frames on the wings", 'G', 0, 0, 0, false, "G"},
    {K::ToggleGates, "Gates at the tops", 'G', kShift, 0, 0, false, "Shift G"},
    {K::ToggleReach, "Ground in reach without engine", 'E', 0, 0, 0, false, "E"},
    {K::CycleQuantity, "Colour by load, speed, height, apart", 'C', 0, 0, 0, false, "C"},
    {K::ToggleGrey, "Colours of the path, or greys", 'C', kShift, 0, 0, false, "Shift C"},
    // The routine flown imperfectly.
    {K::ToggleMargins, "Fly it imperfectly many times, or stop", 'Z', 0, 0, 0, false, "Z"},
    {K::ShowList, "The worst of the imperfect flights", 'Z', kShift, index(ListKind::Worst), 0,
     false, "Shift Z"},
    // A flight and its plan.
    {K::ToggleReview, "The flight over its plan, or the plan", 'J', 0, 0, 0, false, "J"},
    {K::ToggleByTime, "Plan in step by figure, or by time", 'Y', 0, 0, 0, false, "Y"},
    {K::ToggleMending, "Fold or open what is worth mending", 'K', 0, 0, 0, false, "K"},
    {K::WriteDebrief, "Write the flight's two pages beside its log", 'P', kControl, 0, 0, false,
     "Ctrl P"},
    {K::ToggleTrends, "How the season goes: plots of each figure", kKeyF5, 0, 0, 0, false, "F5"},
    {K::WriteRemark, "Say something of this moment", 'N', 0, -1, 0, false, "N"},
    {K::ShowList, "Change what was said of a moment", 'N', kShift, index(ListKind::Remarks), 0,
     false, "Shift N"},
    // The brief.
    {K::ToggleBrief, "Brief: its pages, the narrator's words beside their cues", kKeyF6, 0, 0, 0,
     false, "F6"},
    {K::ShowSheet, "Brief: the pilot's card", 0, 0, 0, 0, false, ""},
    {K::ShowSheet, "Brief: the narrator's cue sheet", 0, 0, 1, 0, false, ""},
    {K::ShowSheet, "Brief: the display director's sheet", 0, 0, 2, 0, false, ""},
    {K::TurnPage, "Brief: the page before", kKeyF6, kControl | kShift, -1, 0, true,
     "Ctrl Shift F6"},
    {K::TurnPage, "Brief: the next page", kKeyF6, kControl, 1, 0, true, "Ctrl F6"},
    {K::TogglePaper, "Brief: A4 and A5, or letter and half-letter", 0, 0, 0, 0, false, ""},
    {K::WholePage, "Brief: the whole page", 0, 0, 0, 0, false, ""},
    {K::PaceBy, "Brief: the narrator speaks slower", 0, 0, -1, 0, false, ""},
    {K::PaceBy, "Brief: the narrator speaks faster", 0, 0, 1, 0, false, ""},
    {K::WriteBrief, "Brief: write all pages beside the routine", kKeyF6, kShift, 0, 0, false,
     "Shift F6"},
    {K::ShowList, "Font for other scripts", 0, 0, index(ListKind::FontFile), 0, false, ""},
    {K::ForgetFonts, "The built-in font alone", 0, 0, 0, 0, false, ""},
    // Before and at the show.
    {K::Prompter, "The narrator's prompter", kKeyF7, 0, index(PrompterDo::OnOff), 0, false, "F7"},
    {K::Prompter, "Prompter: live from this moment on", kKeyEnter, 0, index(PrompterDo::Live), 0,
     false, "Enter"},
    {K::Prompter, "Prompter: this cue is now, re-time from here", kKeyEnter, 0,
     index(PrompterDo::Now), 0, false, "Enter"},
    {K::Prompter, "Prompter: live no more", kKeyEnter, kShift, index(PrompterDo::EndLive), 0, false,
     "Shift Enter"},
    {K::Prompter, "Prompter: to the next cue", kKeyPageDown, 0, index(PrompterDo::NextCue), 0,
     false, "Page down"},
    {K::Prompter, "Prompter: to the cue before", kKeyPageUp, 0, index(PrompterDo::CueBefore), 0,
     false, "Page up"},
    {K::Prompter, "Prompter: the next figure is left out", 'X', 0, index(PrompterDo::LeaveOut), 0,
     false, "X"},
    {K::Prompter, "Prompter: this figure is flown again", 'A', 0, index(PrompterDo::Again), 0,
     false, "A"},
    {K::Prompter, "Prompter: take the last re-timing back", kKeyBackspace, 0,
     index(PrompterDo::TakeBack), 0, false, "Backspace"},
    {K::Prompter, "Prompter: hold, go on", ' ', 0, index(PrompterDo::Hold), 0, false, "Space"},
    {K::Prompter, "Prompter: its text in a second window", 'W', 0, index(PrompterDo::Window), 0,
     false, "W"},
    {K::Prompter, "Prompter: larger words", kKeyUp, 0, index(PrompterDo::Larger), 0, true,
     "\u2191"},
    {K::Prompter, "Prompter: smaller words", kKeyDown, 0, index(PrompterDo::Smaller), 0, true,
     "\u2193"},
    {K::Prompter, "Prompter: a faster speaker", kKeyUp, kShift, index(PrompterDo::Faster), 0, true,
     "Shift \u2191"},
    {K::Prompter, "Prompter: a slower speaker", kKeyDown, kShift, index(PrompterDo::Slower), 0,
     true, "Shift \u2193"},
    {K::WalkThrough, "Walk it through: called out in real time", kKeyF9, 0, index(WalkDo::OnOff), 0,
     false, "F9"},
    {K::WalkThrough, "Walk-through: calls a little earlier", '=', 0, index(WalkDo::LeadLonger), 0,
     true, "="},
    {K::WalkThrough, "Walk-through: calls a little later", '-', 0, index(WalkDo::LeadShorter), 0,
     true, "\u2212"},
    // Window.
    {K::ToggleSheet, "Fold or open the sheet", '[', 0, 0, 0, false, "["},
    {K::ToggleTimeline, "Fold or open the timeline", ']', 0, 0, 0, false, "]"},
    {K::TogglePictureOnly, "Picture only", 'P', 0, 0, 0, false, "P"},
    {K::ToggleFullScreen, "Full screen", kKeyF11, 0, 0, 0, false, "F11"},
    {K::ToggleTheme, "Light or dark", 'T', 0, 0, 0, false, "T"},
    {K::CycleUnits, "Other units", 'U', 0, 0, 0, false, "U"},
    {K::ScaleBy, "Smaller writing", '-', kControl, -1, 0, false, "Ctrl \u2212"},
    {K::ScaleBy, "Larger writing", '=', kControl, 1, 0, false, "Ctrl ="},
    {K::SetScale, "Writing as large as at first", '0', kControl, 0, 1, false, "Ctrl 0"},
    {K::ShowList, "Choose the timeline's lanes", 'L', kShift, index(ListKind::Lanes), 0, false,
     "Shift L"},
    {K::ToggleHelp, "Help on what lies under the pointer", kKeyF3, 0, 0, 0, false, "F3"},
    {K::ToggleKeyHelp, "Show the keys", kKeyF1, 0, 0, 0, false, "F1"},
    {K::ToggleKeyHelp, "Show the keys", '/', kShift, 0, 0, false, ""},
    {K::Quit, "Quit", 'Q', kControl, 0, 0, false, "Ctrl Q"},
};

constexpr std::array kNames{"TogglePlay",
                            "Seek",
                            "SeekBy",
                            "StepFrames",
                            "ToStart",
                            "NextFigure",
                            "PreviousFigure",
                            "GoToFigure",
                            "NextFinding",
                            "PreviousFinding",
                            "ToggleMusic",
                            "SetSpeed",
                            "SpeedBy",
                            "ToggleLoop",
                            "MarkIn",
                            "MarkOut",
                            "SetView",
                            "TurnView",
                            "PanView",
                            "ZoomView",
                            "LookTo",
                            "ResetView",
                            "CycleQuantity",
                            "ToggleGrey",
                            "CycleSecond",
                            "SetSecondView",
                            "ToggleFollow",
                            "SitOrStand",
                            "ToggleSighting",
                            "ToggleThreads",
                            "ToggleGates",
                            "ToggleReach",
                            "ToggleMargins",
                            "LookAtFlight",
                            "ToggleReview",
                            "ToggleByTime",
                            "ToggleMending",
                            "WriteRemark",
                            "KeepRemark",
                            "DeleteRemark",
                            "WriteDebrief",
                            "ToggleBrief",
                            "ShowSheet",
                            "TurnPage",
                            "TogglePaper",
                            "ZoomPage",
                            "PanPage",
                            "WholePage",
                            "PaceBy",
                            "WriteScript",
                            "WriteBrief",
                            "AddFont",
                            "ForgetFonts",
                            "ZoomLanes",
                            "PanLanes",
                            "TurnLane",
                            "ResetLanes",
                            "ToggleTheme",
                            "CycleUnits",
                            "SetScale",
                            "ScaleBy",
                            "ToggleSheet",
                            "ToggleTimeline",
                            "SetSheetWidth",
                            "SetTimelineHeight",
                            "TogglePictureOnly",
                            "ToggleKeyHelp",
                            "ToggleTrends",
                            "ChooseTrend",
                            "ToggleHelp",
                            "ToggleFullScreen",
                            "CloseStart",
                            "DismissMessage",
                            "Open",
                            "Quit",
                            "WriteFigure",
                            "WriteFile",
                            "StopWriting",
                            "TypeText",
                            "TakeOut",
                            "MoveCaret",
                            "PlaceCaret",
                            "StepNumber",
                            "SetNumber",
                            "TakeOffer",
                            "Copy",
                            "Cut",
                            "Paste",
                            "Undo",
                            "Redo",
                            "ToggleCompare",
                            "AddFigure",
                            "DoubleFigure",
                            "RemoveFigure",
                            "MirrorFigure",
                            "MoveFigure",
                            "MoveFigureBy",
                            "NewRoutine",
                            "Save",
                            "SaveAs",
                            "Export",
                            "OpenAnyway",
                            "QuitAnyway",
                            "TakeTheirs",
                            "KeepMine",
                            "FlyAs",
                            "ToggleMirror",
                            "Prompter",
                            "WalkThrough",
                            "ShowList",
                            "ListType",
                            "ListTakeOut",
                            "ListMove",
                            "ListTake",
                            "CloseList"};
static_assert(kNames.size() == static_cast<std::size_t>(K::Count));

bool ofWriting(K kind) {
    switch (kind) {
        case K::WriteFigure:
        case K::WriteFile:
        case K::AddFigure:
        case K::DoubleFigure:
        case K::RemoveFigure:
        case K::MirrorFigure:
        case K::MoveFigureBy:
        case K::Undo:
        case K::Redo:
        case K::ToggleCompare:
        case K::Save:
        case K::ToggleMirror:
            return true;
        default:
            return false;
    }
}

}  // namespace

std::span<const ActionEntry> actionList() { return kList; }

bool offered(const Model& model, const ActionEntry& entry) {
    const Editor& editor = model.editor;
    if (entry.kind == K::Prompter)
        return prompterOffers(model, static_cast<PrompterDo>(entry.index));
    if (model.prompter.on && !offeredBesidePrompter(model, entry)) return false;
    if (entry.kind == K::WalkThrough)
        return model.walk.on ||
               (entry.index == index(WalkDo::OnOff) && model.shown && !model.shown->recording());
    // It runs in real time; the keys of the speed are those of the lead.
    if (model.walk.on && entry.kind == K::SpeedBy) return false;
    if (ofWriting(entry.kind) && !editor.open()) return false;
    if (entry.kind == K::ShowList) {
        const auto list = static_cast<ListKind>(entry.index);
        if (list == ListKind::Worst) return model.margins.report != nullptr;
        if (list == ListKind::ExportFile) return model.shown != nullptr;
        const bool writes = list == ListKind::SaveFile || list == ListKind::Shows;
        if (list == ListKind::Remarks) return !model.remarks.list.empty();
        return !writes || editor.open();
    }
    const bool briefed = model.shown && model.shown->workspace;
    switch (entry.kind) {
        case K::ToggleBrief:
        case K::WriteBrief:
            return briefed;
        case K::ShowSheet:
        case K::TurnPage:
        case K::TogglePaper:
        case K::WholePage:
        case K::PaceBy:
            return briefed && model.brief.on;
        case K::ForgetFonts:
            return !model.session.fonts.empty();
        default:
            break;
    }
    if (entry.kind == K::ToggleMargins) return model.shown && !model.shown->recording();
    if (entry.kind == K::WriteRemark) return model.shown && !model.shown->subject.key.empty();
    const bool reviewed = model.shown && model.shown->review;
    if (entry.kind == K::ToggleMending) return reviewed;
    if (entry.kind == K::WriteDebrief) return reviewed && model.shown->review->plan != nullptr;
    if (entry.kind == K::ToggleByTime) return reviewed && model.shown->review->plan != nullptr;
    if (entry.kind == K::ToggleReview) {
        return reviewed ? model.shown->review->plan != nullptr : model.flight != nullptr;
    }
    if (entry.kind == K::LookTo) {
        return model.session.view.view == scene::View::Cockpit ||
               (model.session.second_chosen && model.session.second.view == scene::View::Cockpit);
    }
    return true;
}

std::string actionText(const Action& action) {
    std::string out = kNames[static_cast<std::size_t>(action.kind)];
    if (action.index != 0) out += " index " + std::to_string(action.index);
    if (action.value != 0) out += " value " + formatDouble(action.value);
    if (action.x != 0) out += " x " + formatDouble(action.x);
    if (action.y != 0) out += " y " + formatDouble(action.y);
    if (!action.text.empty()) {
        out += " text ";
        for (const char c : action.text) {
            if (c == '\n') {
                out += "\\n";
            } else {
                out += c;
            }
        }
    }
    for (const auto& file : action.files) out += " file " + file.generic_string();
    return out;
}

std::optional<Action> actionFromText(std::string_view line) {
    const auto word = [&line] {
        const std::size_t end = std::min(line.find(' '), line.size());
        const std::string_view out = line.substr(0, end);
        line.remove_prefix(std::min(end + 1, line.size()));
        return out;
    };
    const auto name = std::find(kNames.begin(), kNames.end(), word());
    if (name == kNames.end()) return std::nullopt;
    Action action;
    action.kind = static_cast<K>(name - kNames.begin());
    while (!line.empty()) {
        const std::string_view key = word();
        if (key == "file") break;
        if (key == "text") {
            action.text = std::string(line);
            for (std::size_t at = action.text.find("\\n"); at != std::string::npos;
                 at = action.text.find("\\n", at + 1)) {
                action.text.replace(at, 2, "\n");
            }
            break;
        }
        const auto number = parseDouble(word());
        if (!number) return std::nullopt;
        if (key == "index") action.index = static_cast<int>(*number);
        if (key == "value") action.value = *number;
        if (key == "x") action.x = *number;
        if (key == "y") action.y = *number;
    }
    return action;
}

}  // namespace plumbline::model
