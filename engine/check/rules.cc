// Rule sets: distances, categories, heights, zones, each with its source.

#include <algorithm>
#include <cmath>
#include <string>

#include "engine/check/checker.h"

namespace plumbline::check {
namespace {

bool aerobatic(const data::RuleSet& rules, const path::Sample& s) {
    if (rules.aerobatic_pitch_rad == 0 && rules.aerobatic_bank_rad == 0) return true;
    const double pitch = std::asin(std::clamp(rotate(s.q_SB, Vec3(1, 0, 0)).z, -1.0, 1.0));
    if (std::fabs(pitch) > rules.aerobatic_pitch_rad) return true;
    const double bank =
        std::atan2(-rotate(s.q_SB, Vec3(0, 1, 0)).z, -rotate(s.q_SB, Vec3(0, 0, 1)).z);
    return std::fabs(bank) > rules.aerobatic_bank_rad;
}

bool isAbout(data::Flight flight, bool aerobatic) {
    return flight == data::Flight::Any || (flight == data::Flight::Aerobatic) == aerobatic;
}

class RuleCheck {
public:
    RuleCheck(Checker& checker, const data::RuleSet& rules) : c_(checker), rules_(rules) {
        aerobatic_.reserve(c_.path.samples.size());
        for (const path::Sample& s : c_.path.samples) aerobatic_.push_back(aerobatic(rules, s));
    }

    void run() {
        if (!rules_.categories.empty()) category();
        for (const Checker::Range& range : c_.figures) {
            distances(range);
            heights(range);
            for (const data::ZoneRule& zone : rules_.zones) inZone(range, zone);
        }
    }

private:
    Checker::Limit limit(std::string text, const data::RuleBasis& basis) const {
        return {std::move(text), rules_.name + " (" + rules_.edition + "): " + basis.source,
                basis.verified};
    }

    double fromCrowd(std::size_t i) const {
        return c_.path.samples[i].position_S_m.y - c_.site.crowd_line_y_m;
    }

    void category() {
        const auto& all = rules_.categories;
        const auto mine = std::find_if(all.begin(), all.end(), [&](const data::CategoryRule& rule) {
            return rule.name == c_.aircraft.category;
        });
        if (mine == all.end()) {
            std::string names;
            for (const data::CategoryRule& rule : all)
                names += (names.empty() ? "" : ", ") + rule.name;
            c_.add(Grade::Tight, "category", 0, 0, "the aircraft's category is not stated",
                   c_.aircraft.category, {names, rules_.name + " (" + rules_.edition + ")", true},
                   "write category into the aircraft's file as its evaluator has it");
            return;
        }
        for (const Checker::Range& range : c_.figures) {
            Worst nearest, fastest;
            for (std::size_t i = range.first; i < range.last; ++i) {
                nearest.offer(fromCrowd(i) - mine->distance_m, i);
                if (mine->to_mps > 0) fastest.offer(mine->to_mps - c_.cas_mps[i], i);
            }
            c_.addWorst(nearest, kTightDistance_m, "category",
                        "nearest point to the crowd line, category " + mine->name,
                        metres(fromCrowd(nearest.sample)),
                        limit(metres(mine->distance_m), mine->basis),
                        "fly it farther from the crowd");
            if (fastest.margin < 0)
                c_.addWorst(
                    fastest, 0, "category", "calibrated airspeed beyond category " + mine->name,
                    knots(c_.cas_mps[fastest.sample]), limit(knots(mine->to_mps), mine->basis),
                    "ask which category and which speed counts");
        }
    }

    void distances(Checker::Range range) {
        Worst worst;
        const data::DistanceRule* hardest = nullptr;
        for (std::size_t i = range.first; i < range.last; ++i) {
            for (const data::DistanceRule& rule : rules_.distances) {
                if (!isAbout(rule.flight, aerobatic_[i]) || c_.cas_mps[i] < rule.from_mps ||
                    (rule.to_mps > 0 && c_.cas_mps[i] >= rule.to_mps))
                    continue;
                const double margin = fromCrowd(i) - rule.distance_m;
                if (margin < worst.margin) hardest = &rule;
                worst.offer(margin, i);
            }
        }
        if (!hardest) return;
        c_.addWorst(worst, kTightDistance_m, "crowd distance",
                    std::string("nearest to the crowd line, ") +
                        (aerobatic_[worst.sample] ? "aerobatic" : "fly-past") + " at " +
                        knots(c_.cas_mps[worst.sample]),
                    metres(fromCrowd(worst.sample)),
                    limit(metres(hardest->distance_m), hardest->basis),
                    "fly it farther from the crowd, or slower there");
    }

    void heights(Checker::Range range) {
        for (const data::HeightRule& rule : rules_.heights) {
            Worst worst;
            for (std::size_t i = range.first; i < range.last; ++i)
                if (isAbout(rule.flight, aerobatic_[i]))
                    worst.offer(c_.path.samples[i].position_S_m.z - rule.height_m, i);
            if (worst.any())
                c_.addWorst(
                    worst, kTightHeight_m, "lowest height",
                    std::string("lowest ") +
                        (aerobatic_[worst.sample] ? "in aerobatic flight" : "in a fly-past"),
                    metres(c_.path.samples[worst.sample].position_S_m.z),
                    limit(metres(rule.height_m), rule.basis),
                    "raise the figure, or end its line earlier");
        }
    }

    void inZone(Checker::Range range, const data::ZoneRule& zone) {
        Worst worst;
        for (std::size_t i = range.first; i < range.last; ++i) {
            const Vec3& p = c_.path.samples[i].position_S_m;
            const double along = 0.5 * zone.width_m - std::fabs(p.x);
            const double up = zone.top_m > 0 ? zone.top_m - p.z : 1e9;
            worst.offer(std::min({along, p.y, zone.depth_m - p.y, p.z - zone.bottom_m, up}), i);
        }
        if (worst.margin < 0)
            c_.addWorst(worst, 0, "zone", "farthest outside the zone", metres(-worst.margin),
                        limit("0 m", zone.basis), "place the figure nearer to its middle");
    }

    Checker& c_;
    const data::RuleSet& rules_;
    std::vector<bool> aerobatic_;
};

}  // namespace

void checkRules(Checker& checker, const std::vector<data::RuleSet>& rules) {
    if (checker.path.samples.empty()) return;
    for (const data::RuleSet& set : rules) RuleCheck(checker, set).run();
}

}  // namespace plumbline::check
