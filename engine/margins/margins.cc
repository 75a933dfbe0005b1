#include "engine/margins/margins.h"

#include <algorithm>

#include "engine/check/check.h"
#include "engine/margins/tally.h"

namespace plumbline::margins {
namespace {

// chosen: a second or less of work, and outcomes of a megabyte
constexpr std::uint64_t kBatch = 128;

Outcome flyOnce(const Plan& plan, const Wishes& wishes, std::uint64_t flight) {
    Draw draw = drawFlight(wishes.seed, flight, plan.workspace.routine.figures.size());
    const Slips slips = slipsOf(plan, draw);
    const load::Workspace& w = plan.workspace;
    const fly::Solution solution =
        fly::solve(slips.aircraft, w.site, slips.weather, slips.routine, slips.options);
    const path::Path path = solution.samplePath(wishes.rate_hz);
    const std::vector<check::Finding> findings =
        check::checkRoutine(slips.aircraft, w.site, slips.weather, slips.routine, path,
                            solution.notes(), w.pilot, w.rules);
    return outcomeOf(std::move(draw), path, findings);
}

}  // namespace

Report fly(const variant::Flown& flown, const Wishes& wishes) {
    const Plan plan = planOf(flown, wishes.tolerance, wishes.rate_hz);
    const load::Workspace& w = plan.workspace;
    Tally tally(plan,
                outcomeOf({}, plan.path,
                          check::checkRoutine(w.aircraft, w.site, w.weather, w.routine, plan.path,
                                              flown.solution.notes(), w.pilot, w.rules)));
    std::vector<Outcome> batch;
    for (std::uint64_t done = 0; done < wishes.flights;) {
        const std::uint64_t count = std::min(kBatch, wishes.flights - done);
        batch.assign(count, {});
        wishes.executor(count, [&](std::size_t i) { batch[i] = flyOnce(plan, wishes, done + i); });
        for (const Outcome& outcome : batch) tally.add(outcome);
        done += count;
        if (wishes.progress && !wishes.progress(done)) break;
    }
    return tally.report();
}

}  // namespace plumbline::margins
