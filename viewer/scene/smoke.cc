#include "viewer/scene/smoke.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

constexpr double kOpaque_s = 0.04 / 3;         ///< what comes out in this time has puffOpacity()
constexpr double kEmission_s = kOpaque_s / 2;  // chosen: young smoke of a fast pass hangs together
constexpr double kShortestLife_s = 8, kLongestLife_s = 14;
constexpr double kLeastSpacing_m = 0.6;
constexpr double kDiametersApart = 4.6;  ///< merged puffs stand a diameter over this apart
constexpr double kWander = 0.12;         // chosen: of the diameter, off the exact place
/// Where it leaves the built-in model, body axes over the span.
constexpr Vec3 kExhaust_B{-0.35, 0, 0.07};

/// A number of its own in 0..1 for each puff (splitmix64 finaliser, public domain, S. Vigna).
double ownNumber(std::int64_t index, std::uint64_t salt) {
    std::uint64_t x = static_cast<std::uint64_t>(index) * 0x9e3779b97f4a7c15ULL + salt;
    x = (x ^ (x >> 30U)) * 0xbf58476d1ce4e5b9ULL;
    x = (x ^ (x >> 27U)) * 0x94d049bb133111ebULL;
    x ^= x >> 31U;
    return static_cast<double>(x >> 11U) * 0x1p-53;
}

/// How many emissions stand in one puff: a power of two, so that the ones that stay are the same
/// from frame to frame.
std::int64_t mergedCount(double age_s, double speed_mps) {
    const double wanted_m = std::max(kLeastSpacing_m, puffDiameter(age_s) / kDiametersApart);
    const double spacing_m = std::max(speed_mps, 5.0) * kEmission_s;
    std::int64_t count = 1;
    while (static_cast<double>(count) * spacing_m < 0.75 * wanted_m && count < 128) count *= 2;
    return count;
}

class Emitter {
public:
    Emitter(const SceneSource& source, double time_s, std::int64_t coarser, DrawList& list)
        : source_(source), time_s_(time_s), coarser_(coarser), list_(list), walker_(*source.path) {}

    /// False when there are too many.
    bool emit(double from_s, double to_s) {
        const auto first = static_cast<std::int64_t>(std::ceil(from_s / kEmission_s));
        const auto last = static_cast<std::int64_t>(std::floor(to_s / kEmission_s));
        for (std::int64_t index = first; index <= last; ++index) {
            if (index % coarser_ != 0) continue;
            const double at_s = static_cast<double>(index) * kEmission_s;
            const double life_s =
                kShortestLife_s + (kLongestLife_s - kShortestLife_s) * ownNumber(index, 1);
            if (time_s_ - at_s >= life_s) continue;
            const Place place = walker_.at(at_s);
            const std::int64_t merged =
                std::max(coarser_, mergedCount(time_s_ - at_s, glm::length(place.velocity_S_mps)));
            if (index % merged != 0) continue;
            if (list_.smoke.size() == kMostPuffs) return false;
            list_.smoke.push_back(puffOf(index, place, time_s_ - at_s, life_s, merged));
        }
        return true;
    }

private:
    Puff puffOf(std::int64_t index, const Place& place, double age_s, double life_s,
                std::int64_t merged) const {
        const path::Path& path = *source_.path;
        const path::Sample& sample = path.samples[place.index];
        const Vec3 exhaust_S =
            path::attitudeShown(path, sample) ? rotate(sample.q_SB, kExhaust_B) : Vec3(0);
        const double diameter_m = puffDiameter(age_s);

        Puff puff;
        puff.position_S_m = place.position_S_m + list_.aircraft.span_m * exhaust_S;
        puff.position_S_m += age_s * source_.world->wind.at(puff.position_S_m.z);
        const Vec3 wander(ownNumber(index, 2) - 0.5, ownNumber(index, 3) - 0.5,
                          ownNumber(index, 4) - 0.5);
        puff.position_S_m += kWander * diameter_m * wander;
        puff.position_S_m.z = std::max(puff.position_S_m.z, 0.25 * diameter_m);
        puff.diameter_m = static_cast<float>(diameter_m);
        const double clear = 1 - puffOpacity(age_s, life_s);
        puff.opacity = static_cast<float>(
            1 - std::pow(clear, static_cast<double>(merged) * kEmission_s / kOpaque_s));
        puff.seed = static_cast<float>(ownNumber(index, 5));
        puff.spent = static_cast<float>(age_s / life_s);
        return puff;
    }

    const SceneSource& source_;
    double time_s_;
    std::int64_t coarser_;
    DrawList& list_;
    PathWalker walker_;
};

}  // namespace

double puffDiameter(double age_s) { return 1.5 + 2.1 * std::sqrt(age_s) + 0.28 * age_s; }

double puffOpacity(double age_s, double life_s) {
    const double part = age_s / life_s;
    const double fade = std::clamp((1 - part) / 0.5, 0.0, 1.0);
    return 0.5 * std::exp(-2 * part) * fade * fade * (3 - 2 * fade);
}

void addSmoke(const SceneSource& source, double time_s, DrawList& list) {
    const std::vector<path::Smoke>& smokes = source.path->smoke;
    for (std::int64_t coarser = 1;; coarser *= 2) {
        list.smoke.clear();
        Emitter emitter(source, time_s, coarser, list);
        bool fits = true;
        for (const path::Smoke& smoke : smokes) {
            if (smoke.stop_s < time_s - kLongestLife_s || smoke.start_s > time_s) continue;
            fits = fits && emitter.emit(std::max(smoke.start_s, time_s - kLongestLife_s),
                                        std::min(smoke.stop_s, time_s));
        }
        if (fits) return;
    }
}

}  // namespace plumbline::scene
