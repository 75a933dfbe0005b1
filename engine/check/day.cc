// Wind, cloud, sun, and how thin the air is.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/check/checker.h"
#include "engine/earth/sun.h"
#include "engine/earth/utc_time.h"
#include "engine/earth/wind.h"

namespace plumbline::check {
namespace {

constexpr double kWindHeight_m = 10;                // where wind is reported (WMO-No. 8)
constexpr double kTightCloud_m = 50;                // chosen
constexpr double kBroken_frac = 0.5;                // more than half covered is a ceiling
constexpr double kThinAir_m = 600;                  // chosen: below that nobody asks
constexpr double kPilotGlare_rad = 15 * kPi / 180;  // chosen
constexpr double kCrowdGlare_rad = 5 * kPi / 180;   // chosen
constexpr double kGlare_s = 2;                      // chosen: shorter is a blink
constexpr double kEye_m = 1.7;                      // chosen: a standing grown-up

/// The wind near the ground: from, and how strong.
data::WindLayer windBelow(const data::Weather& weather) {
    data::WindLayer low;
    for (const data::WindLayer& layer : weather.wind) {
        if (&layer != &weather.wind.front() && layer.height_m > kWindHeight_m) break;
        low = layer;
    }
    return low;
}

void wind(Checker& c) {
    if (c.weather.wind.empty()) return;
    const data::WindLayer low = windBelow(c.weather);
    if (c.pilot.wind_mps > 0) {
        c.addWorst({c.pilot.wind_mps - low.speed_mps, 0}, kTightSpeed_mps / 2, "wind",
                   "wind at the ground", knots(low.speed_mps),
                   {knots(c.pilot.wind_mps), "pilot file"}, "wait, or fly another show");
    }
    if (c.pilot.crosswind_mps > 0) {
        const double bearing =
            c.site.runway ? c.site.runway->bearing_rad : c.site.show_line_bearing_rad;
        const double across = std::fabs(low.speed_mps * std::sin(low.from_rad - bearing));
        c.addWorst({c.pilot.crosswind_mps - across, 0}, kTightSpeed_mps / 2, "wind",
                   c.site.runway ? "wind across the runway" : "wind across the show line",
                   knots(across), {knots(c.pilot.crosswind_mps), "pilot file"},
                   "land on another runway, or wait");
    }
}

void cloud(Checker& c) {
    if (!(c.weather.cloud_base_m > 0)) return;
    Worst highest;
    for (std::size_t i = 0; i < c.path.samples.size(); ++i)
        highest.offer(c.weather.cloud_base_m - c.path.samples[i].position_S_m.z, i);
    const bool closed = c.weather.cloud_cover_frac > kBroken_frac;
    if (highest.margin >= kTightCloud_m) return;
    c.add(highest.margin < 0 && closed ? Grade::Unsafe : Grade::Tight, "cloud", highest.sample,
          highest.margin,
          closed ? "highest point against the ceiling"
                 : "highest point against the base of the clouds",
          metres(c.path.samples[highest.sample].position_S_m.z),
          {metres(c.weather.cloud_base_m), "weather"}, "fly the low show");
}

void thinAir(Checker& c) {
    const double altitude_m = earth::densityAltitude_m(c.air.at(0).density_kgpm3);
    if (altitude_m < kThinAir_m) return;
    const double frac = c.air.at(0).density_kgpm3 / earth::kSeaLevelDensity_kgpm3;
    c.add(Grade::Note, "density altitude", 0, 0,
          "density altitude at show centre; the air has " + formatFixed(100 * frac, 0) +
              " % of the standard density: longer and wider figures, less power",
          metres(altitude_m), {}, "");
}

void sun(Checker& c) {
    const auto begin_s = earth::parseUtc(c.site.show_time_utc);
    if (!begin_s) return;
    const Vec3 crowd(0.5 * (c.site.crowd_x_min_m + c.site.crowd_x_max_m), c.site.crowd_line_y_m,
                     kEye_m);
    // It moves by a quarter of a degree a minute: once for the middle of the show.
    const earth::AirState air = c.air.at(0);
    const earth::SunPosition at =
        earth::sunPosition(*begin_s + 0.5 * c.path.duration_s(), c.site.show_centre,
                           air.pressure_pa, air.temperature_k);
    if (at.apparent_elevation_rad < 0) return;
    const Vec3 to_sun = earth::directionToSun(at, c.site.show_line_bearing_rad);
    const double pilot_cos = std::cos(kPilotGlare_rad), crowd_cos = std::cos(kCrowdGlare_rad);
    const Stretch pilot = c.longest(0, [&](std::size_t i) {
        return glm::dot(rotate(c.path.samples[i].q_SB, Vec3(1, 0, 0)), to_sun) > pilot_cos;
    });
    const Stretch seen = c.longest(0, [&](std::size_t i) {
        const Vec3 there = c.path.samples[i].position_S_m - crowd;
        return glm::dot(there, to_sun) > crowd_cos * glm::length(there);
    });
    if (pilot.seconds > kGlare_s)
        c.add(Grade::Note, "sun", pilot.last, 0,
              "the longest flight into the sun, within " +
                  formatFixed(kPilotGlare_rad * 180 / kPi, 0) + " deg of the nose",
              seconds(pilot.seconds), {}, "");
    if (seen.seconds > kGlare_s)
        c.add(Grade::Note, "sun", seen.last, 0,
              "the crowd looks into the sun, within " +
                  formatFixed(kCrowdGlare_rad * 180 / kPi, 0) + " deg of the aircraft",
              seconds(seen.seconds), {}, "");
}

}  // namespace

void checkDay(Checker& checker) {
    if (checker.path.samples.empty()) return;
    wind(checker);
    cloud(checker);
    thinAir(checker);
    sun(checker);
}

}  // namespace plumbline::check
