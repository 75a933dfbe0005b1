#include "engine/check/finding.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace plumbline::check {
namespace {

/// Kinds whose lengths are heights, or how far down or up something goes.
constexpr std::array<std::string_view, 10> kHeights{
    "floor", "lowest height", "gate", "cloud",  "density altitude",
    "slide", "fall",          "spin", "tumble", "torque roll"};

bool isDigit(char c) { return c >= '0' && c <= '9'; }
bool isLetter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool endsWith(std::string_view text, std::string_view end) {
    return text.size() >= end.size() && text.substr(text.size() - end.size()) == end;
}
bool beginsWithWord(std::string_view text, std::string_view word) {
    if (text.substr(0, word.size()) != word) return false;
    return text.size() == word.size() || (!isLetter(text[word.size()]) && text[word.size()] != '/');
}

/// How many letters a number that begins there has; 0: none begins there.
std::size_t numberAt(std::string_view text, std::size_t at) {
    if (at > 0 && (isDigit(text[at - 1]) || isLetter(text[at - 1]) || text[at - 1] == '.'))
        return 0;
    std::size_t end = at;
    while (end < text.size() && (isDigit(text[end]) || (end > at && text[end] == '.'))) ++end;
    return end - at;
}

}  // namespace

std::string inUnits(const Finding& finding, const std::string& words, units::DisplayUnits units) {
    const bool heights =
        std::find(kHeights.begin(), kHeights.end(), finding.kind) != kHeights.end();
    const std::string_view all = words;
    std::string out;
    for (std::size_t at = 0; at < all.size();) {
        const std::size_t digits = numberAt(all, at);
        if (digits == 0) {
            out += all[at++];
            continue;
        }
        const std::string_view before = all.substr(0, at), behind = all.substr(at + digits);
        const bool speed = beginsWithWord(behind, " kt");
        const bool height = beginsWithWord(behind, " m") &&
                            ((heights && !endsWith(before, "over ")) ||
                             endsWith(before, "height ") || endsWith(before, "height is "));
        const std::string_view quantity = all.substr(at, digits + (speed ? 3 : height ? 2 : 0));
        const auto si = units::parseQuantity(
            quantity, speed ? units::Dimension::Speed : units::Dimension::Length);
        if (si && speed)
            out += units::formatSpeed(*si, units);
        else if (si && height)
            out += units::formatHeight(*si, units);
        else
            out += quantity;
        at += quantity.size();
    }
    return out;
}

}  // namespace plumbline::check
