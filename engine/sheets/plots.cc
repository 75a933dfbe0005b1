// The whole flight along its time: heights and loads.

#include <algorithm>
#include <cmath>

#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Document;
using page::Point;

namespace {

/// From the first figure to the last, with some seconds around.
std::pair<double, double> spanOf(const Sortie& sortie) {
    constexpr double kAround_s = 5;
    const auto& figures = sortie.review->figures;
    const double end_s = sortie.flight->duration_s();
    if (figures.empty()) return {0, std::max(end_s, 1.0)};
    double first = 1e300, last = -1e300;
    for (const review::FigureReview& f : figures) {
        first = std::min(first, f.start_s);
        last = std::max(last, f.stop_s);
    }
    return {std::max(0.0, first - kAround_s), std::min(end_s, last + kAround_s)};
}

/// A round step that divides a range into at most so many.
double stepFor(double range, int most) {
    double step = 1;
    for (int i = 0; range / step > most; ++i) step *= i % 3 == 1 ? 2.5 : 2;
    return step;
}

struct Axes {
    Box box;
    double start_s, stop_s, low, high;
    double x(double time_s) const {
        return box.x_mm + (time_s - start_s) / (stop_s - start_s) * box.width_mm;
    }
    double y(double value) const {
        return box.bottom_mm() - (value - low) / (high - low) * box.height_mm;
    }
};

/// Figures by their numbers below a plot, where there is room for them.
void drawNumbers(Document& document, const Axes& axes, const Sortie& sortie) {
    double free_from = axes.box.x_mm;
    for (const review::FigureReview& f : sortie.review->figures) {
        const double x = axes.x(f.start_s);
        document.line({x, axes.box.bottom_mm()}, {x, axes.box.bottom_mm() + 1.4},
                      {0.4, page::kInk});
        const int number = numberInPlan(sortie, f.name);
        if (number == 0) continue;
        const page::Text text = {{std::to_string(number), quiet(7)}};
        const double middle = 0.5 * (x + axes.x(f.stop_s)), width = document.widthOf_mm(text);
        if (middle - 0.5 * width < free_from) continue;
        document.words({middle, axes.box.bottom_mm() + 3.6}, text, Align::Centre);
        free_from = middle + 0.5 * width + 0.8;
    }
}

std::vector<Point> heightLine(const path::Path& path, double from_s, double to_s, double shift_s,
                              const Axes& axes) {
    std::vector<Point> points;
    const double step_s = (axes.stop_s - axes.start_s) / (axes.box.width_mm * 4);
    for (double t = from_s; t <= to_s; t += step_s)
        points.push_back({axes.x(t + shift_s), axes.y(path::sampleAt(path, t).position_S_m.z)});
    return points;
}

}  // namespace

void drawHeights(Document& document, const Box& box, const Sortie& sortie) {
    const auto [start_s, stop_s] = spanOf(sortie);
    double most = 50;
    for (const review::FigureReview& f : sortie.review->figures)
        most = std::max({most, f.highest_m.flown, f.highest_m.planned});
    constexpr double kScale_mm = 8;  // for the numbers at the right
    const bool feet = sortie.units == units::DisplayUnits::Feet;
    const double unit = feet ? 0.3048 : 1;
    const double step = stepFor(most / unit, 5) * unit;
    const Axes axes{{box.x_mm, box.y_mm, box.width_mm - kScale_mm, box.height_mm - 4.5},
                    start_s,
                    stop_s,
                    0,
                    std::ceil(most / step) * step};
    for (double h = 0; h <= axes.high + 1e-6; h += step) {
        const bool ground = h < 1e-6;
        document.line({axes.box.x_mm, axes.y(h)}, {axes.box.right_mm(), axes.y(h)},
                      {ground ? 0.8 : 0.4, ground ? page::kInk : page::kHairline});
        document.words({box.right_mm(), axes.y(h) + 0.9}, {{number(h / unit, 0), quiet(7)}},
                       Align::Right);
    }
    const double floor_m = sortie.workspace->site.floor_m;
    if (floor_m > 0)
        document.line({axes.box.x_mm, axes.y(floor_m)}, {axes.box.right_mm(), axes.y(floor_m)},
                      {0.9, page::kLimit, 1.2});
    for (const review::FigureReview& f : sortie.review->figures)
        document.path(heightLine(*sortie.plan, f.planned_start_s, plannedStop_s(sortie, f),
                                 f.start_s - f.planned_start_s, axes),
                      {1, page::kWheelSide, 0, true});
    document.path(heightLine(*sortie.flight, start_s, stop_s, 0, axes),
                  {1.1, page::kFlown, 0, true});
    drawNumbers(document, axes, sortie);
}

void drawLoads(Document& document, const Box& box, const Sortie& sortie) {
    const auto [start_s, stop_s] = spanOf(sortie);
    const data::AircraftLimits& limits = sortie.workspace->aircraft.limits;
    constexpr double kScale_mm = 8;
    Axes axes{{box.x_mm, box.y_mm, box.width_mm - kScale_mm, box.height_mm - 4.5},
              start_s,
              stop_s,
              -1,
              2};
    // A column each third of a millimetre, from the least to the greatest load in it.
    const int columns = std::max(1, static_cast<int>(axes.box.width_mm * 3));
    std::vector<std::pair<double, double>> loads(static_cast<std::size_t>(columns), {1, 1});
    for (std::size_t i = path::sampleIndexAt(*sortie.flight, start_s);
         i < sortie.flight->samples.size(); ++i) {
        const path::Sample& s = sortie.flight->samples[i];
        if (s.time_s >= stop_s) break;
        const double load_g = loadFactors(s.specific_force_B_mps2).normal_g;
        const auto at = static_cast<std::size_t>(std::clamp(
            static_cast<int>((s.time_s - start_s) / (stop_s - start_s) * columns), 0, columns - 1));
        loads[at].first = std::min(loads[at].first, load_g);
        loads[at].second = std::max(loads[at].second, load_g);
    }
    for (const auto& [least, most] : loads) {
        axes.low = std::min(axes.low, std::floor(least));
        axes.high = std::max(axes.high, std::ceil(most));
    }
    const auto limit = [&](double load_g) {
        if (load_g == 0) return;
        axes.low = std::min(axes.low, load_g - 0.5);
        axes.high = std::max(axes.high, load_g + 0.5);
    };
    limit(limits.load_max_g);
    limit(limits.load_min_g);
    const double step = axes.high - axes.low > 12 ? 4 : 2;
    for (double g = std::ceil(axes.low / step) * step; g <= axes.high; g += step) {
        document.line({axes.box.x_mm, axes.y(g)}, {axes.box.right_mm(), axes.y(g)},
                      {0.4, page::kHairline});
        document.words({box.right_mm(), axes.y(g) + 0.9}, {{number(g, 0, true), quiet(7)}},
                       Align::Right);
    }
    const double width = axes.box.width_mm / columns;
    for (int i = 0; i < columns; ++i) {
        const auto [least, most] = loads[static_cast<std::size_t>(i)];
        const double top = axes.y(most), bottom = axes.y(least);
        document.fill(Box{axes.box.x_mm + i * width, top, width, std::max(bottom - top, 0.15)},
                      page::kFlown);
    }
    for (const double load_g : {limits.load_max_g, limits.load_min_g})
        if (load_g != 0)
            document.line({axes.box.x_mm, axes.y(load_g)}, {axes.box.right_mm(), axes.y(load_g)},
                          {0.9, page::kLimit, 1.2});
    drawNumbers(document, axes, sortie);
}

}  // namespace plumbline::sheets
