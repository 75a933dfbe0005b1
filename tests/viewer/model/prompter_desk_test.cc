#include "viewer/model/prompter_desk.h"

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

TEST(PrompterDesk, TheDemosScriptIsWholeAndFits) {
    Model model;
    show(model, openNow({}, 1));
    ASSERT_TRUE(model.shown);
    model.prompter.on = true;
    PrompterDesk desk;
    desk.finish(model);
    ASSERT_TRUE(model.prompter.prompt);
    const Prompt& prompt = *model.prompter.prompt;
    EXPECT_EQ(prompt.revision, model.shown->revision);
    EXPECT_TRUE(prompt.windows);
    ASSERT_EQ(prompt.figures.size(), model.shown->outline.size());
    std::vector<int> cues(prompt.figures.size());
    for (const PromptCue& cue : prompt.cues) {
        ++cues.at(cue.figure);
        EXPECT_LE(cue.early_s, cue.plan_s);
        EXPECT_GE(cue.late_s, cue.plan_s);
        EXPECT_GE(cue.plan_s, prompt.figures[cue.figure].start_s - 0.01);
        EXPECT_LE(cue.plan_s, prompt.figures[cue.figure].stop_s);
    }
    for (std::size_t i = 0; i < cues.size(); ++i) EXPECT_GT(cues[i], 0) << prompt.figures[i].name;
    // Late in the show a cue is less sure than early.
    const auto width_s = [](const PromptCue& cue) { return cue.late_s - cue.early_s; };
    EXPECT_GT(width_s(prompt.cues.back()), 2 * width_s(prompt.cues[2]));
    // Every word can be said before the next cue comes.
    const auto coming =
        comingCues(prompt, runningOf(prompt, {}), -1, brief::kWordsPerMin, prompt.cues.size());
    ASSERT_EQ(coming.size(), prompt.cues.size());
    std::size_t beats = 0;
    for (const ComingCue& cue : coming) {
        EXPECT_LE(cue.words, cue.fit) << prompt.figures[prompt.cues[cue.cue].figure].name;
        for (const brief::ScriptPart& part : prompt.cues[cue.cue].script.parts)
            beats += part.spoken ? 0 : 1;
    }
    EXPECT_GE(beats, 5U);
}

}  // namespace
}  // namespace plumbline::model
