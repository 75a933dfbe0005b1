#pragma once
// The least-squares fit of one stretch of a recording. Internal to the layer.

#include <functional>
#include <vector>

#include "engine/estimate/chain.h"
#include "engine/estimate/field.h"
#include "engine/estimate/gnss.h"
#include "engine/estimate/noise_scale.h"
#include "engine/estimate/preintegration.h"

namespace plumbline::estimate {

const Vec kGravity_S(0, 0, -kGravity_mps2);

/// The nominal at a node.
struct Node {
    std::size_t sample = 0;
    Mat3 attitude = Mat3::Identity();
    Vec velocity = Vec::Zero(), position = Vec::Zero();
    Vec bias = Vec::Zero();
    Vec slow = Vec::Zero();
    double height = 0;
    Vec field = Vec::Zero();  ///< mean of the field's samples about the node
    double field_weight = 1;
    bool has_field = false;
    double airspeed = 0;  ///< mean about the node; 0: none
    bool rest = false;
};

struct Errors {
    float heading = 0, tilt = 0, position = 0;
};

/// A stretch's unknowns and how they are found: place nodes, guess, then a few passes of linear
/// least squares about the last result.
class FlightFit {
public:
    FlightFit(const Streams& streams, const Settings& settings);

    Solution run(const std::function<void(double share)>& progress = {});

private:
    void placeNodes();
    void startValues();
    void meanAirspeeds();
    /// Attitudes of all nodes with nothing known before; returns the turns between them.
    std::vector<Mat3> guessAttitudes(const GnssCourse& course, const std::vector<double>& times,
                                     double memory_s);
    void guessBias(const std::vector<Mat3>& turns);
    /// One step of least squares; the weights of outliers fall with the stage.
    bool pass(int stage, bool last);
    void addPriors(Chain& chain) const;
    void addFix(Chain& chain, std::size_t k, const Preintegrator& at, const GnssFix& fix,
                double robust_limit);
    void addHeight(Chain& chain, std::size_t k, const Preintegrator& at, const Scalar& height,
                   double robust_limit);
    void addAirspeed(Chain& chain, std::size_t k, double robust_limit);
    void addStill(Chain& chain, std::size_t k, double span_s) const;
    void addRest(Chain& chain, std::size_t k, const Step& step, double robust_limit) const;
    void addField(Chain& chain, std::size_t k, double robust_limit);
    LocalSquare link(Chain& chain, std::size_t k, const Step& step, StepModel& model) const;
    void rescale();
    double apply(const Chain& chain);
    void fitField();
    Solution output() const;

    const Streams& streams_;
    const Settings& settings_;
    double age_s_ = 0;   ///< of the samples at their times
    Inertial inertial_;  ///< at the times that its samples describe
    std::vector<GnssFix> fixes_;
    IntervalNoise noise_;
    NoiseScale noise_scale_;
    bool with_fixes_ = false;
    bool flown_ = false;  ///< no fixes, and the loads of an aircraft
    std::vector<Node> nodes_;
    std::vector<Errors> errors_;
    Gains gains_;
    double latency_s_ = 0;
    Vec antenna_ = Vec::Zero();
    Vec wind_ = Vec::Zero();  ///< where the air goes; level
    double air_gain_ = 0, air_offset_ = 0, wind_sigma_ = 0;
    bool airspeed_on_ = false;
    double largest_ = 0;  ///< turn of a node in the last pass, rad
    double first_height_ = 0;
    Vec start_bias_ = Vec::Zero();
    FieldFit field_;
    bool field_on_ = false;
    std::size_t next_fix_ = 0, next_height_ = 0;
    /// How much larger than set the errors of position, velocity, height and airspeed turn out.
    double scale_[4] = {1, 1, 1, 1};
    std::vector<float> seen_[4];
    std::vector<double> rejected_fixes_s_, rejected_heights_s_;
};

/// Weight of an observation whose squared error is `d2` in units of its variance, of `dof` numbers:
/// one for small errors, falling so fast for large ones that their pull goes to nothing.
inline double robustWeight(double d2, int dof, double limit) {
    const double q = 1 + d2 / (dof * limit * limit);
    return 1 / (q * q);
}

}  // namespace plumbline::estimate
