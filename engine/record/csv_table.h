#pragma once
// CSV of any origin, row by row, and the names and units of its columns.

#include <cstdint>
#include <deque>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/record/text_lines.h"

namespace plumbline::record {

/// Cells of one line; quotes as in RFC 4180, but a quoted cell ends on its line.
class CsvRow {
public:
    void split(std::string_view line, char separator);

    std::size_t size() const { return cells_.size(); }
    /// Without blanks at both ends and without its quotes; empty past the last.
    std::string_view cell(std::size_t index) const {
        return index < cells_.size() ? cells_[index] : std::string_view();
    }
    /// Column of a cell's first character in its line, from 1, in code points.
    std::int32_t column(std::size_t index) const;

private:
    std::size_t takeQuoted(std::size_t at);

    std::string_view line_;
    std::vector<std::string_view> cells_;
    std::vector<std::size_t> starts_;
    std::deque<std::string> unescaped_;  ///< cells with doubled quotes
};

/// The separator that splits this header line into most cells: comma, semicolon or tab.
char separatorOf(std::string_view header_line);

/// A number as CSV has it: with a decimal comma where the separator is another.
std::optional<double> csvNumber(std::string_view cell, char separator);

}  // namespace plumbline::record
