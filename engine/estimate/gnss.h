#pragma once
// A receiver's fixes: those that can be true, and a rough course through them. Internal.

#include <vector>

#include "engine/estimate/preintegration.h"

namespace plumbline::estimate {

/// Fixes in rising time without jumps that nothing flies: each must be in reach of the ones kept
/// before it or, after a real outage, of the ones that follow.
std::vector<GnssFix> usableFixes(const std::vector<GnssFix>& fixes);

/// Straight lines between fixes; velocity from the fixes or from the positions around.
class GnssCourse {
public:
    explicit GnssCourse(const std::vector<GnssFix>& fixes);

    Vec position(double time_s) const;
    Vec velocity(double time_s) const;
    /// Length of the hole in the fixes about a time; large outside them.
    double gap(double time_s) const;

private:
    std::size_t after(double time_s) const;
    std::vector<double> time_s_;
    std::vector<Vec> position_, velocity_;
    mutable std::size_t at_ = 1;
};

}  // namespace plumbline::estimate
