#pragma once
// What was or will be flown: dense samples in site axes, with the elements and figures they belong
// to. Plans, recordings, views, checks and exports all meet here. Immutable once built.

#include <cstdint>
#include <string>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::path {

/// One moment. All quantities SI, frames by name (math/frames.h).
struct Sample {
    double time_s = 0;  ///< from the first sample of the path
    Vec3 position_S_m{0};
    Vec3 velocity_S_mps{0};  ///< over the ground
    Quat q_SB{1, 0, 0, 0};
    Vec3 rate_B_radps{0};           ///< roll, pitch, yaw rate
    Vec3 specific_force_B_mps2{0};  ///< what an accelerometer at the centre of gravity reads
    double airspeed_mps = 0;        ///< >= 0, true
    double aoa_rad = 0;             ///< (-pi, pi]
    double sideslip_rad = 0;
    double power_frac = 0;  ///< throttle, 0..1
    double mass_kg = 0;
    double fuel_kg = 0;
    double head_temperature_k = 0;
    std::int32_t element = -1;  ///< index into Path::elements
    // Twice these hold about 95 % of a recording's errors; 0: not told (a plan has none).
    float attitude_sigma_rad = 0;
    float position_sigma_m = 0;
};

/// A stretch of the path that one line of figure text (or one recognised piece of a recording)
/// made.
struct Element {
    std::int32_t figure = -1;      ///< index into Path::figures
    std::string label;             ///< trade words: "pull to up"
    std::int32_t source_line = 0;  ///< line in the routine file, 0: none
    double start_s = 0;
    double stop_s = 0;
};

struct Figure {
    std::string name;  ///< unique in the path
    double start_s = 0;
    double stop_s = 0;
};

struct Cue {
    double time_s = 0;
    std::string words;
};

/// Smoke on from start to stop.
struct Smoke {
    double start_s = 0;
    double stop_s = 0;
};

/// Which columns mean something: a plan knows all, a recorded track perhaps only where it was.
struct Known {
    bool attitude = true;
    bool bank = true;      ///< attitude but for the rotation about the path
    bool airspeed = true;  ///< with incidence also aoa and sideslip
    bool load = true;
    bool power = true;
    bool fuel = true;
    bool incidence = true;  ///< aoa and sideslip; false for a recorded airspeed
    bool side_load = true;  ///< of load; false where flight without sideslip is taken for granted
    bool place = true;      ///< position but for height, and speed over the ground
};

enum class Origin { Plan, Recording };

struct Path {
    Origin origin = Origin::Plan;
    std::string name;
    Known known;
    double show_line_bearing_rad = 0;  ///< true bearing of +x_S
    double clock_offset_s = 0;         ///< a recording's own clock at time_s = 0
    std::vector<Sample> samples;       ///< time strictly increasing
    std::vector<Element> elements;
    std::vector<Figure> figures;
    std::vector<Cue> cues;
    std::vector<Smoke> smoke;

    double duration_s() const { return samples.empty() ? 0.0 : samples.back().time_s; }
};

/// The path at a time, clamped to its ends: position by cubic Hermite from position and velocity,
/// attitude by cubic interpolation in rotation with the body rates, the rest linear. Empty path: a
/// default sample.
Sample sampleAt(const Path& path, double time_s);

/// Index of the last sample at or before the time; 0 before the first.
std::size_t sampleIndexAt(const Path& path, double time_s);

/// Index of the figure that a sample belongs to; what stands before the first belongs to it.
inline std::int32_t figureOf(const Path& path, const Sample& sample) {
    const std::int32_t figure =
        sample.element < 0 ? 0 : path.elements[static_cast<std::size_t>(sample.element)].figure;
    return figure < 0 ? 0 : figure;
}

/// Index of the figure that is flown at the time, -1 when none.
std::int32_t figureAt(const Path& path, double time_s);

bool smokeAt(const Path& path, double time_s);

// chosen: an attitude that may be off by twice this is none that anybody should be shown
inline constexpr double kUnsureAttitude_rad = 10 * kPi / 180;

/// True where the attitude of a sample may be shown: known, and sure enough there.
bool attitudeShown(const Path& path, const Sample& sample);

}  // namespace plumbline::path
