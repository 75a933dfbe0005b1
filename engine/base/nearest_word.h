#pragma once
// The word that somebody probably meant, for messages about unknown words and keys.

#include <string>
#include <string_view>
#include <vector>

namespace plumbline {

/// Words of the user within a message, "so".
std::string quoted(std::string_view words);

/// Insertions, deletions, replacements and swaps of neighbouring bytes that make `a` into `b`
/// (optimal string alignment distance).
int editDistance(std::string_view a, std::string_view b);

/// The candidate nearest to `word`, the first of equals; empty when none is near enough to be meant
/// (more than a third of the longer one's letters differ) or when `word` is longer than any word.
std::string_view nearestWord(std::string_view word,
                             const std::vector<std::string_view>& candidates);

}  // namespace plumbline
