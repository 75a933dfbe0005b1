#include "engine/season/currency.h"

#include <algorithm>
#include <map>
#include <utility>

#include "engine/season/database.h"

namespace plumbline::season {

namespace {

constexpr double kDay_s = 86400;

class Practices {
public:
    Practices(double now_utc_s, std::span<const int> windows)
        : now_utc_s_(now_utc_s), windows_(windows) {}

    void flown(const std::string& name, double utc_s) {
        Practice& p = by_name_[name];
        p.name = name;
        p.last_utc_s = std::max(p.last_utc_s, utc_s);
        p.since_days = (now_utc_s_ - p.last_utc_s) / kDay_s;
        p.sorties.resize(windows_.size());
        for (std::size_t i = 0; i < windows_.size(); ++i)
            if (now_utc_s_ - utc_s <= windows_[i] * kDay_s) ++p.sorties[i];
    }
    std::vector<Practice> longestAgoFirst() {
        std::vector<Practice> all;
        for (auto& [name, practice] : by_name_) all.push_back(std::move(practice));
        std::stable_sort(all.begin(), all.end(), [](const Practice& a, const Practice& b) {
            return a.last_utc_s < b.last_utc_s;
        });
        return all;
    }

private:
    double now_utc_s_;
    std::span<const int> windows_;
    std::map<std::string, Practice> by_name_;
};

}  // namespace

Expected<Currency, Problems> currency(Book& book, double now_utc_s,
                                      std::span<const int> windows_days) {
    Currency result;
    for (const int days : windows_days) result.windows.push_back({days, 0, 0});
    Practices routines(now_utc_s, windows_days), figures(now_utc_s, windows_days);
    Query sorties(book.database(),
                  "SELECT s.flown_utc_s, s.flown_s, r.name FROM sortie s "
                  "LEFT JOIN routine r ON r.id = s.routine WHERE s.flown_utc_s <= ?");
    sorties.with(now_utc_s);
    while (sorties.row()) {
        const double ago_days = (now_utc_s - sorties.real(0)) / kDay_s;
        result.since_days = std::min(result.since_days.value_or(ago_days), ago_days);
        for (Window& window : result.windows) {
            if (ago_days > window.days) continue;
            ++window.sorties;
            window.flown_s += sorties.real(1);
        }
        if (sorties.known(2)) routines.flown(sorties.text(2), sorties.real(0));
    }
    // Without a plan figures have names of the sortie only.
    Query flown(book.database(),
                "SELECT DISTINCT f.name, s.id, s.flown_utc_s FROM figure f "
                "JOIN sortie s ON s.id = f.sortie "
                "WHERE s.routine IS NOT NULL AND s.flown_utc_s <= ?");
    flown.with(now_utc_s);
    while (flown.row()) figures.flown(flown.text(0), flown.real(2));
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    result.routines = routines.longestAgoFirst();
    result.figures = figures.longestAgoFirst();
    return result;
}

}  // namespace plumbline::season
