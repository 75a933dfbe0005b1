#include "engine/margins/plan.h"

#include <algorithm>
#include <variant>

#include "engine/margins/look.h"

namespace plumbline::margins {
namespace {

// chosen: steeper than 30 deg down, the ground is what the pilot looks at
constexpr double kSteep = 0.5;

// Of the steep ways down those that the ground ends, from the figure's end backwards.
void findLastDown(const routine::RoutineFigure& figure, std::vector<ElementEnd>& ends) {
    bool more_below = false;
    for (std::size_t i = ends.size(); i-- > 0;) {
        ElementEnd& end = ends[i];
        const double climb_mps = end.velocity_S_mps.z;
        const double steep_mps = kSteep * glm::length(end.velocity_S_mps);
        if (climb_mps > steep_mps) more_below = false;
        if (!(climb_mps < -steep_mps) ||
            !std::holds_alternative<text::Line>(figure.elements[i].body))
            continue;
        end.last_down = !more_below;
        more_below = true;
    }
}

std::vector<std::vector<ElementEnd>> endsOf(const routine::Routine& routine, const path::Path& path,
                                            double raise_m) {
    constexpr double kBack_s = 0.1;  // chosen: within the element, but no single sample
    std::vector<std::vector<ElementEnd>> ends;
    std::size_t at = 0;
    for (const routine::RoutineFigure& figure : routine.figures) {
        std::vector<ElementEnd>& of = ends.emplace_back(figure.elements.size());
        for (std::size_t i = 0; i < of.size(); ++i) {
            if (text::isMark(figure.elements[i].body) || at >= path.elements.size()) continue;
            const path::Element& element = path.elements[at++];
            const double back_s = std::min(kBack_s, 0.5 * (element.stop_s - element.start_s));
            if (!(back_s > 0)) continue;
            const path::Sample end = path::sampleAt(path, element.stop_s - 0.01 * back_s);
            const path::Sample before = path::sampleAt(path, element.stop_s - back_s);
            of[i].height_m = end.position_S_m.z - raise_m;
            of[i].drop_m =
                path::sampleAt(path, element.start_s).position_S_m.z - end.position_S_m.z;
            of[i].velocity_S_mps = end.velocity_S_mps;
            of[i].speed_gain_mps2 = (end.airspeed_mps - before.airspeed_mps) / (0.99 * back_s);
        }
        findLastDown(figure, of);
    }
    return ends;
}

}  // namespace

Plan planOf(const variant::Flown& flown, double tolerance, double rate_hz) {
    Plan plan;
    plan.workspace = flown.workspace;
    plan.raise_m = flown.raised_m;
    plan.tolerance = tolerance;
    routine::Routine& routine = plan.workspace.routine;
    for (const fly::FoundValue& found : flown.solution.found())
        static_cast<void>(routine::setValue(routine.figures[static_cast<std::size_t>(found.figure)],
                                            found.parameter, found.value));
    for (routine::RoutineFigure& figure : routine.figures) figure.aims.clear();
    fly::SolveOptions options{.relative_tolerance = tolerance, .raise_m = plan.raise_m};
    options.before_figure = [&plan](std::size_t, fly::FigureStart& start) {
        plan.starts.push_back(start);
    };
    const fly::Solution solution = fly::solve(plan.workspace.aircraft, plan.workspace.site,
                                              plan.workspace.weather, routine, options);
    plan.path = lookAt(solution, rate_hz);
    constexpr double kFine_hz = 50;
    plan.ends = endsOf(routine, solution.samplePath(kFine_hz), plan.raise_m);
    plan.gates = gateCurvesOf(flown);
    return plan;
}

}  // namespace plumbline::margins
