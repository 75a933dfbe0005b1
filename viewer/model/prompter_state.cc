#include "viewer/model/prompter_state.h"

#include <algorithm>

#include "viewer/model/action_list.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

std::string nameOf(const Prompt& prompt, const Moment& moment) {
    const std::size_t figure =
        moment.kind == Moment::Kind::Cue ? prompt.cues[moment.index].figure : moment.index;
    return figure < prompt.figures.size() ? prompt.figures[figure].name : std::string("The end");
}

/// What was said is kept with its time; what it means is told.
void retime(Model& model, Retiming::Kind kind) {
    Prompter& prompter = model.prompter;
    const Prompt& prompt = *prompter.prompt;
    const double now_s = promptTime_s(model);
    const Running before = promptRunning(model);
    std::optional<std::size_t> meant;
    const char* words = " is now";
    switch (kind) {
        case Retiming::Kind::Now:
            meant = meantByNow(before, now_s);
            break;
        case Retiming::Kind::Next:
            meant = cueAfter(before, now_s);
            break;
        case Retiming::Kind::Back:
            meant = cueBefore(before, now_s);
            words = ": a cue back";
            break;
        case Retiming::Kind::LeaveOut:
            meant = figureAfter(before, now_s);
            words = " is left out";
            break;
        case Retiming::Kind::Again:
            meant = figureFlown(before, now_s);
            words = " is flown again";
            break;
    }
    if (!meant) {
        say(model, "Nothing follows that could be re-timed");
        return;
    }
    prompter.retimings.push_back({kind, now_s});
    say(model, nameOf(prompt, before[*meant]) + words + " (Backspace takes it back)");
}

void stepCue(Model& model, int step) {
    if (model.prompter.live) {
        retime(model, step > 0 ? Retiming::Kind::Next : Retiming::Kind::Back);
        return;
    }
    constexpr double kJustCome_s = 1;  // back goes to this cue's own start first
    const Running running = promptRunning(model);
    const double now_s = model.clock.time_s();
    const auto to = step > 0 ? cueAfter(running, now_s) : cueBefore(running, now_s - kJustCome_s);
    if (to) model.clock.seek(running[*to].comes_s);
}

void goLive(Model& model) {
    Prompter& prompter = model.prompter;
    prompter.live = true;
    prompter.held = false;
    prompter.live_from_s = model.clock.time_s();
    prompter.wall_from_s = model.wall_s;
    prompter.retimings.clear();
    model.clock.pause();
    model.clock.setLoop(std::nullopt);
    say(model, prompter.live_from_s < 1 ? "Live: the first call is now"
                                        : "Live: the show is where the picture is");
}

void turnOn(Model& model) {
    Prompter& prompter = model.prompter;
    prompter.on = !prompter.on;
    if (!prompter.on) {
        prompter.window = false;
        return;
    }
    model.walk.on = false;
    model.start_panel = false;
    model.editor.writing = false;
    model.list = List();
}

}  // namespace

double promptTime_s(const Model& model) {
    const Prompter& prompter = model.prompter;
    return prompter.live ? prompter.live_s(model.wall_s) : model.clock.time_s();
}

Running promptRunning(const Model& model) {
    const Prompter& prompter = model.prompter;
    if (!prompter.prompt) return {};
    if (!prompter.live) return runningOf(*prompter.prompt, {});
    return runningOf(*prompter.prompt, prompter.retimings);
}

bool prompterOffers(const Model& model, PrompterDo what) {
    const Prompter& prompter = model.prompter;
    if (!model.shown || model.shown->recording()) return false;
    if (what == PrompterDo::OnOff) return true;
    if (!prompter.on || !prompter.prompt) return false;
    switch (what) {
        case PrompterDo::Live:
            return !prompter.live;
        case PrompterDo::EndLive:
        case PrompterDo::Now:
        case PrompterDo::LeaveOut:
        case PrompterDo::Again:
        case PrompterDo::TakeBack:
        case PrompterDo::Hold:
            return prompter.live;
        default:
            return true;
    }
}

bool offeredBesidePrompter(const Model& model, const ActionEntry& entry) {
    using K = ActionKind;
    switch (entry.kind) {
        case K::Prompter:
        case K::WalkThrough:
        case K::ToggleTheme:
        case K::CycleUnits:
        case K::ScaleBy:
        case K::SetScale:
        case K::ToggleMusic:
        case K::ToggleFullScreen:
        case K::ToggleKeyHelp:
        case K::ToggleHelp:
        case K::Quit:
            return true;
        case K::ShowList:
            return entry.index == static_cast<int>(ListKind::Anything);
        case K::TogglePlay:
        case K::SeekBy:
        case K::StepFrames:
        case K::SpeedBy:
        case K::ToStart:
            return !model.prompter.live;
        default:
            return false;
    }
}

void applyToPrompter(Model& model, const Action& action) {
    const auto what = static_cast<PrompterDo>(action.index);
    if (!prompterOffers(model, what)) return;
    Prompter& prompter = model.prompter;
    Session& session = model.session;
    constexpr double kSizeStep = 0.1, kPaceStep = 5;
    const auto size = [&](double by) {
        session.prompt_size = std::clamp(session.prompt_size + by, kSmallestPrompt, kLargestPrompt);
    };
    const auto pace = [&](double by) {
        session.words_per_min = std::clamp(session.words_per_min + by, kSlowestPace, kFastestPace);
    };
    switch (what) {
        case PrompterDo::OnOff:
            turnOn(model);
            break;
        case PrompterDo::Live:
            goLive(model);
            break;
        case PrompterDo::EndLive:
            prompter.live = prompter.held = false;
            break;
        case PrompterDo::Now:
            retime(model, Retiming::Kind::Now);
            break;
        case PrompterDo::NextCue:
            stepCue(model, 1);
            break;
        case PrompterDo::CueBefore:
            stepCue(model, -1);
            break;
        case PrompterDo::LeaveOut:
            retime(model, Retiming::Kind::LeaveOut);
            break;
        case PrompterDo::Again:
            retime(model, Retiming::Kind::Again);
            break;
        case PrompterDo::TakeBack:
            if (prompter.retimings.empty()) break;
            prompter.retimings.pop_back();
            say(model, "Taken back");
            break;
        case PrompterDo::Hold:
            prompter.live_from_s = promptTime_s(model);
            prompter.wall_from_s = model.wall_s;
            prompter.held = !prompter.held;
            break;
        case PrompterDo::Window:
            prompter.window = !prompter.window;
            break;
        case PrompterDo::Larger:
            size(kSizeStep);
            break;
        case PrompterDo::Smaller:
            size(-kSizeStep);
            break;
        case PrompterDo::Faster:
            pace(kPaceStep);
            break;
        case PrompterDo::Slower:
            pace(-kPaceStep);
            break;
        case PrompterDo::Count:
            break;
    }
}

void advancePrompter(Model& model) {
    Prompter& prompter = model.prompter;
    if (!model.shown || model.shown->recording()) prompter = Prompter();
    if (prompter.prompt && prompter.prompt->title != model.shown->title) {
        prompter.prompt = nullptr;  // another routine has been opened
        prompter.live = false;
    }
    if (!prompter.live || !prompter.on) return;
    model.clock.pause();
    model.clock.seek(planTimeOf(promptRunning(model), promptTime_s(model)));
}

}  // namespace plumbline::model
