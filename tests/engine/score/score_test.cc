// Pitches are those of equal temperament with A4 at 440 Hz (ISO 16:1975); the frequencies in Hz are
// the usual table's, to two decimals (from memory).

#include "engine/score/score.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/constants.h"

namespace plumbline::score {
namespace {

Score read(const std::string& text) {
    const auto score = readScore(text, "a.score.toml");
    EXPECT_TRUE(score) << (score ? "" : describe(score.error()));
    return score ? *score : Score();
}

std::string oneVoice(const std::string& notes, const std::string& sound = "strings") {
    return "tempo = 60\n[[part]]\nname = \"a\"\n[[part.voice]]\nsound = \"" + sound +
           "\"\nnotes = \"" + notes + "\"\n";
}

/// Strength of a frequency in one channel between two times: the sum against sine and cosine.
double strengthOf(const std::vector<std::int16_t>& stereo, double hz, double from_s, double to_s) {
    double sine = 0, cosine = 0, count = 0;
    for (auto i = static_cast<std::size_t>(from_s * kRate_hz);
         i < static_cast<std::size_t>(to_s * kRate_hz) && 2 * i < stereo.size(); ++i) {
        const double phase = 2 * kPi * hz * static_cast<double>(i) / kRate_hz;
        // A Hann window: what is near in frequency does not leak.
        const double in =
            0.5 - 0.5 * std::cos(2 * kPi * (static_cast<double>(i) / kRate_hz - from_s) /
                                 (to_s - from_s));
        sine += in * stereo[2 * i] * std::sin(phase);
        cosine += in * stereo[2 * i] * std::cos(phase);
        count += in;
    }
    return 2 * std::hypot(sine, cosine) / count / 32768;
}

double loudness(const std::vector<std::int16_t>& stereo) {
    double sum = 0;
    for (const std::int16_t v : stereo) sum += (v / 32768.0) * (v / 32768.0);
    return std::sqrt(sum / static_cast<double>(stereo.size()));
}

TEST(Score, PitchesAreThoseOfEqualTemperament) {
    EXPECT_DOUBLE_EQ(pitchOf("A4"), 440);
    EXPECT_DOUBLE_EQ(pitchOf("A3"), 220);
    EXPECT_NEAR(pitchOf("C4"), 261.63, 0.005);
    EXPECT_NEAR(pitchOf("F#5"), 739.99, 0.005);
    EXPECT_NEAR(pitchOf("Bb2"), 116.54, 0.005);
    EXPECT_NEAR(pitchOf("E0"), 20.60, 0.005);
    EXPECT_NEAR(pitchOf("B8"), 7902.13, 0.005);
    EXPECT_DOUBLE_EQ(pitchOf("C#4"), pitchOf("Db4"));
    for (const char* none : {"", "A", "H4", "A9", "a4", "A#", "C44", "4"})
        EXPECT_EQ(pitchOf(none), 0) << none;
}

TEST(Score, NotesSoundAtTheirPitchForTheirTime) {
    for (const char* sound : {"strings", "horn", "pluck", "bass"}) {
        const auto samples = samplesOf(read(oneVoice("A4:1 C4:1 -:1", sound)));
        const double a = strengthOf(samples, 440, 0.1, 0.9),
                     c = strengthOf(samples, 261.626, 1.3, 1.9);
        EXPECT_GT(a, 0.05) << sound;
        EXPECT_GT(c, 0.05) << sound;
        // Nothing beside them, a third of a tone off, and nothing of the other.
        EXPECT_LT(strengthOf(samples, 457, 0.1, 0.9), 0.02 * a) << sound;
        EXPECT_LT(strengthOf(samples, 261.626, 0.1, 0.9), 0.02 * a) << sound;
        EXPECT_LT(strengthOf(samples, 440, 1.3, 1.9), 0.02 * c) << sound;
        // A second of silence behind, once the note has faded.
        EXPECT_LT(strengthOf(samples, 261.626, 2.3, 2.9), 1e-4) << sound;
    }
}

TEST(Score, ChordsHaveAllTheirNotes) {
    const auto samples = samplesOf(read(oneVoice("D4+F#4+A4:2")));
    for (const double hz : {293.665, 369.994, 440.0})
        EXPECT_GT(strengthOf(samples, hz, 0.3, 1.7), 0.05) << hz;
}

TEST(Score, LoudnessIsWithinBoundsAndTheSameEachTime) {
    for (const char* notes : {"A4:1", "A2:4 A3+C4+E4:2 -:2 A5:1"}) {
        const auto samples = samplesOf(read(oneVoice(notes)));
        int greatest = 0;
        for (const std::int16_t v : samples) greatest = std::max(greatest, std::abs(v + 0));
        // 0.7 of full scale where it is loudest: 3 dB of room.
        EXPECT_NEAR(greatest / 32768.0, 0.7, 0.01);
        EXPECT_GT(loudness(samples), 0.05);
        EXPECT_LT(loudness(samples), 0.5);
        EXPECT_EQ(samples, samplesOf(read(oneVoice(notes))));
    }
}

TEST(Score, PartsFollowAsTheyAreOrderedAndComeAgain) {
    const Score score = read(
        "tempo = 120\norder = [\"b\", \"a\", \"b\"]\n"
        "[[part]]\nname = \"a\"\n[[part.voice]]\nnotes = \"A4:2\"\n"
        "[[part]]\nname = \"b\"\n[[part.voice]]\nnotes = \"E5:1 | E5:3\"\n"
        "[[part.voice]]\nside = 1\nnotes = \"C3:1\"\n");
    EXPECT_DOUBLE_EQ(score.parts[1].beats(), 4);
    EXPECT_DOUBLE_EQ(score.duration_s(), 5);
    const auto samples = samplesOf(score);
    EXPECT_NEAR(static_cast<double>(samples.size()) / 2 / kRate_hz, 5, 0.3);
    EXPECT_GT(strengthOf(samples, 659.255, 0.6, 1.8), 0.05);
    EXPECT_GT(strengthOf(samples, 440, 2.2, 2.9), 0.05);
    EXPECT_GT(strengthOf(samples, 659.255, 3.6, 4.8), 0.05);
    // Of what stands right, nothing is heard left.
    EXPECT_LT(strengthOf(samples, 130.813, 0.02, 0.45), 1e-3);
}

TEST(Score, WhatIsWrongIsSaidWithItsPlace) {
    const auto wrong = [](const std::string& text) {
        const auto score = readScore(text, "a.score.toml");
        return score ? std::string() : describe(score.error());
    };
    EXPECT_NE(wrong(oneVoice("A4")).find("a.score.toml:6:9: \"A4\" has no length in beats"),
              std::string::npos)
        << wrong(oneVoice("A4"));
    EXPECT_NE(wrong(oneVoice("H4:1")).find("\"H4\" is no note"), std::string::npos);
    EXPECT_NE(wrong(oneVoice("A4:0")).find("not 0 to 64 beats"), std::string::npos);
    EXPECT_NE(wrong(oneVoice("")).find("no notes"), std::string::npos);
    EXPECT_NE(wrong("tempo = 60\n").find("no [[part]]"), std::string::npos);
    EXPECT_NE(wrong("tempo = 5\n" + oneVoice("A4:1").substr(11)).find("tempo"), std::string::npos);
    const std::string order = "order = [\"aa\"]\n" + oneVoice("A4:1");
    EXPECT_NE(wrong(order).find("a.score.toml:1:10: there is no part \"aa\""), std::string::npos)
        << wrong(order);
    EXPECT_NE(wrong("tempo = 20\norder = [" + std::string([] {
                        std::string many;
                        for (int i = 0; i < 20; ++i) many += "\"a\", ";
                        return many;
                    }()) +
                    "]\n[[part]]\nname = \"a\"\n[[part.voice]]\nnotes = \"A4:64 A4:64\"\n"),
              "");
}

}  // namespace
}  // namespace plumbline::score
