#pragma once
// How a table is laid out: where its header stands, what separates cells, which column is what.

#include <string>
#include <vector>

#include "engine/record/column_names.h"
#include "engine/record/csv_table.h"
#include "engine/record/track.h"

namespace plumbline::record {

/// What a person says about columns that recognition does not know: a TOML file,
///
///     separator = ";"            # or "," or "tab"; left out: found
///     mounting = "x right, z down"  # how the sensors sit (readMounting); left out: found
///     [columns]                  # the header's words = "QUANTITY in UNIT", or "ignore"
///     "Zeit" = "time in s"
///     "Dreh X" = "rate x in deg_s"
///
/// QUANTITY: a name of column_names.h; UNIT: one of its kind, as columns carry it.
struct ColumnMap {
    struct Entry {
        std::string column;
        std::optional<Quantity> quantity;  ///< nothing: to be ignored
        std::string unit;
    };
    char separator = 0;
    std::string mounting;  ///< words that readMounting understands; empty: not said
    std::vector<Entry> entries;
};
Expected<ColumnMap, Problems> readColumnMap(std::string_view toml, const std::string& file);

struct CsvColumn {
    std::size_t index = 0;
    Quantity quantity = Quantity::Time;
    std::string name;       ///< as in the header
    std::string unit;       ///< as found; empty: none
    double unit_value = 0;  ///< SI value of one; 0: to be found from the numbers
};

struct CsvLayout {
    char separator = ',';
    bool decimal_comma = false;
    std::size_t rows_at = 0;  ///< byte at which the first row starts
    std::int32_t header_line = 0;
    std::int32_t lines_before_rows = 0;
    std::vector<std::string> header;
    std::vector<CsvColumn> columns;  ///< at most one of each quantity

    const CsvColumn* find(Quantity quantity) const;
};

/// Nothing when none of the first lines is a header with a time and something to go with it.
std::optional<CsvLayout> findCsvLayout(std::string_view bytes, const ColumnMap* map = nullptr);

/// A column map that says what `layout` says, with a comment on every column that is ignored.
/// @param mounting  as in ColumnMap
std::string explainLayout(const CsvLayout& layout, const std::string& file,
                          const std::string& mounting = {});

}  // namespace plumbline::record
