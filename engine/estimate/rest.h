#pragma once
// Where the sensors lay still. Internal to the layer.

#include <vector>

#include "engine/estimate/preintegration.h"

namespace plumbline::estimate {

struct RestSpans {
    std::vector<char> still;  ///< per inertial sample: half a second to both sides at rest
    Vec bias = Vec::Zero();   ///< mean rate over all of it
    bool any = false;
    bool at(std::size_t sample) const { return still[sample] != 0; }
};

/// @param fixes  when given, rest needs the receiver to be slow too: calm cruise is no rest
RestSpans findRest(const Inertial& inertial, const std::vector<GnssFix>* fixes);

}  // namespace plumbline::estimate
