#include "engine/season/export_csv.h"

#include <array>
#include <utility>

#include "engine/base/number_text.h"
#include "engine/record/clock_text.h"
#include "engine/season/database.h"

namespace plumbline::season {

namespace {

struct Export {
    const char* file;
    const char* query;
};

constexpr std::array kExports = {
    Export{"sorties.csv",
           "SELECT s.id AS sortie, s.flown_utc_s, s.name AS recording, "
           "r.name AS routine, r.revision AS revision, s.site, s.airframe, s.conditions, s.notes, "
           "s.flown_s, s.full_power_s, s.fuel_kg, s.fastest_mps, s.beyond_never_exceed_s, "
           "s.overspeed_s, s.most_g, s.least_g, s.quickest_gps, s.key FROM sortie s "
           "LEFT JOIN routine r ON r.id = s.routine ORDER BY s.flown_utc_s, s.id"},
    Export{"figures.csv",
           "SELECT sortie, place, name AS figure, start_s, stop_s, out_of_order, again "
           "FROM figure ORDER BY sortie, place"},
    Export{"measures.csv",
           "SELECT f.sortie, f.place, f.name AS figure, m.element, m.name AS measure, m.value, "
           "m.sigma, m.planned FROM measure m JOIN figure f ON f.id = m.figure "
           "ORDER BY f.sortie, f.place, m.rowid"},
    Export{"load_levels.csv",
           "SELECT sortie, load_g, beyond_s, times FROM load_level ORDER BY sortie, load_g"},
    Export{"load_cycles.csv",
           "SELECT sortie, range_g, mean_g, count FROM load_cycle ORDER BY sortie, range_g"},
    Export{"push_pulls.csv",
           "SELECT sortie, time_s, least_g, most_g FROM push_pull ORDER BY sortie, time_s"},
    Export{"routines.csv",
           "SELECT id AS routine, name, revision, added_utc_s "
           "FROM routine ORDER BY id"},
    Export{"remarks.csv",
           "SELECT m.id AS remark, m.about, s.id AS sortie, m.key, m.time_s, m.who AS author, "
           "m.words, m.written_utc_s, m.changed_utc_s FROM remark m "
           "LEFT JOIN sortie s ON m.about = 'sortie' AND s.key = m.key ORDER BY m.id"},
    Export{"overhauls.csv",
           "SELECT airframe, at_utc_s, notes FROM overhaul "
           "ORDER BY airframe, at_utc_s"},
};

std::string cellOf(const std::string& text) {
    if (text.find_first_of(",\"\r\n") == text.npos) return text;
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + "\"";
}

std::string tableOf(Database& database, const char* statement) {
    std::string out;
    Query query(database, statement);
    const int columns = query.columns();
    for (int i = 0; i < columns; ++i) {
        std::string name = query.columnName(i);
        if (name.ends_with("_utc_s")) name.resize(name.size() - 2);  // "flown_utc"
        out += (i > 0 ? "," : "") + cellOf(name);
    }
    out += "\r\n";
    while (query.row()) {
        for (int i = 0; i < columns; ++i) {
            if (i > 0) out += ',';
            // SQLite's own text of a number has 15 digits; ours reads back to the same.
            const std::string name = query.columnName(i);
            if (name.ends_with("_utc_s") && query.known(i))
                out += record::formatUtc(query.real(i));
            else
                out += query.isReal(i) ? formatDouble(query.real(i)) : cellOf(query.text(i));
        }
        out += "\r\n";
    }
    return out;
}

}  // namespace

Expected<std::vector<NamedTable>, Problems> exportTables(Book& book) {
    Database& database = book.database();
    std::vector<NamedTable> tables;
    database.run("BEGIN");  // one moment for all
    for (const Export& each : kExports)
        tables.push_back({each.file, tableOf(database, each.query)});
    database.run("COMMIT");
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return tables;
}

}  // namespace plumbline::season
