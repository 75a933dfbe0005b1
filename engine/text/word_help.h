#pragma once
// What a line of figure text does, by its first word: for whoever is writing one.

#include <string_view>

namespace plumbline::text {

struct WordHelp {
    std::string_view word;
    std::string_view about;    ///< one or two sentences
    std::string_view example;  ///< a line that can be flown
};

/// Null for words that no line begins with.
const WordHelp* helpOnWord(std::string_view word);

}  // namespace plumbline::text
