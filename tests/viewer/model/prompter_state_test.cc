#include "viewer/model/prompter_state.h"

#include <gtest/gtest.h>

#include "viewer/model/action_list.h"
#include "viewer/model/key_codes.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

/// Two figures of 20 s with a cue at the start of each, at a clock of 40 s.
Model withPrompt() {
    Model model;
    auto shown = std::make_shared<Shown>();
    auto path = std::make_shared<path::Path>();
    path->samples.resize(2);
    path->samples[1].time_s = 40;
    shown->source.path = path;
    shown->workspace = std::make_shared<load::Workspace>();
    model.shown = shown;
    model.clock.setDuration(40);
    auto prompt = std::make_shared<Prompt>();
    prompt->duration_s = 40;
    for (std::size_t i = 0; i < 2; ++i) {
        const double at_s = 20.0 * static_cast<double>(i);
        prompt->figures.push_back({i == 0 ? "Loop" : "Hammerhead", at_s, at_s + 20});
        PromptCue cue;
        cue.figure = i;
        cue.plan_s = cue.early_s = cue.late_s = at_s + 2;
        prompt->cues.push_back(cue);
    }
    model.prompter.prompt = prompt;
    return model;
}

void press(Model& model, PrompterDo what) {
    Action action;
    action.kind = ActionKind::Prompter;
    action.index = static_cast<int>(what);
    apply(model, action);
}

/// Actions that a key stands for now.
std::vector<ActionKind> doneBy(const Model& model, int key, unsigned modifiers = 0) {
    std::vector<ActionKind> out;
    for (const ActionEntry& entry : actionList())
        if (entry.key == key && entry.modifiers == modifiers && offered(model, entry))
            out.push_back(entry.kind);
    return out;
}

TEST(PrompterState, LiveRunsOnTheWallsClockAndTakesThePictureAlong) {
    Model model = withPrompt();
    press(model, PrompterDo::OnOff);
    model.clock.seek(5);
    model.wall_s = 100;
    press(model, PrompterDo::Live);
    EXPECT_TRUE(model.prompter.live);
    EXPECT_DOUBLE_EQ(promptTime_s(model), 5);
    advance(model, 3);
    EXPECT_DOUBLE_EQ(promptTime_s(model), 8);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 8);
    EXPECT_FALSE(model.clock.playing());
    // A stall that frames pass over is in the wall's clock.
    model.wall_s += 2;
    EXPECT_DOUBLE_EQ(promptTime_s(model), 10);
    // Held, it stands; then it goes on from there.
    press(model, PrompterDo::Hold);
    advance(model, 4);
    EXPECT_DOUBLE_EQ(promptTime_s(model), 10);
    press(model, PrompterDo::Hold);
    advance(model, 1);
    EXPECT_DOUBLE_EQ(promptTime_s(model), 11);
}

TEST(PrompterState, WhatIsSaidIsToldAndTakenBack) {
    Model model = withPrompt();
    press(model, PrompterDo::OnOff);
    press(model, PrompterDo::Live);
    advance(model, 18);
    press(model, PrompterDo::Now);  // four seconds before it was planned
    ASSERT_EQ(model.prompter.retimings.size(), 1U);
    EXPECT_NE(model.message.text.find("Hammerhead is now"), std::string::npos);
    EXPECT_DOUBLE_EQ(promptRunning(model).back().comes_s, 36);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 18);
    advance(model, 0);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 22);  // the picture is where the show is
    press(model, PrompterDo::TakeBack);
    EXPECT_DOUBLE_EQ(promptRunning(model).back().comes_s, 40);
    press(model, PrompterDo::TakeBack);  // nothing is left to take back
    press(model, PrompterDo::EndLive);
    EXPECT_FALSE(model.prompter.live);
    press(model, PrompterDo::Now);  // a rehearsal is not re-timed
    EXPECT_TRUE(model.prompter.retimings.empty());
}

TEST(PrompterState, ARemoteGoesFromCueToCueInRehearsal) {
    Model model = withPrompt();
    press(model, PrompterDo::OnOff);
    press(model, PrompterDo::NextCue);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 2);
    press(model, PrompterDo::NextCue);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 22);
    press(model, PrompterDo::NextCue);  // there is none
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 22);
    model.clock.seek(30);
    press(model, PrompterDo::CueBefore);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 22);
    press(model, PrompterDo::CueBefore);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 2);
}

TEST(PrompterState, EveryKeyHasOneMeaningAtATime) {
    Model model = withPrompt();
    const auto one = [](std::initializer_list<ActionKind> kinds) {
        return std::vector<ActionKind>(kinds);
    };
    EXPECT_EQ(doneBy(model, kKeyPageDown), one({ActionKind::NextFigure}));
    EXPECT_EQ(doneBy(model, ' '), one({ActionKind::TogglePlay}));
    press(model, PrompterDo::OnOff);
    for (const bool live : {false, true}) {
        if (live) press(model, PrompterDo::Live);
        EXPECT_EQ(doneBy(model, kKeyEnter), one({ActionKind::Prompter}));
        EXPECT_EQ(doneBy(model, kKeyPageDown), one({ActionKind::Prompter}));
        EXPECT_EQ(doneBy(model, ' ').size(), 1U);
        EXPECT_LE(doneBy(model, 'X').size(), 1U);
        EXPECT_LE(doneBy(model, 'A').size(), 1U);
        EXPECT_EQ(doneBy(model, 'N', kControl).size(), 0U);  // nothing is written meanwhile
        EXPECT_EQ(doneBy(model, '=').empty(), live);
    }
    EXPECT_EQ(doneBy(model, ' '), one({ActionKind::Prompter}));
}

TEST(PrompterState, SizeAndPaceStayWithinTheirRanges) {
    Model model = withPrompt();
    press(model, PrompterDo::OnOff);
    for (int i = 0; i < 100; ++i) press(model, PrompterDo::Larger);
    for (int i = 0; i < 100; ++i) press(model, PrompterDo::Slower);
    EXPECT_DOUBLE_EQ(model.session.prompt_size, kLargestPrompt);
    EXPECT_DOUBLE_EQ(model.session.words_per_min, kSlowestPace);
    const Session kept = sessionFromText(sessionText(model.session));
    EXPECT_DOUBLE_EQ(kept.prompt_size, kLargestPrompt);
    EXPECT_DOUBLE_EQ(kept.words_per_min, kSlowestPace);
}

TEST(PrompterState, ClosesItsWindowWithItselfAndLeavesAShowRunning) {
    Model model = withPrompt();
    press(model, PrompterDo::OnOff);
    press(model, PrompterDo::Window);
    press(model, PrompterDo::Live);
    press(model, PrompterDo::OnOff);
    EXPECT_FALSE(model.prompter.on);
    EXPECT_FALSE(model.prompter.window);
    model.clock.seek(30);
    advance(model, 6);
    EXPECT_DOUBLE_EQ(model.clock.time_s(), 30);  // the window is one's own again
    press(model, PrompterDo::OnOff);
    EXPECT_DOUBLE_EQ(promptTime_s(model), 6);
    // Another file, a recording: there is no narrator.
    model.shown = nullptr;
    advance(model, 1);
    EXPECT_FALSE(model.prompter.on);
}

TEST(WalkState, CountsInThenRunsInRealTime) {
    Model model = withPrompt();
    model.clock.setSpeedIndex(6);
    Action walk;
    walk.kind = ActionKind::WalkThrough;
    apply(model, walk);
    ASSERT_TRUE(model.walk.on);
    advance(model, 2);  // it waits for its sound
    EXPECT_DOUBLE_EQ(walkTime_s(model), -5);
    auto sound = std::make_shared<WalkSound>();
    walk::Call call;
    for (const double at_s : {-1.5, 4.0}) {
        call.time_s = at_s;
        sound->calls.calls.push_back(call);
    }
    model.walk.sound = sound;
    advance(model, 2);
    EXPECT_DOUBLE_EQ(walkTime_s(model), -3);
    EXPECT_EQ(callAt(sound->calls, walkTime_s(model)), -1);
    advance(model, 2);
    EXPECT_EQ(callAt(sound->calls, walkTime_s(model)), 0);
    advance(model, 3);
    EXPECT_DOUBLE_EQ(walkTime_s(model), 2);
    EXPECT_TRUE(model.clock.playing());
    EXPECT_EQ(callAt(sound->calls, 4), 1);
    EXPECT_EQ(doneBy(model, '='), std::vector<ActionKind>{ActionKind::WalkThrough});
    const double before_s = model.session.walk_lead_s;
    walk.index = static_cast<int>(WalkDo::LeadLonger);
    apply(model, walk);
    EXPECT_DOUBLE_EQ(model.session.walk_lead_s, before_s + kLeadStep_s);
    walk.index = static_cast<int>(WalkDo::OnOff);
    apply(model, walk);
    EXPECT_FALSE(model.clock.playing());
    // From the middle it begins at once.
    model.clock.seek(10);
    apply(model, walk);
    EXPECT_TRUE(model.clock.playing());
    EXPECT_DOUBLE_EQ(walkTime_s(model), 10);
}

}  // namespace
}  // namespace plumbline::model
