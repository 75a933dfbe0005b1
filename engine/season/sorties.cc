#include "engine/season/sorties.h"

#include <utility>

#include "engine/season/database.h"

namespace plumbline::season {

namespace {

std::int64_t keepRoutine(Database& database, const Routine& routine) {
    Query there(database, "SELECT id FROM routine WHERE name = ? AND revision = ?");
    there.with(routine.name).with(routine.revision);
    if (there.row()) return there.number(0);
    Query(database, "INSERT INTO routine(name, revision, words, added_utc_s) VALUES(?,?,?,?)")
        .with(routine.name)
        .with(routine.revision)
        .with(routine.text)
        .with(routine.added_utc_s)
        .run();
    return database.lastRow();
}

void keepFigures(Database& database, std::int64_t id, const std::vector<FlownFigure>& figures) {
    Query figure(database,
                 "INSERT INTO figure(sortie, place, name, start_s, stop_s, out_of_order, again) "
                 "VALUES(?,?,?,?,?,?,?)");
    Query measure(database,
                  "INSERT INTO measure(figure, element, name, value, sigma, planned) "
                  "VALUES(?,?,?,?,?,?)");
    std::int64_t place = 0;
    for (const FlownFigure& f : figures) {
        figure.with(id)
            .with(++place)
            .with(f.name)
            .with(f.start_s)
            .with(f.stop_s)
            .with(f.out_of_order)
            .with(f.again)
            .run();
        const std::int64_t row = database.lastRow();
        for (const Measured& m : f.measures)
            measure.with(row)
                .with(m.element)
                .with(m.name)
                .with(m.value)
                .with(m.sigma)
                .with(m.planned)
                .run();
    }
}

void keepLoads(Database& database, std::int64_t id, const review::LoadBook& loads) {
    Query level(database, "INSERT INTO load_level VALUES(?,?,?,?)");
    for (const review::LoadLevel& l : loads.levels)
        level.with(id).with(l.load_g).with(l.beyond_s).with(l.times).run();
    Query cycle(database, "INSERT INTO load_cycle VALUES(?,?,?,?)");
    for (const review::Cycle& c : loads.cycles)
        cycle.with(id).with(c.range).with(c.mean).with(c.count).run();
    Query push_pull(database, "INSERT INTO push_pull VALUES(?,?,?,?)");
    for (const review::PushPull& p : loads.push_pulls)
        push_pull.with(id).with(p.time_s).with(p.least_g).with(p.most_g).run();
}

std::int64_t keepSortie(Database& database, const Sortie& s, std::int64_t routine) {
    const auto load = [&s](double review::LoadBook::*of) {
        return s.loads ? std::optional((*s.loads).*of) : std::nullopt;
    };
    Query(database,
          "INSERT INTO sortie(key, name, flown_utc_s, added_utc_s, routine, site, airframe, "
          "conditions, notes, flown_s, full_power_s, fuel_kg, fastest_mps, beyond_never_exceed_s, "
          "overspeed_s, most_g, least_g, quickest_gps) "
          "VALUES(?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?,?)")
        .with(s.key)
        .with(s.name)
        .with(s.flown_utc_s)
        .with(s.added_utc_s)
        .with(routine != 0 ? std::optional(routine) : std::nullopt)
        .with(s.site)
        .with(s.airframe)
        .with(s.conditions)
        .with(s.notes)
        .with(s.flown_s)
        .with(s.full_power_s)
        .with(s.fuel_kg)
        .with(s.fastest_mps)
        .with(s.beyond_never_exceed_s)
        .with(s.overspeed_s)
        .with(load(&review::LoadBook::most_g))
        .with(load(&review::LoadBook::least_g))
        .with(load(&review::LoadBook::quickest_gps))
        .run();
    return database.lastRow();
}

Problems noSortie(const Book& book, std::int64_t id) {
    return book.problem("there is no sortie " + std::to_string(id),
                        "plumbline season list lists those there are");
}

}  // namespace

Expected<std::int64_t, Problems> addRoutine(Book& book, const Routine& routine) {
    Transaction transaction(book.database());
    const std::int64_t id = keepRoutine(book.database(), routine);
    transaction.commit();
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return id;
}

Expected<std::int64_t, Problems> addSortie(Book& book, const Sortie& sortie, const Routine* plan) {
    Database& database = book.database();
    Transaction transaction(database);
    Query there(database, "SELECT id FROM sortie WHERE key = ?");
    there.with(sortie.key);
    if (there.row())
        return Unexpected(book.problem(
            "this flight is there already, as sortie " + std::to_string(there.number(0)),
            "remove it first to add it anew, or add other recordings"));
    const std::int64_t routine = plan == nullptr ? sortie.routine : keepRoutine(database, *plan);
    const std::int64_t id = keepSortie(database, sortie, routine);
    keepFigures(database, id, sortie.figures);
    if (sortie.loads) keepLoads(database, id, *sortie.loads);
    transaction.commit();
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return id;
}

Problems removeSortie(Book& book, std::int64_t id) {
    Database& database = book.database();
    Transaction transaction(database);
    Query(database,
          "DELETE FROM remark WHERE about = 'sortie' AND "
          "key = (SELECT key FROM sortie WHERE id = ?)")
        .with(id)
        .run();
    Query(database, "DELETE FROM sortie WHERE id = ?").with(id).run();
    if (database.good() && database.changed() == 0) return noSortie(book, id);
    transaction.commit();
    return book.problems();
}

Problems removeRoutine(Book& book, std::int64_t id) {
    Database& database = book.database();
    Transaction transaction(database);
    Query flown(database, "SELECT count(*) FROM sortie WHERE routine = ?");
    flown.with(id);
    if (flown.row() && flown.number(0) > 0)
        return book.problem("routine " + std::to_string(id) + " was flown by " +
                                std::to_string(flown.number(0)) + " sorties of this book",
                            "it stays with them");
    Query(database, "DELETE FROM routine WHERE id = ?").with(id).run();
    if (database.good() && database.changed() == 0)
        return book.problem("there is no routine " + std::to_string(id),
                            "plumbline season list lists those there are");
    transaction.commit();
    return book.problems();
}

Problems noteSortie(Book& book, std::int64_t id, const std::optional<std::string>& conditions,
                    const std::optional<std::string>& notes) {
    Database& database = book.database();
    Transaction transaction(database);
    Query(database,
          "UPDATE sortie SET conditions = coalesce(?, conditions), notes = coalesce(?, notes) "
          "WHERE id = ?")
        .with(conditions)
        .with(notes)
        .with(id)
        .run();
    if (database.good() && database.changed() == 0) return noSortie(book, id);
    transaction.commit();
    return book.problems();
}

}  // namespace plumbline::season
