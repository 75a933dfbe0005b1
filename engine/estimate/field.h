#pragma once
// The magnetic field: means at the nodes, and what of it is the earth's. Internal.

#include <functional>
#include <vector>

#include "engine/estimate/preintegration.h"

namespace plumbline::estimate {

void meanFields(const std::vector<FieldSample>& field, const Inertial& inertial, std::size_t nodes,
                const std::function<std::size_t(std::size_t)>& sample_of,
                const std::function<void(std::size_t, const Vec&)>& found);

/// measured = R^T earth_S + offset_I
struct FieldFit {
    Vec earth_S = Vec::Zero();
    Vec offset_I = Vec::Zero();
    double scatter = 0;  ///< robust spread of what is left, one axis
    bool usable = false;
};

/// Robust fit over attitudes; without enough turning about the offset is taken as zero.
FieldFit fitEarthField(const std::vector<Mat3>& attitudes, const std::vector<Vec>& fields);

}  // namespace plumbline::estimate
