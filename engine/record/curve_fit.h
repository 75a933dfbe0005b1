#pragma once
// Velocity and acceleration from places, or from velocities, by local least squares.

#include <vector>

#include "engine/path/path.h"

namespace plumbline::record {

double medianStep(const std::vector<path::Sample>& samples);

/// At each sample, in site axes.
struct Accelerations {
    std::vector<Vec3> value_S_mps2;
    std::vector<double> sigma_mps2;  ///< one standard deviation of a component
};

/// Fills velocity_S_mps of the samples from their places: a cubic over five fixes or 0.4 s to
/// either side, whichever is more, never across a gap.
void differentiate(std::vector<path::Sample>& samples, Accelerations* accelerations);

/// The same of samples that bring their velocities: their places stay out of it.
Accelerations accelerationsOf(const std::vector<path::Sample>& samples);

}  // namespace plumbline::record
