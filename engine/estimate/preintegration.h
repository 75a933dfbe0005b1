#pragma once
// Rates and forces of many samples summed up into one step, with what each calibration number does
// to it. Internal to the layer.
//
// Method: C. Forster et al., "On-Manifold Preintegration for Real-Time Visual-Inertial Odometry",
// IEEE Transactions on Robotics 33 (2017); here with gains, lag and a left-hand rotation error.

#include <Eigen/Core>
#include <Eigen/Geometry>

#include "engine/estimate/settings.h"
#include "engine/estimate/streams.h"

namespace plumbline::estimate {

using Mat3 = Eigen::Matrix3d;
using Vec = Eigen::Vector3d;

inline Vec toEigen(const Vec3& v) { return {v.x, v.y, v.z}; }
inline Vec3 fromEigen(const Vec& v) { return {v.x(), v.y(), v.z()}; }
Mat3 cross(const Vec& v);
Mat3 expMap(const Vec& rotation_vector);
Vec logMap(const Mat3& rotation);
Quat toQuat(const Mat3& rotation);
Mat3 toMatrix(const Quat& q);

/// Calibration numbers of the inertial sensors but the rate's bias.
struct Gains {
    Mat3 rate = Mat3::Zero();  ///< K: omega = (I + K)(measured - bias)
    Vec force_bias = Vec::Zero();
    Vec force = Vec::Zero();
    double lag_s = 0;
};

/// Columns of Step::jacobian.
constexpr int kBias = 0, kRateGain = 3, kForceBias = 12, kForceGain = 15, kLag = 18;
constexpr int kCalibrated = 19;

/// From the sample at its start, in that sample's sensor axes; gravity not in it.
struct Step {
    double duration_s = 0;
    Mat3 rotation = Mat3::Identity();
    Vec velocity = Vec::Zero();
    Vec position = Vec::Zero();
    /// Of rotation (error on the left), velocity and position.
    Eigen::Matrix<double, 9, kCalibrated> jacobian = Eigen::Matrix<double, 9, kCalibrated>::Zero();
    Eigen::Matrix<double, 9, 9> noise = Eigen::Matrix<double, 9, 9>::Zero();
};

/// Noise of each interval beyond the settings'.
struct IntervalNoise {
    std::vector<float> rate;    ///< rad/s, unknown rate over the interval: gaps and clipped samples
    std::vector<float> force;   ///< m/s^2, likewise
    std::vector<float> change;  ///< m/s^2, unknown within a step between samples
    double rate_scale = 1;      ///< of the settings' rate noise
    double force_scale = 1;     ///< of the settings' force noise and of change
};
IntervalNoise intervalNoise(const Inertial& inertial, const Settings& settings);

/// Adds sample intervals one by one.
class Preintegrator {
public:
    Preintegrator(const Inertial& inertial, const IntervalNoise& noise, const Gains& gains,
                  const Settings& settings)
        : inertial_(inertial), noise_(noise), gains_(gains), settings_(settings) {}

    void start(std::size_t sample, const Vec& bias);
    /// Over the interval that starts at the sample reached.
    void advance(bool with_derivatives);
    std::size_t sample() const { return sample_; }
    const Step& step() const { return step_; }
    /// Rate and force at the sample reached, calibrated.
    const Vec& rate() const { return rate_; }
    const Vec& force() const { return force_; }
    void finishNoise();
    /// Of Step::noise what IntervalNoise::force_scale stands for, (m/s)^2.
    double forceNoise2() const { return q_force_; }
    bool unseen() const { return unseen_; }  ///< gaps or clipped samples were in it

private:
    void addNoise(const Vec& force, double dt);
    void load(std::size_t sample, Vec& raw_rate, Vec& raw_force, Vec& rate, Vec& force) const;

    const Inertial& inertial_;
    const IntervalNoise& noise_;
    const Gains& gains_;
    const Settings& settings_;
    std::size_t sample_ = 0;
    Vec bias_ = Vec::Zero();
    Vec raw_rate_, raw_force_, rate_, force_;
    Step step_;
    // noise about isotropic sensors: see preintegration.cc
    double q_rotation_ = 0, q_force_ = 0;
    bool unseen_ = false;
    Vec c_velocity_ = Vec::Zero(), c_position_ = Vec::Zero();
    Mat3 q_velocity_ = Mat3::Zero(), q_pv_ = Mat3::Zero(), q_position_ = Mat3::Zero();
};

}  // namespace plumbline::estimate
