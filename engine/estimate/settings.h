#pragma once
// The numbers of the smoother: one set for all recordings.
//
// How they were chosen: sensor noises are those that makers of small inertial sensors print,
// rounded up for what a real mounting adds; the others are the sizes of physical effects (how far a
// person or an aircraft moves, how fast satellite errors change). They were looked at on simulated
// flights and on one recorded flight and three hand-moved trials together, never for one of them
// alone; the age of a sample and what counts as iron at the sensor (field.cc) were settled on the
// hand-moved trials, whose truth shows a delay between the clocks.

namespace plumbline::estimate {

struct Settings {
    // inertial sensors, one standard deviation; the noises are where the search for the recording's
    // own begins (noise_scale.h)
    double rate_noise = 2.5e-4;       ///< rad/sqrt(s): 0.015 deg/sqrt(s)
    double force_noise = 0.03;        ///< m/s/sqrt(s)
    double force_change_share = 0.1;  ///< of a step between samples, unknown within it
    double rate_bias_radps = 0.0175;  ///< 1 deg/s before calibration
    double rate_bias_walk = 3.5e-5;   ///< rad/s/sqrt(s): 0.002 deg/s
    double rate_gain = 0.005;         ///< each of the nine
    double force_bias_mps2 = 0.05;
    double force_gain = 0.003;
    double force_lag_s = 0.002;
    /// A sample is the mean over the interval that ends at its time, as converters with a filter
    /// give it: on average this share of an interval old.
    double sample_age = 0.5;
    double time_s = 0.002;       ///< how surely a sample's moment is known
    double full_rate_radps = 0;  ///< where the sensor clips; 0: found from the data
    // satellite receiver
    double gnss_horizontal_m = 1.2;  ///< white part, where the log does not tell
    double gnss_vertical_m = 2.0;
    double gnss_velocity_mps = 0.2;
    double gnss_slow_m = 1.5;  ///< its slow part
    double gnss_slow_s = 60;
    double gnss_latency_s = 0.2;
    double antenna_m = 0.3;
    // pressure height
    double height_m = 0.6;
    double height_walk = 0.3;  ///< m/sqrt(s): the static error goes with speed and attitude
    // airspeed: gusts, the wind's change with height and what incidence does to the tube
    double airspeed_mps = 2;
    double airspeed_s = 2;
    double airspeed_gain = 0.05;
    double airspeed_offset_mps = 0.5;
    double wind_mps = 10;
    // nothing tells the position: a body that stays about where it is
    double still_velocity_mps = 0.7;
    double still_velocity_s = 1.0;
    double still_position_m = 0.5;
    double still_position_s = 2.0;
    // nothing tells the position of an aircraft: it comes and goes at such speeds, and turns back
    // after such times
    double flown_velocity_mps = 50;
    double flown_velocity_s = 15;
    // at rest
    double rest_velocity_mps = 0.02;
    double rest_rate_radps = 9e-4;  ///< 0.05 deg/s
    // magnetic field: share of its strength
    double field_share = 0.045;
    double field_s = 2;
    double field_offset_share = 0.025;  ///< of iron at the sensor, below what a fit can tell
    double node_s = 0.2;                ///< spacing of unknowns with fixes
    double node_still_s = 0.1;          ///< without
};

}  // namespace plumbline::estimate
