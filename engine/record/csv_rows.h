#pragma once
// The rows of a table as numbers, fast: one pass over the bytes, no allocation in a row.

#include <array>
#include <cmath>
#include <functional>
#include <string_view>

#include "engine/record/csv_layout.h"

namespace plumbline::record {

/// A row's numbers in the column's own unit; NaN where a cell is empty or cannot be read.
struct CsvNumbers {
    std::array<double, kQuantityCount> value;
    std::string_view time_text, date_text;  ///< those two cells as written
    std::int32_t line = 0;

    double operator[](Quantity q) const { return value[static_cast<std::size_t>(q)]; }
    bool has(Quantity q) const { return !std::isnan((*this)[q]); }
};

/// Cells that could not be read, by column.
struct CsvFaults {
    struct Column {
        std::int32_t count = 0;
        std::int32_t first_line = 0, first_column = 0;
    };
    std::array<Column, kQuantityCount> bad;
    std::int32_t short_rows = 0, first_short_line = 0;
};

/// Calls `row` for each row in the order of the file.
CsvFaults forEachCsvRow(std::string_view bytes, const CsvLayout& layout,
                        const std::function<void(const CsvNumbers&)>& row);

}  // namespace plumbline::record
