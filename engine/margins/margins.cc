#include "engine/margins/margins.h"

#include <algorithm>
#include <atomic>
#include <utility>

#include "engine/check/check.h"
#include "engine/margins/look.h"
#include "engine/margins/tally.h"

namespace plumbline::margins {
namespace {

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

Outcome plannedOutcome(const Plan& plan, const variant::Flown& flown) {
    const load::Workspace& w = plan.workspace;
    return outcomeOf({}, plan.path,
                     check::checkRoutine(w.aircraft, w.site, w.weather, w.routine, plan.path,
                                         flown.solution.notes(), w.pilot, w.rules),
                     plan.gates);
}

}  // namespace

struct Counting::Impl {
    Impl(const variant::Flown& flown, Wishes w)
        : wishes(std::move(w)),
          plan(planOf(flown, wishes.tolerance, wishes.rate_hz)),
          tally(plan, plannedOutcome(plan, flown)) {}

    Wishes wishes;
    Plan plan;
    Tally tally;
    std::uint64_t counted = 0;
    std::vector<Outcome> batch;
};

Counting::Counting(const variant::Flown& flown, Wishes wishes)
    : impl_(std::make_unique<Impl>(flown, std::move(wishes))) {}
Counting::~Counting() = default;

std::uint64_t Counting::counted() const { return impl_->counted; }
bool Counting::done() const { return impl_->counted >= impl_->wishes.flights; }
Report Counting::report() const { return impl_->tally.report(); }

bool Counting::next(std::uint64_t most) {
    Impl& all = *impl_;
    const std::uint64_t flights = std::min(most, all.wishes.flights - all.counted);
    all.batch.assign(flights, {});
    std::atomic<bool> given_up{false};
    all.wishes.executor(flights, [&](std::size_t i) {
        if (all.wishes.give_up && (given_up || all.wishes.give_up()))
            given_up = true;
        else
            all.batch[i] = count(all.plan, all.wishes, all.counted + i);
    });
    if (given_up) return false;
    for (const Outcome& outcome : all.batch) all.tally.add(outcome);
    all.counted += flights;
    return true;
}

Report fly(const variant::Flown& flown, const Wishes& wishes) {
    Counting counting(flown, wishes);
    while (!counting.done() && counting.next(kBatch)) {
        if (wishes.partial) wishes.partial(counting.report());
        if (wishes.progress && !wishes.progress(counting.counted())) break;
    }
    return counting.report();
}

FlownAgain flyAgain(const variant::Flown& flown, const Wishes& wishes, std::uint64_t flight,
                    double rate_hz) {
    const Plan plan = planOf(flown, wishes.tolerance, wishes.rate_hz);
    Once once = flyOnce(plan, wishes, drawOf(plan, wishes, flight));
    return {once.solution.samplePath(rate_hz), std::move(once.findings)};
}

}  // namespace plumbline::margins
