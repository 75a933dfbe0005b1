#pragma once
// The narrator's words: how many there are, how long they take, what stands between them.

#include <string>
#include <string_view>
#include <vector>

namespace plumbline::brief {

/// A stretch of the script, in its order.
struct ScriptPart {
    std::string words;
    bool spoken = true;  ///< else an instruction that stood in square brackets: "silence 6 s"
    double pause_s = 0;  ///< that an instruction gives
};

struct Script {
    std::vector<ScriptPart> parts;
    double words = 0;     ///< spoken
    double pauses_s = 0;  ///< of instructions that give a time

    bool empty() const { return parts.empty(); }
    /// @param words_per_min  how fast he speaks
    double duration_s(double words_per_min) const { return 60 * words / words_per_min + pauses_s; }
};

/// Reads narration: words to say, and instructions in square brackets ("[silence 6 s]",
/// "[applause]", "[wait for the smoke]"), a time at the end of one is a pause.
Script readScript(std::string_view narration);

/// Words as a speaker counts them: those between blanks that have a letter or a digit; scripts
/// without blanks by the sign.
double wordsIn(std::string_view text);

/// How many words can be said in a time, a breath before the next cue left out; never below 0.
int wordsThatFit(double time_s, double pauses_s, double words_per_min);

/// chosen: between the last word and the next cue, so that the two do not run into each other
inline constexpr double kBreath_s = 1;
/// chosen: an unhurried speaker over loudspeakers
inline constexpr double kWordsPerMin = 140;
/// chosen: Chinese and Japanese signs that take as long as a word
inline constexpr double kSignsPerWord = 2;

}  // namespace plumbline::brief
