// Sorties and routines out of the book.

#include <utility>

#include "engine/season/database.h"
#include "engine/season/sorties.h"

namespace plumbline::season {

namespace {

constexpr const char* kAll =
    "SELECT s.id, s.key, s.name, s.flown_utc_s, s.added_utc_s, s.routine, r.name, s.site, "
    "s.airframe, s.conditions, s.notes, s.flown_s, s.full_power_s, s.fuel_kg, s.fastest_mps, "
    "s.beyond_never_exceed_s, s.overspeed_s, s.most_g, s.least_g, s.quickest_gps, "
    "(SELECT count(*) FROM remark m WHERE m.about = 'sortie' AND m.key = s.key) "
    "FROM sortie s LEFT JOIN routine r ON r.id = s.routine "
    "WHERE ?1 IS NULL OR s.id = ?1 ORDER BY s.flown_utc_s, s.id";

Sortie sortieOf(const Query& q) {
    Sortie s;
    s.id = q.number(0);
    s.key = q.text(1);
    s.name = q.text(2);
    s.flown_utc_s = q.number(3);
    s.added_utc_s = q.number(4);
    s.routine = q.number(5);
    s.routine_name = q.text(6);
    s.site = q.text(7);
    s.airframe = q.text(8);
    s.conditions = q.text(9);
    s.notes = q.text(10);
    s.flown_s = q.real(11);
    s.full_power_s = q.maybeReal(12);
    s.fuel_kg = q.maybeReal(13);
    s.fastest_mps = q.maybeReal(14);
    s.beyond_never_exceed_s = q.maybeReal(15);
    s.overspeed_s = q.maybeReal(16);
    if (q.known(17)) {
        s.loads.emplace();
        s.loads->most_g = q.real(17);
        s.loads->least_g = q.real(18);
        s.loads->quickest_gps = q.real(19);
    }
    s.remarks = q.number(20);
    return s;
}

void readFigures(Database& database, Sortie& s) {
    Query q(database,
            "SELECT f.id, f.name, f.start_s, f.stop_s, f.out_of_order, f.again, m.element, m.name, "
            "m.value, m.sigma, m.planned FROM figure f LEFT JOIN measure m ON m.figure = f.id "
            "WHERE f.sortie = ? ORDER BY f.place, m.rowid");
    q.with(s.id);
    std::int64_t last = 0;
    while (q.row()) {
        if (q.number(0) != last) {
            last = q.number(0);
            s.figures.push_back(
                {q.text(1), q.real(2), q.real(3), q.number(4) != 0, q.number(5) != 0, {}});
        }
        if (q.known(8))
            s.figures.back().measures.push_back(
                {q.text(6), q.text(7), q.real(8), q.maybeReal(9), q.maybeReal(10)});
    }
}

void readLoads(Database& database, std::int64_t id, review::LoadBook& loads) {
    Query level(database,
                "SELECT load_g, beyond_s, times FROM load_level WHERE sortie = ? ORDER BY load_g");
    level.with(id);
    while (level.row())
        loads.levels.push_back({.load_g = level.real(0),
                                .beyond_s = level.real(1),
                                .times = static_cast<int>(level.number(2)),
                                .sigma_s = 0});
    Query cycle(database,
                "SELECT range_g, mean_g, count FROM load_cycle WHERE sortie = ? ORDER BY range_g");
    cycle.with(id);
    while (cycle.row()) loads.cycles.push_back({cycle.real(0), cycle.real(1), cycle.real(2)});
    Query push_pull(
        database, "SELECT time_s, least_g, most_g FROM push_pull WHERE sortie = ? ORDER BY time_s");
    push_pull.with(id);
    while (push_pull.row())
        loads.push_pulls.push_back({push_pull.real(0), push_pull.real(1), push_pull.real(2)});
}

}  // namespace

Expected<std::vector<Sortie>, Problems> sorties(Book& book) {
    std::vector<Sortie> all;
    Query q(book.database(), kAll);
    while (q.row()) all.push_back(sortieOf(q));
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return all;
}

Expected<Sortie, Problems> sortie(Book& book, std::int64_t id) {
    Query q(book.database(), kAll);
    q.with(id);
    const bool there = q.row();
    Sortie s;
    if (there) {
        s = sortieOf(q);
        readFigures(book.database(), s);
        if (s.loads) readLoads(book.database(), id, *s.loads);
    }
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    if (!there)
        return Unexpected(book.problem("there is no sortie " + std::to_string(id),
                                       "plumbline season list lists those there are"));
    return s;
}

Expected<std::vector<Routine>, Problems> routines(Book& book) {
    std::vector<Routine> all;
    Query q(book.database(),
            "SELECT id, name, revision, added_utc_s, "
            "(SELECT count(*) FROM sortie s WHERE s.routine = routine.id) "
            "FROM routine ORDER BY name, added_utc_s, id");
    while (q.row())
        all.push_back({q.number(0), q.text(1), q.text(2), "", q.number(3), q.number(4)});
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return all;
}

}  // namespace plumbline::season
