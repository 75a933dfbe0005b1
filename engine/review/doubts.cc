#include "engine/review/doubts.h"

#include <algorithm>
#include <cmath>

#include "engine/units/units.h"

namespace plumbline::review {

bool tellsErrors(const path::Path& flight) {
    return std::any_of(flight.samples.begin(), flight.samples.end(), [](const path::Sample& s) {
        return s.attitude_sigma_rad > 0 || s.position_sigma_m > 0;
    });
}

double placeSigma_m(const path::Sample& sample) {
    // chosen: what lasts as long as the flight does not scatter, and so is seen too small
    constexpr double kSlow = 1.4;
    return kSlow * static_cast<double>(sample.position_sigma_m);
}

double placeSigma_m(const path::Path& flight, double time_s) {
    return placeSigma_m(path::sampleAt(flight, time_s));
}

double placeSigma_m(const path::Path& flight, double from_s, double to_s) {
    double sum = 0, count = 0;
    for (std::size_t i = path::sampleIndexAt(flight, from_s);
         i < flight.samples.size() && flight.samples[i].time_s <= to_s; ++i) {
        sum += placeSigma_m(flight.samples[i]);
        count += 1;
    }
    return count > 0 ? sum / count : 0;
}

double apartSigma_m(double place_sigma_m) {
    constexpr double kApart = 0.35;  // chosen: so much of it is not shared over some seconds
    return kApart * place_sigma_m;
}

double shapeSigma_m(double place_sigma_m) {
    constexpr double kBent = 0.1;  // chosen: so much of it changes within a loop
    return kBent * place_sigma_m;
}

double groundSpeedSigma_mps(const path::Path& flight, double time_s) {
    constexpr double kWander_ps =
        0.04;  // chosen: an error of place comes and goes in half a minute
    return kWander_ps * placeSigma_m(flight, time_s);
}

double airspeedSigma_mps(double airspeed_mps) {
    constexpr double kShare = 0.03, kLeast_mps = 5 * units::kKnot_mps;
    return 0.5 * std::max(kShare * std::fabs(airspeed_mps), kLeast_mps);
}

double speedSigma_mps(const path::Path& flight, double time_s) {
    if (flight.origin != path::Origin::Recording || !tellsErrors(flight)) return 0;
    if (flight.known.airspeed)
        return airspeedSigma_mps(path::sampleAt(flight, time_s).airspeed_mps);
    return groundSpeedSigma_mps(flight, time_s);
}

double loadSigma_g(const path::Path& flight, double time_s) {
    constexpr double kAbout_s = 0.25, kStep_s = 0.01;
    constexpr double kGain = 0.006, kZero_g = 0.04;  // chosen: of small sensors as they are found
    const path::Sample here = path::sampleAt(flight, time_s);
    if (!flight.known.load || !(here.attitude_sigma_rad > 0 || here.position_sigma_m > 0)) return 0;
    const auto loadAt = [&](double t) {
        return loadFactors(path::sampleAt(flight, t).specific_force_B_mps2).normal_g;
    };
    // What is not smooth from one instant to the next is shaking: second differences of plain noise
    // are sqrt(6) times as large as the noise.
    double square = 0, count = 0;
    for (double t = time_s - kAbout_s; t <= time_s + kAbout_s; t += kStep_s) {
        const double bent = loadAt(t - kStep_s) - 2 * loadAt(t) + loadAt(t + kStep_s);
        square += bent * bent / 6;
        count += 1;
    }
    // A peak is the greatest of several such instants: it is off by more than twice the shaking.
    constexpr double kOfPeak = 2.6;
    const double shakes = kOfPeak * std::sqrt(square / count);
    const double load_g = loadFactors(here.specific_force_B_mps2).normal_g;
    return std::sqrt(shakes * shakes + kGain * kGain * load_g * load_g + kZero_g * kZero_g);
}

}  // namespace plumbline::review
