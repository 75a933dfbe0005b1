#include "engine/season/airframe_loads.h"

#include <algorithm>
#include <utility>

#include "engine/season/database.h"

namespace plumbline::season {

namespace {

void sumSorties(Database& database, AirframeLoads& sum) {
    Query q(database,
            "SELECT s.flown_s, s.most_g, s.least_g, s.quickest_gps, s.full_power_s, s.fuel_kg, "
            "s.beyond_never_exceed_s, s.overspeed_s FROM since_overhaul s WHERE s.airframe = ?");
    q.with(sum.airframe);
    while (q.row()) {
        ++sum.sorties;
        sum.flown_s += q.real(0);
        if (q.known(1)) {
            sum.with_loads_s += q.real(0);
            sum.most_g = std::max(sum.most_g, q.real(1));
            sum.least_g = std::min(sum.least_g, q.real(2));
            sum.quickest_gps = std::max(sum.quickest_gps, q.real(3));
        } else {
            ++sum.without_loads;
        }
        sum.without_power += q.known(4) ? 0 : 1;
        sum.without_fuel += q.known(5) ? 0 : 1;
        sum.without_airspeed += q.known(6) ? 0 : 1;
        sum.full_power_s += q.real(4);  // NULL adds nothing
        sum.fuel_kg += q.real(5);
        sum.beyond_never_exceed_s += q.real(6);
        sum.overspeed_s += q.real(7);
    }
}

void sumLoads(Database& database, AirframeLoads& sum) {
    Query levels(database,
                 "SELECT l.load_g, sum(l.beyond_s), sum(l.times) FROM load_level l "
                 "JOIN since_overhaul s ON s.id = l.sortie WHERE s.airframe = ? "
                 " GROUP BY l.load_g ORDER BY l.load_g");
    levels.with(sum.airframe);
    while (levels.row())
        sum.levels.push_back({.load_g = levels.real(0),
                              .beyond_s = levels.real(1),
                              .times = static_cast<int>(levels.number(2)),
                              .sigma_s = 0});
    Query cycles(database,
                 "SELECT c.range_g, sum(c.mean_g * c.count) / sum(c.count), sum(c.count) "
                 "FROM load_cycle c JOIN since_overhaul s ON s.id = c.sortie WHERE s.airframe = ? "
                 " GROUP BY c.range_g ORDER BY c.range_g");
    cycles.with(sum.airframe);
    while (cycles.row()) sum.cycles.push_back({cycles.real(0), cycles.real(1), cycles.real(2)});
    Query exposures(database,
                    "SELECT count(*) FROM push_pull p JOIN since_overhaul s ON s.id = p.sortie "
                    "WHERE s.airframe = ?");
    exposures.with(sum.airframe);
    if (exposures.row()) sum.push_pulls = static_cast<int>(exposures.number(0));
}

}  // namespace

Expected<std::int64_t, Problems> addOverhaul(Book& book, const Overhaul& overhaul) {
    Database& database = book.database();
    Transaction transaction(database);
    Query there(database, "SELECT id FROM overhaul WHERE airframe = ? AND at_utc_s = ?");
    there.with(overhaul.airframe).with(overhaul.at_utc_s);
    if (there.row())
        return Unexpected(book.problem("this overhaul is there already",
                                       "give another time, or leave it as it is"));
    Query(database, "INSERT INTO overhaul(airframe, at_utc_s, notes) VALUES(?,?,?)")
        .with(overhaul.airframe)
        .with(overhaul.at_utc_s)
        .with(overhaul.notes)
        .run();
    const std::int64_t id = database.lastRow();
    transaction.commit();
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return id;
}

Expected<std::vector<Overhaul>, Problems> overhauls(Book& book) {
    std::vector<Overhaul> all;
    Query q(book.database(),
            "SELECT id, airframe, at_utc_s, notes FROM overhaul ORDER BY airframe, at_utc_s");
    while (q.row()) all.push_back({q.number(0), q.text(1), q.number(2), q.text(3)});
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return all;
}

Expected<std::vector<AirframeLoads>, Problems> airframeLoads(Book& book) {
    Database& database = book.database();
    std::vector<AirframeLoads> all;
    Query names(database,
                "SELECT a.airframe, (SELECT max(at_utc_s) FROM overhaul o "
                "WHERE o.airframe = a.airframe) FROM "
                "(SELECT airframe FROM sortie UNION SELECT airframe FROM overhaul) a ORDER BY 1");
    while (names.row()) {
        AirframeLoads& sum = all.emplace_back();
        sum.airframe = names.text(0);
        sum.since_utc_s = names.maybeNumber(1);
        sumSorties(database, sum);
        sumLoads(database, sum);
    }
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return all;
}

}  // namespace plumbline::season
