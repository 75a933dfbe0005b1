// Aims of a figure: which parameter is to bring about what.
#include <algorithm>
#include <array>

#include "engine/base/nearest_word.h"
#include "engine/routine/figure_tables.h"

namespace plumbline::routine {

namespace {

using data::TableReader;
using data::TomlValue;
using units::Dimension;

constexpr auto kWantRemedy =
    "write centre x V, top V, lowest V, or start or end with x, y, height or speed and V";

/// The first word of `words`, which goes on behind it.
std::string_view takeWord(std::string_view& words) {
    constexpr std::string_view kBlanks = " \t";
    words.remove_prefix(std::min(words.find_first_not_of(kBlanks), words.size()));
    const std::size_t end = std::min(words.find_first_of(kBlanks), words.size());
    const std::string_view word = words.substr(0, end);
    words.remove_prefix(end);
    return word;
}

struct Place {
    std::string_view word;
    Aim::At at;
};
constexpr std::array kPlaces{Place{"centre", Aim::At::Centre}, Place{"top", Aim::At::Top},
                             Place{"lowest", Aim::At::Lowest}, Place{"start", Aim::At::Start},
                             Place{"end", Aim::At::End}};

struct Measure {
    std::string_view word;
    Aim::Quantity quantity;
};
constexpr std::array kMeasures{Measure{"x", Aim::Quantity::X}, Measure{"y", Aim::Quantity::Y},
                               Measure{"height", Aim::Quantity::Height},
                               Measure{"speed", Aim::Quantity::Speed}};

template <class Entries>
auto findWord(const Entries& entries, std::string_view word) {
    return std::find_if(entries.begin(), entries.end(),
                        [&](const auto& entry) { return entry.word == word; });
}

template <class Entries>
std::string remedyFor(const Entries& entries, std::string_view word) {
    std::vector<std::string_view> words;
    for (const auto& entry : entries) words.push_back(entry.word);
    const std::string_view near = nearestWord(word, words);
    return near.empty() ? kWantRemedy : "did you mean " + std::string(near) + "?";
}

// Chosen: as for a routine's start, and heights a little below show centre.
bool inRange(Aim::Quantity quantity, double value) {
    constexpr double kFarthest_m = 20000, kLowest_m = -100, kHighest_m = 6000, kFastest_mps = 300;
    switch (quantity) {
        case Aim::Quantity::X:
        case Aim::Quantity::Y:
            return value >= -kFarthest_m && value <= kFarthest_m;
        case Aim::Quantity::Height:
            return value >= kLowest_m && value <= kHighest_m;
        case Aim::Quantity::Speed:
            break;
    }
    return value >= 0 && value <= kFastest_mps;
}

/// `x` after centre, one of four words after start and end, nothing after top and lowest.
bool readMeasure(std::string_view& words, TableReader& reader, const TomlValue& value, Aim& aim) {
    if (aim.at == Aim::At::Top || aim.at == Aim::At::Lowest) {
        aim.quantity = Aim::Quantity::Height;
        return true;
    }
    const std::string_view word = takeWord(words);
    const auto measure = findWord(kMeasures, word);
    const bool fits = measure != kMeasures.end() &&
                      (aim.at != Aim::At::Centre || measure->quantity == Aim::Quantity::X);
    if (fits) {
        aim.quantity = measure->quantity;
        return true;
    }
    reader.problemAt(value, "want: " + quoted(word) + " cannot be wanted there",
                     aim.at == Aim::At::Centre ? kWantRemedy : remedyFor(kMeasures, word));
    return false;
}

void readWant(TableReader& reader, Aim& aim) {
    aim.words = reader.text("want");
    if (aim.words.empty()) return;
    const TomlValue& value = *reader.find("want");
    std::string_view words = aim.words;
    const std::string_view word = takeWord(words);
    const auto place = findWord(kPlaces, word);
    if (place == kPlaces.end()) {
        reader.problemAt(value, "want: " + quoted(word) + " is no place of a figure",
                         remedyFor(kPlaces, word));
        return;
    }
    aim.at = place->at;
    if (!readMeasure(words, reader, value, aim)) return;
    const Dimension dimension =
        aim.quantity == Aim::Quantity::Speed ? Dimension::Speed : Dimension::Length;
    const auto wanted = units::parseQuantity(words, dimension);
    if (!wanted) {
        reader.problemAt(value, "want: " + wanted.error().what, wanted.error().remedy);
        return;
    }
    aim.value = *wanted;
    if (!inRange(aim.quantity, aim.value)) {
        reader.problemAt(value, "want: " + aim.words + " is out of range",
                         "write x and y within 20 km, heights from -100 m to 6000 m, speeds from "
                         "0 m/s to 300 m/s");
    }
}

/// One end of the values to try.
AnyQuantity readEnd(TableReader& reader, std::string_view key, std::string& words) {
    words = reader.text(key);
    if (words.empty()) return {};
    const auto quantity = readAnyQuantity(words);
    if (quantity) return *quantity;
    reader.problemAt(*reader.find(key),
                     std::string(key) + ": " + quoted(words) + " is no quantity of figure text",
                     "write a number with its unit, such as \"50 m\"");
    words.clear();
    return {};
}

}  // namespace

Aim readAim(TableReader& reader) {
    Aim aim;
    aim.change = reader.text("change");
    aim.from = readEnd(reader, "from", aim.from_words);
    aim.to = readEnd(reader, "to", aim.to_words);
    readWant(reader, aim);
    aim.of = reader.text("of", false);
    for (const char* key : {"change", "of"}) {
        const TomlValue* value = reader.find(key);
        if (value == nullptr) continue;
        TextPosition& where = key == std::string_view("of") ? aim.of_where : aim.where;
        where = {reader.file(), value->line, value->column};
    }
    reader.finish();
    if (aim.from_words.empty() || aim.to_words.empty()) return aim;
    if (aim.from.dimension != aim.to.dimension) {
        reader.problemAt(*reader.find("to"), "from and to are of different kinds",
                         "write both as " + std::string(units::dimensionName(aim.from.dimension)));
    } else if (aim.from.value >= aim.to.value) {
        reader.problemAt(*reader.find("to"), "the values to try go from more to less",
                         "write the lesser as from");
    }
    return aim;
}

namespace {

/// What is wrong with what an aim changes; empty when nothing is.
std::pair<std::string, std::string> wrongChange(const RoutineFigure& figure, const Aim& aim) {
    std::vector<std::string_view> names;
    std::string list;
    names.reserve(figure.values.size());
    for (const text::ParameterValue& value : figure.values) {
        names.push_back(value.name);
        list += (list.empty() ? "" : ", ") + value.name;
    }
    const auto found = std::find(names.begin(), names.end(), aim.change);
    if (found == names.end()) {
        const std::string_view near = nearestWord(aim.change, names);
        return {quoted(aim.change) + " is no parameter of this figure",
                names.empty()   ? "write {" + aim.change + "} in its text, and its value"
                : !near.empty() ? "did you mean " + std::string(near) + "?"
                                : "it has " + list};
    }
    const auto index = static_cast<std::size_t>(found - names.begin());
    const auto now = readAnyQuantity(figure.values[index].value);
    if (!now || now->dimension != aim.from.dimension) {
        return {"{" + aim.change + "} is " + quoted(figure.values[index].value) + ", not " +
                    std::string(units::dimensionName(aim.from.dimension)),
                "aim with a parameter that is a quantity, and give from and to of its kind"};
    }
    if (index < figure.parameters.size() && figure.parameters[index].range) {
        const FigureParameter::Range& range = *figure.parameters[index].range;
        if (aim.from.value < range.from.value || aim.to.value > range.to.value) {
            return {"the values to try are outside the range of {" + aim.change + "}",
                    "write from and to within " + range.from_words + " to " + range.to_words};
        }
    }
    for (const double end : {aim.from.value, aim.to.value}) {
        RoutineFigure trial = figure;
        const Problems problems = setValue(trial, aim.change, end);
        if (problems.empty()) continue;
        return {"with " + (end == aim.from.value ? aim.from_words : aim.to_words) +
                    " the text cannot be understood: " + problems.front().what,
                problems.front().remedy};
    }
    return {};
}

}  // namespace

Problems checkAims(const RoutineFigure& figure) {
    Problems problems;
    std::vector<std::string_view> changed;
    for (const Aim& aim : figure.aims) {
        // What the reader has said is wrong comes back once it is mended.
        if (aim.change.empty() || aim.from_words.empty() || aim.to_words.empty()) continue;
        if (std::find(changed.begin(), changed.end(), aim.change) != changed.end()) {
            problems.push_back({aim.where, "another aim changes {" + aim.change + "} already",
                                "give every aim a parameter of its own"});
            continue;
        }
        changed.push_back(aim.change);
        const auto [what, remedy] = wrongChange(figure, aim);
        if (!what.empty()) problems.push_back({aim.where, what, remedy});
    }
    return problems;
}

}  // namespace plumbline::routine
