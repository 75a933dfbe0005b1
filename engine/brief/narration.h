#pragma once
// The narrator's cues: what comes when, how surely, where to look, what there is to say and how
// much of it fits.

#include <cstdint>
#include <string>
#include <vector>

#include "engine/brief/outline.h"
#include "engine/brief/script.h"

namespace plumbline::brief {

struct Wishes;

struct Cue {
    std::size_t act = 0;             ///< index into Outline::acts
    bool first = false;              ///< of its figure: the narration belongs here
    double time_s = 0;               ///< from the first radio call
    double early_s = 0, late_s = 0;  ///< 5 and 95 % of the flights come earlier
    std::string words;               ///< of the `cue` in figure text; may be empty
    Script script;
    double until_next_s = 0;
    int fit = 0;                     ///< words that can be said until the next cue
    int too_many = 0;                ///< that cannot
    std::string look;                ///< where, how far, how high, how fast, how late it is heard
    std::vector<std::string> beats;  ///< "smoke", "low", "silence 6 s", "engine quiet 7 s"
};

struct Narration {
    std::vector<Cue> cues;
    double words_per_min = 0;
    std::uint64_t flights = 0;
    std::string music;  ///< "evening.ogg begins at 0:12"; empty: none
};

/// When each cue comes; what is said then does not change it.
struct CueTimes {
    struct One {
        std::size_t act = 0;
        bool first = false;  ///< of its figure
        double plan_s = 0, early_s = 0, late_s = 0;
        std::string words;
    };
    std::vector<One> cues;
    std::uint64_t flights = 0;  ///< that were flown for it; fewer than wished: given up
};

/// Cues where figure text has them and where a figure has narration. Their windows are those of
/// `wishes.flights` imperfect flights; of none they are the plan's times.
CueTimes timeCues(const variant::Flown& flown, const Wishes& wishes);

/// What there is to say at those times, and how much of it fits.
Narration narrate(const variant::Flown& flown, const Outline& outline, const CueTimes& times,
                  const Wishes& wishes);

}  // namespace plumbline::brief
