#pragma once
// What a Solution holds: the flight with its dense output, and enough to take the flight up again
// before any figure.

#include <memory>
#include <vector>

#include "engine/fly/flight.h"
#include "engine/fly/solve.h"

namespace plumbline::fly {

/// Where everything stood between two figures.
struct Checkpoint {
    Flight::Mark flight;
    std::size_t elements = 0, cues = 0, smoke = 0, found = 0;
    bool smoke_on = false;
    double smoke_from_s = 0;
};

struct Solution::Impl {
    std::shared_ptr<const World> world;
    SolveOptions options;
    Flight flight;
    path::Path frame;  ///< everything of the path but its samples
    double fuel_at_start_kg = 0, mass_at_start_kg = 0;
    double duration_s = 0;
    double same_until_s = 0;  ///< taken over from another solution
    std::vector<FoundValue> found;

    routine::Start start;
    std::vector<routine::RoutineFigure> figures;  ///< as written
    /// Before each figure flown, and behind the last.
    std::vector<Checkpoint> checkpoints;

    Impl(std::shared_ptr<const World> w, const SolveOptions& o)
        : world(std::move(w)), options(o), flight(*world, o) {}
};

}  // namespace plumbline::fly
