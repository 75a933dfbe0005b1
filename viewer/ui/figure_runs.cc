// Which parts of a line of figure text are quantities: drawn heavier, so that the eye finds them.

#include <algorithm>
#include <array>
#include <string_view>

#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

constexpr std::array<std::string_view, 14> kUnits{"m", "km",  "ft",    "kt", "km/h", "mph", "m/s",
                                                  "g", "deg", "deg/s", "s",  "%",    "l",   "min"};

bool isNumber(std::string_view word) {
    bool digit = false;
    for (char c : word) {
        if (c >= '0' && c <= '9') {
            digit = true;
        } else if (c != '-' && c != '+' && c != '.' && c != '/') {
            return false;
        }
    }
    return digit;
}

bool isUnit(std::string_view word) {
    for (std::string_view unit : kUnits) {
        if (word == unit) return true;
    }
    return false;
}

void append(std::vector<Run>& runs, std::string_view words, bool quantity, bool quoted) {
    if (words.empty()) return;
    if (!runs.empty() && runs.back().quantity == quantity && runs.back().quoted == quoted) {
        runs.back().words += words;
        return;
    }
    Run run;
    run.words = std::string(words);
    run.quantity = quantity;
    run.quoted = quoted;
    runs.push_back(std::move(run));
}

}  // namespace

std::vector<Run> runsOf(const std::string& figure_text_line) {
    std::vector<Run> runs;
    const std::size_t hash = std::min(figure_text_line.find('#'), figure_text_line.size());
    std::string_view rest = std::string_view(figure_text_line).substr(0, hash);
    bool after_number = false, quoted = false;
    while (!rest.empty()) {
        const std::size_t blank = std::min(rest.find_first_not_of(' '), rest.size());
        const std::size_t end = std::min(rest.find(' ', blank), rest.size());
        const std::string_view word = rest.substr(blank, end - blank);
        const auto marks = std::count(word.begin(), word.end(), '"');
        const bool in_quotes = quoted || marks > 0;
        const bool number = !in_quotes && isNumber(word);
        const bool quantity = number || (after_number && isUnit(word));
        // The blank between a number and its unit belongs to both.
        append(runs, rest.substr(0, blank), quantity && after_number && !number, quoted);
        append(runs, word, quantity, in_quotes);
        if (marks % 2 != 0) quoted = !quoted;
        after_number = number;
        rest.remove_prefix(end);
    }
    if (hash < figure_text_line.size()) {
        Run comment;
        comment.words = figure_text_line.substr(hash);
        comment.comment = true;
        runs.push_back(std::move(comment));
    }
    return runs;
}

}  // namespace plumbline::ui
