#include "viewer/model/beside_frames.h"

#include <algorithm>
#include <thread>

#include "viewer/model/document.h"

namespace plumbline::model {

variant::Flown flownOf(const Shown& shown) {
    variant::Flown flown;
    flown.workspace = *shown.workspace;
    flown.solution = shown.solution;
    flown.label = shown.variant;
    flown.raised_m = shown.raised_m;
    return flown;
}

units::DisplayUnits displayUnits(UnitChoice choice) {
    return choice == UnitChoice::Metric ? units::DisplayUnits::Metric
           : choice == UnitChoice::Feet ? units::DisplayUnits::Feet
                                        : units::DisplayUnits::Aviation;
}

system::Executor halfTheCores() {
    return system::parallel(std::max(std::thread::hardware_concurrency() / 2, 1U));
}

}  // namespace plumbline::model
