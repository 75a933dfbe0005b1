#pragma once
// What a check has to say: graded, with time, place, value and limit.

#include <string>
#include <vector>

namespace plumbline::check {

enum class Grade { Note, Tight, Unsafe, Cannot };

struct Finding {
    Grade grade = Grade::Note;
    std::string kind;  ///< stable word: "floor", "show line", "box", "load", "speed", "tail-first
                       ///< speed", "not flyable", "fuel", "slot", "ground"; a measure:
                       ///< "pivot", "slide"
    std::string figure;
    std::string element;
    double time_s = 0;
    std::string what;    ///< one sentence
    std::string value;   ///< with unit
    std::string limit;   ///< with unit
    std::string source;  ///< where the limit comes from: "site file", "aircraft file", ...
    std::string remedy;
};

/// "note", "tight", "unsafe", "cannot".
const char* gradeWord(Grade grade);

}  // namespace plumbline::check
