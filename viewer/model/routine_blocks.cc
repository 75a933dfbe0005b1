#include "viewer/model/routine_blocks.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/load/load.h"
#include "engine/routine/figure_file.h"
#include "engine/text/mirror.h"

namespace plumbline::model {
namespace {

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t\r";
    const std::size_t first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

bool startsWith(std::string_view text, std::string_view with) {
    return text.substr(0, with.size()) == with;
}

/// The value of `key = ...` on a line: where it begins; nothing for another key.
std::optional<std::size_t> valueOf(std::string_view line, std::string_view key) {
    const std::size_t first = line.find_first_not_of(" \t");
    if (first == std::string_view::npos || !startsWith(line.substr(first), key)) {
        return std::nullopt;
    }
    std::size_t at = line.find_first_not_of(" \t", first + key.size());
    if (at == std::string_view::npos || line[at] != '=') return std::nullopt;
    at = line.find_first_not_of(" \t", at + 1);
    return at == std::string_view::npos ? line.size() : at;
}

/// Walks the lines and keeps track of strings over several of them.
class Scanner {
public:
    explicit Scanner(std::string_view text) : text_(text) {}

    std::vector<FigureBlock> run() {
        std::size_t at = 0;
        while (at < text_.size()) {
            const std::size_t end = std::min(text_.find('\n', at), text_.size());
            takeLine(at, end);
            at = end + 1;
        }
        close(text_.size());
        return std::move(blocks_);
    }

private:
    void takeLine(std::size_t at, std::size_t end) {
        const std::string_view line = text_.substr(at, end - at);
        if (!quotes_.empty()) {
            const std::size_t closing = line.find(quotes_);
            if (closing == std::string_view::npos) return;
            if (in_text_) blocks_.back().text.end = at + closing;
            if (in_script_) blocks_.back().script.end = at + closing;
            quotes_ = {};
            in_text_ = in_script_ = false;
            return;
        }
        const std::string_view word = trimmed(line);
        if (startsWith(word, "#")) {
            if (!comment_) comment_ = at;
            return;
        }
        if (startsWith(word, "[")) {
            takeHeading(word, comment_.value_or(at), end);
        } else if (open_) {
            takeKey(line, at);
        }
        comment_.reset();
        if (quotes_.empty()) openLongString(line);
    }

    void takeHeading(std::string_view word, std::size_t begin, std::size_t end) {
        if (startsWith(word, "[[figure]]")) {
            close(begin);
            FigureBlock block;
            block.whole.begin = begin;
            block.text.begin = block.text.end = std::min(end + 1, text_.size());
            block.script = block.text;
            blocks_.push_back(block);
            open_ = true;
        } else if (!startsWith(word, "[[figure.") && !startsWith(word, "[figure.")) {
            close(begin);
        }
    }

    void takeKey(std::string_view line, std::size_t at) {
        FigureBlock& block = blocks_.back();
        if (const auto value = valueOf(line, "name"); value && block.name.empty()) {
            const std::size_t first = *value + 1;
            const std::size_t last = line.find(*value < line.size() ? line[*value] : '"', first);
            if (first <= line.size() && last != std::string_view::npos) {
                block.name = std::string(line.substr(first, last - first));
                block.name_range = {at + first, at + last};
                if (!block.has_script) {
                    const std::size_t behind = std::min(at + line.size() + 1, text_.size());
                    block.script = {behind, behind};
                }
            }
        }
        if (const auto value = valueOf(line, "narration"); value && !block.has_script) {
            takeScript(line, at, *value);
        }
        const auto value = valueOf(line, "text");
        if (!value || block.own_text) return;
        const std::string_view rest = line.substr(*value);
        if (startsWith(rest, "\"\"\"") || startsWith(rest, "'''")) {
            block.own_text = true;
            const std::size_t first = at + *value + 3;
            const std::size_t closing =
                text_.substr(0, at + line.size()).find(rest.substr(0, 3), first);
            block.text.begin = first;
            if (closing != std::string_view::npos) {
                block.text.end = closing;
                return;
            }
            // A line end directly behind the quotes is none of the text's.
            if (trimmed(rest.substr(3)).empty()) block.text.begin = at + line.size() + 1;
            block.text.begin = std::min(block.text.begin, text_.size());
            block.text.end = text_.size();  // until its end is found
            quotes_ = rest.substr(0, 3);
            in_text_ = true;
        } else if (!rest.empty() && (rest[0] == '"' || rest[0] == '\'')) {
            block.own_text = true;
            block.text = {at + *value + 1, std::max(at + *value + 1, at + line.rfind(rest[0]))};
        }
    }

    void takeScript(std::string_view line, std::size_t at, std::size_t value) {
        FigureBlock& block = blocks_.back();
        const std::string_view rest = line.substr(value);
        if (rest.empty() || (rest[0] != '"' && rest[0] != '\'')) return;
        const bool is_long = startsWith(rest, "\"\"\"") || startsWith(rest, "'''");
        const std::string_view quotes = rest.substr(0, is_long ? 3 : 1);
        block.has_script = true;
        block.script_quotes = std::string(quotes);
        std::size_t closing = quotes.size();
        while (closing < rest.size() && rest.substr(closing, quotes.size()) != quotes) {
            closing += rest[closing] == '\\' && quotes[0] == '"' ? 2 : 1;
        }
        block.script = {at + value + quotes.size(), at + value + std::min(closing, rest.size())};
        if (!is_long || closing < rest.size()) return;
        // A line end directly behind the quotes is none of the words'.
        if (trimmed(rest.substr(3)).empty()) block.script.begin = at + line.size() + 1;
        block.script.begin = std::min(block.script.begin, text_.size());
        block.script.end = text_.size();  // until its end is found
        quotes_ = quotes;
        in_script_ = true;
    }

    void openLongString(std::string_view line) {
        for (const std::string_view mark : {std::string_view("\"\"\""), std::string_view("'''")}) {
            const std::size_t first = line.find(mark);
            if (first == std::string_view::npos) continue;
            if (line.find(mark, first + 3) == std::string_view::npos) {
                quotes_ = line.substr(first, 3);
            }
        }
    }

    void close(std::size_t end) {
        if (!open_) return;
        FigureBlock& block = blocks_.back();
        block.whole.end = end;
        if (!block.own_text) {
            std::size_t last = end;
            while (last > block.text.begin && (text_[last - 1] == '\n' || text_[last - 1] == ' ')) {
                --last;
            }
            block.text.end = last;
        }
        open_ = false;
    }

    std::string_view text_;
    std::vector<FigureBlock> blocks_;
    bool open_ = false;
    bool in_text_ = false;
    bool in_script_ = false;
    std::string_view quotes_;  ///< that end the string we are in
    std::optional<std::size_t> comment_;
};

bool holds(const std::vector<FigureBlock>& blocks, int index) {
    return index >= 0 && index < static_cast<int>(blocks.size());
}

/// A block with exactly one blank line behind it.
std::string closed(std::string_view block) {
    std::string out(block);
    while (!out.empty() && (out.back() == '\n' || out.back() == ' ' || out.back() == '\r')) {
        out.pop_back();
    }
    return out + "\n\n";
}

std::string inQuotes(std::string_view value) { return '"' + std::string(value) + '"'; }

}  // namespace

std::vector<FigureBlock> figureBlocks(std::string_view routine_text) {
    return Scanner(routine_text).run();
}

int blockAt(const std::vector<FigureBlock>& blocks, std::size_t at) {
    for (std::size_t i = 0; i < blocks.size(); ++i) {
        if (at >= blocks[i].whole.begin && at < blocks[i].whole.end) return static_cast<int>(i);
    }
    return -1;
}

std::string withFigureMoved(std::string_view routine_text, int from, int to) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    if (!holds(blocks, from) || !holds(blocks, to) || from == to) return std::string(routine_text);
    const TextRange range = blocks[static_cast<std::size_t>(from)].whole;
    const std::string block = closed(routine_text.substr(range.begin, range.end - range.begin));
    return withFigureAdded(withFigureRemoved(routine_text, from), to - 1, block);
}

std::string withFigureRemoved(std::string_view routine_text, int index) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    std::string out(routine_text);
    if (!holds(blocks, index)) return out;
    const TextRange range = blocks[static_cast<std::size_t>(index)].whole;
    return out.erase(range.begin, range.end - range.begin);
}

std::string withFigureDoubled(std::string_view routine_text, int index) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    if (!holds(blocks, index)) return std::string(routine_text);
    const FigureBlock& one = blocks[static_cast<std::size_t>(index)];
    std::string second(routine_text.substr(one.whole.begin, one.whole.end - one.whole.begin));
    if (!one.name.empty()) {
        second.replace(one.name_range.begin - one.whole.begin, one.name.size(),
                       freeName(routine_text, one.name));
    }
    return withFigureAdded(routine_text, index, second);
}

std::string withFigureMirrored(std::string_view routine_text, int index) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    std::string out(routine_text);
    if (!holds(blocks, index)) return out;
    const TextRange range = blocks[static_cast<std::size_t>(index)].text;
    std::string mirrored;
    std::size_t at = range.begin;
    while (at < range.end) {
        const std::size_t end = std::min(routine_text.find('\n', at), range.end);
        mirrored += text::mirrorWords(routine_text.substr(at, end - at));
        if (end < range.end) mirrored += '\n';
        at = end + 1;
    }
    return out.replace(range.begin, range.end - range.begin, mirrored);
}

std::string withFigureAdded(std::string_view routine_text, int behind, std::string_view block) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    std::size_t at = routine_text.size();
    if (!blocks.empty()) {
        const int last = static_cast<int>(blocks.size()) - 1;
        at = behind < 0 ? blocks.front().whole.begin
                        : blocks[static_cast<std::size_t>(std::min(behind, last))].whole.end;
    }
    std::string before(routine_text.substr(0, at));
    if (!before.empty() && (before.size() < 2 || before.substr(before.size() - 2) != "\n\n")) {
        before += before.back() == '\n' ? "\n" : "\n\n";
    }
    std::string added = closed(block);
    if (at == routine_text.size()) added.pop_back();
    return before + added + std::string(routine_text.substr(at));
}

std::string freeName(std::string_view routine_text, const std::string& wish) {
    const std::vector<FigureBlock> blocks = figureBlocks(routine_text);
    const auto taken = [&blocks](const std::string& name) {
        return std::any_of(blocks.begin(), blocks.end(),
                           [&name](const FigureBlock& block) { return block.name == name; });
    };
    std::string name = wish;
    for (int i = 2; taken(name); ++i) name = wish + ' ' + std::to_string(i);
    return name;
}

std::string shelfBlock(std::string_view routine_text, std::string_view shelf_name) {
    const auto file = load::shelfFigure(shelf_name);
    if (!file) return {};
    const routine::FigureFile figure =
        routine::readFigureFile(*file, std::string(shelf_name)).figure;
    std::string out = "[[figure]]\nname = " + inQuotes(freeName(routine_text, figure.name)) +
                      "\nfigure = " + inQuotes(shelf_name) + '\n';
    std::string values;
    for (const routine::FigureParameter& parameter : figure.parameters) {
        values += (values.empty() ? "" : ", ") + parameter.name + " = " + inQuotes(parameter.value);
    }
    if (!values.empty()) out += "values = { " + values + " }\n";
    return out;
}

std::optional<NumberInText> numberAt(std::string_view text, std::size_t at) {
    const auto isDigit = [&text](std::size_t i) {
        return i < text.size() && ((text[i] >= '0' && text[i] <= '9') || text[i] == '.');
    };
    at = std::min(at, text.size());
    if (!isDigit(at)) {
        // In the unit, or at its blank: the number before.
        std::size_t back = at;
        while (back > 0 && std::string_view("abcdefghijklmnopqrstuvwxyz%/ ").find(text[back - 1]) !=
                               std::string_view::npos) {
            --back;
            if (at - back > 6) return std::nullopt;
        }
        if (back == 0 || !isDigit(back - 1)) return std::nullopt;
        at = back - 1;
    }
    std::size_t begin = at, end = at;
    while (begin > 0 && isDigit(begin - 1)) --begin;
    while (isDigit(end)) ++end;
    if (begin > 0 && text[begin - 1] == '-' &&
        (begin == 1 || text[begin - 2] == ' ' || text[begin - 2] == '"')) {
        --begin;
    }
    if (begin > 0 && text[begin - 1] == '/') return std::nullopt;  // the part of a roll
    if (end < text.size() && text[end] == '/') return std::nullopt;
    NumberInText out;
    out.number = {begin, end};
    if (!parseDouble(text.substr(begin, end - begin))) return std::nullopt;
    std::size_t unit = end;
    if (unit < text.size() && text[unit] == ' ') ++unit;
    constexpr std::string_view kUnitLetters = "abcdefghijklmnopqrstuvwxyz%/";
    std::size_t unit_end = unit;
    while (unit_end < text.size() && kUnitLetters.find(text[unit_end]) != std::string_view::npos) {
        ++unit_end;
    }
    out.unit = std::string(text.substr(unit, unit_end - unit));
    return out;
}

std::string steppedNumber(std::string_view digits, std::string_view unit, int steps, bool fine) {
    struct Step {
        std::string_view unit;
        double size;
    };
    // chosen: the least change that somebody on the ground would see
    constexpr std::array<Step, 10> kSteps{{{"m", 5},
                                           {"ft", 10},
                                           {"kt", 1},
                                           {"km/h", 2},
                                           {"m/s", 1},
                                           {"g", 0.1},
                                           {"deg", 5},
                                           {"s", 0.5},
                                           {"%", 5},
                                           {"l", 1}}};
    double step = 1;
    for (const Step& entry : kSteps) {
        if (entry.unit == unit) step = entry.size;
    }
    if (fine) step /= 10;
    const double value = parseDouble(digits).value_or(0);
    const double next = std::round(value / step) * step + steps * step;
    // A value between two steps goes to the nearer one in the way asked, never past it.
    const int places = step >= 1 ? 0 : (step >= 0.1 - 1e-9 ? 1 : 2);
    std::string out = formatFixed(next, places);
    if (out == "-0" || out == "-0.0") out.erase(0, 1);
    return out;
}

}  // namespace plumbline::model
