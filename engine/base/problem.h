#pragma once
// What is wrong with an input, where, and what to do about it.

#include <cstdint>
#include <string>
#include <vector>

namespace plumbline {

/// A place in a text: file name as the user gave it, line and column from 1 (0: the file as a
/// whole). Columns count Unicode code points, as editors show them.
struct TextPosition {
    std::string file;
    std::int32_t line = 0;
    std::int32_t column = 0;
    bool operator==(const TextPosition&) const = default;
};

/// One thing wrong with an input.
struct Problem {
    TextPosition where;
    std::string what;    ///< what is wrong, a clause without a full stop
    std::string remedy;  ///< what to do, a clause without a full stop
};
using Problems = std::vector<Problem>;

/// `file:line:col: what: remedy`, the parts that are there.
std::string describe(const Problem& problem);

/// One line each, in order.
std::string describe(const Problems& problems);

}  // namespace plumbline
