#include "engine/text/words.h"

#include <algorithm>
#include <array>

namespace plumbline::text {

namespace {

using std::string_view_literals::operator""sv;

constexpr std::array kTradeWords{
    "line"sv,  "pull"sv,       "push"sv,     "turn"sv,   "pivot"sv,       "slide"sv,
    "fall"sv,  "reposition"sv, "power"sv,    "smoke"sv,  "cue"sv,         "level"sv,
    "up"sv,    "down"sv,       "inverted"sv, "by"sv,     "nose"sv,        "path"sv,
    "until"sv, "x"sv,          "y"sv,        "height"sv, "centre"sv,      "or"sv,
    "with"sv,  "then"sv,       "roll"sv,     "rolls"sv,  "of"sv,          "points"sv,
    "left"sv,  "right"sv,      "at"sv,       "start"sv,  "end"sv,         "starting"sv,
    "after"sv, "pause"sv,      "to"sv,       "radius"sv, "round"sv,       "bank"sv,
    "in"sv,    "full"sv,       "idle"sv,     "on"sv,     "off"sv,         "wheels-down"sv,
    "tilt"sv,  "wheels-up"sv,  "heading"sv,  "speed"sv,  "crowd-right"sv, "crowd-left"sv};

constexpr auto kLeaveOut = "use lines, pulls, pushes, rolls and turns in its place"sv;
constexpr auto kNotChecked = "check it in the pictures, and leave the line out"sv;
constexpr auto kNoBank = "knife-edge is a bank that rolls reach: line 200 m with 1/4 roll left"sv;

constexpr std::array kAnswers{
    HonestAnswer{"snap", "this version does not fly snaps", kLeaveOut},
    HonestAnswer{"snaps", "this version does not fly snaps", kLeaveOut},
    HonestAnswer{"negative", "this version does not fly snaps", kLeaveOut},
    HonestAnswer{"spin", "this version does not fly spins", kLeaveOut},
    HonestAnswer{"spins", "this version does not fly spins", kLeaveOut},
    HonestAnswer{"tumble", "this version does not fly tumbles", kLeaveOut},
    HonestAnswer{"tumbles", "this version does not fly tumbles", kLeaveOut},
    HonestAnswer{"torque-roll", "this version does not fly torque rolls",
                 "use slide and fall in its place"},
    HonestAnswer{"torque-rolls", "this version does not fly torque rolls",
                 "use slide and fall in its place"},
    HonestAnswer{"float", "this version does not fly floats",
                 "use push or pull at the least load that the figure allows"},
    HonestAnswer{
        "loop", "this version does not fly loops with sides",
        "write a round loop as pull 360 deg radius 90 m, one with sides as pulls and lines"},
    HonestAnswer{"sides", "this version does not fly loops with sides",
                 "write the sides as lines with pulls or pushes between them"},
    HonestAnswer{"side", "this version does not fly loops with sides",
                 "write the sides as lines with pulls or pushes between them"},
    HonestAnswer{"climb", "this version does not fly climbs by itself",
                 "write line 30 deg up until height 600 m between a pull and a push"},
    HonestAnswer{"wait", "this version does not wait", "write turns or lines that fill the time"},
    HonestAnswer{"ribbon", "this version does not fly ribbons", "leave the line out"},
    HonestAnswer{"expect", "this version does not check what is expected", kNotChecked},
    HonestAnswer{"tightest", "this version does not fly the tightest arc",
                 "write the load that you would hold, at 6 g"},
    HonestAnswer{"over", "this version does not hold lines over the ground",
                 "write by nose or by path"},
    HonestAnswer{"outward", "this version does not fly rolling turns",
                 "write turn left 360 deg bank 60 deg"},
    HonestAnswer{"inward", "this version does not fly rolling turns",
                 "write turn left 360 deg bank 60 deg"},
    HonestAnswer{"pivots", "this version does not fly consecutive pivots", "write one pivot left"},
    HonestAnswer{"hammerhead", "a hammerhead is written as its elements",
                 "write pull to up, line up, pivot left, line down, pull to level"},
    HonestAnswer{"stall-turn", "a stall turn is written as its elements",
                 "write pull to up, line up, pivot left, line down, pull to level"},
    HonestAnswer{"tailslide", "a tailslide is written as its elements",
                 "write pull to up, line up, slide 60 m, fall wheels-down, pull to level"},
    HonestAnswer{"knife-edge", "knife-edge is no direction", kNoBank},
    HonestAnswer{"half", "a count is written in figures", "write 1/2 roll left"},
    HonestAnswer{"quarter", "a count is written in figures", "write 1/4 roll left"},
};

}  // namespace

bool isTradeWord(std::string_view word) {
    return std::find(kTradeWords.begin(), kTradeWords.end(), word) != kTradeWords.end();
}

const HonestAnswer* findHonestAnswer(std::string_view word) {
    const auto found = std::find_if(kAnswers.begin(), kAnswers.end(),
                                    [&](const HonestAnswer& a) { return a.word == word; });
    return found == kAnswers.end() ? nullptr : &*found;
}

}  // namespace plumbline::text
