#include "viewer/model/apply_time.h"

#include <algorithm>

namespace plumbline::model {
namespace {

constexpr double kFrame_s = 1.0 / 25;  // chosen: one film frame a step

/// @param row  of the outline
void goToFigure(Model& model, std::int32_t row) {
    if (!model.shown || row < 0 || row >= static_cast<std::int32_t>(model.shown->outline.size())) {
        return;
    }
    seek(model, model.shown->outline[static_cast<std::size_t>(row)].start_s);
    // A loop stays with the figure it was made for.
    if (model.clock.loop() && (model.clock.time_s() < model.clock.loop()->start_s ||
                               model.clock.time_s() >= model.clock.loop()->stop_s)) {
        model.clock.setLoop(std::nullopt);
    }
}

void goToNeighbour(Model& model, int step) {
    if (!model.shown) return;
    const std::int32_t row = rowAt(model.shown->outline, model.clock.time_s());
    // Back goes to this figure's own start first, as players of recorded sound do.
    constexpr double kJustStarted_s = 1;
    if (step < 0 && row >= 0 &&
        model.clock.time_s() >
            model.shown->outline[static_cast<std::size_t>(row)].start_s + kJustStarted_s) {
        goToFigure(model, row);
    } else {
        goToFigure(model, std::max(0, row + step));
    }
}

void goToFinding(Model& model, int step) {
    if (!model.shown || model.shown->findings.empty()) return;
    constexpr double kSame_s = 0.01;
    const double now_s = model.clock.time_s();
    std::optional<double> best_s;
    for (const check::Finding& finding : model.shown->findings) {
        const double away_s = (finding.time_s - now_s) * step;
        if (away_s > kSame_s && (!best_s || away_s < (*best_s - now_s) * step)) {
            best_s = finding.time_s;
        }
    }
    if (best_s) seek(model, *best_s);
}

void toggleLoop(Model& model) {
    if (model.clock.loop()) {
        model.clock.setLoop(std::nullopt);
        return;
    }
    if (!model.shown) return;
    const std::int32_t row = rowAt(model.shown->outline, model.clock.time_s());
    if (row < 0) return;
    const OutlineRow& figure = model.shown->outline[static_cast<std::size_t>(row)];
    Loop loop;
    loop.start_s = figure.start_s;
    loop.stop_s = figure.stop_s;
    model.clock.setLoop(loop);
}

/// A loop that ends after here begins here from now on.
void markIn(Model& model) {
    const double now_s = model.clock.time_s();
    model.mark_in_s = now_s;
    if (!model.clock.loop()) return;
    Loop loop = *model.clock.loop();
    loop.start_s = now_s;
    model.clock.setLoop(loop.stop_s > now_s ? std::optional<Loop>(loop) : std::nullopt);
}

void markOut(Model& model) {
    Loop loop;
    loop.stop_s = model.clock.time_s();
    if (model.mark_in_s) {
        loop.start_s = *model.mark_in_s;
    } else if (model.clock.loop()) {
        loop.start_s = model.clock.loop()->start_s;
    }
    if (loop.start_s >= loop.stop_s) return;
    model.clock.setLoop(loop);
    model.clock.seek(loop.start_s);
}

}  // namespace

void seek(Model& model, double time_s) {
    model.clock.seek(time_s);
    Session& session = model.session;
    session.lanes = fitted(session.lanes, model.clock.duration_s(), kPreferredSpan_s);
    session.lanes = following(session.lanes, model.clock.time_s(), model.clock.duration_s());
}

bool applyToTime(Model& model, const Action& action) {
    PlaybackClock& clock = model.clock;
    switch (action.kind) {
        case ActionKind::TogglePlay:
            if (model.start_panel) {  // the demo goes on, now with everything in sight
                model.start_panel = false;
                clock.play();
            } else if (clock.playing()) {
                clock.pause();
            } else {
                clock.play();
            }
            return true;
        case ActionKind::Seek:
            seek(model, action.value);
            return true;
        case ActionKind::SeekBy:
            seek(model, clock.time_s() + action.value);
            return true;
        case ActionKind::StepFrames:
            clock.pause();
            seek(model, clock.time_s() + action.value * kFrame_s);
            return true;
        case ActionKind::ToStart:
            seek(model, clock.loop() ? clock.loop()->start_s : 0);
            return true;
        case ActionKind::NextFigure:
            goToNeighbour(model, 1);
            return true;
        case ActionKind::PreviousFigure:
            goToNeighbour(model, -1);
            return true;
        case ActionKind::GoToFigure:
            if (action.index >= 0 && action.index < static_cast<int>(model.rows.size())) {
                goToFigure(model, model.rows[static_cast<std::size_t>(action.index)].outline);
            }
            return true;
        case ActionKind::NextFinding:
            goToFinding(model, 1);
            return true;
        case ActionKind::PreviousFinding:
            goToFinding(model, -1);
            return true;
        case ActionKind::SetSpeed:
            clock.setSpeedIndex(action.index);
            return true;
        case ActionKind::SpeedBy:
            clock.setSpeedIndex(clock.speedIndex() + action.index);
            return true;
        case ActionKind::ToggleLoop:
            toggleLoop(model);
            return true;
        case ActionKind::MarkIn:
            markIn(model);
            return true;
        case ActionKind::MarkOut:
            markOut(model);
            return true;
        default:
            return false;
    }
}

}  // namespace plumbline::model
