#include "engine/margins/margins.h"

#include <algorithm>
#include <atomic>

#include "engine/check/check.h"
#include "engine/margins/look.h"
#include "engine/margins/tally.h"

namespace plumbline::margins {
namespace {

// chosen: a second or less of work, and outcomes of a megabyte
constexpr std::uint64_t kBatch = 128;

struct Once {
    fly::Solution solution;
    path::Path path;
    std::vector<check::Finding> findings;
};

Once flyOnce(const Plan& plan, const Wishes& wishes, const Draw& draw) {
    const Slips slips = slipsOf(plan, draw);
    const load::Workspace& w = plan.workspace;
    Once once;
    once.solution = fly::solve(slips.aircraft, w.site, slips.weather, slips.routine, slips.options);
    once.path = lookAt(once.solution, wishes.rate_hz);
    once.findings = check::checkRoutine(slips.aircraft, w.site, slips.weather, slips.routine,
                                        once.path, once.solution.notes(), w.pilot, w.rules);
    return once;
}

Draw drawOf(const Plan& plan, const Wishes& wishes, std::uint64_t flight) {
    return drawFlight(wishes.seed, flight, plan.workspace.routine.figures.size());
}

Outcome count(const Plan& plan, const Wishes& wishes, std::uint64_t flight) {
    Draw draw = drawOf(plan, wishes, flight);
    const Once once = flyOnce(plan, wishes, draw);
    Outcome outcome = outcomeOf(std::move(draw), once.path, once.findings, plan.gates);
    outcome.flight = flight;
    if (flight < wishes.kept_ways) outcome.way = wayOf(once.path);
    return outcome;
}

}  // namespace

Report fly(const variant::Flown& flown, const Wishes& wishes) {
    const Plan plan = planOf(flown, wishes.tolerance, wishes.rate_hz);
    const load::Workspace& w = plan.workspace;
    Tally tally(plan,
                outcomeOf({}, plan.path,
                          check::checkRoutine(w.aircraft, w.site, w.weather, w.routine, plan.path,
                                              flown.solution.notes(), w.pilot, w.rules),
                          plan.gates));
    std::vector<Outcome> batch;
    for (std::uint64_t done = 0; done < wishes.flights;) {
        const std::uint64_t flights = std::min(kBatch, wishes.flights - done);
        batch.assign(flights, {});
        std::atomic<bool> given_up{false};
        wishes.executor(flights, [&](std::size_t i) {
            if (wishes.give_up && (given_up || wishes.give_up()))
                given_up = true;
            else
                batch[i] = count(plan, wishes, done + i);
        });
        if (given_up) break;
        for (const Outcome& outcome : batch) tally.add(outcome);
        done += flights;
        if (wishes.partial) wishes.partial(tally.report());
        if (wishes.progress && !wishes.progress(done)) break;
    }
    return tally.report();
}

FlownAgain flyAgain(const variant::Flown& flown, const Wishes& wishes, std::uint64_t flight,
                    double rate_hz) {
    const Plan plan = planOf(flown, wishes.tolerance, wishes.rate_hz);
    Once once = flyOnce(plan, wishes, drawOf(plan, wishes, flight));
    return {once.solution.samplePath(rate_hz), std::move(once.findings)};
}

}  // namespace plumbline::margins
