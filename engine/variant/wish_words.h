#pragma once
// A variant that is wanted, as words that a page or a command line carries.

#include <string>
#include <vector>

#include "engine/variant/variant.h"

namespace plumbline::variant {

/// "--show", "low", "--ceiling", "450 m", "--mirror": as every command reads them.
std::vector<std::string> wishWords(const Wish& wish);

/// What of words are options, and the rest.
struct WishRead {
    Wish wish;
    load::Overrides overrides;  ///< "--site", "--weather"
    std::vector<std::string> rest;
};
/// Words that make no sense are left out: the page was written by a program.
WishRead readWishWords(const std::vector<std::string>& words);

}  // namespace plumbline::variant
