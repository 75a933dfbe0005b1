#pragma once
// What sensors gave, each stream at its own times, and what the smoother makes of them.
//
// Frames: S has z up (east-north-up of a recording, or any level frame), I is the sensors' own
// right-handed frame, mounted anyhow. All streams count seconds from one zero; times rise strictly.

#include <cstddef>
#include <string>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::estimate {

/// Rates and specific force of one sensor at common times.
struct Inertial {
    std::vector<double> time_s;
    std::vector<Vec3> rate_I_radps;
    std::vector<Vec3> force_I_mps2;  ///< at rest +g upward

    std::size_t size() const { return time_s.size(); }
};

/// A satellite receiver's solution. A sigma of 0: not told, the settings' value counts.
struct GnssFix {
    double time_s = 0;
    Vec3 position_S_m{0};
    Vec3 velocity_S_mps{0};
    bool has_velocity = false;
    bool has_vertical_velocity = true;  ///< of has_velocity
    double horizontal_sigma_m = 0;
    double vertical_sigma_m = 0;
    double velocity_sigma_mps = 0;
};

struct Scalar {
    double time_s = 0;
    double value = 0;
};

struct FieldSample {
    double time_s = 0;
    Vec3 field_I{0};  ///< any unit, the same throughout
};

struct Streams {
    Inertial inertial;
    std::vector<GnssFix> gnss;
    std::vector<Scalar> pressure_height_m;  ///< above any level
    std::vector<FieldSample> field;
    std::vector<Scalar> airspeed_mps;  ///< true
};

/// One moment of the solution: at every inertial sample.
struct State {
    Quat q_SI{1, 0, 0, 0};
    Vec3 position_S_m{0};
    Vec3 velocity_S_mps{0};
    Vec3 rate_I_radps{0};  ///< without bias and gain error
    Vec3 force_I_mps2{0};  ///< without bias and gain error
    // Twice these hold about 95 % of the errors.
    float attitude_sigma_rad = 0;  ///< of the whole rotation
    float tilt_sigma_rad = 0;      ///< of its part about level axes
    float position_sigma_m = 0;    ///< of the distance
};

/// What the sensors were found to do.
struct Calibration {
    Vec3 rate_bias_start_radps{0};
    Vec3 rate_bias_stop_radps{0};
    Vec3 rate_gain{1};  ///< of the diagonal
    Vec3 force_bias_mps2{0};
    Vec3 force_gain{1};
    double force_lag_s = 0;     ///< of the specific force behind the rates
    double gnss_latency_s = 0;  ///< of the fixes behind the inertial clock
    Vec3 antenna_I_m{0};
    double airspeed_gain = 1;  ///< shown by true
    double airspeed_offset_mps = 0;
};

struct Solution {
    std::vector<double> time_s;
    std::vector<State> states;
    Calibration calibration;
    bool has_position = false;  ///< without it position and velocity mean nothing
    bool has_heading = false;   ///< about true north with GNSS, magnetic with a field alone
    double unsolved_s = 0;      ///< of parts in which nothing could be found; they have no states
    std::size_t gnss_rejected = 0;
    std::vector<double> gnss_rejected_s;  ///< their times
    std::vector<double> heights_rejected_s;
    std::size_t heights_rejected = 0;
    bool field_used = false;
    bool airspeed_used = false;
    Vec3 wind_S_mps{0};         ///< where the air goes, of airspeed and fixes; level
    double wind_sigma_mps = 0;  ///< twice this holds about 95 %; 0: no airspeed
};

}  // namespace plumbline::estimate
