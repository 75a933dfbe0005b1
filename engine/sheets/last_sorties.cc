// How it went the last times: one small plot for each thing worth mending.

#include <algorithm>
#include <cmath>

#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"

namespace plumbline::sheets {

using page::Box;
using page::Document;

namespace {

double doubtOf(const season::TrendPoint& point) { return 2 * point.sigma.value_or(0); }

void drawOne(Document& document, const Box& box, const season::LastTimes& last,
             units::DisplayUnits units) {
    constexpr double kTitle_mm = 7.4, kNow_mm = 5;
    document.words({box.x_mm, box.y_mm + 2.6}, {{last.figure, strong(7)}});
    document.words({box.x_mm, box.y_mm + 5.8}, {{(last.element.empty() ? "" : last.element + ": ") +
                                                     std::string(last.kind.name),
                                                 quiet(7)}});
    const Box field{box.x_mm, box.y_mm + kTitle_mm, box.width_mm,
                    box.height_mm - kTitle_mm - kNow_mm};
    double least = last.points.front().value, most = least;
    for (const season::TrendPoint& time : last.points)
        for (const double value : {time.value - doubtOf(time), time.value + doubtOf(time),
                                   time.planned.value_or(time.value)}) {
            least = std::min(least, value);
            most = std::max(most, value);
        }
    const double span = most > least ? most - least : std::max(std::fabs(most), 1e-3);
    const auto y = [&](double value) {
        return field.bottom_mm() - 1 - (value - least) / span * (field.height_mm - 2);
    };
    const auto count = static_cast<double>(last.points.size());
    const double step_mm = box.width_mm / std::max(count, 6.0), half_mm = 1.4;
    for (std::size_t i = 0; i < last.points.size(); ++i) {
        const season::TrendPoint& time = last.points[i];
        const double x = box.x_mm + (static_cast<double>(i) + 0.5) * step_mm;
        if (time.planned)
            document.line({x - 0.5 * step_mm, y(*time.planned)},
                          {x + 0.5 * step_mm, y(*time.planned)}, {0.5, page::kWheelSide, 1.2});
        if (doubtOf(time) > 0)
            document.fill(
                Box{x - half_mm, y(time.value + doubtOf(time)), 2 * half_mm,
                    std::max(0.2, y(time.value - doubtOf(time)) - y(time.value + doubtOf(time)))},
                page::kFlownDoubt);
        document.line({x - half_mm, y(time.value)}, {x + half_mm, y(time.value)},
                      {1.6, page::kFlown});
    }
    document.line({box.x_mm, field.bottom_mm()}, {box.right_mm(), field.bottom_mm()},
                  {0.4, page::kInk});
    const season::TrendPoint& now = last.points.back();
    const std::string words = season::measuredWords(last.kind, now.value, now.sigma, units);
    document.words({box.x_mm, box.bottom_mm() - 1}, {{withSigns(words), strong(8)}});
}

}  // namespace

void drawLast(Document& document, const Box& box, const Sortie& sortie) {
    constexpr std::size_t kColumns = 4;
    constexpr double kGap_mm = 6, kHead_mm = 5;
    std::size_t most = 2;
    for (const season::LastTimes& last : sortie.last) most = std::max(most, last.points.size());
    constexpr const char* kCounts[] = {"two", "three", "four", "five", "six"};
    const std::string count = most - 2 < 5 ? kCounts[most - 2] : std::to_string(most);
    drawTitle(document, {box.x_mm, box.y_mm + 2}, "The last " + count + " sorties",
              "of this routine in the season\u2019s book, this one the last; plan dashed");
    const double width_mm = (box.width_mm - (kColumns - 1) * kGap_mm) / kColumns;
    for (std::size_t i = 0; i < std::min(kColumns, sortie.last.size()); ++i)
        drawOne(document,
                {box.x_mm + static_cast<double>(i) * (width_mm + kGap_mm), box.y_mm + kHead_mm,
                 width_mm, box.height_mm - kHead_mm},
                sortie.last[i], sortie.units);
}

}  // namespace plumbline::sheets
