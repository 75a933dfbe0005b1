#include "engine/text/word_help.h"

#include <algorithm>
#include <array>

namespace plumbline::text {

namespace {

constexpr std::array kHelp{
    WordHelp{"climb", "Climbs to a height over show centre, straight on.", "climb to height 300 m"},
    WordHelp{"cue", "The narrator's words, due at this moment.",
             "cue \"Straight up, and waiting\""},
    WordHelp{"descend", "Descends to a height over show centre, straight on.",
             "descend to height 120 m"},
    WordHelp{"expect",
             "What must be true here; the checks tell when it is not. Nothing is flown by it.",
             "expect canopy to crowd"},
    WordHelp{"fall", "After a slide the nose comes round, by the wheels' side or the canopy's.",
             "fall wheels-down"},
    WordHelp{"float", "The nose falls while the meter reads what is said, from -1 g to 1 g.",
             "float to 45 deg down at 0.2 g"},
    WordHelp{"line",
             "A straight line, for a length, a time or until something is reached. Its rolls stand "
             "in its middle unless their place is said.",
             "line up until 60 kt with 1/4 roll left"},
    WordHelp{"pivot", "At the top of an upline the rudder swings the nose down.",
             "pivot left power 25 %"},
    WordHelp{"power", "Sets the power from here on; it takes the engine's time to come.",
             "power idle"},
    WordHelp{"pull",
             "A part of a loop towards the canopy: to a direction or through an angle. By load the "
             "meter reads it and the arc is not round; by radius the shape is given.",
             "pull to up at 6 g"},
    WordHelp{"push",
             "A part of a loop towards the wheels: to a direction or through an angle, by load or "
             "by radius.",
             "push to inverted level radius 120 m"},
    WordHelp{"reposition", "A smooth way to a place, found anew whenever the wind changes.",
             "reposition to x 900 m y 30 m height 200 m heading crowd-left speed 130 kt"},
    WordHelp{"ribbon", "Cuts the site's ribbon of that name; the miss is told.", "ribbon first"},
    WordHelp{"slide",
             "Tail first down the line that was flown up, for a length, a time or to a "
             "speed.",
             "slide 60 m"},
    WordHelp{"smoke", "Smoke on or off from here on.", "smoke on"},
    WordHelp{"spin", "Slows down to the stall, turns, ends in a downline.",
             "spin left 2 1/2 turns"},
    WordHelp{"torque-roll",
             "Hanging on the propeller and backing, rolled by its torque: it goes "
             "one way only.",
             "torque-roll left 3 rolls"},
    WordHelp{"tumble",
             "Turned head over heels or sideways by what is left of the air and the "
             "propeller.",
             "tumble forward 1 turn"},
    WordHelp{"turn", "A turn by bank or load; with rolls and a time it is a rolling turn.",
             "turn left 90 deg bank 70 deg"},
    WordHelp{"wait", "Level turns until the time is over.", "wait 60 s in level turn left"},
};

}  // namespace

const WordHelp* helpOnWord(std::string_view word) {
    const auto found =
        std::find_if(kHelp.begin(), kHelp.end(), [&](const WordHelp& h) { return h.word == word; });
    return found == kHelp.end() ? nullptr : &*found;
}

}  // namespace plumbline::text
