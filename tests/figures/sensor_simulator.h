#pragma once
// What sensors carried along a computed path would log, from the sensor equations:
// measured = (I + M)(true + bias) + noise, mean over the sample's interval, clipped at the range.

#include <cstdint>

#include "engine/estimate/streams.h"
#include "engine/path/path.h"

namespace plumbline::figures {

/// Sizes of the errors. Biases and gain errors have these sizes and either sign on each axis.
struct SensorErrors {
    double sample_hz = 200;
    double rate_bias_radps = 0.4 * kPi / 180;
    double rate_gain = 0.005;
    double rate_noise_radps = 0.15 * kPi / 180;  ///< a sample
    double rate_range_radps = 2000 * kPi / 180;
    double force_bias_mps2 = 0.05;
    double force_noise_mps2 = 0.08;  ///< a sample
    double vibration_mps2 = 0.8;     ///< amplitude on each axis
    double vibration_hz = 77;
    double force_range_mps2 = 16 * kGravity_mps2;
    double gnss_hz = 5;
    double gnss_horizontal_m = 1.2, gnss_vertical_m = 2;  ///< white
    double gnss_slow_m = 1.5, gnss_slow_s = 60;           ///< each axis, correlated
    double gnss_velocity_mps = 0.15;
    double gnss_latency_s = 0;
    double steep_rad = 70 * kPi / 180;
    double steep_lost = 0.5;  ///< share of the fixes lost with the nose beyond that
    double airspeed_hz = 0;   ///< of a tube that shows the true airspeed; 0: none
    double airspeed_gain = 0.03, airspeed_noise_mps = 1;
    double height_hz = 25;
    double height_noise_m = 0.4;
    double height_tail_first_m = 3;  ///< static error while the air comes from behind
};

/// A path's sensors in body axes. `fine` has ten samples to each inertial sample.
estimate::Streams simulateSensors(const path::Path& fine, const SensorErrors& errors,
                                  std::uint64_t seed);

}  // namespace plumbline::figures
