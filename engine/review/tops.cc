#include "engine/review/tops.h"

#include <algorithm>
#include <cmath>

#include "engine/review/doubts.h"
#include "engine/review/line_words.h"

namespace plumbline::review {
namespace {

/// The highest point of the flight about where the plan has its top.
std::size_t topNear(const path::Path& flight, double time_s, double reach_s) {
    std::size_t best = path::sampleIndexAt(flight, time_s);
    for (std::size_t i = path::sampleIndexAt(flight, time_s - reach_s);
         i < flight.samples.size() && flight.samples[i].time_s <= time_s + reach_s; ++i)
        if (flight.samples[i].position_S_m.z > flight.samples[best].position_S_m.z) best = i;
    return best;
}

}  // namespace

void addTops(Review& review, const path::Path& flight, const path::Path& plan,
             std::span<const check::Gate> gates) {
    if (!flight.known.place || gates.empty()) return;
    for (const FigureReview& figure : review.figures) {
        const double planned_s = figure.planned_stop_s - figure.planned_start_s;
        const double flown_s = figure.stop_s - figure.start_s;
        if (!(planned_s > 0)) continue;
        for (const check::Gate& gate : gates) {
            if (gate.figure != figure.name || gate.time_s < figure.planned_start_s ||
                gate.time_s > figure.planned_stop_s)
                continue;
            constexpr double kReach = 0.2;  // chosen: of the figure; tops of one are further apart
            const double where = (gate.time_s - figure.planned_start_s) / planned_s;
            const std::size_t at =
                topNear(flight, figure.start_s + where * flown_s, std::max(1.0, kReach * flown_s));
            const path::Sample& s = flight.samples[at];
            TopReview top;
            top.figure = figure.name;
            top.time_s = s.time_s;
            top.height_m = {s.position_S_m.z,
                            plan.samples[path::sampleIndexAt(plan, gate.time_s)].position_S_m.z};
            top.gate_m = check::shownLeast_m(gate.complete_m);
            top.sigma_m = placeSigma_m(s);
            const double low_m = top.gate_m - top.height_m.flown;
            // What the plan itself lacks is the plan's fault, and its check says so.
            if (low_m > 0 && top.height_m.planned >= gate.complete_m) {
                review.remarks.push_back(
                    {1 + low_m / 10,
                     top.time_s,
                     figure.name,
                     "top at " + metresText(top.height_m.flown, top.sigma_m) +
                         plusMinus(top.sigma_m, 0) + ", below its gate of " +
                         metresText(top.gate_m, 0),
                     "Come out level there, or carry more speed up: the way down may not fit.",
                     Fault::Top,
                     {}});
            }
            review.tops.push_back(std::move(top));
        }
    }
    std::stable_sort(review.remarks.begin(), review.remarks.end(),
                     [](const Remark& a, const Remark& b) { return a.weight > b.weight; });
}

}  // namespace plumbline::review
