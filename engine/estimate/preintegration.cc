#include "engine/estimate/preintegration.h"

#include <algorithm>
#include <cmath>

namespace plumbline::estimate {

Mat3 cross(const Vec& v) {
    Mat3 m;
    m << 0, -v.z(), v.y(), v.z(), 0, -v.x(), -v.y(), v.x(), 0;
    return m;
}

Mat3 expMap(const Vec& r) {
    const double a2 = r.squaredNorm();
    double s = 1 - a2 / 6, c = 0.5 - a2 / 24;
    if (a2 > 1e-6) {
        const double a = std::sqrt(a2);
        s = std::sin(a) / a;
        c = (1 - std::cos(a)) / a2;
    } else {
        s += a2 * a2 / 120;
        c += a2 * a2 / 720;
    }
    // I + s [r]x + c [r]x^2, with [r]x^2 = r r^T - a^2 I
    Mat3 m = c * r * r.transpose();
    m.diagonal().array() += 1 - c * a2;
    m(0, 1) -= s * r.z();
    m(0, 2) += s * r.y();
    m(1, 0) += s * r.z();
    m(1, 2) -= s * r.x();
    m(2, 0) -= s * r.y();
    m(2, 1) += s * r.x();
    return m;
}

Quat toQuat(const Mat3& m) {
    return quatFromAxes(fromEigen(m.col(0)), fromEigen(m.col(1)), fromEigen(m.col(2)));
}

Mat3 toMatrix(const Quat& q) {
    Mat3 m;
    m << toEigen(rotate(q, Vec3(1, 0, 0))), toEigen(rotate(q, Vec3(0, 1, 0))),
        toEigen(rotate(q, Vec3(0, 0, 1)));
    return m;
}

Vec logMap(const Mat3& rotation) { return toEigen(vectorFromRotation(toQuat(rotation))); }

namespace {

/// A reading at the far end of its range more than once in a row was clipped; no range ends below
/// `least`.
double clippedAt(const std::vector<Vec3>& values, double least) {
    double most = 0;
    for (const Vec3& v : values)
        for (int a = 0; a < 3; ++a) most = std::max(most, std::abs(v[a]));
    std::size_t runs = 0;
    for (std::size_t i = 1; i < values.size(); ++i)
        for (int a = 0; a < 3; ++a)
            if (std::abs(values[i][a]) > 0.999 * most && values[i][a] == values[i - 1][a]) ++runs;
    // chosen: equal neighbours at the very top of a coarse scale happen once or twice by chance
    return runs >= 3 && most > least ? 0.999 * most : 1e30;
}

}  // namespace

IntervalNoise intervalNoise(const Inertial& inertial, const Settings& settings) {
    // chosen: what an aircraft may do unseen
    constexpr double kUnseenRate_radps = 1.5, kUnseenForce_mps2 = 15;
    constexpr double kClippedRate_radps = 3, kClippedForce_mps2 = 30;
    // the narrowest ranges that small sensors have: 250 deg/s and 2 g, and a little slack
    constexpr double kLeastRange_radps = 4.2, kLeastRange_mps2 = 19;
    const std::size_t n = inertial.size();
    IntervalNoise noise;
    noise.rate.assign(n, 0.0F);
    noise.force.assign(n, 0.0F);
    noise.change.assign(n, 0.0F);
    std::vector<double> steps(n > 1 ? n - 1 : 0);
    for (std::size_t i = 0; i + 1 < n; ++i) steps[i] = inertial.time_s[i + 1] - inertial.time_s[i];
    if (steps.empty()) return noise;
    std::nth_element(steps.begin(), steps.begin() + std::ssize(steps) / 2, steps.end());
    const double usual_s = steps[steps.size() / 2];
    const double rate_top = settings.full_rate_radps > 0
                                ? 0.999 * settings.full_rate_radps
                                : clippedAt(inertial.rate_I_radps, kLeastRange_radps);
    const double force_top = clippedAt(inertial.force_I_mps2, kLeastRange_mps2);
    const auto beyond = [](const Vec3& v, double top) {
        return std::abs(v.x) >= top || std::abs(v.y) >= top || std::abs(v.z) >= top;
    };
    for (std::size_t i = 0; i + 1 < n; ++i) {
        const double dt = inertial.time_s[i + 1] - inertial.time_s[i];
        const Vec3 change = inertial.force_I_mps2[i + 1] - inertial.force_I_mps2[i];
        double rate = 0, force = 0;
        if (dt > 3.5 * usual_s && dt > 0.03) {
            rate = kUnseenRate_radps;
            force = kUnseenForce_mps2;
        }
        if (beyond(inertial.rate_I_radps[i], rate_top) ||
            beyond(inertial.rate_I_radps[i + 1], rate_top))
            rate = std::max(rate, kClippedRate_radps);
        if (beyond(inertial.force_I_mps2[i], force_top) ||
            beyond(inertial.force_I_mps2[i + 1], force_top))
            force = std::max(force, kClippedForce_mps2);
        noise.rate[i] = static_cast<float>(rate);
        noise.force[i] = static_cast<float>(force);
        noise.change[i] = static_cast<float>(settings.force_change_share *
                                             std::sqrt(glm::dot(change, change) / 3));
    }
    return noise;
}

void Preintegrator::load(std::size_t sample, Vec& raw_rate, Vec& raw_force, Vec& rate,
                         Vec& force) const {
    raw_rate = toEigen(inertial_.rate_I_radps[sample]) - bias_;
    rate = raw_rate + gains_.rate * raw_rate;
    raw_force = toEigen(inertial_.force_I_mps2[sample]) - gains_.force_bias;
    force = raw_force + gains_.force.cwiseProduct(raw_force);
    force += gains_.lag_s * rate.cross(force);
}

void Preintegrator::start(std::size_t sample, const Vec& bias) {
    sample_ = sample;
    bias_ = bias;
    step_.duration_s = 0;
    step_.rotation.setIdentity();
    step_.velocity.setZero();
    step_.position.setZero();
    step_.jacobian.setZero();
    step_.noise.setZero();
    q_rotation_ = q_force_ = 0;
    unseen_ = false;
    c_velocity_.setZero();
    c_position_.setZero();
    q_velocity_.setZero();
    q_pv_.setZero();
    q_position_.setZero();
    load(sample, raw_rate_, raw_force_, rate_, force_);
}

void Preintegrator::advance(bool with_derivatives) {
    const double dt = inertial_.time_s[sample_ + 1] - inertial_.time_s[sample_];
    Vec raw_rate, raw_force, rate, force;
    load(sample_ + 1, raw_rate, raw_force, rate, force);
    // Rates are taken as linear between samples; the second term is their coning.
    const Vec turn = 0.5 * dt * (rate_ + rate) + dt * dt / 12 * rate_.cross(rate);
    const Mat3 next = step_.rotation * expMap(turn);
    const Vec a0 = step_.rotation * force_, a1 = next * force;
    const Vec a = 0.5 * (a0 + a1);
    step_.position += dt * step_.velocity + dt * dt / 6 * (2 * a0 + a1);
    step_.velocity += dt * a;

    if (with_derivatives) {
        const Mat3 middle = 0.5 * (step_.rotation + next);
        auto& j = step_.jacobian;
        // position first: it needs the velocity's derivatives at the interval's middle
        const Vec mean_rate = 0.5 * (raw_rate_ + raw_rate);
        const Vec mean_force = 0.5 * (raw_force_ + raw_force);
        const Vec lagged = 0.5 * (rate_.cross(force_) + rate.cross(force));
        Eigen::Matrix<double, 3, kCalibrated> dv = Eigen::Matrix<double, 3, kCalibrated>::Zero();
        // rotation columns: half the interval's own turn acts on its force
        Eigen::Matrix<double, 3, 12> turn_now;
        turn_now.leftCols<3>() = -dt * middle;
        for (int c = 0; c < 3; ++c)
            turn_now.middleCols<3>(3 + 3 * c) = (dt * mean_rate[c]) * middle;  // column (r, c)
        const Eigen::Matrix<double, 3, 12> turned = j.topRows<3>().leftCols<12>() + 0.5 * turn_now;
        for (int c = 0; c < 12; ++c) {
            // -[a]x theta = theta x a
            const double x = turned(0, c), y = turned(1, c), z = turned(2, c);
            dv(0, c) = dt * (y * a.z() - z * a.y());
            dv(1, c) = dt * (z * a.x() - x * a.z());
            dv(2, c) = dt * (x * a.y() - y * a.x());
        }
        dv.middleCols<3>(kForceBias) = -dt * middle;
        for (int c = 0; c < 3; ++c) dv.col(kForceGain + c) = dt * mean_force[c] * middle.col(c);
        dv.col(kLag) = dt * (middle * lagged);
        j.bottomRows<3>() += dt * j.middleRows<3>(3) + (0.5 * dt) * dv;
        j.middleRows<3>(3) += dv;
        j.topRows<3>().leftCols<12>() += turn_now;

        addNoise(a, dt);
    }
    step_.rotation = next;
    step_.duration_s += dt;
    raw_rate_ = raw_rate;
    raw_force_ = raw_force;
    rate_ = rate;
    force_ = force;
    ++sample_;
}

void Preintegrator::addNoise(const Vec& force, double dt) {
    // The step's own linear model, so that the sum stays a covariance: with white errors w of turn
    // and x of velocity in the interval, and A = dt [force]x,
    //   u = -A (theta + w / 2) + x,  theta += w,  v += u,  p += dt v + dt / 2 u.
    // Sensors alike in all axes: the rotation's covariance stays a multiple of I, those of velocity
    // and position against it stay -[c]x, and [a]x [c]x = c a^T - (a.c) I.
    const double rate_extra = noise_.rate[sample_], force_extra = noise_.force[sample_];
    const double rate = noise_.rate_scale * settings_.rate_noise;
    const double force_set = settings_.force_noise, change = noise_.change[sample_];
    const double scaled2 = noise_.force_scale * noise_.force_scale * dt *
                           (force_set * force_set + change * change * dt);
    const double w2 = dt * (rate * rate + rate_extra * rate_extra * dt);
    const double x2 = scaled2 + force_extra * force_extra * dt * dt;
    q_force_ += scaled2;
    unseen_ = unseen_ || rate_extra > 0 || force_extra > 0;
    const Vec a = dt * force;
    const auto against = [&a](const Vec& c) {
        Mat3 m = -c * a.transpose();
        m.diagonal().array() += a.dot(c);
        return m;
    };
    const Mat3 uv = against(c_velocity_), up = against(c_position_);
    Mat3 uu = -(q_rotation_ + w2 / 4) * a * a.transpose();
    uu.diagonal().array() += (q_rotation_ + w2 / 4) * a.squaredNorm() + x2;
    q_position_ += dt * (q_pv_ + q_pv_.transpose()) + dt * dt * q_velocity_ +
                   dt / 2 * (up + up.transpose()) + dt * dt / 2 * (uv + uv.transpose()) +
                   dt * dt / 4 * uu;
    q_pv_ += dt * q_velocity_ + dt / 2 * uv + up.transpose() + dt * uv.transpose() + dt / 2 * uu;
    q_velocity_ += uv + uv.transpose() + uu;
    const Vec turned = (q_rotation_ + w2 / 2) * a;
    c_position_ += dt * c_velocity_ + dt / 2 * turned;
    c_velocity_ += turned;
    q_rotation_ += w2;
}

void Preintegrator::finishNoise() {
    // chosen: a floor that keeps the weights' range small; a tenth of a millimetre, a tenth of a
    // millimetre a second and a thousandth of a degree a step are below every sensor.
    constexpr double kFloorRotation = 1e-10, kFloorVelocity = 1e-8, kFloorPosition = 1e-7;
    auto& n = step_.noise;
    n.setZero();
    n.block<3, 3>(0, 0).diagonal().setConstant(q_rotation_ + kFloorRotation);
    n.block<3, 3>(3, 0) = -cross(c_velocity_);
    n.block<3, 3>(6, 0) = -cross(c_position_);
    n.block<3, 3>(3, 3) = q_velocity_;
    n.block<3, 3>(3, 3).diagonal().array() += kFloorVelocity;
    n.block<3, 3>(6, 3) = q_pv_;
    n.block<3, 3>(6, 6) = q_position_;
    n.block<3, 3>(6, 6).diagonal().array() += kFloorPosition;
    n.block<3, 3>(0, 3) = n.block<3, 3>(3, 0).transpose();
    n.block<3, 3>(0, 6) = n.block<3, 3>(6, 0).transpose();
    n.block<3, 3>(3, 6) = n.block<3, 3>(6, 3).transpose();
}

}  // namespace plumbline::estimate
