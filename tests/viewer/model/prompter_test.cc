#include "viewer/model/prompter.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

using R = Retiming::Kind;

/// Four figures of 20 s, a cue 5 s into each; 60 words a minute: a word a second.
constexpr double kPace = 60;

Prompt fourFigures() {
    Prompt prompt;
    prompt.duration_s = 80;
    for (std::size_t i = 0; i < 4; ++i) {
        const double start_s = 20.0 * static_cast<double>(i);
        prompt.figures.push_back({"figure " + std::to_string(i), start_s, start_s + 20});
        PromptCue cue;
        cue.figure = i;
        cue.plan_s = start_s + 5;
        cue.early_s = cue.plan_s - 1 - static_cast<double>(i);
        cue.late_s = cue.plan_s + 2 + static_cast<double>(i);
        prompt.cues.push_back(cue);
    }
    return prompt;
}

/// When each cue comes, in the order in which they come.
std::vector<double> cueTimes(const Prompt& prompt, const std::vector<Retiming>& retimings) {
    std::vector<double> out;
    for (const Moment& moment : runningOf(prompt, retimings))
        if (moment.kind == Moment::Kind::Cue) out.push_back(moment.comes_s);
    return out;
}

using Times = std::vector<double>;

TEST(Prompter, RunsAsPlannedUntilSomethingIsSaid) {
    const Prompt prompt = fourFigures();
    EXPECT_EQ(cueTimes(prompt, {}), (Times{5, 25, 45, 65}));
    EXPECT_EQ(runningOf(prompt, {}).back().comes_s, 80);
}

TEST(Prompter, NowMovesTheNextCueAndAllThatFollow) {
    const Prompt prompt = fourFigures();
    // Three seconds early, then two seconds later than that.
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 22}}), (Times{5, 22, 42, 62}));
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 22}, {R::Now, 44}}), (Times{5, 22, 44, 64}));
    EXPECT_EQ(runningOf(prompt, std::vector<Retiming>{{R::Now, 22}}).back().comes_s, 77);
}

TEST(Prompter, NowMeansTheCueThatHasJustComeWhereThatIsNearer) {
    const Prompt prompt = fourFigures();
    // Planned at 25, it comes four seconds late: the text has gone on to it already.
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 29}}), (Times{5, 29, 49, 69}));
    // Halfway to the next it is that one; a cue is told only once.
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 35.5}}), (Times{5, 25, 35.5, 55.5}));
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 29}, {R::Now, 30}}), (Times{5, 29, 30, 50}));
    // Behind the last one nothing is left to be told.
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 65}, {R::Now, 79}}), (Times{5, 25, 45, 65}));
}

TEST(Prompter, TheRemoteStepsToTheNextCueAndBack) {
    const Prompt prompt = fourFigures();
    EXPECT_EQ(cueTimes(prompt, {{R::Next, 26}}), (Times{5, 25, 26, 46}));
    EXPECT_EQ(cueTimes(prompt, {{R::Next, 26}, {R::Back, 27}}), (Times{5, 27, 47, 67}));
    EXPECT_EQ(cueTimes(prompt, {{R::Back, 6}}), (Times{6, 26, 46, 66}));
    EXPECT_EQ(cueTimes(prompt, {{R::Back, 1}}), (Times{5, 25, 45, 65}));
}

TEST(Prompter, AFigureLeftOutBringsTheRestForwardByItsLength) {
    const Prompt prompt = fourFigures();
    const std::vector<Retiming> once{{R::LeaveOut, 12}};
    EXPECT_EQ(cueTimes(prompt, once), (Times{5, 25, 45}));
    const Running running = runningOf(prompt, once);
    EXPECT_EQ(running.back().comes_s, 60);
    for (const Moment& moment : running)
        EXPECT_TRUE(moment.kind == Moment::Kind::End || moment.index != 1);
    // The last one behind it: none is left to be left out.
    EXPECT_EQ(cueTimes(prompt, {{R::LeaveOut, 12}, {R::LeaveOut, 45}}), (Times{5, 25, 45}));
}

TEST(Prompter, AFigureFlownAgainPutsTheRestOffByItsLength) {
    const Prompt prompt = fourFigures();
    EXPECT_EQ(cueTimes(prompt, {{R::Again, 30}}), (Times{5, 25, 45, 65, 85}));
    const Running running = runningOf(prompt, std::vector<Retiming>{{R::Again, 30}});
    EXPECT_EQ(running.back().comes_s, 100);
    // On the second pass the picture shows the same figure again.
    EXPECT_EQ(planTimeOf(running, 39), 39);
    EXPECT_EQ(planTimeOf(running, 41), 21);
    EXPECT_EQ(planTimeOf(running, 61), 41);
    // A late show: again, and what was late stays late.
    EXPECT_EQ(cueTimes(prompt, {{R::Now, 28}, {R::Again, 30}}), (Times{5, 28, 48, 68, 88}));
}

TEST(Prompter, WithoutTheLastThingSaidItIsAsBefore) {
    const Prompt prompt = fourFigures();
    std::vector<Retiming> said{{R::Now, 22}, {R::LeaveOut, 30}};
    EXPECT_EQ(cueTimes(prompt, said), (Times{5, 22, 42}));
    said.pop_back();
    EXPECT_EQ(cueTimes(prompt, said), (Times{5, 22, 42, 62}));
    said.pop_back();
    EXPECT_EQ(cueTimes(prompt, said), (Times{5, 25, 45, 65}));
}

TEST(Prompter, ThePlanWaitsForWhatIsLateAndNeverRunsBackInAFigure) {
    const Prompt prompt = fourFigures();
    const Running late = runningOf(prompt, std::vector<Retiming>{{R::Now, 29}});
    EXPECT_EQ(planTimeOf(late, 24), 24);
    EXPECT_EQ(planTimeOf(late, 27), 25);  // the cue has not come
    EXPECT_EQ(planTimeOf(late, 29), 25);
    EXPECT_EQ(planTimeOf(late, 30), 26);
    EXPECT_EQ(planTimeOf(late, 1000), 80);
    EXPECT_EQ(planTimeOf(Running{}, 5), 5);
}

TEST(Prompter, ACueAtTheStartOfItsFigureTakesTheFigureAlong) {
    Prompt prompt = fourFigures();
    prompt.cues[1].plan_s = 20;
    const Running late = runningOf(prompt, std::vector<Retiming>{{R::Now, 23}});
    ASSERT_TRUE(figureFlown(late, 22.9));
    EXPECT_EQ(late[*figureFlown(late, 22.9)].index, 0U);
    EXPECT_EQ(late[*figureFlown(late, 23)].index, 1U);
}

TEST(Prompter, WordsAreSaidAtTheNarratorsPace) {
    Prompt prompt = fourFigures();
    prompt.cues[0].script = brief::readScript("one two three [silence 4 s] four five");
    prompt.cues[1].words = "look left";  // without a script of its own
    const Running running = runningOf(prompt, {});
    const auto blocks = blocksOf(prompt, running, kPace);
    ASSERT_EQ(blocks.size(), 4U);
    EXPECT_EQ(blocks[0].start_s, 5);
    EXPECT_EQ(blocks[0].stop_s, 8);
    EXPECT_FALSE(blocks[1].spoken);
    EXPECT_EQ(blocks[1].words, "silence 4 s");
    EXPECT_EQ(blocks[1].stop_s, 12);
    EXPECT_EQ(blocks[2].start_s, 12);
    EXPECT_FALSE(blocks[2].first);
    EXPECT_EQ(blocks[3].words, "look left");
    EXPECT_EQ(blocks[3].start_s, 25);

    EXPECT_EQ(placeAt(running, blocks, 4.9, kPace).block, -1);
    EXPECT_NEAR(placeAt(running, blocks, 4, kPace).until_next_s, 1, 1e-12);
    const PromptPlace second_word = placeAt(running, blocks, 6.5, kPace);
    EXPECT_EQ(second_word.block, 0);
    EXPECT_EQ(blocks[0].words.substr(0, second_word.said), "one two ");
    EXPECT_EQ(second_word.words_left, 3);
    // Until 25 there are 18.5 s, less four of silence and a breath of one: 13 words and a half.
    EXPECT_EQ(second_word.fit, 13);
    EXPECT_EQ(placeAt(running, blocks, 8.5, kPace).block, 1);
    const PromptPlace last = placeAt(running, blocks, 13.5, kPace);
    EXPECT_EQ(last.block, 2);
    EXPECT_EQ(last.words_left, 0);
    // All is said, and stays until the next cue; the third has nothing to say.
    EXPECT_EQ(placeAt(running, blocks, 24, kPace).block, 2);
    EXPECT_EQ(placeAt(running, blocks, 25, kPace).block, 3);
    EXPECT_EQ(placeAt(running, blocks, 46, kPace).block, 3);
    EXPECT_EQ(placeAt(running, blocks, 46, kPace).words_left, 0);
}

TEST(Prompter, SignsWithoutBlanksAreSaidOneByOne) {
    Prompt prompt = fourFigures();
    // Two signs count as a word: the second word ends with the fourth.
    prompt.cues[0].script = brief::readScript("まっすぐ上へ");
    const Running running = runningOf(prompt, {});
    const auto blocks = blocksOf(prompt, running, kPace);
    EXPECT_EQ(blocks[0].stop_s, 8);
    const PromptPlace place = placeAt(running, blocks, 6.5, kPace);
    EXPECT_EQ(blocks[0].words.substr(0, place.said), "まっすぐ");
}

TEST(Prompter, CuesToComeHaveTheirWindowsFromNow) {
    Prompt prompt = fourFigures();
    prompt.cues[2].script = brief::readScript("a b c d e f g h i j k l m n o p q r s t u");
    const Running running = runningOf(prompt, std::vector<Retiming>{{R::Now, 24}});
    const auto coming = comingCues(prompt, running, 40, kPace, 5);
    ASSERT_EQ(coming.size(), 2U);
    EXPECT_EQ(coming[0].cue, 2U);
    EXPECT_EQ(coming[0].in_s, 4);
    EXPECT_EQ(coming[0].early_in_s, 1);
    EXPECT_EQ(coming[0].late_in_s, 8);
    EXPECT_EQ(coming[0].words, 21);
    EXPECT_EQ(coming[0].fit, 19);
    EXPECT_EQ(coming[1].in_s, 24);
    EXPECT_EQ(coming[1].fit, 14);  // until the end
    EXPECT_EQ(comingCues(prompt, running, 42, kPace, 1).size(), 1U);
    EXPECT_EQ(comingCues(prompt, running, 43, kPace, 1)[0].early_in_s, 0);
}

TEST(Prompter, NothingIsAskedOfARoutineWithoutCues) {
    Prompt prompt;
    prompt.duration_s = 10;
    const Running running = runningOf(
        prompt, std::vector<Retiming>{{R::Now, 1}, {R::LeaveOut, 2}, {R::Again, 3}, {R::Back, 4}});
    ASSERT_EQ(running.size(), 1U);
    EXPECT_EQ(running[0].comes_s, 10);
    EXPECT_TRUE(blocksOf(prompt, running, kPace).empty());
    EXPECT_EQ(placeAt(running, {}, 4, kPace).block, -1);
    EXPECT_EQ(placeAt(running, {}, 4, kPace).until_next_s, 6);
}

}  // namespace
}  // namespace plumbline::model
