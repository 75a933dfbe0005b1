#include "engine/record/csv_table.h"

#include <algorithm>
#include <optional>

#include "engine/base/number_text.h"

namespace plumbline::record {

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

std::optional<double> csvNumber(std::string_view cell, char separator) {
    if (separator == ',' || cell.find(',') == std::string_view::npos) return parseDouble(cell);
    std::string with_point(cell);
    std::replace(with_point.begin(), with_point.end(), ',', '.');
    return parseDouble(with_point);
}

}  // namespace plumbline::record
