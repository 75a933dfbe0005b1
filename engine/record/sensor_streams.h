#pragma once
// Between a log's sensors, the smoother and a path's samples.

#include "engine/estimate/smoother.h"
#include "engine/record/track.h"

namespace plumbline::record {

/// chosen: fewer samples of a sensor are no flight
inline constexpr std::size_t kFewestSamples = 200;

constexpr double kPathStep_s = 0.0099;  // a little under 0.01, for clocks that jitter

/// All but the fixes, counted from `zero_s` of the sensors' clock; forces at the rates' times.
/// Rates, forces and field are taken out of the log: hours of them are not held twice.
estimate::Streams inertialStreams(SensorLog& sensors, double zero_s);

/// Makes at most 100 samples a second of states. Loads and rates are means over what is passed
/// over: vibration must not alias into them.
class SampleMaker {
public:
    explicit SampleMaker(std::vector<path::Sample>& samples) : samples_(samples) {}
    void add(double time_s, const estimate::State& state);
    /// All samples, once no more come: from the sensors' axes to the body's.
    void turnToBody(const Quat& q_BI);

private:
    std::vector<path::Sample>& samples_;
    Vec3 rate_I_radps_{0}, force_I_mps2_{0};
    double passed_ = 0;
};

/// True where a log's forces are in the axes of its attitude, as far as can be told.
bool forcesAreOfTheBody(const SensorLog& sensors);

/// Takes the attitude back, and says so, where it is too unsure for most of the flight.
void noteIfUnsure(ImportedTrack& track);

}  // namespace plumbline::record
