#include "engine/text/words.h"

#include <algorithm>
#include <array>

namespace plumbline::text {

namespace {

using std::string_view_literals::operator""sv;

constexpr std::array kTradeWords{
    "line"sv,    "pull"sv,       "push"sv,     "turn"sv,        "pivot"sv,       "slide"sv,
    "fall"sv,    "reposition"sv, "power"sv,    "smoke"sv,       "cue"sv,         "level"sv,
    "up"sv,      "down"sv,       "inverted"sv, "by"sv,          "nose"sv,        "path"sv,
    "until"sv,   "x"sv,          "y"sv,        "height"sv,      "centre"sv,      "or"sv,
    "with"sv,    "then"sv,       "roll"sv,     "rolls"sv,       "of"sv,          "points"sv,
    "left"sv,    "right"sv,      "at"sv,       "start"sv,       "end"sv,         "starting"sv,
    "after"sv,   "pause"sv,      "to"sv,       "radius"sv,      "round"sv,       "bank"sv,
    "in"sv,      "full"sv,       "idle"sv,     "on"sv,          "off"sv,         "wheels-down"sv,
    "tilt"sv,    "wheels-up"sv,  "heading"sv,  "speed"sv,       "crowd-right"sv, "crowd-left"sv,
    "float"sv,   "sides"sv,      "side"sv,     "tightest"sv,    "over"sv,        "the"sv,
    "ground"sv,  "inward"sv,     "outward"sv,  "alternating"sv, "pivots"sv,      "climb"sv,
    "descend"sv, "wait"sv,       "ribbon"sv,   "expect"sv,      "canopy"sv,      "upright"sv,
    "snap"sv,    "snaps"sv,      "negative"sv, "spin"sv,        "turns"sv,       "torque-roll"sv,
    "tumble"sv,  "forward"sv,    "backward"sv, "knife-edge"sv,  "above"sv,       "below"sv,
    "toward"sv,  "away"sv,       "from"sv,     "crowd"sv};

constexpr std::array kFirstWords{"climb"sv, "cue"sv,         "descend"sv,    "expect"sv, "fall"sv,
                                 "float"sv, "line"sv,        "pivot"sv,      "power"sv,  "pull"sv,
                                 "push"sv,  "ribbon"sv,      "reposition"sv, "slide"sv,  "smoke"sv,
                                 "spin"sv,  "torque-roll"sv, "tumble"sv,     "turn"sv,   "wait"sv};

constexpr auto kNoBank = "knife-edge is a bank that rolls reach: line 200 m with 1/4 roll left"sv;

constexpr std::array kAnswers{
    HonestAnswer{"spins", "a spin is written with its turns", "write spin left 2 1/2 turns"},
    HonestAnswer{"tumbles", "a tumble is written with its turns", "write tumble forward 3 turns"},
    HonestAnswer{"torque-rolls", "a torque roll is written with its rolls",
                 "write torque-roll left 3 rolls"},
    HonestAnswer{"flick", "a flick is written as a snap", "write line 200 m with 1 snap left"},
    HonestAnswer{"snap-roll", "a snap stands on its line", "write line 200 m with 1 snap left"},
    HonestAnswer{"snap-rolls", "a snap stands on its line", "write line 200 m with 1 snap left"},
    HonestAnswer{"loop", "a loop is written as what is flown",
                 "write pull 360 deg radius 90 m, or pull 8 sides 360 deg side 60 m at 5 g"},
    HonestAnswer{"barrel", "a barrel roll is written as what is flown",
                 "write pull 360 deg at 3 g with 1 roll left"},
    HonestAnswer{"barrel-roll", "a barrel roll is written as what is flown",
                 "write pull 360 deg at 3 g with 1 roll left"},
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

std::span<const std::string_view> tradeWords() { return kTradeWords; }
std::span<const std::string_view> firstWords() { return kFirstWords; }

const HonestAnswer* findHonestAnswer(std::string_view word) {
    const auto found = std::find_if(kAnswers.begin(), kAnswers.end(),
                                    [&](const HonestAnswer& a) { return a.word == word; });
    return found == kAnswers.end() ? nullptr : &*found;
}

}  // namespace plumbline::text
