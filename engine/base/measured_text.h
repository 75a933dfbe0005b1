#pragma once
// A measured number beside what it may be off by: both to the same digit, the one rule for window,
// pages, remarks and commands.

#include <string>

namespace plumbline {

enum class Signs {
    Typeset,  ///< "−2.6 ±0.3"
    Plain,    ///< "-2.6 +- 0.3", for what goes through pipes
};

/// How a measured number is written.
struct MeasuredForm {
    int decimals = 0;        ///< never more; below 0: in tens, hundreds
    bool with_plus = false;  ///< "+2.6"
    Signs signs = Signs::Typeset;
};

/// Decimals that a number known to within so much may have: to the doubt's first figure, the
/// second where it begins with 1; at most so many, below 0 for tens. Not told (0): all of them.
int decimalsKnown(double within, int most);

/// The doubt alone, rounded up to its one figure (two where it begins with 1); a hair above a step
/// is that step. It is never less than a step of the last digit shown.
std::string doubtText(double within, int most_decimals);

/// The value alone, no finer than it is known.
std::string valueText(double value, double within, const MeasuredForm& form);

/// "87.2 ±0.4", "14 ±2", "140 ±20"; without a doubt (0: not told) the value alone.
std::string measuredText(double value, double within, const MeasuredForm& form);

}  // namespace plumbline
