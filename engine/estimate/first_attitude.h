#pragma once
// A rough attitude at every node, with nothing known before. Internal to the layer.

#include <vector>

#include "engine/estimate/preintegration.h"

namespace plumbline::estimate {

/// A direction seen in both frames at a node.
struct DirectionPair {
    Vec in_S = Vec::Zero();
    Vec in_I = Vec::Zero();  ///< in the node's sensor axes
    double weight = 0;       ///< 0: nothing seen
};

/// Attitudes (I to S) that fit the pairs of some seconds to both sides best, carried there by the
/// rates (G. Wahba, SIAM Review 7 (1965) 409, solved by singular values). Where the pairs lie all
/// in one direction the rotation about it is carried over from the neighbour.
/// @param turns    rotation from each node to the next, last one unused
/// @param memory_s how far the pairs count
std::vector<Mat3> firstAttitudes(const std::vector<Mat3>& turns,
                                 const std::vector<DirectionPair>& pairs,
                                 const std::vector<double>& node_time_s, double memory_s);

}  // namespace plumbline::estimate
