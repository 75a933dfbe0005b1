#include "engine/record/csv_table.h"

#include <algorithm>
#include <array>
#include <optional>

#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

struct UnitValue {
    std::string_view name;
    double value;
};

constexpr std::array kLengths = {UnitValue{"m", 1},
                                 UnitValue{"metre", 1},
                                 UnitValue{"metres", 1},
                                 UnitValue{"meter", 1},
                                 UnitValue{"meters", 1},
                                 UnitValue{"ft", units::kFoot_m},
                                 UnitValue{"feet", units::kFoot_m},
                                 UnitValue{"km", 1000}};
constexpr std::array kAngles = {
    UnitValue{"deg", units::kDegree_rad}, UnitValue{"degree", units::kDegree_rad},
    UnitValue{"degrees", units::kDegree_rad}, UnitValue{"rad", 1}, UnitValue{"radians", 1}};
constexpr std::array kDurations = {UnitValue{"s", 1},
                                   UnitValue{"sec", 1},
                                   UnitValue{"seconds", 1},
                                   UnitValue{"ms", 1e-3},
                                   UnitValue{"us", 1e-6},
                                   UnitValue{"min", units::kMinute_s},
                                   UnitValue{"minutes", units::kMinute_s}};

template <std::size_t N>
double valueIn(const std::array<UnitValue, N>& units, std::string_view name) {
    const auto found = std::find_if(units.begin(), units.end(),
                                    [name](const UnitValue& unit) { return unit.name == name; });
    return found == units.end() ? 0 : found->value;
}

bool isUnit(std::string_view word) {
    return lengthOf(word) != 0 || angleOf(word) != 0 || durationOf(word) != 0;
}

std::string lowered(std::string_view text) {
    std::string lower(text);
    for (char& c : lower)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    return lower;
}

/// Letters and digits stay, everything between them becomes one '_'.
std::string joinedWords(std::string_view text) {
    std::string words;
    bool gap = false;
    for (const char c : text) {
        const bool part = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (part && gap && !words.empty()) words += '_';
        gap = !part;
        if (part) words += c;
    }
    return words;
}

}  // namespace

void CsvRow::split(std::string_view line, char separator) {
    line_ = line;
    cells_.clear();
    starts_.clear();
    unescaped_.clear();
    std::size_t at = 0;
    while (true) {
        const std::size_t start = std::min(line.find_first_not_of(" \t", at), line.size());
        // A tab may be the separator, then it is no blank.
        const std::size_t first = separator == '\t' ? at : start;
        if (first < line.size() && line[first] == '"') {
            starts_.push_back(first);
            at = takeQuoted(first);
            at = std::min(line.find(separator, at), line.size());
        } else {
            const std::size_t end = std::min(line.find(separator, at), line.size());
            starts_.push_back(std::min(first, end));
            cells_.push_back(trimmed(line.substr(at, end - at)));
            at = end;
        }
        if (at >= line.size()) return;
        ++at;
    }
}

std::size_t CsvRow::takeQuoted(std::size_t at) {
    const std::size_t first = at + 1;
    std::size_t end = line_.find('"', first);
    bool doubled = false;
    while (end != std::string_view::npos && end + 1 < line_.size() && line_[end + 1] == '"') {
        doubled = true;
        end = line_.find('"', end + 2);
    }
    end = std::min(end, line_.size());
    const std::string_view raw = line_.substr(first, end - first);
    if (!doubled) {
        cells_.push_back(raw);
    } else {
        std::string text;
        for (std::size_t i = 0; i < raw.size(); ++i) {
            text += raw[i];
            if (raw[i] == '"') ++i;
        }
        unescaped_.push_back(std::move(text));
        cells_.push_back(unescaped_.back());
    }
    return std::min(end + 1, line_.size());
}

std::int32_t CsvRow::column(std::size_t index) const {
    return columnOf(line_, index < starts_.size() ? starts_[index] : line_.size());
}

char separatorOf(std::string_view header_line) {
    char best = ',';
    for (const char c : {';', '\t'})
        if (std::count(header_line.begin(), header_line.end(), c) >
            std::count(header_line.begin(), header_line.end(), best))
            best = c;
    return best;
}

ColumnName columnName(std::string_view header_cell) {
    const std::string lower = lowered(header_cell);
    const std::size_t open = lower.find_first_of("([");
    if (open != std::string::npos) {
        const std::string unit = joinedWords(std::string_view(lower).substr(open));
        return {joinedWords(std::string_view(lower).substr(0, open)), isUnit(unit) ? unit : ""};
    }
    std::string words = joinedWords(lower);
    const std::size_t last = words.rfind('_');
    if (last != std::string::npos && isUnit(std::string_view(words).substr(last + 1)))
        return {words.substr(0, last), words.substr(last + 1)};
    return {words, ""};
}

double lengthOf(std::string_view unit) { return valueIn(kLengths, unit); }
double angleOf(std::string_view unit) { return valueIn(kAngles, unit); }
double durationOf(std::string_view unit) { return valueIn(kDurations, unit); }

std::optional<double> csvNumber(std::string_view cell, char separator) {
    if (separator == ',' || cell.find(',') == std::string_view::npos) return parseDouble(cell);
    std::string with_point(cell);
    std::replace(with_point.begin(), with_point.end(), ',', '.');
    return parseDouble(with_point);
}

}  // namespace plumbline::record
