#pragma once
// How a number of a figure goes over the season.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/season/book.h"
#include "engine/season/measures.h"

namespace plumbline::season {

/// The straight line through points that is nearest to them in y.
struct Fit {
    double intercept = 0, slope = 0;
    double slope_sigma = 0;     ///< standard error of the slope
    double residual_sigma = 0;  ///< standard deviation of what is left
};
/// Nothing for fewer than three points or equal x.
std::optional<Fit> fitLine(std::span<const double> x, std::span<const double> y);

struct TrendPoint {
    std::int64_t sortie = 0;
    double utc_s = 0;
    double value = 0;
    std::optional<double> sigma, planned;
};

/// What is said of a trend.
enum class Course { TooFew, NoChange, Better, Worse, Up, Down };

struct Trend {
    std::string figure, element;
    MeasureKind kind;
    std::vector<TrendPoint> points;  ///< by time
    double mean = 0;
    std::optional<Fit> fit;  ///< of the value over days
    Course course = Course::TooFew;
};

struct TrendWish {
    std::optional<std::string> figure, element, measure, routine;
    std::optional<std::int64_t> since_utc_s;
};

/// Each measure of each figure that was flown at least twice, by figure in the order of the first
/// flight, then by element and in the order of measureKinds(). A figure flown more than once in a
/// sortie has a point for each.
///
/// A change is said from five points on, if the slope is beyond twice its standard error (chosen;
/// about 19 of 20 for many points): of what has a better side, measured as its distance from there.
Expected<std::vector<Trend>, Problems> trends(Book& book, const TrendWish& wish = {});

}  // namespace plumbline::season
