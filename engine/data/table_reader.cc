#include "engine/data/table_reader.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "engine/base/check.h"
#include "engine/base/nearest_word.h"
#include "engine/base/number_text.h"
#include "engine/earth/utc_time.h"

namespace plumbline::data {
namespace {

/// The range's ends are our own texts.
double endOf(const char* text, units::Dimension dimension) {
    const auto value = units::parseQuantity(text, dimension);
    PL_EXPECT(value.has_value());
    return *value;
}

std::int32_t codePointsBefore(std::string_view text, std::size_t offset) {
    return static_cast<std::int32_t>(
        std::count_if(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(offset),
                      [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string list(const std::vector<std::string_view>& words) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? " or " : ", ";
        text += words[i];
    }
    return text;
}

}  // namespace

const TomlEntry* TableReader::entry(std::string_view key) const {
    for (const TomlEntry& candidate : table_->entries)
        if (candidate.key == key) return &candidate;
    return nullptr;
}

bool TableReader::has(std::string_view key) const { return entry(key) != nullptr; }

const TomlValue* TableReader::find(std::string_view key) {
    known_.push_back(key);
    const TomlEntry* const found = entry(key);
    return found == nullptr ? nullptr : &found->value;
}

const TomlValue* TableReader::required(std::string_view key) {
    const TomlValue* const value = find(key);
    if (value == nullptr)
        note(std::max(table_->line, 1), std::max(table_->column, 1),
             fmt::format("{} is missing in {}", key, placeName()), "add it");
    return value;
}

void TableReader::note(std::int32_t line, std::int32_t column, std::string what,
                       std::string remedy) {
    Problem problem;
    problem.where.file = *file_;
    problem.where.line = line;
    problem.where.column = column;
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    problems_->push_back(std::move(problem));
}

void TableReader::problemAt(const TomlValue& value, std::string what, std::string remedy) {
    note(value.line, value.column, std::move(what), std::move(remedy));
}

void TableReader::problemAtKey(std::string_view key, std::string what, std::string remedy) {
    const TomlEntry* const found = entry(key);
    PL_EXPECT(found != nullptr);
    note(found->line, found->column, std::move(what), std::move(remedy));
}

bool TableReader::isKind(const TomlValue& value, std::string_view key, TomlValue::Kind kind,
                         const std::string& remedy) {
    if (value.kind == kind) return true;
    problemAt(value, fmt::format("{} is {}, not {}", key, kindName(value.kind), kindName(kind)),
              remedy);
    return false;
}

double TableReader::quantityOf(const TomlValue& value, const std::string& what,
                               units::Dimension dimension, QuantityRange range) {
    const double least = endOf(range.least, dimension);
    const double greatest = endOf(range.greatest, dimension);
    if (value.kind != TomlValue::Kind::Text) {
        problemAt(value,
                  value.kind == TomlValue::Kind::Number
                      ? fmt::format("{} has no unit", what)
                      : fmt::format("{} is {}, not a quantity", what, kindName(value.kind)),
                  fmt::format("write it in quotes with its unit, such as \"{}\"; units: {}",
                              range.greatest, units::unitList(dimension)));
        return 0;
    }
    const auto parsed = units::parseQuantity(value.text, dimension);
    if (!parsed) {
        TomlValue place = value;
        if (value.text_column > 0)
            place.column = value.text_column + codePointsBefore(value.text, parsed.error().offset);
        problemAt(place, fmt::format("{}: {}", what, parsed.error().what), parsed.error().remedy);
        return 0;
    }
    if (!(*parsed >= least && *parsed <= greatest)) {
        problemAt(value, fmt::format("{} is {}, which is out of range", what, value.text),
                  fmt::format("give {} to {}", range.least, range.greatest));
        return 0;
    }
    return *parsed;
}

double TableReader::quantity(std::string_view key, units::Dimension dimension, QuantityRange range,
                             std::optional<double> fallback) {
    const TomlValue* const value = fallback ? find(key) : required(key);
    if (value == nullptr) return fallback.value_or(0);
    return quantityOf(*value, std::string(key), dimension, range);
}

double TableReader::number(std::string_view key, NumberRange range) {
    const TomlValue* const value = required(key);
    const std::string remedy = fmt::format("give a plain number from {} to {}",
                                           formatDouble(range.least), formatDouble(range.greatest));
    if (value == nullptr || !isKind(*value, key, TomlValue::Kind::Number, remedy)) return 0;
    if (value->number >= range.least && value->number <= range.greatest) return value->number;
    problemAt(*value,
              fmt::format("{} is {}, which is out of range", key, formatDouble(value->number)),
              remedy);
    return 0;
}

std::string TableReader::text(std::string_view key, bool is_required) {
    const TomlValue* const value = is_required ? required(key) : find(key);
    if (value == nullptr || !isKind(*value, key, TomlValue::Kind::Text, "write it in quotes"))
        return {};
    if (is_required && value->text.find_first_not_of(" \t\r\n") == std::string::npos)
        problemAt(*value, fmt::format("{} is empty", key), "fill it");
    return value->text;
}

std::string TableReader::dateTime(std::string_view key) {
    const TomlValue* const value = find(key);
    if (value == nullptr) return {};
    const std::string remedy = "write date, time and zone, such as 2026-06-27T16:30:00Z";
    if (value->kind != TomlValue::Kind::Text && value->kind != TomlValue::Kind::Date) {
        problemAt(*value, fmt::format("{} is {}, not a date", key, kindName(value->kind)), remedy);
        return {};
    }
    if (earth::parseUtc(value->text)) return value->text;
    problemAt(*value, fmt::format("{}: \"{}\" is no date and time with a zone", key, value->text),
              remedy);
    return {};
}

std::size_t TableReader::choice(std::string_view key, const std::vector<std::string_view>& words,
                                std::size_t fallback) {
    const TomlValue* const value = find(key);
    if (value == nullptr) return fallback;
    if (!isKind(*value, key, TomlValue::Kind::Text, "write " + list(words) + " in quotes"))
        return fallback;
    const auto found = std::find(words.begin(), words.end(), value->text);
    if (found != words.end()) return static_cast<std::size_t>(found - words.begin());
    const std::string_view near = nearestWord(value->text, words);
    problemAt(*value, fmt::format("{}: \"{}\" is not known", key, value->text),
              near.empty() ? "write " + list(words) : fmt::format("did you mean {}?", near));
    return fallback;
}

std::optional<TableReader> TableReader::table(std::string_view key, bool is_required) {
    const TomlValue* const value = find(key);
    const std::string name = fmt::format("[{}]", key);
    if (value == nullptr) {
        if (is_required) note(1, 1, fmt::format("{} is missing", name), "add it");
        return std::nullopt;
    }
    if (!isKind(*value, key, TomlValue::Kind::Table, fmt::format("start it with {}", name)))
        return std::nullopt;
    return TableReader(*value, name, *file_, *problems_);
}

std::vector<TableReader> TableReader::tables(std::string_view key) {
    std::vector<TableReader> readers;
    const TomlValue* const value = find(key);
    if (value == nullptr) return readers;
    const std::string name = fmt::format("[[{}]]", key);
    const bool fits =
        value->kind == TomlValue::Kind::Array &&
        std::all_of(value->items.begin(), value->items.end(),
                    [](const TomlValue& item) { return item.kind == TomlValue::Kind::Table; });
    if (!fits) {
        problemAt(*value, fmt::format("{} is no list of tables", key),
                  fmt::format("start each with {}", name));
        return readers;
    }
    for (const TomlValue& item : value->items) readers.emplace_back(item, name, *file_, *problems_);
    return readers;
}

void TableReader::finish() {
    for (const TomlEntry& found : table_->entries) {
        if (std::find(known_.begin(), known_.end(), found.key) != known_.end()) continue;
        const std::string_view near = nearestWord(found.key, known_);
        problemAtKey(
            found.key, fmt::format("{} is not known in {}", found.key, placeName()),
            near.empty() ? "known here: " + list(known_) : fmt::format("did you mean {}?", near));
    }
}

}  // namespace plumbline::data
