#include "engine/record/csv_rows.h"

#include <algorithm>
#include <cstring>

#include "engine/base/number_text.h"

namespace plumbline::record {

namespace {

constexpr double kNothing = std::numeric_limits<double>::quiet_NaN();

bool meansNothing(std::string_view cell) {
    if (cell.empty()) return true;
    if (cell.size() > 4) return false;
    for (const std::string_view word : {"nan", "NaN", "NAN", "null", "NULL", "-", "--", "n/a",
                                        "N/A", "inf", "-inf", "none", "None", "-nan"})
        if (cell == word) return true;
    return false;
}

class RowReader {
public:
    explicit RowReader(const CsvLayout& layout) : layout_(layout) {
        numbers_.value.fill(kNothing);
        for (const CsvColumn& column : layout.columns) {
            if (column.index >= quantity_of_.size()) quantity_of_.resize(column.index + 1, -1);
            quantity_of_[column.index] = static_cast<int>(column.quantity);
        }
    }

    /// False when the row has no cell of use.
    bool read(std::string_view line, std::int32_t number) {
        numbers_.line = number;
        numbers_.time_text = numbers_.date_text = {};
        if (std::memchr(line.data(), '"', line.size()) != nullptr || layout_.decimal_comma)
            readWithCare(line);
        else
            readPlain(line);
        return cells_ > 0;
    }
    const CsvNumbers& numbers() const { return numbers_; }
    CsvFaults faults;

private:
    void readPlain(std::string_view line) {
        const char* at = line.data();
        const char* const end = at + line.size();
        const std::size_t wanted = quantity_of_.size();
        std::size_t column = 0;
        for (; column < wanted; ++column) {
            const int quantity = quantity_of_[column];
            if (quantity >= 0) {
                const char* from = at;
                while (from < end && *from == ' ') ++from;
                double value = 0;
                const char* stop = parseNumberAt(from, end, value);
                const char* after = stop;
                while (after < end && *after == ' ') ++after;
                const bool whole = stop != from && (after == end || *after == layout_.separator);
                const char* cell_end = whole ? after : std::find(from, end, layout_.separator);
                set(quantity, whole ? value : kNothing, whole,
                    {from, static_cast<std::size_t>(cell_end - from)}, line,
                    static_cast<std::size_t>(from - line.data()));
                at = cell_end;
            } else {
                at = static_cast<const char*>(
                    std::memchr(at, layout_.separator, static_cast<std::size_t>(end - at)));
                if (at == nullptr) at = end;
            }
            if (at >= end) {
                ++column;
                break;
            }
            ++at;
        }
        finish(column);
    }

    void readWithCare(std::string_view line) {
        row_.split(line, layout_.separator);
        const std::size_t count = std::min(row_.size(), quantity_of_.size());
        for (std::size_t column = 0; column < count; ++column) {
            if (quantity_of_[column] < 0) continue;
            const std::string_view cell = row_.cell(column);
            const std::optional<double> value = csvNumber(cell, layout_.separator);
            set(quantity_of_[column], value.value_or(kNothing), value.has_value(), cell, line,
                column);
        }
        finish(count);
    }

    void set(int quantity, double value, bool is_number, std::string_view cell,
             std::string_view line, std::size_t place) {
        numbers_.value[static_cast<std::size_t>(quantity)] = value;
        const auto what = static_cast<Quantity>(quantity);
        if (what == Quantity::Time) numbers_.time_text = cell;
        if (what == Quantity::Date) numbers_.date_text = cell;
        if (is_number || what == Quantity::Time || what == Quantity::Date) return;
        if (meansNothing(trimmed(cell))) return;
        if (cell.front() == '+') {
            if (const auto number = parseDouble(trimmed(cell))) {
                numbers_.value[static_cast<std::size_t>(quantity)] = *number;
                return;
            }
        }
        CsvFaults::Column& bad = faults.bad[static_cast<std::size_t>(quantity)];
        if (bad.count++ > 0) return;
        bad.first_line = numbers_.line;
        const bool with_care =
            row_.size() > 0 && place < row_.size() && row_.cell(place).data() == cell.data();
        bad.first_column = with_care ? row_.column(place) : columnOf(line, place);
    }

    /// Columns past the row's end hold nothing.
    void finish(std::size_t columns) {
        cells_ = columns;
        if (columns >= quantity_of_.size()) return;
        if (faults.short_rows++ == 0) faults.first_short_line = numbers_.line;
        for (std::size_t column = columns; column < quantity_of_.size(); ++column)
            if (quantity_of_[column] >= 0)
                numbers_.value[static_cast<std::size_t>(quantity_of_[column])] = kNothing;
    }

    const CsvLayout& layout_;
    std::vector<int> quantity_of_;
    CsvNumbers numbers_;
    CsvRow row_;
    std::size_t cells_ = 0;
};

}  // namespace

CsvFaults forEachCsvRow(std::string_view bytes, const CsvLayout& layout,
                        const std::function<void(const CsvNumbers&)>& row) {
    RowReader reader(layout);
    LineReader lines(bytes.substr(std::min(layout.rows_at, bytes.size())));
    while (lines.next()) {
        const std::string_view line = lines.line();
        if (line.empty() || line.front() == '#' || line.front() == '%') continue;
        if (line.find_first_not_of(" \t,;") == std::string_view::npos) continue;
        if (line.front() == '/' && line.substr(0, 2) == "//") continue;
        if (reader.read(line, layout.lines_before_rows + lines.number())) row(reader.numbers());
    }
    return reader.faults;
}

}  // namespace plumbline::record
