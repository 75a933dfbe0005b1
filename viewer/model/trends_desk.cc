#include "viewer/model/trends_desk.h"

#include <algorithm>
#include <map>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

/// What is most worth knowing of several.
int rankOf(season::Course course) {
    switch (course) {
        case season::Course::Worse:
            return 4;
        case season::Course::Better:
            return 3;
        case season::Course::Up:
        case season::Course::Down:
            return 2;
        case season::Course::NoChange:
            return 1;
        case season::Course::TooFew:
            break;
    }
    return 0;
}

/// A field is never of less, or it would show what nobody can know as hills and valleys. chosen: a
/// few times what recordings tell at best
double leastSpan(units::Dimension dimension) {
    switch (dimension) {
        case units::Dimension::Angle:
            return 2 * kPi / 180;
        case units::Dimension::Length:
            return 3;
        case units::Dimension::Speed:
            return 3;
        case units::Dimension::Load:
            return 0.5;
        case units::Dimension::Time:
            return 1;
        default:
            return 0.1;
    }
}

template <class Rows>
int placeOf(const Rows& rows, const std::string& name) {
    for (std::size_t i = 0; i < rows.size(); ++i)
        if (rows[i].name == name) return static_cast<int>(i);
    return rows.empty() ? -1 : 0;
}

}  // namespace

TrendChoice trendChoice(const Trends& trends) {
    TrendChoice choice;
    if (!trends.all) return choice;
    for (const season::Trend& trend : *trends.all) {
        if (choice.figures.empty() || choice.figures.back().name != trend.figure)
            choice.figures.push_back({trend.figure, 0});
        // A figure with two lines has no more flights than one with one.
        std::map<std::int64_t, int> sorties;
        for (const season::TrendPoint& point : trend.points) ++sorties[point.sortie];
        std::size_t& times = choice.figures.back().times;
        times = std::max(times, sorties.size());
    }
    choice.figure = placeOf(choice.figures, trends.figure);
    if (choice.figure < 0) return choice;
    const std::string& figure = choice.figures[static_cast<std::size_t>(choice.figure)].name;
    for (const season::MeasureKind& kind : season::measureKinds()) {
        std::optional<season::Course> course;
        for (const season::Trend& trend : *trends.all) {
            if (trend.figure != figure || trend.kind.name != kind.name) continue;
            if (!course || rankOf(trend.course) > rankOf(*course)) course = trend.course;
        }
        if (course) choice.measures.push_back({std::string(kind.name), *course});
    }
    choice.measure = placeOf(choice.measures, trends.measure);
    if (choice.measure < 0) return choice;
    const std::string& measure = choice.measures[static_cast<std::size_t>(choice.measure)].name;
    for (const season::Trend& trend : *trends.all)
        if (trend.figure == figure && trend.kind.name == measure) choice.plots.push_back(&trend);
    return choice;
}

void chooseTrend(Trends& trends, int figure, int measure) {
    const TrendChoice before = trendChoice(trends);
    if (before.figures.empty()) return;
    const int last = static_cast<int>(before.figures.size()) - 1;
    const int row = std::clamp(figure, 0, last);
    trends.figure = before.figures[static_cast<std::size_t>(row)].name;
    // Another figure keeps the measure where it has it.
    if (row != before.figure || before.measures.empty()) return;
    const int last_measure = static_cast<int>(before.measures.size()) - 1;
    const int taken = std::clamp(measure, 0, last_measure);
    trends.measure = before.measures[static_cast<std::size_t>(taken)].name;
}

TrendField trendField(const season::Trend& trend) {
    TrendField field;
    const std::vector<season::TrendPoint>& points = trend.points;
    const double from_s = points.front().utc_s;
    const double span_s = points.back().utc_s - from_s;
    field.least = field.most = points.front().value;
    for (const season::TrendPoint& p : points) {
        const double doubt = 2 * p.sigma.value_or(0);
        for (const double value : {p.value - doubt, p.value + doubt, p.planned.value_or(p.value)}) {
            field.least = std::min(field.least, value);
            field.most = std::max(field.most, value);
        }
    }
    const double wanting = leastSpan(trend.kind.dimension) - (field.most - field.least);
    if (wanting > 0) {
        field.least -= 0.5 * wanting;
        field.most += 0.5 * wanting;
    }
    constexpr double kAir = 0.08;  // of the span: no mark on the frame
    const double span = field.most - field.least;
    field.least -= kAir * span;
    field.most += kAir * span;
    for (const season::TrendPoint& p : points) {
        const double doubt = 2 * p.sigma.value_or(0);
        // Of one moment only: in the middle.
        const double x = span_s > 0 ? (p.utc_s - from_s) / span_s : 0.5;
        field.marks.push_back(
            {x, field.yOf(p.value), field.yOf(p.value - doubt), field.yOf(p.value + doubt)});
        field.planned.push_back(p.planned ? std::optional(field.yOf(*p.planned)) : std::nullopt);
    }
    const bool said =
        trend.course != season::Course::TooFew && trend.course != season::Course::NoChange;
    if (said && trend.fit) {
        constexpr double kDay_s = 86400;
        field.line =
            std::pair(field.yOf(trend.fit->intercept),
                      field.yOf(trend.fit->intercept + trend.fit->slope * span_s / kDay_s));
    }
    return field;
}

void TrendsDesk::frame(Model& model) {
    Trends& trends = model.trends;
    if (trends.open && !was_open_ && !busy()) {
        work_ = system::Later<Outcome>::begin([book = book_] { return read(book); });
        trends.reading = true;
        const int row = openRow(model);
        if (row >= 0) trends.figure = model.rows[static_cast<std::size_t>(row)].figure.name;
    }
    was_open_ = trends.open;
    if (!work_.done()) return;
    Outcome outcome = work_.take();
    trends.reading = false;
    trends.problem = std::move(outcome.problem);
    trends.all = std::move(outcome.all);
}

}  // namespace plumbline::model
