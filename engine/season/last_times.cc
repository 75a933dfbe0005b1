#include "engine/season/last_times.h"

#include <algorithm>
#include <optional>
#include <set>

#include "engine/season/database.h"

namespace plumbline::season {
namespace {

/// The number that tells a remark's fault; null: none does.
const char* measureOf(review::Fault fault) {
    switch (fault) {
        case review::Fault::Height:
            return "lowest";
        case review::Fault::Top:
            return "highest";
        case review::Fault::Slide:
            return "slide length";
        case review::Fault::Roll:
            return "roll too far";
        case review::Fault::RollPlace:
            return "roll off its place";
        case review::Fault::Line:
            return "line off";
        case review::Fault::Spin:
            return "spin too far";
        case review::Fault::Other:
            break;
    }
    return nullptr;
}

const Measured* measuredIn(const Sortie& sortie, const std::string& figure,
                           const std::string& element, const char* name) {
    for (const FlownFigure& f : sortie.figures) {
        if (f.name != figure) continue;
        for (const Measured& m : f.measures)
            if (m.element == element && m.name == name) return &m;
    }
    return nullptr;
}

}  // namespace

Expected<std::vector<LastTimes>, Problems> lastTimes(Book& book, const review::Review& review,
                                                     const Sortie& sortie, const LastWish& wish) {
    std::vector<LastTimes> out;
    std::set<std::string> taken;
    for (const review::Remark& remark : review.remarks) {
        if (out.size() >= wish.measures) break;
        const char* name = measureOf(remark.fault);
        if (name == nullptr) continue;
        const Measured* now = measuredIn(sortie, remark.figure, remark.element, name);
        if (now == nullptr ||
            !taken.insert(remark.figure + '\n' + remark.element + '\n' + name).second)
            continue;
        // The first time in each sortie that was flown before this one, the latest first.
        Query q(book.database(),
                "SELECT s.id, s.flown_utc_s + f.start_s, m.value, m.sigma, m.planned "
                "FROM measure m JOIN figure f ON f.id = m.figure JOIN sortie s ON s.id = f.sortie "
                "JOIN routine r ON r.id = s.routine WHERE f.name = ?1 AND m.element = ?2 "
                "AND m.name = ?3 AND r.name = ?4 AND s.key <> ?5 "
                "AND (?6 = 0 OR s.flown_utc_s <= ?6) "
                "ORDER BY s.flown_utc_s DESC, s.id DESC, f.place, m.rowid");
        q.with(remark.figure)
            .with(remark.element)
            .with(name)
            .with(wish.routine)
            .with(wish.key)
            .with(sortie.flown_utc_s);
        LastTimes last;
        last.figure = remark.figure;
        last.element = remark.element;
        last.kind = *measureKind(name);
        last.points.push_back(
            {0, static_cast<double>(sortie.flown_utc_s), now->value, now->sigma, now->planned});
        while (last.points.size() < wish.sorties && q.row()) {
            if (q.number(0) == last.points.back().sortie) continue;
            last.points.push_back(
                {q.number(0), q.real(1), q.real(2), q.maybeReal(3), q.maybeReal(4)});
        }
        if (last.points.size() < 2) continue;
        std::reverse(last.points.begin(), last.points.end());
        out.push_back(std::move(last));
    }
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return out;
}

}  // namespace plumbline::season
