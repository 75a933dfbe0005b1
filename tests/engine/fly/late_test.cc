// Lines whose end is passed when they begin, and rolls that outlast them: a little is late, a lot
// was never meant.

#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::plausibleAircraft;
using test::solveText;

/// The notes that are no information.
std::vector<SolveNote> remarks(const Solution& s) {
    std::vector<SolveNote> notes = s.notes();
    std::erase_if(notes, [](const SolveNote& n) { return n.kind == SolveNote::Kind::Information; });
    return notes;
}

// The flight begins at x = -900 m with 82 m/s: what lies d metres behind is d / 82 s late.
TEST(Late, APlacePassedAMomentAgoIsToldWithItsTime) {
    const Solution s =
        solveText(plausibleAircraft(), "line level until x -941 m\npull to up at 5 g");
    const std::vector<SolveNote> notes = remarks(s);
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes[0].kind, SolveNote::Kind::Late);
    EXPECT_NEAR(notes[0].late_s, 41 / 82.0, 0.01);
    EXPECT_NE(notes[0].what.find("passed"), std::string::npos);
    // The line is left out: the pull begins at once.
    const path::Path path = s.samplePath(50);
    EXPECT_EQ(path.elements[0].start_s, path.elements[0].stop_s);
    EXPECT_EQ(path.elements[1].start_s, 0);
}

TEST(Late, MoreThanASecondAgoWasNeverMeant) {
    for (const auto& [text, kind] :
         {std::pair("line level until x -981 m", SolveNote::Kind::Late),
          std::pair("line level until x -983 m", SolveNote::Kind::NeverMet)}) {
        const std::vector<SolveNote> notes = remarks(solveText(plausibleAircraft(), text));
        ASSERT_EQ(notes.size(), 1U);
        EXPECT_EQ(notes[0].kind, kind) << text;
    }
}

// Whatever comes next was written for wings as the roll leaves them.
TEST(Late, ARollOnALineThatIsPassedIsFlownAtOnce) {
    const Solution s =
        solveText(plausibleAircraft(), "line level until x -941 m with 1/2 roll left");
    const path::Path path = s.samplePath(50);
    EXPECT_NEAR(rotate(path.samples.front().q_SB, Vec3(0, 0, 1)).z, -1, 0.01);
    EXPECT_NEAR(rotate(path.samples.back().q_SB, Vec3(0, 0, 1)).z, 1, 0.01);
    // Half a turn at p b / 2V = 0.13 (the aircraft's), and the time to come to that rate and back.
    const double rate_radps = 2 * 82 * 0.13 / 7.6;
    EXPECT_NEAR(path.elements[0].stop_s, kPi / rate_radps + rate_radps / 30, 0.05);
}

// The roll takes the time of half a turn (above); at 82 m/s and a little more a line of 70 m is
// over before.
TEST(Late, ARollThatOutlastsItsLineIsLateByTheRestOfIt) {
    const std::vector<SolveNote> notes =
        remarks(solveText(plausibleAircraft(), "line level 70 m with 1/2 roll left"));
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes[0].kind, SolveNote::Kind::Late);
    const double rate_radps = 2 * 82 * 0.13 / 7.6;
    EXPECT_NEAR(notes[0].late_s, kPi / rate_radps + rate_radps / 30 - 70 / 82.0, 0.08);
}

// Going up at full speed, a height just below: the same, told by height.
TEST(Late, AHeightIsPassedLikeAPlace) {
    const Solution s = solveText(plausibleAircraft(),
                                 "pull to 45 deg up at 5 g\nline 45 deg up until height 320 m\n"
                                 "push to level at 1 g");
    const std::vector<SolveNote> notes = remarks(s);
    ASSERT_EQ(notes.size(), 1U);
    EXPECT_EQ(notes[0].kind, SolveNote::Kind::Late);
    const path::Path path = s.samplePath(50);
    const path::Sample at = path::sampleAt(path, path.elements[0].stop_s);
    EXPECT_NEAR(notes[0].late_s, (at.position_S_m.z - 320) / at.velocity_S_mps.z, 0.02);
}

}  // namespace
}  // namespace plumbline::fly
