#include "engine/season/trends.h"

#include <cmath>
#include <map>
#include <utility>

#include "engine/season/database.h"

namespace plumbline::season {

namespace {

constexpr double kDay_s = 86400;
constexpr std::size_t kEnough = 5;

/// How far a point is from where it should be; nothing where nobody says where.
std::optional<double> missOf(const MeasureKind& kind, const TrendPoint& point) {
    switch (kind.better) {
        case Better::Less:
            return point.value;
        case Better::NearerZero:
            return std::fabs(point.value);
        case Better::NearerPlan:
            if (point.planned) return std::fabs(point.value - *point.planned);
            return std::nullopt;
        case Better::NotSaid:
            break;
    }
    return std::nullopt;
}

std::optional<Fit> fitOver(const Trend& trend, const std::vector<double>& values) {
    std::vector<double> days;
    for (const TrendPoint& p : trend.points)
        days.push_back((p.utc_s - trend.points.front().utc_s) / kDay_s);
    return fitLine(days, values);
}

void judge(Trend& trend) {
    std::vector<double> values, misses;
    for (const TrendPoint& p : trend.points) {
        values.push_back(p.value);
        trend.mean += p.value / static_cast<double>(trend.points.size());
        if (const std::optional<double> miss = missOf(trend.kind, p)) misses.push_back(*miss);
    }
    trend.fit = fitOver(trend, values);
    if (!trend.fit || values.size() < kEnough) return;
    const auto beyondDoubt = [](const Fit& fit) {
        return std::fabs(fit.slope) > 2 * fit.slope_sigma;
    };
    trend.course = Course::NoChange;
    if (misses.size() == values.size()) {
        const std::optional<Fit> fit = fitOver(trend, misses);
        if (fit && beyondDoubt(*fit))
            trend.course = fit->slope < 0 ? Course::Better : Course::Worse;
    } else if (beyondDoubt(*trend.fit)) {
        trend.course = trend.fit->slope > 0 ? Course::Up : Course::Down;
    }
}

}  // namespace

std::optional<Fit> fitLine(std::span<const double> x, std::span<const double> y) {
    const std::size_t n = x.size();
    if (n < 3 || y.size() != n) return std::nullopt;
    double x_mean = 0, y_mean = 0;
    for (std::size_t i = 0; i < n; ++i) {
        x_mean += x[i] / static_cast<double>(n);
        y_mean += y[i] / static_cast<double>(n);
    }
    double xx = 0, xy = 0;
    for (std::size_t i = 0; i < n; ++i) {
        xx += (x[i] - x_mean) * (x[i] - x_mean);
        xy += (x[i] - x_mean) * (y[i] - y_mean);
    }
    if (!(xx > 0)) return std::nullopt;
    Fit fit;
    fit.slope = xy / xx;
    fit.intercept = y_mean - fit.slope * x_mean;
    double left = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double off = y[i] - fit.intercept - fit.slope * x[i];
        left += off * off;
    }
    fit.residual_sigma = std::sqrt(left / static_cast<double>(n - 2));
    fit.slope_sigma = fit.residual_sigma / std::sqrt(xx);
    return fit;
}

Expected<std::vector<Trend>, Problems> trends(Book& book, const TrendWish& wish) {
    Query q(book.database(),
            "SELECT f.name, m.element, m.name, s.id, s.flown_utc_s + f.start_s, m.value, m.sigma, "
            "m.planned FROM measure m JOIN figure f ON f.id = m.figure "
            "JOIN sortie s ON s.id = f.sortie LEFT JOIN routine r ON r.id = s.routine "
            "WHERE (?1 IS NULL OR f.name = ?1) AND (?2 IS NULL OR m.element = ?2) "
            "AND (?3 IS NULL OR m.name = ?3) AND (?4 IS NULL OR r.name = ?4) "
            "AND (?5 IS NULL OR s.flown_utc_s >= ?5) "
            "ORDER BY s.flown_utc_s, s.id, f.place, m.rowid");
    q.with(wish.figure)
        .with(wish.element)
        .with(wish.measure)
        .with(wish.routine)
        .with(wish.since_utc_s);
    // Figures and elements in the order they came first, measures in theirs.
    std::map<std::string, std::size_t> figures;
    std::map<std::pair<std::size_t, std::string>, std::size_t> elements;
    using Key = std::pair<std::pair<std::size_t, std::size_t>, const MeasureKind*>;
    std::map<Key, Trend> by_key;
    while (q.row()) {
        const MeasureKind* kind = measureKind(q.text(2));
        if (kind == nullptr) continue;  // of a newer program's making
        const std::size_t figure = figures.emplace(q.text(0), figures.size()).first->second;
        const std::size_t element =
            elements.emplace(std::pair(figure, q.text(1)), elements.size()).first->second;
        Trend& trend = by_key[{{figure, element}, kind}];
        trend.figure = q.text(0);
        trend.element = q.text(1);
        trend.kind = *kind;
        trend.points.push_back({q.number(3), q.real(4), q.real(5), q.maybeReal(6), q.maybeReal(7)});
    }
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    std::vector<Trend> all;
    for (auto& [key, trend] : by_key) {
        if (trend.points.size() < 2) continue;
        judge(trend);
        all.push_back(std::move(trend));
    }
    return all;
}

}  // namespace plumbline::season
