#include "viewer/model/walk_state.h"

#include <algorithm>

#include "engine/base/number_text.h"
#include "engine/walk/track.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

void turn(Model& model) {
    Walk& walk = model.walk;
    walk.on = !walk.on;
    walk.run_in_s = 0;
    if (!walk.on) {
        model.clock.pause();
        return;
    }
    model.prompter.on = model.prompter.window = false;
    model.start_panel = false;
    model.editor.writing = false;
    model.clock.setLoop(std::nullopt);
    model.clock.setSpeedIndex(kNormalSpeed);
    // It begins where the picture is; from the start with a count.
    constexpr double kStart_s = 0.5;
    const bool over = model.clock.time_s() >= model.clock.duration_s();
    if (model.clock.time_s() >= kStart_s && !over) {
        model.clock.play();
        return;
    }
    model.clock.pause();
    model.clock.seek(0);
    walk.run_in_s = walk::kRunIn_s;
}

void lead(Model& model, double by_s) {
    double& lead_s = model.session.walk_lead_s;
    lead_s = std::clamp(lead_s + by_s, kShortestLead_s, kLongestLead_s);
    model.message = Message();
    model.message.text =
        "Each call begins " + formatFixed(lead_s, 1) + " s before what it announces";
    model.message.left_s = kMessage_s;
}

}  // namespace

int callAt(const walk::Calls& calls, double time_s) {
    const auto next =
        std::partition_point(calls.calls.begin(), calls.calls.end(),
                             [time_s](const walk::Call& call) { return call.time_s <= time_s; });
    return static_cast<int>(next - calls.calls.begin()) - 1;
}

double walkTime_s(const Model& model) {
    return model.walk.run_in_s > 0 ? -model.walk.run_in_s : model.clock.time_s();
}

void applyToWalk(Model& model, const Action& action) {
    switch (static_cast<WalkDo>(action.index)) {
        case WalkDo::OnOff:
            if (model.walk.on || (model.shown && !model.shown->recording())) turn(model);
            break;
        case WalkDo::LeadLonger:
            lead(model, kLeadStep_s);
            break;
        case WalkDo::LeadShorter:
            lead(model, -kLeadStep_s);
            break;
    }
}

void advanceWalk(Model& model, double elapsed_s) {
    Walk& walk = model.walk;
    if (!model.shown || model.shown->recording()) walk = Walk();
    if (model.clock.playing()) walk.run_in_s = 0;  // somebody did not want to wait
    // The count waits for the sound.
    if (!walk.on || walk.run_in_s <= 0 || !walk.sound) return;
    walk.run_in_s -= elapsed_s;
    if (walk.run_in_s > 0) return;
    model.clock.play();
    model.clock.advance(-walk.run_in_s);
    walk.run_in_s = 0;
}

}  // namespace plumbline::model
