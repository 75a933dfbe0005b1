// What each observation and the sensors' own steps add to the equations.

#include <algorithm>
#include <cmath>

#include "engine/estimate/flight_fit.h"

namespace plumbline::estimate {

void FlightFit::addPriors(Chain& chain) const {
    const auto information = [](double sigma) { return 1 / (sigma * sigma); };
    const Node& first = nodes_.front();
    NodeEquations& now = chain.now();
    const auto prior = [&](int at, const Vec& error, double sigma) {
        for (int a = 0; a < 3; ++a) {
            now.h(at + a, at + a) += information(sigma);
            now.right[at + a] += information(sigma) * error[a];
        }
    };
    // chosen: wide enough to say nothing, narrow enough to keep the equations regular
    prior(kTheta, Vec::Zero(), with_fixes_ ? 3 : 1);
    prior(kVelocity, Vec::Zero(), 100);
    prior(kPosition, Vec::Zero(), with_fixes_ ? 1000 : 1);
    prior(kRateBias, start_bias_ - first.bias, settings_.rate_bias_radps);
    prior(kSlow, -first.slow, settings_.gnss_slow_m);
    now.h(kHeight, kHeight) += information(100);
    now.right[kHeight] += information(100) * (first_height_ - first.height);

    SharedSquare& c = chain.shared();
    Shared& right = chain.sharedRight();
    const auto shared = [&](int at, double value, double sigma) {
        c(at, at) += information(sigma);
        right[at] -= information(sigma) * value;
    };
    for (int i = 0; i < 9; ++i)
        shared(kSharedGains + i, gains_.rate(i % 3, i / 3), settings_.rate_gain);
    for (int i = 0; i < 3; ++i) {
        shared(kSharedForceBias + i, gains_.force_bias[i], settings_.force_bias_mps2);
        shared(kSharedForceGain + i, gains_.force[i], settings_.force_gain);
        shared(kSharedAntenna + i, antenna_[i], settings_.antenna_m);
    }
    shared(kSharedLag, gains_.lag_s, settings_.force_lag_s);
    shared(kSharedLatency, latency_s_, settings_.gnss_latency_s);
    for (int i = 0; i < 2; ++i) shared(kSharedWind + i, wind_[i], settings_.wind_mps);
    shared(kSharedAirGain, air_gain_, settings_.airspeed_gain);
    shared(kSharedAirOffset, air_offset_, settings_.airspeed_offset_mps);
}

LocalSquare FlightFit::link(Chain& chain, std::size_t k, const Step& step, StepModel& model) const {
    const Node& a = nodes_[k];
    const Node& b = nodes_[k + 1];
    const double dt = step.duration_s;
    const Mat3& r = a.attitude;
    StepSquare& noise = model.noise;
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < 3; ++j)
            noise.block<3, 3>(3 * i, 3 * j).noalias() =
                r * step.noise.block<3, 3>(3 * i, 3 * j) * r.transpose();
    // Of what flies without fixes the place is unknown and must not hold the velocity.
    constexpr double kAnywhere_m2 = 1e6;
    if (flown_) noise.block<3, 3>(6, 6).diagonal().array() += kAnywhere_m2;
    model.weight = noise.llt().solve(StepSquare::Identity());
    const StepSquare& w = model.weight;

    StepErrors& off = model.off;  // what the nominal misses
    off.segment<3>(0) = logMap(b.attitude * (r * step.rotation).transpose());
    const Vec moved = r * step.velocity, placed = r * step.position;
    off.segment<3>(3) = b.velocity - a.velocity - dt * kGravity_S - moved;
    off.segment<3>(6) =
        b.position - a.position - dt * a.velocity - 0.5 * dt * dt * kGravity_S - placed;

    Eigen::Matrix<double, 9, kCalibrated> turned;
    for (int i = 0; i < 3; ++i)
        turned.middleRows<3>(3 * i).noalias() = r * step.jacobian.middleRows<3>(3 * i);
    auto& phi = model.phi;
    phi.setZero();
    phi.leftCols<9>().setIdentity();
    phi.block<3, 3>(3, kTheta) = -cross(moved);
    phi.block<3, 3>(6, kTheta) = -cross(placed);
    phi.block<3, 3>(6, kVelocity).diagonal().setConstant(dt);
    phi.rightCols<3>() = turned.leftCols<3>();
    auto& gamma = model.gamma;
    gamma = turned.rightCols<16>();

    const Eigen::Matrix<double, 12, 9> phi_w = phi.transpose() * w;
    const Eigen::Matrix<double, 9, 16> w_gamma = w * gamma;
    NodeEquations& now = chain.now();
    NodeEquations& next = chain.next();
    now.h.topLeftCorner<12, 12>().noalias() += phi_w * phi;
    now.b.topLeftCorner<12, 16>().noalias() += phi_w * gamma;
    now.right.head<12>().noalias() += phi_w * off;
    next.h.topLeftCorner<9, 9>() += w;
    next.b.topLeftCorner<9, 16>() -= w_gamma;
    next.right.head<9>().noalias() -= w * off;
    chain.shared().topLeftCorner<16, 16>().noalias() += gamma.transpose() * w_gamma;
    chain.sharedRight().head<16>().noalias() += w_gamma.transpose() * off;

    LocalSquare across = LocalSquare::Zero();
    across.topLeftCorner<12, 9>() = -phi_w;
    // what drifts: bias, slow error of the fixes, height
    const auto drift = [&](int at, double keep, double variance, double missed) {
        const double weight = 1 / variance;
        now.h(at, at) += keep * keep * weight;
        next.h(at, at) += weight;
        across(at, at) -= keep * weight;
        now.right[at] += keep * weight * missed;
        next.right[at] -= weight * missed;
    };
    const double keep = std::exp(-dt / settings_.gnss_slow_s);
    const double walk = settings_.rate_bias_walk * settings_.rate_bias_walk * dt;
    const double slow =
        settings_.gnss_slow_m * settings_.gnss_slow_m * std::max(1 - keep * keep, 1e-6);
    for (int i = 0; i < 3; ++i) {
        drift(kRateBias + i, 1, walk, b.bias[i] - a.bias[i]);
        drift(kSlow + i, keep, slow, b.slow[i] - keep * a.slow[i]);
    }
    drift(kHeight, 1, settings_.height_walk * settings_.height_walk * dt, b.height - a.height);
    return across;
}

void FlightFit::addFix(Chain& chain, std::size_t k, const Preintegrator& at, const GnssFix& fix,
                       double robust_limit) {
    const Node& node = nodes_[k];
    const Step& step = at.step();
    const double rest = fix.time_s - latency_s_ - inertial_.time_s[at.sample()];
    const double t = step.duration_s + rest;
    const Mat3 r = node.attitude * step.rotation * expMap(rest * at.rate());
    const Vec force = r * at.force();
    const Vec moved = node.attitude * step.velocity + rest * force;
    const Vec placed =
        node.attitude * (step.position + rest * step.velocity) + 0.5 * rest * rest * force;
    const Vec velocity = node.velocity + t * kGravity_S + moved;
    const Vec arm = r * antenna_;
    const Vec arm_rate = at.rate().cross(antenna_);
    const Vec position =
        node.position + t * node.velocity + 0.5 * t * t * kGravity_S + placed + node.slow + arm;

    Eigen::Matrix<double, 3, kLocal> jl;
    Eigen::Matrix<double, 3, kShared> jg;
    const auto add = [&](const Vec& residual, Vec sigma, int kind) {
        seen_[kind].push_back(static_cast<float>(residual.cwiseQuotient(sigma).squaredNorm()));
        sigma *= scale_[kind];
        const Vec scaled = residual.cwiseQuotient(sigma);
        const double weight = robustWeight(scaled.squaredNorm(), 3, robust_limit);
        if (weight < 0.1 && kind == 0) rejected_fixes_s_.push_back(fix.time_s);
        const Vec w = weight * sigma.cwiseProduct(sigma).cwiseInverse();
        const Eigen::Matrix<double, kLocal, 3> jlw = jl.transpose() * w.asDiagonal();
        const Eigen::Matrix<double, kShared, 3> jgw = jg.transpose() * w.asDiagonal();
        chain.now().h.noalias() += jlw * jl;
        chain.now().b.noalias() += jlw * jg;
        chain.now().right.noalias() += jlw * residual;
        chain.shared().noalias() += jgw * jg;
        chain.sharedRight().noalias() += jgw * residual;
    };
    const double horizontal =
        fix.horizontal_sigma_m > 0 ? fix.horizontal_sigma_m : settings_.gnss_horizontal_m;
    const double vertical =
        fix.vertical_sigma_m > 0 ? fix.vertical_sigma_m : settings_.gnss_vertical_m;
    const double speed =
        fix.velocity_sigma_mps > 0 ? fix.velocity_sigma_mps : settings_.gnss_velocity_mps;

    jl.setZero();
    jg.setZero();
    jl.middleCols<3>(kTheta) = -cross(placed + arm);
    jl.middleCols<3>(kVelocity) = t * Mat3::Identity();
    jl.middleCols<3>(kPosition).setIdentity();
    jl.middleCols<3>(kSlow).setIdentity();
    jl.middleCols<3>(kRateBias) =
        node.attitude * (step.jacobian.block<3, 3>(6, 0) + rest * step.jacobian.block<3, 3>(3, 0));
    jg.leftCols<16>() = node.attitude * (step.jacobian.block<3, 16>(6, 3) +
                                         rest * step.jacobian.block<3, 16>(3, 3));
    jg.col(kSharedLatency) = -velocity;
    jg.middleCols<3>(kSharedAntenna) = r;
    add(toEigen(fix.position_S_m) - position, Vec(horizontal, horizontal, vertical), 0);
    if (!fix.has_velocity) return;
    // chosen: so unsure that it does not count
    constexpr double kNotTold_mps = 1000;
    jl.setZero();
    jg.setZero();
    jl.middleCols<3>(kTheta) = -cross(moved);
    jl.middleCols<3>(kVelocity).setIdentity();
    jl.middleCols<3>(kRateBias) = node.attitude * step.jacobian.block<3, 3>(3, 0);
    jg.leftCols<16>() = node.attitude * step.jacobian.block<3, 16>(3, 3);
    jg.col(kSharedLatency) = -(force + kGravity_S);
    jg.middleCols<3>(kSharedAntenna) = r * cross(at.rate());
    add(toEigen(fix.velocity_S_mps) - velocity - r * arm_rate,
        Vec(speed, speed, fix.has_vertical_velocity ? speed : kNotTold_mps), 1);
}

void FlightFit::addHeight(Chain& chain, std::size_t k, const Preintegrator& at,
                          const Scalar& height, double robust_limit) {
    const Node& node = nodes_[k];
    const Step& step = at.step();
    const double rest = height.time_s - inertial_.time_s[at.sample()];
    const double t = step.duration_s + rest;
    const Vec placed = node.attitude * (step.position + rest * step.velocity +
                                        0.5 * rest * rest * (step.rotation * at.force()));
    const double z = node.position.z() + t * node.velocity.z() - 0.5 * t * t * kGravity_mps2 +
                     placed.z() + node.height;
    const double residual = height.value - z;
    seen_[2].push_back(
        static_cast<float>(residual * residual / (settings_.height_m * settings_.height_m)));
    const double sigma = scale_[2] * settings_.height_m;
    const double weight = robustWeight(residual * residual / (sigma * sigma), 1, robust_limit);
    if (weight < 0.1) rejected_heights_s_.push_back(height.time_s);
    Local jl = Local::Zero();
    jl[kTheta] = placed.y();
    jl[kTheta + 1] = -placed.x();
    jl[kVelocity + 2] = t;
    jl[kPosition + 2] = 1;
    jl[kHeight] = 1;
    const double w = weight / (sigma * sigma);
    chain.now().h.noalias() += (w * jl) * jl.transpose();
    chain.now().right += w * residual * jl;
}

void FlightFit::addAirspeed(Chain& chain, std::size_t k, double robust_limit) {
    // simplified: one wind for all heights and times of a part; what differs is in airspeed_mps
    const Node& node = nodes_[k];
    const Vec through = node.velocity - wind_;
    const double speed = through.norm();
    if (speed < 1) return;  // no direction to go by yet
    const double residual = node.airspeed - (1 + air_gain_) * speed - air_offset_;
    // Gusts and the tube's place on the aircraft last for seconds: so many samples are one.
    const double variance =
        settings_.airspeed_mps * settings_.airspeed_mps * settings_.airspeed_s / settings_.node_s;
    seen_[3].push_back(static_cast<float>(residual * residual /
                                          (settings_.airspeed_mps * settings_.airspeed_mps)));
    const double scale2 = std::max(1.0, scale_[3] * scale_[3]);
    const double weight = robustWeight(
        residual * residual / (scale2 * settings_.airspeed_mps * settings_.airspeed_mps), 1,
        robust_limit);
    const Vec slope = (1 + air_gain_) / speed * through;
    Local jl = Local::Zero();
    Shared jg = Shared::Zero();
    jl.segment<3>(kVelocity) = slope;
    jg.segment<2>(kSharedWind) = -slope.head<2>();
    jg[kSharedAirGain] = speed;
    jg[kSharedAirOffset] = 1;
    const double w = weight / (scale2 * variance);
    chain.now().h.noalias() += (w * jl) * jl.transpose();
    chain.now().b.noalias() += (w * jl) * jg.transpose();
    chain.now().right += w * residual * jl;
    chain.shared().noalias() += (w * jg) * jg.transpose();
    chain.sharedRight() += w * residual * jg;
}

void FlightFit::addStill(Chain& chain, std::size_t k, double span_s) const {
    const double speed = flown_ ? settings_.flown_velocity_mps : settings_.still_velocity_mps;
    const double memory_s = flown_ ? settings_.flown_velocity_s : settings_.still_velocity_s;
    const double variance = speed * speed * memory_s / std::max(span_s, 1e-3);
    const double place = settings_.still_position_m * settings_.still_position_m *
                         settings_.still_position_s / std::max(span_s, 1e-3);
    for (int a = 0; a < 3; ++a) {
        chain.now().h(kVelocity + a, kVelocity + a) += 1 / variance;
        chain.now().right[kVelocity + a] -= nodes_[k].velocity[a] / variance;
        chain.now().h(kPosition + a, kPosition + a) += 1 / place;
        chain.now().right[kPosition + a] -= nodes_[k].position[a] / place;
    }
}

void FlightFit::addRest(Chain& chain, std::size_t k, const Step& step, double robust_limit) const {
    const double velocity = 1 / (settings_.rest_velocity_mps * settings_.rest_velocity_mps);
    // what the bias leaves of the measured rate would be a turn
    const Vec turn = logMap(step.rotation) / step.duration_s;
    const double variance = settings_.rest_rate_radps * settings_.rest_rate_radps;
    // robust: some recorders take a bias off from some moment on
    const double rate = robustWeight(turn.squaredNorm() / variance, 3, robust_limit) / variance;
    for (int a = 0; a < 3; ++a) {
        chain.now().h(kVelocity + a, kVelocity + a) += velocity;
        chain.now().right[kVelocity + a] -= velocity * nodes_[k].velocity[a];
        chain.now().h(kRateBias + a, kRateBias + a) += rate;
        chain.now().right[kRateBias + a] += rate * turn[a];
    }
}

void FlightFit::addField(Chain& chain, std::size_t k, double robust_limit) {
    Node& node = nodes_[k];
    const Vec seen = node.attitude * (node.field - field_.offset_I);
    const double level = std::hypot(field_.earth_S.x(), field_.earth_S.y());
    const double sigma = settings_.field_share * field_.earth_S.norm();
    const Vec left = seen - field_.earth_S;
    const double span = with_fixes_ ? settings_.node_s : settings_.node_still_s;
    // only its turn about the vertical counts: dip and strength say nothing about tilt that the
    // accelerometer would not say better
    const double across = (field_.earth_S.x() * seen.y() - field_.earth_S.y() * seen.x()) / level;
    node.field_weight = robustWeight(left.squaredNorm() / (sigma * sigma), 3, robust_limit);
    const double w = node.field_weight / (sigma * sigma * settings_.field_s / span);
    chain.now().h(kTheta + 2, kTheta + 2) += w * level * level;
    chain.now().right[kTheta + 2] -= w * level * across;
}

}  // namespace plumbline::estimate
