#include "engine/variant/variant.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "engine/routine/variant.h"
#include "engine/units/units.h"

namespace plumbline::variant {

namespace {

// chosen: what the integration of a level line at the ceiling may wander.
constexpr double kCeilingTolerance_m = 1e-3;

/// The highest or lowest point of a path.
struct Extreme {
    double height_m = 0;
    std::string figure;
};
struct Extremes {
    Extreme highest, lowest;
};

/// Samples of 20 a second and the joints, and between them where climb turns into descent or back.
Extremes extremesOf(const fly::Solution& solution) {
    constexpr double kRate_hz = 20;
    const path::Path path = solution.samplePath(kRate_hz);
    Extremes found;
    if (path.samples.empty()) return found;
    std::vector<double> level_s;
    for (std::size_t i = 1; i < path.samples.size(); ++i) {
        const path::Sample& a = path.samples[i - 1];
        const path::Sample& b = path.samples[i];
        const double before = a.velocity_S_mps.z, after = b.velocity_S_mps.z;
        if (before * after >= 0) continue;
        level_s.push_back(a.time_s + (b.time_s - a.time_s) * before / (before - after));
    }
    std::vector<path::Sample> samples = solution.sampleTimes(level_s);
    samples.insert(samples.end(), path.samples.begin(), path.samples.end());
    const auto at = [&path](const path::Sample& sample) {
        Extreme extreme{sample.position_S_m.z, ""};
        if (sample.element < 0 || sample.element >= std::ssize(path.elements)) return extreme;
        const std::int32_t figure = path.elements[static_cast<std::size_t>(sample.element)].figure;
        if (figure >= 0 && figure < std::ssize(path.figures))
            extreme.figure = path.figures[static_cast<std::size_t>(figure)].name;
        return extreme;
    };
    const auto [low, high] = std::minmax_element(samples.begin(), samples.end(),
                                                 [](const path::Sample& a, const path::Sample& b) {
                                                     return a.position_S_m.z < b.position_S_m.z;
                                                 });
    return {at(*high), at(*low)};
}

/// Never less than it is: a top that is just above the ceiling must not read as the ceiling.
std::string topText(double height_m, units::DisplayUnits units) {
    const double unit_m = units == units::DisplayUnits::Feet ? units::kFoot_m : 1;
    return units::formatHeight(std::ceil(height_m / unit_m) * unit_m, units);
}

std::string listed(const std::vector<std::string>& names) {
    std::string list;
    for (const std::string& name : names) list += (list.empty() ? "" : ", ") + name;
    return list;
}

/// A show of the routine, or the whole of it.
struct Candidate {
    std::string show;  ///< empty: the whole
    routine::SelectedShow selected;
};

Problem atOption(Problem problem, const char* option) {
    problem.where.file = option;
    return problem;
}

/// What may be flown, from the fullest to the least.
Expected<std::vector<Candidate>, Problem> candidatesFor(const routine::Routine& routine,
                                                        const Wish& wish) {
    std::vector<Candidate> candidates;
    if (wish.show) {
        auto selected = routine::selectShow(routine, *wish.show);
        if (!selected) return Unexpected(atOption(std::move(selected).error(), "--show"));
        candidates.push_back({*wish.show, std::move(selected).value()});
        return candidates;
    }
    if (!wish.ceiling_m || routine.shows.empty()) {
        Candidate whole;
        whole.selected.routine = routine;
        candidates.push_back(std::move(whole));
        return candidates;
    }
    for (const routine::Show& show : routine.shows) {
        auto selected = routine::selectShow(routine, show.name);
        if (!selected) return Unexpected(atOption(std::move(selected).error(), "--ceiling"));
        candidates.push_back({show.name, std::move(selected).value()});
    }
    return candidates;
}

/// A candidate in the air.
struct Flight {
    fly::Solution solution;
    Extremes extremes;
    double raised_m = 0;
};

/// Flies routines with one workspace's aircraft, site and weather.
class Flights {
public:
    Flights(const load::Workspace& workspace, const fly::SolveOptions& options)
        : workspace_(workspace), options_(options) {}

    Flight fly(const routine::Routine& routine, double raise_m, bool needs_extremes) const {
        fly::SolveOptions options = options_;
        options.raise_m += raise_m;
        Flight flight;
        flight.solution =
            fly::solve(workspace_.aircraft, workspace_.site, workspace_.weather, routine, options);
        flight.raised_m = raise_m;
        if (needs_extremes) flight.extremes = extremesOf(flight.solution);
        return flight;
    }

    /// Raised until its lowest point is at the floor or at most the tolerance above; as it is when
    /// that is higher anyway. Thinner air changes the shapes a little, so it takes some flights.
    Flight raisedTo(const routine::Routine& routine, double floor_m) const {
        constexpr int kMostFlights = 8;  // chosen: two or three do where the path changes smoothly
        const double aim_m = floor_m + kFloorTolerance_m / 2;
        Flight before = fly(routine, 0, true);
        if (before.extremes.lowest.height_m >= floor_m || before.solution.duration_s() == 0)
            return before;
        double slope = 1;  // of the lowest point over the raise
        Flight best = before;
        for (int i = 1; i < kMostFlights; ++i) {
            const double step_m = (aim_m - before.extremes.lowest.height_m) / slope;
            Flight now = fly(routine, std::max(0.0, before.raised_m + step_m), true);
            const double missed_m = std::abs(now.extremes.lowest.height_m - aim_m);
            if (missed_m < std::abs(best.extremes.lowest.height_m - aim_m)) best = now;
            if (missed_m <= kFloorTolerance_m / 2) break;
            const double change_m = now.raised_m - before.raised_m;
            if (change_m != 0) {
                // The lowest point rises about as much as the routine; another slope is a jump.
                slope = std::clamp(
                    (now.extremes.lowest.height_m - before.extremes.lowest.height_m) / change_m,
                    0.5, 2.0);
            }
            before = std::move(now);
        }
        return best;
    }

private:
    const load::Workspace& workspace_;
    const fly::SolveOptions& options_;
};

void remarkOnFloor(const Flight& flight, const Wish& wish, std::vector<std::string>& remarks) {
    const std::string lowest = units::formatHeight(flight.extremes.lowest.height_m, wish.units) +
                               " (" + flight.extremes.lowest.figure + ")";
    if (flight.raised_m == 0) {
        remarks.push_back("not raised: its lowest point is at " + lowest + " anyway");
        return;
    }
    std::string remark = "raised " + units::formatHeight(flight.raised_m, wish.units) +
                         " and flown in the air there: its lowest point is at " + lowest;
    if (std::abs(flight.extremes.lowest.height_m - *wish.floor_m) > kFloorTolerance_m)
        remark += ", as near to the floor as was found";
    remarks.push_back(std::move(remark));
}

void remarkOnShow(const Candidate& candidate, std::vector<std::string>& remarks) {
    const routine::SelectedShow& selected = candidate.selected;
    if (!selected.left_out.empty())
        remarks.push_back("show " + candidate.show + " leaves out " + listed(selected.left_out));
    for (const auto& [figure, by] : selected.replaced)
        remarks.push_back("show " + candidate.show + " flies " + by + " in place of " + figure);
    if (!selected.aims_left_out.empty())
        remarks.push_back("aims at figures that are left out are not sought: in " +
                          listed(selected.aims_left_out));
}

std::string nameOf(const Candidate& candidate) {
    return candidate.show.empty() ? "the whole routine" : "show " + candidate.show;
}

std::string reachWords(const Extreme& highest, const Wish& wish) {
    return highest.figure + " reaches " + topText(highest.height_m, wish.units);
}

Problem nothingFits(const Candidate& nearest, const Flight& flight, std::size_t tried,
                    const Wish& wish) {
    const std::string ceiling = units::formatHeight(*wish.ceiling_m, wish.units);
    Problem problem;
    problem.where.file = "--ceiling";
    problem.what = tried == 1
                       ? nameOf(nearest) + " does not stay below " + ceiling
                       : "no show stays below " + ceiling + ", the nearest is " + nearest.show;
    problem.what += ": " + reachWords(flight.extremes.highest, wish);
    problem.remedy =
        "give a higher ceiling, or the routine file a lower [[show]] with other figures";
    return problem;
}

std::string labelOf(const Candidate& candidate, const Flight& flight, const Wish& wish) {
    std::vector<std::string> parts;
    if (wish.mirror) parts.emplace_back("mirrored");
    if (flight.raised_m > 0)
        parts.push_back("raised " + units::formatHeight(flight.raised_m, wish.units));
    if (!candidate.show.empty()) parts.push_back("show: " + candidate.show);
    return listed(parts);
}

}  // namespace

Expected<Flown, Problems> fly(load::Workspace workspace, const Wish& wish,
                              const fly::SolveOptions& options) {
    auto candidates = candidatesFor(workspace.routine, wish);
    if (!candidates) return Unexpected(Problems(1, std::move(candidates).error()));
    const Flights flights(workspace, options);
    std::vector<std::string> too_high;
    std::optional<std::pair<std::size_t, Flight>> nearest;
    for (std::size_t i = 0; i < candidates->size(); ++i) {
        Candidate& candidate = (*candidates)[i];
        routine::Routine& routine = candidate.selected.routine;
        if (wish.mirror) routine = routine::mirrored(std::move(routine));
        Flight flight = wish.floor_m ? flights.raisedTo(routine, *wish.floor_m)
                                     : flights.fly(routine, 0, wish.ceiling_m.has_value());
        const Extreme& highest = flight.extremes.highest;
        if (wish.ceiling_m && highest.height_m > *wish.ceiling_m + kCeilingTolerance_m) {
            too_high.push_back(nameOf(candidate) + " is too high: " + reachWords(highest, wish));
            if (!nearest || highest.height_m < nearest->second.extremes.highest.height_m)
                nearest.emplace(i, std::move(flight));
            continue;
        }
        Flown flown;
        flown.remarks = std::move(too_high);
        if (wish.ceiling_m)
            flown.remarks.push_back(nameOf(candidate) + " stays below " +
                                    units::formatHeight(*wish.ceiling_m, wish.units) + ": " +
                                    reachWords(highest, wish));
        for (const std::string& name : workspace.outside)
            flown.remarks.push_back("reads " + name + ", which is outside its folder");
        remarkOnShow(candidate, flown.remarks);
        if (wish.mirror)
            flown.remarks.push_back("mirrored: cues, narration and names stay as written");
        if (wish.floor_m) remarkOnFloor(flight, wish, flown.remarks);
        flown.label = labelOf(candidate, flight, wish);
        flown.raised_m = flight.raised_m;
        flown.solution = std::move(flight.solution);
        workspace.routine = std::move(routine);
        flown.workspace = std::move(workspace);
        return flown;
    }
    return Unexpected(Problems(
        1, nothingFits((*candidates)[nearest->first], nearest->second, candidates->size(), wish)));
}

}  // namespace plumbline::variant
