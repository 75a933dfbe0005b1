#pragma once
// What a check has to say: graded, with time, place, value and limit.

#include <string>
#include <vector>

#include "engine/math/frames.h"
#include "engine/units/quantity.h"

namespace plumbline::check {

enum class Grade { Note, Tight, Unsafe, Cannot };

struct Finding {
    Grade grade = Grade::Note;
    /// A stable word: "floor", "show line", "box", "obstacle", "toward the crowd", "crowd
    /// distance", "category", "lowest height", "zone", "load", "rolling load", "speed", "tail-first
    /// speed", "inverted", "full power", "head temperature", "overspeed", "fuel", "slot", "pilot
    /// load", "onset", "sustained load", "push then pull", "rest", "wind", "cloud", "sun", "density
    /// altitude", "gate", "not flyable", "late", "not as expected", "ground"; a measure: "pivot",
    /// "slide"
    std::string kind;
    std::string figure;
    std::string element;
    double time_s = 0;
    Vec3 position_S_m{0};
    double margin =
        0;  ///< SI, from value to limit, below zero beyond it; 0 where nothing is measured
    bool verified = true;  ///< false: the limit's number was not seen in the document it is from
    std::string what;      ///< one sentence
    std::string value;     ///< with unit
    std::string limit;     ///< with unit
    std::string source;    ///< where the limit comes from: "site file", "aircraft file", ...
    std::string remedy;
};

/// A finding's value or limit with its heights and speeds in the units asked for: "30 m", "165 kt",
/// "110 m long, 74 kt tail first". Everything else stays as it is, distances along the ground are
/// in metres.
std::string inUnits(const Finding& finding, const std::string& words, units::DisplayUnits units);

/// "note", "tight", "unsafe", "cannot".
const char* gradeWord(Grade grade);

}  // namespace plumbline::check
