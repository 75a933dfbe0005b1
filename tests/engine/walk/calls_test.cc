#include "engine/walk/calls.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <gtest/gtest.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/walk/track.h"

namespace plumbline::walk {
namespace {

std::string called(const std::string& line) {
    const text::ParsedText parsed = text::parseFigureText(line, "t", 1);
    EXPECT_TRUE(parsed.problems.empty()) << line;
    return wordsOf(parsed.elements.front().body);
}
std::string rollsOf(const std::string& line) {
    const text::ParsedText parsed = text::parseFigureText(line, "t", 1);
    EXPECT_TRUE(parsed.problems.empty()) << line;
    return rollWords(std::get<text::Line>(parsed.elements.front().body).rolls);
}

TEST(WalkWords, AreThoseOfSomebodyWhoCalls) {
    EXPECT_EQ(called("pull to up at 6 g"), "pull to up, 6 g");
    EXPECT_EQ(called("push to 45 deg down at 2.5 g"), "push to 45 down, 2.5 g");
    EXPECT_EQ(called("pull 225 deg radius 110 m"), "pull 225");
    EXPECT_EQ(called("pivot left power 25 %"), "pivot left");
    EXPECT_EQ(called("fall wheels-down"), "fall, wheels down");
    EXPECT_EQ(called("spin right 1 1/2 turns inverted"),
              "inverted spin right, one and a half turns");
    EXPECT_EQ(called("torque-roll left 3 rolls"), "torque roll left, 3 rolls");
    EXPECT_EQ(called("power idle"), "idle");
    EXPECT_EQ(called("cue \"for the crowd\""), "");
    EXPECT_EQ(rollsOf("line up 100 m with 1/4 roll left"), "quarter roll left");
    EXPECT_EQ(rollsOf("line 400 m with 1 3/4 rolls right"), "one and three quarter rolls right");
    EXPECT_EQ(rollsOf("line 400 m with 4 of 8 points left then 1/2 roll right"),
              "4 of 8 points left then half roll right");
    EXPECT_EQ(rollsOf("line 400 m with 1 negative snap right"), "negative one snap right");
}

struct Demo {
    load::Workspace work = load::loadDemo().value();
    fly::Solution solution = fly::solve(work.aircraft, work.site, work.weather, work.routine);
    path::Path path = solution.samplePath(50);
    std::vector<check::Gate> gates =
        check::gatesOf(work.aircraft, work.site, work.pilot, solution, path);
};
const Demo& demo() {
    static const Demo made;
    return made;
}

TEST(WalkCalls, NobodySpeaksTwoAtATimeAndAllIsCalledBeforeItBegins) {
    CallWishes wishes;
    wishes.lead_s = 2;
    const Calls calls = callsOf(demo().work.routine, demo().path, demo().gates, wishes);
    ASSERT_GT(calls.calls.size(), 100U);
    for (std::size_t i = 0; i < calls.calls.size(); ++i) {
        const Call& call = calls.calls[i];
        EXPECT_LE(call.time_s, call.begins_s - wishes.lead_s + 0.51) << call.words;
        EXPECT_FALSE(call.words.empty());
        if (i == 0) continue;
        const Call& before = calls.calls[i - 1];
        EXPECT_GE(call.time_s, before.time_s + before.lasts_s)
            << before.words << ", " << call.words;
    }
    // Every figure by its name, once.
    for (const path::Figure& figure : demo().path.figures) {
        EXPECT_EQ(std::count_if(calls.calls.begin(), calls.calls.end(),
                                [&](const Call& c) {
                                    return c.kind == Call::Kind::Figure && c.words == figure.name;
                                }),
                  1)
            << figure.name;
    }
}

TEST(WalkCalls, FasterSpeechLeavesLessOut) {
    CallWishes slow, quick;
    slow.words_a_minute = 80;
    quick.words_a_minute = 400;
    const Calls few = callsOf(demo().work.routine, demo().path, demo().gates, slow);
    const Calls many = callsOf(demo().work.routine, demo().path, demo().gates, quick);
    EXPECT_GT(few.left_out, many.left_out);
    EXPECT_EQ(few.left_out + few.calls.size(), many.left_out + many.calls.size());
}

TEST(WalkCalls, GatesInFeetAreNeverLowerThanTheyAre) {
    CallWishes wishes;
    wishes.units = units::DisplayUnits::Feet;
    check::Gate gate;
    gate.time_s = 30;
    gate.complete_m = 171;  // shown up to whole five metres: 175 m are 574.1 ft
    const Calls calls = callsOf(demo().work.routine, demo().path, {gate}, wishes);
    EXPECT_TRUE(std::any_of(calls.calls.begin(), calls.calls.end(),
                            [](const Call& c) { return c.words == "gate 580 feet"; }));
}

TEST(WalkCalls, RollsAreCalledWhereTheAircraftRolls) {
    const Calls calls = callsOf(demo().work.routine, demo().path, demo().gates, {});
    std::size_t rolls = 0;
    for (const Call& call : calls.calls) {
        if (call.kind != Call::Kind::Roll) continue;
        ++rolls;
        const path::Sample behind = path::sampleAt(demo().path, call.begins_s + 0.1);
        EXPECT_GT(std::fabs(behind.rate_B_radps.x), 0.3) << call.words << " " << call.begins_s;
    }
    EXPECT_GT(rolls, 10U);
}

/// Strength of one frequency in a stretch (the discrete Fourier transform's definition).
double strength(const std::vector<std::int16_t>& track, double from_s, double frequency_hz) {
    const auto first = static_cast<std::size_t>(from_s * kRate_hz);
    constexpr std::size_t kCount = kRate_hz / 20;
    double re = 0, im = 0;
    for (std::size_t i = 0; i < kCount; ++i) {
        const double angle = 2 * kPi * frequency_hz * static_cast<double>(i) / kRate_hz;
        re += track[first + i] * std::cos(angle);
        im += track[first + i] * std::sin(angle);
    }
    return std::hypot(re, im) / kCount / 32768;
}

TEST(WalkTrack, TonesStandWhereTheCallsAre) {
    Calls calls;
    Call call;
    call.kind = Call::Kind::Gate;
    call.time_s = 2;
    call.begins_s = 3;
    call.words = "gate";
    calls.calls.push_back(call);
    const std::vector<std::int16_t> track = trackOf(calls, 10, nullptr);
    EXPECT_EQ(track.size(), static_cast<std::size_t>((10 + kRunIn_s) * kRate_hz));
    EXPECT_GT(strength(track, kRunIn_s + 2.05, 1319), 0.1);
    EXPECT_LT(strength(track, kRunIn_s + 2.4, 1319), 1e-3);
    EXPECT_GT(strength(track, kRunIn_s - 3 + 0.03, 784), 0.1);  // three ticks before the show
    EXPECT_GT(strength(track, kRunIn_s + 0.1, 1175), 0.1);      // and its beginning
}

TEST(WalkTrack, AVoiceIsCutWhereTheNextCallBegins) {
    Calls calls;
    for (const double t : {1.0, 2.0}) {
        Call call;
        call.kind = Call::Kind::Figure;
        call.time_s = t;
        call.words = "words";
        calls.calls.push_back(call);
    }
    // Three seconds of full loudness for each.
    const Voice voice = [](const std::string&) {
        return std::optional(std::vector<float>(3 * kRate_hz, 0.5F));
    };
    const std::vector<std::int16_t> track = trackOf(calls, 10, voice);
    const auto at = [&](double t) {
        return track[static_cast<std::size_t>((kRunIn_s + t) * kRate_hz)];
    };
    EXPECT_NEAR(at(1.5), 0.4 * 32767, 2);
    EXPECT_NEAR(at(2.5), 0.4 * 32767, 2);  // one voice, not two
    EXPECT_EQ(at(5.5), 0);
}

}  // namespace
}  // namespace plumbline::walk
