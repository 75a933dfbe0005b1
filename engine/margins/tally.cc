#include "engine/margins/tally.h"

#include <algorithm>

namespace plumbline::margins {
namespace {

// chosen: half-widths far beyond any flight that still resembles the plan, cells finer than known
constexpr double kHeightRange_m = 400, kHeightCell_m = 0.25;
constexpr double kCueRange_s = 120, kCueCell_s = 0.05;
constexpr double kTopAbove_m = 20;        // chosen: less is a wave of a level line, no top
constexpr double kLeastInfluence = 0.02;  // chosen: below this nobody would change anything for it
// chosen: fewer flights with or without a finding say nothing of its causes
constexpr std::uint64_t kLeastForCauses = 30;

const char* wordsOfInput(std::size_t input) {
    return input < kDaily ? wordsOf(static_cast<Daily>(input))
                          : wordsOf(static_cast<Figurewise>(input - kDaily));
}

void keepGreatest(std::vector<Influence>& influences, std::uint64_t trials) {
    const double least = std::max(kLeastInfluence, firstOrderNoise(trials));
    std::erase_if(influences, [least](const Influence& i) { return !(i.share >= least); });
    std::stable_sort(influences.begin(), influences.end(),
                     [](const Influence& a, const Influence& b) { return a.share > b.share; });
}

}  // namespace

Outcome outcomeOf(Draw draw, const path::Path& path, const std::vector<check::Finding>& findings,
                  const std::vector<GateCurve>& gates) {
    Outcome out;
    out.draw = std::move(draw);
    for (const path::Sample& s : path.samples) {
        const auto figure = static_cast<std::size_t>(path::figureOf(path, s));
        const double height_m = s.position_S_m.z;
        while (out.figures.size() <= figure) out.figures.push_back({height_m, height_m});
        Outcome::Figure& f = out.figures[figure];
        f.highest_m = std::max(f.highest_m, height_m);
        f.lowest_m = std::min(f.lowest_m, height_m);
    }
    for (const path::Cue& cue : path.cues) out.cues_s.push_back(cue.time_s);
    for (const GateCurve& gate : gates) out.above_gates_m.push_back(gate.marginOf(path));
    for (const check::Finding& finding : findings)
        if (finding.grade >= check::Grade::Tight)
            out.found.push_back({finding.kind, finding.figure, finding.grade, finding.margin});
    // Of one kind and figure the worst: it comes first.
    std::sort(out.found.begin(), out.found.end(), [](const auto& a, const auto& b) {
        return std::tie(a.kind, a.figure, b.grade, a.margin) <
               std::tie(b.kind, b.figure, a.grade, b.margin);
    });
    out.found.erase(std::unique(out.found.begin(), out.found.end(),
                                [](const auto& a, const auto& b) {
                                    return a.kind == b.kind && a.figure == b.figure;
                                }),
                    out.found.end());
    return out;
}

std::shared_ptr<const Way> wayOf(const path::Path& path) {
    auto way = std::make_shared<Way>();
    way->places_S_m.reserve(path.samples.size());
    for (const path::Sample& s : path.samples) {
        const auto figure = static_cast<std::size_t>(path::figureOf(path, s));
        while (way->begins.size() <= figure) way->begins.push_back(way->places_S_m.size());
        way->places_S_m.emplace_back(s.position_S_m);
    }
    way->begins.push_back(way->places_S_m.size());
    return way;
}

Tally::Tally(const Plan& plan, const Outcome& planned)
    : is_top_(planned.figures.size(), false),
      planned_(planned.found),
      drawn_(planned.figures.size(), Hits{}) {
    for (const path::Figure& figure : plan.path.figures) {
        figure_index_.emplace(figure.name, figures_.size());
        figures_.push_back(figure.name);
        figure_chances_.push_back({figure.name, 0, 0});
    }
    for (const Outcome::Figure& f : planned.figures) {
        highest_.push_back({{f.highest_m, kHeightRange_m, kHeightCell_m}, f.highest_m});
        lowest_.push_back({{f.lowest_m, kHeightRange_m, kHeightCell_m}, f.lowest_m});
    }
    for (const path::Cue& cue : plan.path.cues) {
        cue_words_.push_back(cue.words);
        cue_plan_s_.push_back(cue.time_s);
        cues_.emplace_back(cue.time_s, kCueRange_s, kCueCell_s);
    }
    for (std::size_t g = 0; g < planned.above_gates_m.size(); ++g) {
        const double above_m = planned.above_gates_m[g].value_or(0);
        gates_.push_back({.figure = static_cast<std::size_t>(std::max(plan.gates[g].figure(), 0)),
                          .plan_s = plan.gates[g].time_s(),
                          .above = {{above_m, kHeightRange_m, kHeightCell_m}, above_m}});
    }
    // A top is followed by lower flight within its figure.
    for (auto s = plan.path.samples.rbegin(); s != plan.path.samples.rend(); ++s) {
        const auto figure = static_cast<std::size_t>(path::figureOf(plan.path, *s));
        if (s->position_S_m.z < planned.figures[figure].highest_m - kTopAbove_m)
            is_top_[figure] = true;
        // From the figure's top on backwards, nothing counts any more.
        if (s->position_S_m.z >= planned.figures[figure].highest_m)
            while (s + 1 != plan.path.samples.rend() && (s + 1)->element >= 0 &&
                   plan.path.elements[static_cast<std::size_t>((s + 1)->element)].figure ==
                       static_cast<std::int32_t>(figure))
                ++s;
    }
}

std::array<std::size_t, Tally::kInputs> Tally::binsOf(const Draw& draw, std::size_t figure) const {
    std::array<std::size_t, kInputs> bins{};
    for (std::size_t i = 0; i < kDaily; ++i) bins[i] = binOf(draw.daily[i]);
    for (std::size_t i = 0; i < kFigurewise; ++i) bins[kDaily + i] = binOf(draw.figures[figure][i]);
    return bins;
}

void Tally::add(Number& number, double value, const std::array<std::size_t, kInputs>& bins) const {
    number.histogram.add(value);
    const double difference = value - number.plan;
    number.sum += difference;
    number.sum_of_squares += difference * difference;
    for (std::size_t i = 0; i < kInputs; ++i) number.bins[i].add(bins[i], difference);
}

void Tally::add(const Outcome& outcome) {
    ++flights_;
    const std::size_t figures = std::min(drawn_.size(), outcome.draw.figures.size());
    std::vector<std::array<std::size_t, kInputs>> bins(figures);
    for (std::size_t f = 0; f < figures; ++f) {
        bins[f] = binsOf(outcome.draw, f);
        for (std::size_t i = 0; i < kInputs; ++i) ++drawn_[f][i][bins[f][i]];
    }
    for (std::size_t f = 0; f < std::min(figures, outcome.figures.size()); ++f) {
        add(highest_[f], outcome.figures[f].highest_m, bins[f]);
        add(lowest_[f], outcome.figures[f].lowest_m, bins[f]);
    }
    for (std::size_t c = 0; c < std::min(cues_.size(), outcome.cues_s.size()); ++c)
        cues_[c].add(outcome.cues_s[c]);
    for (std::size_t g = 0; g < std::min(gates_.size(), outcome.above_gates_m.size()); ++g) {
        const std::optional<double>& above_m = outcome.above_gates_m[g];
        if (!above_m || gates_[g].figure >= figures) continue;
        add(gates_[g].above, *above_m, bins[gates_[g].figure]);
        if (*above_m < 0) ++gates_[g].below;
    }
    addFindings(outcome, bins);
    addToWorst(outcome);
    if (outcome.way) ways_.push_back(outcome.way);
}

void Tally::addFindings(const Outcome& outcome,
                        const std::vector<std::array<std::size_t, kInputs>>& bins) {
    bool unsafe = false;
    std::vector<int> grades(figures_.size(), 0);
    for (const Outcome::Found& found : outcome.found) {
        Count& count = counts_[{found.kind, found.figure}];
        const bool first = count.tight == 0;
        ++count.tight;
        const bool found_unsafe = found.grade >= check::Grade::Unsafe;
        if (found_unsafe) ++count.unsafe;
        if (first || std::make_pair(!found_unsafe, found.margin) <
                         std::make_pair(!count.worst_unsafe, count.worst_margin)) {
            count.worst_flight = outcome.flight;
            count.worst_unsafe = found_unsafe;
            count.worst_margin = found.margin;
        }
        unsafe = unsafe || found_unsafe;
        const auto figure = figure_index_.find(found.figure);
        const std::size_t f = figure == figure_index_.end() ? 0 : figure->second;
        if (figure != figure_index_.end()) grades[f] = std::max(grades[f], found_unsafe ? 2 : 1);
        if (f < bins.size())
            for (std::size_t i = 0; i < kInputs; ++i) ++count.hits[i][bins[f][i]];
    }
    for (std::size_t f = 0; f < grades.size(); ++f) {
        if (grades[f] > 0) ++figure_chances_[f].tight;
        if (grades[f] > 1) ++figure_chances_[f].unsafe;
    }
    if (unsafe) ++unsafe_;
    if (!outcome.found.empty()) ++tight_;
}

void Tally::addToWorst(const Outcome& outcome) {
    if (outcome.found.empty()) return;
    Bad bad;
    bad.flight.flight = outcome.flight;
    bad.flight.tight = outcome.found.size();
    for (const Outcome::Found& found : outcome.found) {
        if (found.grade >= check::Grade::Unsafe) ++bad.flight.unsafe;
        // What ends on the ground has little time for more findings.
        bad.ground = bad.ground || found.kind == "ground";
    }
    const auto worse = [](const Bad& a, const Bad& b) {
        return std::tie(a.ground, a.flight.unsafe, a.flight.tight) >
               std::tie(b.ground, b.flight.unsafe, b.flight.tight);
    };
    // Flights come in the order of their numbers: of equals the first stays.
    const auto place = std::upper_bound(worst_.begin(), worst_.end(), bad, worse);
    if (place == worst_.end() && worst_.size() == kWorstFlights) return;
    bad.found = outcome.found;
    worst_.insert(place, std::move(bad));
    if (worst_.size() > kWorstFlights) worst_.pop_back();
}

/// With the few of its findings that say most.
WorstFlight Tally::named(const Bad& bad) const {
    struct Weight {
        bool ground;  ///< before all else that cannot be
        check::Grade grade;
        std::uint64_t flights;  ///< that have it as bad
        std::size_t figure;
        const Outcome::Found* found;
    };
    std::vector<Weight> weights;
    for (const Outcome::Found& found : bad.found) {
        const Count& count = counts_.at({found.kind, found.figure});
        const auto figure = figure_index_.find(found.figure);
        weights.push_back(
            {.ground = found.kind == "ground",
             .grade = found.grade,
             .flights = found.grade >= check::Grade::Unsafe ? count.unsafe : count.tight,
             .figure = figure == figure_index_.end() ? figures_.size() : figure->second,
             .found = &found});
    }
    std::stable_sort(weights.begin(), weights.end(), [](const Weight& a, const Weight& b) {
        return std::tie(b.ground, b.grade, a.flights, a.figure) <
               std::tie(a.ground, a.grade, b.flights, b.figure);
    });
    WorstFlight flight = bad.flight;
    for (std::size_t i = 0; i < std::min(weights.size(), kNamedWrong); ++i)
        flight.wrong.push_back({weights[i].found->kind, weights[i].found->figure});
    return flight;
}

HeightSpread Tally::spreadOf(const std::string& figure, const Number& number) const {
    HeightSpread out;
    out.figure = figure;
    out.plan_m = number.plan;
    out.low_m = number.histogram.quantile(0.05);
    out.middle_m = number.histogram.quantile(0.5);
    out.high_m = number.histogram.quantile(0.95);
    for (std::size_t i = 0; i < kInputs; ++i)
        out.influences.push_back(
            {wordsOfInput(i), firstOrder(number.bins[i], number.sum, number.sum_of_squares)});
    keepGreatest(out.influences, number.histogram.count());
    return out;
}

std::vector<Influence> Tally::influencesOf(const Count& count, const std::string& figure) const {
    std::vector<Influence> out;
    const auto found = figure_index_.find(figure);
    const bool whole = found == figure_index_.end();
    const std::size_t f = whole ? 0 : found->second;
    if (f >= drawn_.size() || count.tight < kLeastForCauses ||
        flights_ - count.tight < kLeastForCauses)
        return out;
    // Of the whole routine no figure's errors are its own.
    for (std::size_t i = 0; i < (whole ? kDaily : kInputs); ++i) {
        Bins bins;
        bins.count = drawn_[f][i];
        for (std::size_t b = 0; b < kBins; ++b) bins.sum[b] = static_cast<double>(count.hits[i][b]);
        const auto hits = static_cast<double>(count.tight);
        out.push_back({wordsOfInput(i), firstOrder(bins, hits, hits)});
    }
    keepGreatest(out, flights_);
    return out;
}

Report Tally::report() const {
    Report report;
    report.flights = flights_;
    report.unsafe = unsafe_;
    report.tight = tight_;
    report.figures = figure_chances_;
    for (const Bad& bad : worst_) report.worst.push_back(named(bad));
    report.ways = ways_;
    for (const auto& [key, count] : counts_) {
        Chance chance;
        chance.kind = key.first;
        chance.figure = key.second;
        chance.in_plan = std::any_of(planned_.begin(), planned_.end(), [&](const auto& f) {
            return f.kind == chance.kind && f.figure == chance.figure;
        });
        chance.tight = count.tight;
        chance.unsafe = count.unsafe;
        chance.worst_flight = count.worst_flight;
        chance.influences = influencesOf(count, chance.figure);
        report.chances.push_back(std::move(chance));
    }
    std::stable_sort(report.chances.begin(), report.chances.end(),
                     [](const Chance& a, const Chance& b) {
                         return std::tie(a.unsafe, a.tight) > std::tie(b.unsafe, b.tight);
                     });
    for (std::size_t f = 0; f < std::min(highest_.size(), figures_.size()); ++f) {
        if (is_top_[f]) report.tops.push_back(spreadOf(figures_[f], highest_[f]));
        report.lowest.push_back(spreadOf(figures_[f], lowest_[f]));
    }
    for (const Gate& gate : gates_) {
        if (gate.figure >= figures_.size()) continue;
        const HeightSpread spread = spreadOf(figures_[gate.figure], gate.above);
        report.gates.push_back({.figure = spread.figure,
                                .plan_s = gate.plan_s,
                                .plan_m = spread.plan_m,
                                .low_m = spread.low_m,
                                .middle_m = spread.middle_m,
                                .high_m = spread.high_m,
                                .flights = gate.above.histogram.count(),
                                .below = gate.below,
                                .influences = spread.influences});
    }
    for (std::size_t c = 0; c < cues_.size(); ++c)
        report.cues.push_back(
            {cue_words_[c], cue_plan_s_[c], cues_[c].quantile(0.05), cues_[c].quantile(0.95)});
    return report;
}

}  // namespace plumbline::margins
