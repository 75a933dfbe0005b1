#include "engine/estimate/flight_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/estimate/first_attitude.h"
#include "engine/estimate/gnss.h"
#include "engine/estimate/rest.h"

namespace plumbline::estimate {

namespace {

// Of the root of the summed variances: what makes two of it hold 95 % of errors that are alike in
// two or three directions (chi-square quantiles 5.991 and 7.815: sqrt(q / (4 n))).
constexpr double kLevelCover = 0.8654, kSpaceCover = 0.8070;

Inertial withoutAge(Inertial inertial, const Settings& settings, double& age_s) {
    std::vector<double> steps;
    for (std::size_t i = 1; i < inertial.size(); ++i)
        steps.push_back(inertial.time_s[i] - inertial.time_s[i - 1]);
    const auto middle = steps.begin() + std::ssize(steps) / 2;
    std::nth_element(steps.begin(), middle, steps.end());
    age_s = settings.sample_age * *middle;
    for (double& t : inertial.time_s) t -= age_s;
    return inertial;
}

// chosen: weights may tighten when the nominal moves less than what the linear picture bears
constexpr int kStages = 4;
// chosen: so many steps tell the noise, and more cost time
constexpr std::size_t kWeighedSteps = 1000;
constexpr double kNear_rad = 0.2;
// chosen: the pass after this one is far nearer, a tenth of what recordings are sure of at best
constexpr double kSettled_rad = 1e-3;

/// Loads that last for seconds: no hand holds a box so, an aircraft in a turn or a pull does.
bool feltFlight(const Inertial& inertial) {
    // chosen: a quarter more than gravity on average over two seconds, for ten seconds in all
    constexpr double kLoad = 1.25 * kGravity_mps2, kMean_s = 2, kTotal_s = 10;
    const auto& t = inertial.time_s;
    Vec3 sum(0);
    double loaded_s = 0;
    std::size_t from = 0;
    for (std::size_t i = 0; i < t.size(); ++i) {
        sum += inertial.force_I_mps2[i];
        while (t[i] - t[from] > kMean_s) sum -= inertial.force_I_mps2[from++];
        const double mean = glm::length(sum) / static_cast<double>(i - from + 1);
        // a hole is no load
        if (i > 0 && mean > kLoad) loaded_s += std::min(t[i] - t[i - 1], 0.1);
    }
    return loaded_s > kTotal_s;
}

}  // namespace

FlightFit::FlightFit(const Streams& streams, const Settings& settings)
    : streams_(streams),
      settings_(settings),
      inertial_(withoutAge(streams.inertial, settings, age_s_)),
      fixes_(usableFixes(streams.gnss)),
      noise_(intervalNoise(inertial_, settings)) {
    with_fixes_ = fixes_.size() >= 5;  // chosen: fewer cannot tell an attitude
    flown_ = !with_fixes_ && feltFlight(inertial_);
}

void FlightFit::placeNodes() {
    const double span_s = with_fixes_ ? settings_.node_s : settings_.node_still_s;
    const auto& t = inertial_.time_s;
    double next_s = t.front();
    for (std::size_t i = 0; i < t.size(); ++i) {
        if (t[i] < next_s && i + 1 < t.size()) continue;
        Node node;
        node.sample = i;
        nodes_.push_back(node);
        next_s = std::max(next_s + span_s, t[i] + 0.5 * span_s);
    }
}

void FlightFit::startValues() {
    const std::size_t n = nodes_.size();
    const RestSpans rest = findRest(inertial_, with_fixes_ ? &fixes_ : nullptr);
    start_bias_ = rest.bias;
    for (Node& node : nodes_) {
        node.bias = rest.bias;
        node.rest = rest.at(node.sample);
    }
    meanFields(
        streams_.field, inertial_, nodes_.size(), [&](std::size_t k) { return nodes_[k].sample; },
        [&](std::size_t k, const Vec& mean) {
            nodes_[k].field = mean;
            nodes_[k].has_field = true;
        });
    if (with_fixes_) meanAirspeeds();
    std::vector<double> times(n);
    for (std::size_t k = 0; k < n; ++k) times[k] = inertial_.time_s[nodes_[k].sample];
    const GnssCourse course(fixes_);
    for (std::size_t k = 0; k < n && with_fixes_; ++k) {
        nodes_[k].position = course.position(times[k]);
        nodes_[k].velocity = course.velocity(times[k]);
    }
    // chosen: without fixes a hand's accelerations even out in a few seconds. With them the rates'
    // bias, not yet known, sets how far directions may be carried: it is told on the way.
    if (with_fixes_) {
        for (const double memory_s : {4, 8})
            if (!rest.any) guessBias(guessAttitudes(course, times, memory_s));
        guessAttitudes(course, times, 15);
    } else {
        guessAttitudes(course, times, flown_ ? 20 : 3);  // chosen: as long as accelerations last
    }
    if (!streams_.pressure_height_m.empty())
        first_height_ =
            streams_.pressure_height_m.front().value -
            (with_fixes_ ? course.position(streams_.pressure_height_m.front().time_s).z() : 0);
    for (Node& node : nodes_) node.height = first_height_;
}

void FlightFit::meanAirspeeds() {
    // chosen: a tube in a slower stream tells little, and on the ground nothing
    constexpr double kSlowest_mps = 12, kHalf_s = 0.1;
    const std::vector<Scalar>& air = streams_.airspeed_mps;
    std::size_t at = 0, used = 0;
    for (Node& node : nodes_) {
        const double t = inertial_.time_s[node.sample];
        while (at < air.size() && air[at].time_s < t - kHalf_s) ++at;
        double sum = 0, count = 0;
        for (std::size_t i = at; i < air.size() && air[i].time_s <= t + kHalf_s; ++i) {
            sum += air[i].value;
            count += 1;
        }
        if (count == 0 || !(sum / count > kSlowest_mps)) continue;
        node.airspeed = sum / count;
        ++used;
    }
    airspeed_on_ = used > 50;  // chosen: ten seconds of flight
}

std::vector<Mat3> FlightFit::guessAttitudes(const GnssCourse& course,
                                            const std::vector<double>& times, double memory_s) {
    const std::size_t n = nodes_.size();
    std::vector<Mat3> turns(n, Mat3::Identity());
    std::vector<DirectionPair> pairs(n);
    Preintegrator sum(inertial_, noise_, gains_, settings_);
    for (std::size_t k = 0; k + 1 < n; ++k) {
        sum.start(nodes_[k].sample, nodes_[k].bias);
        while (sum.sample() < nodes_[k + 1].sample) sum.advance(false);
        const Step& step = sum.step();
        turns[k] = step.rotation;
        pairs[k].in_I = step.velocity / step.duration_s;
        pairs[k].in_S = -kGravity_S;
        pairs[k].weight = step.duration_s;
        if (!with_fixes_) continue;
        if (course.gap(times[k]) > 3) pairs[k].weight = 0;  // chosen: a straight line hides turns
        pairs[k].in_S +=
            (course.velocity(times[k + 1]) - course.velocity(times[k])) / step.duration_s;
    }
    const std::vector<Mat3> attitudes = firstAttitudes(turns, pairs, times, memory_s);
    for (std::size_t k = 0; k < n; ++k) nodes_[k].attitude = attitudes[k];
    return turns;
}

void FlightFit::guessBias(const std::vector<Mat3>& turns) {
    // What the rates turn too far over some seconds, in the middle of all such spans.
    constexpr std::size_t kSpan = 20;
    std::vector<double> off[3];
    for (std::size_t k = 0; k + kSpan < nodes_.size(); k += kSpan / 2) {
        Mat3 turn = Mat3::Identity();
        for (std::size_t i = k; i < k + kSpan; ++i) turn = (turn * turns[i]).eval();
        const double dt =
            inertial_.time_s[nodes_[k + kSpan].sample] - inertial_.time_s[nodes_[k].sample];
        const Mat3 seen = nodes_[k].attitude.transpose() * nodes_[k + kSpan].attitude;
        const Vec rate = logMap(seen.transpose() * turn) / dt;
        for (int a = 0; a < 3; ++a) off[a].push_back(rate[a]);
    }
    if (off[0].size() < 10) return;
    for (int a = 0; a < 3; ++a) {
        const auto middle = off[a].begin() + std::ssize(off[a]) / 2;
        std::nth_element(off[a].begin(), middle, off[a].end());
        start_bias_[a] += *middle;
    }
    for (Node& node : nodes_) node.bias = start_bias_;
}

bool FlightFit::pass(int stage, bool last) {
    // Weights tighten as the nominal comes near; at first nothing may be thrown out.
    const double limits[kStages] = {1e6, 30, 8, 4};
    const double limit = limits[std::min(stage, kStages - 1)];
    const std::size_t n = nodes_.size();
    // An aircraft without fixes: what is taken for granted of its speed leaves no room for a scale.
    const bool weighs = !flown_ && stage >= 2 && !last;
    Chain chain(n, last || weighs);
    StepModel model;
    const std::size_t every = std::max<std::size_t>(1, n / kWeighedSteps);
    addPriors(chain);
    next_fix_ = next_height_ = 0;
    for (auto& seen : seen_) seen.clear();
    rejected_fixes_s_.clear();
    rejected_heights_s_.clear();
    const auto& heights = streams_.pressure_height_m;
    const auto& t = inertial_.time_s;
    Preintegrator sum(inertial_, noise_, gains_, settings_);
    for (std::size_t k = 0; k + 1 < n; ++k) {
        sum.start(nodes_[k].sample, nodes_[k].bias);
        while (sum.sample() < nodes_[k + 1].sample) {
            const double until = t[sum.sample() + 1];
            while (with_fixes_ && next_fix_ < fixes_.size() &&
                   fixes_[next_fix_].time_s - latency_s_ < until) {
                if (fixes_[next_fix_].time_s - latency_s_ >= t[sum.sample()])
                    addFix(chain, k, sum, fixes_[next_fix_], limit);
                ++next_fix_;
            }
            while (with_fixes_ && next_height_ < heights.size() &&
                   heights[next_height_].time_s < until) {
                if (heights[next_height_].time_s >= t[sum.sample()])
                    addHeight(chain, k, sum, heights[next_height_], limit);
                ++next_height_;
            }
            sum.advance(true);
        }
        sum.finishNoise();
        if (!with_fixes_) addStill(chain, k, sum.step().duration_s);
        if (nodes_[k].rest) addRest(chain, k, sum.step(), limit);
        if (field_on_ && nodes_[k].has_field) addField(chain, k, limit);
        if (airspeed_on_ && nodes_[k].airspeed > 0) addAirspeed(chain, k, limit);
        if (!chain.eliminate(link(chain, k, sum.step(), model))) return false;
        if (!weighs || k % every != 0 || sum.unseen()) continue;
        model.duration_s = sum.step().duration_s;
        model.force_noise2 = sum.forceNoise2();
        noise_scale_.add(k, model);
    }
    if (!with_fixes_) addStill(chain, n - 1, settings_.node_still_s);
    const auto weigh = [&](std::size_t k, const Pair& pair) { noise_scale_.weigh(chain, k, pair); };
    if (!chain.solve(weighs ? Chain::Visit(weigh) : Chain::Visit())) return false;
    if (weighs) {
        noise_scale_.settle(static_cast<double>(every));
        noise_.rate_scale = noise_scale_.rate();
        // without fixes forces cannot be told from a body that does not stay where it is
        if (with_fixes_) noise_.force_scale = noise_scale_.force();
    }
    largest_ = apply(chain);
    if (stage >= 2) rescale();
    if (last) {
        const SharedSquare& shared = chain.sharedCovariance();
        wind_sigma_ = kLevelCover * std::sqrt(shared(kSharedWind, kSharedWind) +
                                              shared(kSharedWind + 1, kSharedWind + 1));
        errors_.resize(n);
        for (std::size_t k = 0; k < n; ++k) {
            const auto& p = chain.covariance(k);
            errors_[k].heading = static_cast<float>(std::sqrt(p(2, 2)));
            errors_[k].tilt = static_cast<float>(kLevelCover * std::sqrt(p(0, 0) + p(1, 1)));
            errors_[k].position =
                static_cast<float>(kSpaceCover * std::sqrt(p(6, 6) + p(7, 7) + p(8, 8)));
        }
    }
    return std::isfinite(largest_);
}

void FlightFit::rescale() {
    // medians of the chi-square distribution of three and one degrees of freedom
    const double medians[4] = {2.366, 2.366, 0.4549, 0.4549};
    for (int kind = 0; kind < 4; ++kind) {
        std::vector<float>& d2 = seen_[kind];
        if (d2.size() < 50) continue;
        const auto middle = d2.begin() + std::ssize(d2) / 2;
        std::nth_element(d2.begin(), middle, d2.end());
        // chosen: a receiver may be twice as good or five times as bad as the settings say
        scale_[kind] =
            std::clamp(std::sqrt(static_cast<double>(*middle) / medians[kind]), 0.5, 5.0);
    }
}

double FlightFit::apply(const Chain& chain) {
    double largest = 0, all = chain.sharedSolution().squaredNorm();
    for (std::size_t k = 0; k < nodes_.size(); ++k) {
        largest = std::max(largest, chain.at(k).head<3>().norm());
        all += chain.at(k).squaredNorm();
    }
    // a maximum would pass over what is no number
    if (!std::isfinite(all)) return std::numeric_limits<double>::quiet_NaN();
    // chosen: beyond this the linear picture of a turn is no guide
    const double share = largest > 0.7 ? 0.7 / largest : 1;
    for (std::size_t k = 0; k < nodes_.size(); ++k) {
        Node& node = nodes_[k];
        const Local x = share * chain.at(k);
        node.attitude = (expMap(x.segment<3>(kTheta)) * node.attitude).eval();
        node.velocity += x.segment<3>(kVelocity);
        node.position += x.segment<3>(kPosition);
        node.bias += x.segment<3>(kRateBias);
        node.slow += x.segment<3>(kSlow);
        node.height += x[kHeight];
    }
    const Shared g = share * chain.sharedSolution();
    for (int i = 0; i < 9; ++i) gains_.rate(i % 3, i / 3) += g[kSharedGains + i];
    gains_.force_bias += g.segment<3>(kSharedForceBias);
    gains_.force += g.segment<3>(kSharedForceGain);
    gains_.lag_s += g[kSharedLag];
    latency_s_ += g[kSharedLatency];
    antenna_ += g.segment<3>(kSharedAntenna);
    wind_.head<2>() += g.segment<2>(kSharedWind);
    air_gain_ += g[kSharedAirGain];
    air_offset_ += g[kSharedAirOffset];
    return largest;
}

void FlightFit::fitField() {
    std::vector<Mat3> attitudes;
    std::vector<Vec> fields;
    for (const Node& node : nodes_) {
        if (!node.has_field) continue;
        attitudes.push_back(node.attitude);
        fields.push_back(node.field);
    }
    field_ = fitEarthField(attitudes, fields);
    field_on_ = field_.usable;
    if (!field_on_ || with_fixes_) return;
    // The field tells where north is: turn everything to it.
    const double angle = std::atan2(field_.earth_S.x(), field_.earth_S.y());
    const Mat3 turn = expMap(Vec(0, 0, angle));
    for (Node& node : nodes_) {
        node.attitude = (turn * node.attitude).eval();
        node.velocity = (turn * node.velocity).eval();
        node.position = (turn * node.position).eval();
    }
    field_.earth_S = (turn * field_.earth_S).eval();
}

Solution FlightFit::run(const std::function<void(double share)>& progress) {
    placeNodes();
    if (nodes_.size() < 10) return {};
    startValues();
    // chosen: far more than any flight took; one that has not settled by then says so by its bounds
    constexpr int kMostPasses = 14;
    constexpr int kMostAtStage = 3;
    int stage = 0, at_stage = 0;
    for (int number = 0; number < kMostPasses; ++number) {
        if (number >= 2 && stage <= kStages && !streams_.field.empty()) fitField();
        const bool settled = stage > kStages && largest_ < kSettled_rad;
        const bool last = settled || number + 1 == kMostPasses;
        if (!pass(stage, last)) return {};
        // chosen: most flights take seven passes
        if (progress) progress(last ? 1 : std::min(0.95, (number + 1) / 7.0));
        if (last) break;
        ++at_stage;
        // A stretch that swings to and fro needs the weights to fall before it settles.
        if (stage < kStages && largest_ >= kNear_rad && at_stage < kMostAtStage) continue;
        ++stage;
        at_stage = 0;
    }
    return output();
}

}  // namespace plumbline::estimate
