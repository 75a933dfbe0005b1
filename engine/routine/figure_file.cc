#include "engine/routine/figure_file.h"

#include <algorithm>
#include <iterator>
#include <tuple>
#include <utility>

#include "engine/base/nearest_word.h"
#include "engine/data/table_reader.h"
#include "engine/data/toml_tree.h"
#include "engine/routine/placed_text.h"

namespace plumbline::routine {

namespace {

using data::QuantityRange;
using data::TableReader;
using data::TomlValue;
using units::Dimension;

// Chosen: as for a routine's start.
constexpr QuantityRange kSpeedRange{"20 m/s", "300 m/s"};
constexpr QuantityRange kHeightRange{"0 m", "6000 m"};

constexpr std::size_t kMost = 40;  // chosen: parameters of a figure, choices of a parameter

constexpr auto kNumbersOrWords =
    "give from and to for a quantity, or choices = [\"left\", \"right\"] for words";

bool isName(std::string_view name) {
    const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
    return !name.empty() && letter(name.front()) &&
           std::all_of(name.begin(), name.end(), [&](char c) {
               return letter(c) || (c >= '0' && c <= '9') || c == '-' || c == '_';
           });
}

std::string listOf(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words) list += (list.empty() ? "" : ", ") + quoted(word);
    return list;
}

/// Why a parameter cannot have this value; empty when it can. The second is what to do.
std::pair<std::string, std::string> refusal(const FigureParameter& parameter,
                                            const std::string& value) {
    if (!parameter.range) {
        const auto& choices = parameter.choices;
        if (std::find(choices.begin(), choices.end(), value) != choices.end()) return {};
        return {quoted(value) + " is none of the choices of {" + parameter.name + "}",
                "write one of " + listOf(choices)};
    }
    const FigureParameter::Range& range = *parameter.range;
    const std::string limits = quoted(range.from_words) + " to " + quoted(range.to_words);
    const auto quantity = readAnyQuantity(value);
    if (!quantity || quantity->dimension != range.from.dimension) {
        return {quoted(value) + " is no value of {" + parameter.name + "}, which is " +
                    std::string(units::dimensionName(range.from.dimension)),
                "write a number with its unit, " + limits};
    }
    if (quantity->value < range.from.value || quantity->value > range.to.value) {
        return {quoted(value) + " is outside the range of {" + parameter.name + "}",
                "write " + limits};
    }
    return {};
}

/// Reads one file.
class FigureReader {
public:
    FigureReader(std::string_view toml_text, const std::string& file,
                 const std::vector<text::ParameterValue>& values)
        : file_(file), index_(toml_text), given_(values) {}

    ReadFigure read(const TomlValue& content) {
        TableReader reader(content, "", file_, result_.problems);
        FigureFile& figure = result_.figure;
        figure.name = reader.text("name");
        readAbout(reader, figure.about);
        readSkill(reader);
        if (auto entry = reader.table("entry", true)) readEntry(*entry);
        figure.text = reader.text("text");
        readParameters(reader);
        const bool understood = result_.problems.empty();
        putValues();
        if (!figure.text.empty()) readElements(*reader.find("text"), understood);
        reader.finish();
        std::stable_sort(result_.problems.begin(), result_.problems.end(),
                         [](const Problem& a, const Problem& b) {
                             return std::tie(a.where.file, a.where.line, a.where.column) <
                                    std::tie(b.where.file, b.where.line, b.where.column);
                         });
        return std::move(result_);
    }

private:
    static void readAbout(TableReader& reader, std::string& about) {
        about = reader.text("about");
        if (about.find_first_of("\r\n") == std::string::npos) return;
        reader.problemAt(*reader.find("about"), "about has more than one line",
                         "say it in one line");
    }

    void readSkill(TableReader& reader) {
        if (reader.text("skill").empty()) return;
        constexpr std::size_t kNone = 3;
        const std::size_t skill = reader.choice("skill", {"simple", "practised", "expert"}, kNone);
        if (skill < kNone) result_.figure.skill = static_cast<Skill>(skill);
    }

    void readEntry(TableReader& reader) {
        FigureEntry& entry = result_.figure.entry;
        entry.speed_mps = reader.quantity("speed", Dimension::Speed, kSpeedRange);
        entry.height_m = reader.quantity("height", Dimension::Length, kHeightRange);
        if (!reader.text("attitude").empty()) {
            entry.inverted = reader.choice("attitude", {"upright", "inverted"}, 0) == 1;
        }
        reader.finish();
    }

    void readParameters(TableReader& reader) {
        std::vector<TableReader> tables = reader.tables("parameter");
        if (tables.size() > kMost) {
            reader.problemAtKey("parameter", "the figure has more than 40 parameters",
                                "keep those that anybody changes");
            return;
        }
        for (TableReader& table : tables) readParameter(table);
    }

    void readParameter(TableReader& reader) {
        FigureParameter parameter;
        parameter.name = reader.text("name");
        if (!parameter.name.empty()) checkName(reader, parameter.name);
        parameter.value = reader.text("value");
        readAbout(reader, parameter.about);
        const std::size_t problems_before = result_.problems.size();
        readLimits(reader, parameter);
        reader.finish();
        const bool sound = result_.problems.size() == problems_before && !parameter.value.empty();
        if (sound) {
            const auto [what, remedy] = refusal(parameter, parameter.value);
            if (!what.empty()) reader.problemAt(*reader.find("value"), what, remedy);
        }
        text::ParameterValue value{parameter.name, parameter.value, {file_, 1, 1}};
        if (const TomlValue* at = reader.find("value")) {
            value.where.line = at->line;
            value.where.column = at->column;
        }
        result_.figure.values.push_back(std::move(value));
        result_.figure.parameters.push_back(std::move(parameter));
        limits_.push_back({reader.find("from"), reader.find("to"), reader.find("choices")});
    }

    void checkName(TableReader& reader, const std::string& name) {
        const TomlValue& place = *reader.find("name");
        if (!isName(name)) {
            reader.problemAt(place, "the parameter's name is no word",
                             "write letters, digits, - and _, such as entry_g");
        }
        for (const FigureParameter& other : result_.figure.parameters) {
            if (other.name != name) continue;
            reader.problemAt(place, quoted(name) + " is already a parameter of this figure",
                             "give every parameter a name of its own");
        }
    }

    static void readLimits(TableReader& reader, FigureParameter& parameter) {
        const TomlValue* choices = reader.find("choices");
        if (choices == nullptr) {
            readRange(reader, parameter);
            return;
        }
        if (reader.has("from") || reader.has("to")) {
            reader.problemAt(*choices, "a parameter has either a range or choices",
                             kNumbersOrWords);
        }
        const bool texts =
            choices->kind == TomlValue::Kind::Array && !choices->items.empty() &&
            choices->items.size() <= kMost &&
            std::all_of(choices->items.begin(), choices->items.end(),
                        [](const TomlValue& item) { return item.kind == TomlValue::Kind::Text; });
        if (!texts) {
            reader.problemAt(*choices, "choices is no list of up to 40 texts",
                             "write choices = [\"left\", \"right\"]");
            return;
        }
        for (const TomlValue& item : choices->items) parameter.choices.push_back(item.text);
    }

    static void readRange(TableReader& reader, FigureParameter& parameter) {
        FigureParameter::Range range;
        range.from_words = reader.text("from");
        range.to_words = reader.text("to");
        if (range.from_words.empty() || range.to_words.empty()) return;
        const auto from = readAnyQuantity(range.from_words);
        const auto to = readAnyQuantity(range.to_words);
        if (!from || !to) {
            reader.problemAt(
                *reader.find(from ? "to" : "from"),
                quoted(from ? range.to_words : range.from_words) + " is no quantity of figure text",
                kNumbersOrWords);
            return;
        }
        if (from->dimension != to->dimension) {
            reader.problemAt(*reader.find("to"), "from and to are of different kinds",
                             "write both as " + std::string(units::dimensionName(from->dimension)));
            return;
        }
        if (from->value >= to->value) {
            reader.problemAt(*reader.find("to"), "the range goes from more to less",
                             "write the lesser as from");
            return;
        }
        range.from = *from;
        range.to = *to;
        parameter.range = range;
    }

    /// The values that were given, in place of the file's own.
    void putValues() {
        std::vector<text::ParameterValue>& values = result_.figure.values;
        for (const text::ParameterValue& given : given_) {
            const auto found =
                std::find_if(values.begin(), values.end(),
                             [&](const text::ParameterValue& v) { return v.name == given.name; });
            if (found == values.end()) {
                reportUnknown(given);
                continue;
            }
            const auto index = static_cast<std::size_t>(found - values.begin());
            const FigureParameter& parameter = result_.figure.parameters[index];
            const bool limited = parameter.range || !parameter.choices.empty();
            const auto [what, remedy] =
                limited ? refusal(parameter, given.value) : std::pair<std::string, std::string>();
            if (!what.empty()) {
                result_.problems.push_back({given.where, what, remedy});
                continue;
            }
            *found = given;
        }
    }

    void reportUnknown(const text::ParameterValue& given) {
        std::vector<std::string_view> names;
        std::string list;
        for (const FigureParameter& parameter : result_.figure.parameters) {
            names.push_back(parameter.name);
            list += (list.empty() ? "" : ", ") + parameter.name;
        }
        const std::string_view near = nearestWord(given.name, names);
        const std::string known =
            names.empty() ? "take it out: the figure has no parameters" : "it has " + list;
        result_.problems.push_back(
            {given.where, given.name + " is no parameter of the figure in " + file_,
             (near.empty() ? "" : "did you mean " + std::string(near) + "? ") + known});
    }

    void readElements(const TomlValue& text, bool understood) {
        FigureFile& figure = result_.figure;
        PlacedText placed = readPlacedText(index_, text, file_, figure.values);
        const bool good = understood && placed.problems.empty();
        std::move(placed.problems.begin(), placed.problems.end(),
                  std::back_inserter(result_.problems));
        figure.elements = std::move(placed.elements);
        if (!good) return;
        for (std::size_t i = 0; i < figure.parameters.size(); ++i) tryLimits(i);
    }

    /// The text must make sense over the whole of a parameter's range.
    void tryLimits(std::size_t index) {
        const FigureParameter& parameter = result_.figure.parameters[index];
        const Limits& limits = limits_[index];
        if (parameter.range) {
            tryValue(index, parameter.range->from_words, *limits.from);
            tryValue(index, parameter.range->to_words, *limits.to);
        }
        for (std::size_t i = 0; i < parameter.choices.size(); ++i) {
            tryValue(index, parameter.choices[i], limits.choices->items[i]);
        }
    }

    void tryValue(std::size_t index, const std::string& words, const TomlValue& place) {
        std::vector<text::ParameterValue> values = result_.figure.values;
        values[index].value = words;
        values[index].where = {file_, place.line, place.column};
        for (const text::Element& element : result_.figure.elements) {
            const auto& used = element.parameters;
            if (std::find(used.begin(), used.end(), static_cast<std::int32_t>(index)) ==
                used.end()) {
                continue;
            }
            const auto again = text::parseAgain(element, file_, values);
            if (again) continue;
            const Problem& first = again.error().front();
            result_.problems.push_back(
                {values[index].where,
                 "with " + quoted(words) + " the text cannot be understood: " + first.what,
                 first.remedy});
            return;
        }
    }

    struct Limits {
        const TomlValue* from;
        const TomlValue* to;
        const TomlValue* choices;
    };

    const std::string& file_;
    LineIndex index_;
    const std::vector<text::ParameterValue>& given_;
    ReadFigure result_;
    std::vector<Limits> limits_;  ///< of each parameter
};

}  // namespace

ReadFigure readFigureFile(std::string_view toml_text, const std::string& file,
                          const std::vector<text::ParameterValue>& values) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (toml_text.substr(0, kByteOrderMark.size()) == kByteOrderMark) {
        toml_text.remove_prefix(kByteOrderMark.size());
    }
    Expected<TomlValue, Problems> content = data::parseToml(toml_text, file);
    if (!content) {
        ReadFigure result;
        result.problems = content.error();
        return result;
    }
    return FigureReader(toml_text, file, values).read(*content);
}

}  // namespace plumbline::routine
