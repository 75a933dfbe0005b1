#pragma once
// The narrator's prompter: which words are said now, what comes next, and what becomes of all times
// when the show runs otherwise than planned. Functions of times; no clock, no drawing.

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/brief/script.h"

namespace plumbline::model {

/// Times of the plan count from the first radio call.
struct PromptFigure {
    std::string name;
    double start_s = 0, stop_s = 0;
};

struct PromptCue {
    std::size_t figure = 0;          ///< index into Prompt::figures
    double plan_s = 0;               ///< when it comes
    double early_s = 0, late_s = 0;  ///< 5 and 95 % of the flights come earlier
    std::string words;               ///< of the `cue` in figure text; may be empty
    brief::Script script;            ///< without any the words of the cue are said
    std::vector<std::string> beats;  ///< "smoke", "low", "silence 6 s"
};

/// A routine as its narrator sees it.
struct Prompt {
    std::uint64_t revision = 0;  ///< of the shown routine that it is of
    std::string title;
    std::vector<PromptFigure> figures;
    std::vector<PromptCue> cues;  ///< by time
    double duration_s = 0;
    bool windows = false;  ///< early_s and late_s are known
};

/// Something of the plan and when it comes as the show runs.
struct Moment {
    enum class Kind { Figure, Cue, End };
    Kind kind = Kind::End;
    std::size_t index = 0;  ///< of the figure or the cue
    double plan_s = 0;
    double comes_s = 0;  ///< on the show's clock, which runs from the first radio call
    bool told = false;   ///< the narrator said that it is now
};
/// Everything to come or past, in the order in which it comes.
using Running = std::vector<Moment>;

/// What the narrator says of a show that runs otherwise.
struct Retiming {
    enum class Kind {
        Now,       ///< the cue meant by it is happening
        Next,      ///< the next cue is happening
        Back,      ///< the cue before is: one step too many was made
        LeaveOut,  ///< the next figure is not flown
        Again      ///< the figure flown now is flown once more, at once
    };
    Kind kind = Kind::Now;
    double at_s = 0;  ///< on the show's clock
};

/// The plan re-timed by each of them in turn; one that means nothing changes nothing. What was said
/// of a cue moves it and all that follows; before it nothing comes later than it.
Running runningOf(const Prompt& prompt, std::span<const Retiming> retimings);

/// The cue that "now" means: the one that has just come where that is nearer and was not told yet,
/// else the next. Nothing behind the last.
/// @return index into `running`
std::optional<std::size_t> meantByNow(const Running& running, double at_s);
/// The cue that has come last, the next one; nothing where there is none.
std::optional<std::size_t> cueBefore(const Running& running, double at_s);
std::optional<std::size_t> cueAfter(const Running& running, double at_s);
/// The figure flown now and the one behind it, as indices into `running`.
std::optional<std::size_t> figureFlown(const Running& running, double at_s);
std::optional<std::size_t> figureAfter(const Running& running, double at_s);

/// The plan's time that the show is at: it waits where what comes next is late.
double planTimeOf(const Running& running, double at_s);

/// A stretch of script on the prompter.
struct PromptBlock {
    std::size_t moment = 0;  ///< of its cue, into the running
    bool first = false;      ///< of its cue
    bool spoken = true;      ///< else an instruction
    std::string words;
    double start_s = 0, stop_s = 0;  ///< at the narrator's pace
};
std::vector<PromptBlock> blocksOf(const Prompt& prompt, const Running& running,
                                  double words_per_min);

/// Where the narrator should be.
struct PromptPlace {
    int block = -1;           ///< -1: nothing is to be said yet
    std::size_t said = 0;     ///< bytes of its words said by now, the word being said with them
    int words_left = 0;       ///< until the end of this cue's script
    int fit = 0;              ///< that can be said until the next cue
    double until_next_s = 0;  ///< the next cue or the end
};
PromptPlace placeAt(const Running& running, const std::vector<PromptBlock>& blocks, double at_s,
                    double words_per_min);

/// A cue to come.
struct ComingCue {
    std::size_t moment = 0;
    std::size_t cue = 0;
    double in_s = 0;
    double early_in_s = 0, late_in_s = 0;  ///< its window; never before now
    int words = 0;                         ///< of its script
    int fit = 0;                           ///< that can be said before the one behind it
};
/// @param most  so many at most
std::vector<ComingCue> comingCues(const Prompt& prompt, const Running& running, double at_s,
                                  double words_per_min, std::size_t most);

}  // namespace plumbline::model
