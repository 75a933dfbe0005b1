#pragma once
// The words of figure text, and those of the trade that it does not fly.

#include <span>
#include <string_view>

namespace plumbline::text {

/// All words of figure text except units.
bool isTradeWord(std::string_view word);
std::span<const std::string_view> tradeWords();
/// Those that a line of figure text can begin with.
std::span<const std::string_view> firstWords();

/// What to say of a word that a pilot may well write but that this version does not fly.
struct HonestAnswer {
    std::string_view word;
    std::string_view what;
    std::string_view remedy;
};

/// Nothing for all other words. `word` in lower case.
const HonestAnswer* findHonestAnswer(std::string_view word);

}  // namespace plumbline::text
