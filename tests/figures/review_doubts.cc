#include "tests/figures/review_doubts.h"

#include <cmath>
#include <cstdio>

#include "engine/units/units.h"

namespace plumbline::figures {
namespace {

/// Of the truth's list the one of the same figure and moment; null for none.
template <typename List, typename Start>
const typename List::value_type* sameOf(const List& list, const std::string& figure, double time_s,
                                        double near_s, const Start& start) {
    for (const auto& one : list)
        if (one.figure == figure && std::fabs(start(one) - time_s) < near_s) return &one;
    return nullptr;
}

}  // namespace

void Doubts::hold(const char* name, double miss, double sigma) {
    Kind& kind = kinds_[name];
    kind.count += 1;
    kind.sum += miss;
    kind.square += miss * miss;
    kind.stated += sigma;
    kind.within += std::fabs(miss) <= 2 * sigma;
}

void Doubts::add(const review::Review& found, const review::Review& truth) {
    constexpr double kNear_s = 1;
    for (const review::FigureReview& f : found.figures)
        for (const review::FigureReview& t : truth.figures) {
            if (f.name != t.name || std::fabs(f.start_s - t.start_s) > kNear_s) continue;
            if (f.late_sigma_s > 0) hold("late, s", f.late_s - t.late_s, f.late_sigma_s);
            hold("entry speed, m/s", f.entry_mps.flown - t.entry_mps.flown, f.entry_sigma_mps);
            hold("greatest load, g", f.most_g.flown - t.most_g.flown, f.most_sigma_g);
            hold("least load, g", f.least_g.flown - t.least_g.flown, f.least_sigma_g);
            hold("least height, m", f.lowest_m.flown - t.lowest_m.flown, f.place_sigma_m);
            hold("greatest height, m", f.highest_m.flown - t.highest_m.flown, f.place_sigma_m);
            hold("from crowd line, m", f.nearest_y_m.flown - t.nearest_y_m.flown, f.place_sigma_m);
        }
    for (const auto& line : found.lines) {
        const review::LineMeasure& m = line.measure;
        const auto* same = sameOf(truth.lines, line.figure, m.start_s, kNear_s,
                                  [](const auto& l) { return l.measure.start_s; });
        if (!same || same->name != line.name) continue;
        const review::LineMeasure& t = same->measure;
        hold("line's steadiness, deg", (m.steady_rad - t.steady_rad) / units::kDegree_rad,
             m.steady_sigma_rad / units::kDegree_rad);
        hold("line's path, deg", (m.path_rad - t.path_rad) / units::kDegree_rad,
             m.path_sigma_rad / units::kDegree_rad);
        if (m.before_roll_m + m.after_roll_m <= 0) continue;
        hold("before a roll, m", m.before_roll_m - t.before_roll_m, m.beside_roll_sigma_m);
        hold("after a roll, m", m.after_roll_m - t.after_roll_m, m.beside_roll_sigma_m);
    }
    for (const auto& roll : found.rolls) {
        const auto* same = sameOf(truth.rolls, roll.figure, roll.measure.start_s, 0.3,
                                  [](const auto& r) { return r.measure.start_s; });
        if (!same) continue;
        hold("roll rate, deg/s",
             (roll.measure.rate_radps - same->measure.rate_radps) / units::kDegree_rad,
             roll.measure.rate_sigma_radps / units::kDegree_rad);
    }
    for (const auto& arc : found.arcs) {
        const auto* same = sameOf(truth.arcs, arc.figure, arc.flown.start_s, kNear_s,
                                  [](const auto& a) { return a.flown.start_s; });
        if (!same) continue;
        hold("radius, m", arc.flown.radius_m - same->flown.radius_m, arc.flown.radius_sigma_m);
        hold("unround, %", 100 * (arc.flown.unround - same->flown.unround),
             100 * arc.flown.unround_sigma);
        if (arc.flown.seen_unround && same->flown.seen_unround)
            hold("unround as seen, %", 100 * (*arc.flown.seen_unround - *same->flown.seen_unround),
                 100 * arc.flown.seen_sigma);
    }
    for (const review::SlideReview& slide : found.slides) {
        const auto* same = sameOf(truth.slides, slide.figure, slide.start_s, kNear_s,
                                  [](const auto& s) { return s.start_s; });
        if (!same) continue;
        hold("slide, m", slide.way_m.flown - same->way_m.flown, slide.way_sigma_m);
        hold("slide's speed, m/s", slide.fastest_mps.flown - same->fastest_mps.flown,
             slide.fastest_sigma_mps);
    }
    for (const auto& pivot : found.pivots) {
        const auto* same = sameOf(truth.pivots, pivot.figure, pivot.start_s, kNear_s,
                                  [](const auto& p) { return p.start_s; });
        if (same)
            hold("pivot, half spans", pivot.half_spans.flown - same->half_spans.flown, pivot.sigma);
    }
    for (const auto& t : found.turnings) {
        const auto* same = sameOf(truth.turnings, t.figure, t.start_s, kNear_s,
                                  [](const auto& o) { return o.start_s; });
        if (!same) continue;
        const bool spin = t.motion == review::Motion::Spin;
        hold(spin ? "spin, turns" : "tumble, turns", t.flown.turns - same->flown.turns,
             t.flown.turns_sigma);
        hold("height of spin or tumble, m", t.flown.height_lost_m - same->flown.height_lost_m,
             t.flown.height_sigma_m);
    }
}

void Doubts::print() const {
    for (const auto& [name, k] : kinds_)
        std::printf(
            "  %-28s %5.0f  error %6.2f rms (mean %+.2f), stated %6.2f, within twice %3.0f %%\n",
            name.c_str(), k.count, std::sqrt(k.square / k.count), k.sum / k.count,
            k.stated / k.count, 100 * k.within / k.count);
}

}  // namespace plumbline::figures
