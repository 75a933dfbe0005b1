#include "engine/record/csv_layout.h"

#include <algorithm>
#include <array>

#include "engine/data/toml_tree.h"
#include "engine/record/wishes.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

// chosen: loggers write at most a page of notes above their table.
constexpr int kHeaderSearchLines = 60;
// chosen: more are no table of a recorder
constexpr std::size_t kMostColumns = 2000;
// chosen: enough rows to see whether commas stand for points
constexpr int kRowsLookedAt = 20;

bool isComment(std::string_view line, char separator) {
    const std::string_view text = trimmed(line);
    return text.empty() || text.front() == '#' || text.front() == '%' ||
           (text.front() == ';' && separator != ';') || text.substr(0, 2) == "//";
}

bool has(const std::vector<CsvColumn>& columns, Quantity quantity) {
    return std::any_of(columns.begin(), columns.end(),
                       [quantity](const CsvColumn& c) { return c.quantity == quantity; });
}

bool hasAll(const std::vector<CsvColumn>& columns, std::initializer_list<Quantity> wanted) {
    return std::all_of(wanted.begin(), wanted.end(),
                       [&](Quantity quantity) { return has(columns, quantity); });
}

bool isUsable(const std::vector<CsvColumn>& c) {
    if (!has(c, Quantity::Time)) return false;
    const bool height = has(c, Quantity::Altitude) || has(c, Quantity::PressureHeight);
    return (hasAll(c, {Quantity::Latitude, Quantity::Longitude}) && height) ||
           hasAll(c, {Quantity::X, Quantity::Y, Quantity::Z}) ||
           hasAll(c, {Quantity::RateX, Quantity::RateY, Quantity::RateZ}) ||
           hasAll(c, {Quantity::ForceX, Quantity::ForceY, Quantity::ForceZ}) ||
           hasAll(c, {Quantity::FieldX, Quantity::FieldY, Quantity::FieldZ}) ||
           hasAll(c, {Quantity::Roll, Quantity::Pitch, Quantity::Heading}) ||
           hasAll(c, {Quantity::Qw, Quantity::Qx, Quantity::Qy, Quantity::Qz}) ||
           has(c, Quantity::PressureHeight) || has(c, Quantity::Pressure) ||
           has(c, Quantity::Airspeed) || has(c, Quantity::IndicatedAirspeed);
}

/// Units and rank of every column that means something; of several for one quantity the most
/// telling one stays.
std::vector<CsvColumn> columnsOf(const CsvRow& row, const ColumnMap* map) {
    struct Candidate {
        CsvColumn column;
        int rank;
    };
    std::vector<Candidate> found;
    const auto take = [&found](CsvColumn column, int rank) {
        for (Candidate& other : found) {
            if (other.column.quantity != column.quantity) continue;
            if (rank < other.rank) other = {std::move(column), rank};
            return;
        }
        found.push_back({std::move(column), rank});
    };
    for (std::size_t i = 0; i < row.size(); ++i) {
        const std::string header(row.cell(i));
        const ColumnMap::Entry* mapped = nullptr;
        if (map)
            for (const ColumnMap::Entry& entry : map->entries)
                if (entry.column == header) mapped = &entry;
        if (mapped) {
            if (!mapped->quantity) continue;
            const UnitKind kind = unitKind(*mapped->quantity);
            take({i, *mapped->quantity, header, mapped->unit, unitValue(kind, mapped->unit)}, -1);
            continue;
        }
        const ColumnName name = columnName(header);
        const std::optional<Recognised> known = recognise(name);
        if (!known) continue;
        const double unit = unitValue(unitKind(known->quantity), name.unit);
        take({i, known->quantity, header, unit > 0 ? name.unit : "", unit}, known->rank);
    }
    std::vector<CsvColumn> columns;
    for (Candidate& candidate : found) columns.push_back(std::move(candidate.column));
    // Metres east and north with a height of any name.
    if (!has(columns, Quantity::Z) && !has(columns, Quantity::Latitude) &&
        hasAll(columns, {Quantity::X, Quantity::Y}))
        for (CsvColumn& column : columns)
            if (column.quantity == Quantity::Altitude) column.quantity = Quantity::Z;
    std::sort(columns.begin(), columns.end(),
              [](const CsvColumn& a, const CsvColumn& b) { return a.index < b.index; });
    return columns;
}

/// A row below the header in which every cell is a unit or empty gives the units.
bool takeUnitsRow(std::string_view line, CsvLayout& layout) {
    CsvRow row;
    row.split(line, layout.separator);
    bool any = false;
    for (std::size_t i = 0; i < row.size(); ++i) {
        if (row.cell(i).empty()) continue;
        if (csvNumber(row.cell(i), layout.separator)) return false;
        any = true;
    }
    if (!any) return false;
    bool matched = false;
    for (CsvColumn& column : layout.columns) {
        const std::string unit = columnName("x (" + std::string(row.cell(column.index)) + ")").unit;
        const double value = unitValue(unitKind(column.quantity), unit);
        if (value <= 0) continue;
        matched = true;
        if (!column.unit.empty()) continue;
        column.unit = unit;
        column.unit_value = value;
    }
    return matched;
}

bool usesDecimalComma(LineReader reader, const CsvLayout& layout) {
    if (layout.separator == ',') return false;
    CsvRow row;
    for (int i = 0; i < kRowsLookedAt && reader.next();) {
        if (isComment(reader.line(), layout.separator)) continue;
        ++i;
        row.split(reader.line(), layout.separator);
        for (const CsvColumn& column : layout.columns) {
            const std::string_view cell = row.cell(column.index);
            const std::size_t comma = cell.find(',');
            if (comma != std::string_view::npos && cell.find('.') == std::string_view::npos)
                return true;
        }
    }
    return false;
}

}  // namespace

const CsvColumn* CsvLayout::find(Quantity quantity) const {
    for (const CsvColumn& column : columns)
        if (column.quantity == quantity) return &column;
    return nullptr;
}

std::optional<CsvLayout> findCsvLayout(std::string_view bytes, const ColumnMap* map) {
    LineReader reader(bytes);
    CsvRow row;
    for (int i = 0; i < kHeaderSearchLines && reader.next(); ++i) {
        // A header may itself stand in a comment.
        std::string_view line = trimmed(reader.line());
        while (!line.empty() && (line.front() == '#' || line.front() == '%'))
            line = trimmed(line.substr(1));
        // No header is that long, and the words of other text formats are none.
        if (line.size() > 100000 || line.empty() || line.front() == '{' || line.front() == '[' ||
            line.front() == '<' || line.front() == '$')
            continue;
        CsvLayout layout;
        layout.separator = map && map->separator ? map->separator : separatorOf(line);
        row.split(line, layout.separator);
        if (row.size() > kMostColumns) continue;
        layout.columns = columnsOf(row, map);
        if (!isUsable(layout.columns)) continue;
        for (std::size_t c = 0; c < row.size(); ++c) layout.header.emplace_back(row.cell(c));
        layout.header_line = layout.lines_before_rows = reader.number();
        layout.rows_at = reader.offset();
        LineReader after = reader;
        if (after.next() && takeUnitsRow(after.line(), layout)) {
            layout.lines_before_rows = after.number();
            layout.rows_at = after.offset();
            reader = after;
        }
        for (CsvColumn& column : layout.columns) {
            const UnitKind kind = unitKind(column.quantity);
            if (column.unit_value == 0) column.unit_value = unitValue(kind, usualUnit(kind));
            if (kind == UnitKind::None) column.unit_value = 1;
        }
        layout.decimal_comma = usesDecimalComma(reader, layout);
        return layout;
    }
    return std::nullopt;
}

std::string explainLayout(const CsvLayout& layout, const std::string& file,
                          const std::string& mounting) {
    const auto quoted = [](const std::string& text) {
        std::string out = "\"";
        for (const char c : text) {
            if (c == '"' || c == '\\') out += '\\';
            if (static_cast<unsigned char>(c) >= 0x20) out += c;
        }
        return out + "\"";
    };
    std::string text =
        "# How the columns of " + file +
        " are read. Change what is wrong and give this file to\n"
        "# import as --columns FILE. Form: column = \"QUANTITY in UNIT\", or \"ignore\".\n";
    text += std::string("separator = \"") +
            (layout.separator == '\t' ? std::string("tab") : std::string(1, layout.separator)) +
            "\"\n";
    if (!mounting.empty())
        text += "mounting = " + quoted(mounting) + "\n";
    else if (layout.find(Quantity::RateX) || layout.find(Quantity::ForceX))
        text +=
            "# How the sensors sit in the aircraft, where that is known; else it is found:\n"
            "# mounting = \"x forward, z down\"\n";
    text += "\n[columns]\n";
    for (std::size_t i = 0; i < layout.header.size(); ++i) {
        if (layout.header[i].empty()) continue;
        const auto column = std::find_if(layout.columns.begin(), layout.columns.end(),
                                         [i](const CsvColumn& c) { return c.index == i; });
        text += quoted(layout.header[i]) + " = ";
        if (column == layout.columns.end()) {
            text += "\"ignore\"        # not known, or another column tells it better\n";
            continue;
        }
        const UnitKind kind = unitKind(column->quantity);
        std::string unit = column->unit;
        std::string comment;
        if (unit.empty() && kind != UnitKind::None) {
            unit = usualUnit(kind);
            comment = unit.empty() ? "        # unit told from the size of its numbers"
                                   : "        # no unit in the header: taken for granted";
        }
        text += "\"" + std::string(quantityName(column->quantity)) +
                (unit.empty() ? "" : " in " + unit) + "\"" + comment + "\n";
    }
    text += "\n# Quantities:";
    for (std::size_t q = 0; q < kQuantityCount; ++q)
        text +=
            (q % 6 == 0 ? "\n#   " : ", ") + std::string(quantityName(static_cast<Quantity>(q)));
    return text + "\n";
}

Expected<ColumnMap, Problems> readColumnMap(std::string_view toml, const std::string& file) {
    const Expected<data::TomlValue, Problems> tree = data::parseToml(toml, file);
    if (!tree) return Unexpected(tree.error());
    ColumnMap map;
    Problems problems;
    const auto wrong = [&](std::int32_t line, std::int32_t column, std::string what,
                           std::string remedy) {
        problems.push_back(problem({file, line, column}, std::move(what), std::move(remedy)));
    };
    const auto readEntry = [&](const data::TomlEntry& entry) {
        ColumnMap::Entry made{entry.key, std::nullopt, ""};
        const std::string& text = entry.value.text;
        if (entry.value.kind != data::TomlValue::Kind::Text) {
            wrong(entry.line, entry.column, "this is no text", "write \"QUANTITY in UNIT\"");
            return;
        }
        if (text != "ignore") {
            const std::size_t in = text.rfind(" in ");
            made.quantity = quantityNamed(text.substr(0, in));
            if (in != std::string::npos) made.unit = text.substr(in + 4);
            if (!made.quantity) {
                wrong(entry.value.line, entry.value.column,
                      "\"" + text.substr(0, in) + "\" is no quantity",
                      "import --explain lists them; or \"ignore\"");
                return;
            }
            const UnitKind kind = unitKind(*made.quantity);
            if (kind != UnitKind::None && !made.unit.empty() && unitValue(kind, made.unit) <= 0) {
                wrong(entry.value.line, entry.value.column,
                      "\"" + made.unit + "\" is no unit of " + text.substr(0, in),
                      "write one as headers carry it, such as \"" +
                          std::string(usualUnit(kind).empty() ? "deg_s, g, hpa" : usualUnit(kind)) +
                          "\"");
                return;
            }
        }
        map.entries.push_back(std::move(made));
    };
    for (const data::TomlEntry& entry : tree->entries) {
        if (entry.key == "separator" && entry.value.kind == data::TomlValue::Kind::Text &&
            (entry.value.text.size() == 1 || entry.value.text == "tab")) {
            map.separator = entry.value.text == "tab" ? '\t' : entry.value.text.front();
        } else if (entry.key == "mounting") {
            if (entry.value.kind == data::TomlValue::Kind::Text && readMounting(entry.value.text))
                map.mounting = entry.value.text;
            else
                wrong(entry.value.line, entry.value.column, "this says no mounting",
                      "say where two of the sensors' axes point, such as \"x forward, z down\"");
        } else if (entry.key == "columns" && entry.value.kind == data::TomlValue::Kind::Table) {
            for (const data::TomlEntry& column : entry.value.entries) readEntry(column);
        } else {
            wrong(entry.line, entry.column, "\"" + entry.key + "\" is not known here",
                  "a column map has separator, mounting and [columns]");
        }
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    return map;
}

}  // namespace plumbline::record
