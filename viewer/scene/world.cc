// The world of a site and a day.

#include "engine/fly/world.h"

#include <cmath>
#include <optional>
#include <utility>

#include "engine/earth/atmosphere.h"
#include "engine/earth/sun.h"
#include "engine/earth/utc_time.h"
#include "viewer/scene/build.h"

namespace plumbline::scene {

namespace {

// Noon by the sun on a midsummer day: where a site says no date.
double midsummerNoon_s(double longitude_rad) {
    constexpr double kDay_s = 86400;
    const std::optional<double> noon_s = earth::parseUtc("2026-06-21T12:00:00Z");
    return noon_s.value_or(0) - longitude_rad / (2 * kPi) * kDay_s;
}

}  // namespace

bool GroundPicture::covers(double x_m, double y_m) const {
    const Vec3 right_S_m = top_right_S_m - top_left_S_m, down_S_m = bottom_left_S_m - top_left_S_m;
    const double area = right_S_m.x * down_S_m.y - right_S_m.y * down_S_m.x;
    if (area == 0) return false;
    const double dx = x_m - top_left_S_m.x, dy = y_m - top_left_S_m.y;
    const double u = (dx * down_S_m.y - dy * down_S_m.x) / area;
    const double v = (right_S_m.x * dy - right_S_m.y * dx) / area;
    return u >= 0 && u <= 1 && v >= 0 && v <= 1;
}

std::shared_ptr<const World> makeWorld(const data::Site& site, const data::Weather& weather,
                                       std::uint64_t revision,
                                       std::shared_ptr<const GroundPicture> aerial) {
    auto world = std::make_shared<World>();
    world->revision = revision;
    world->site = site;
    world->weather = weather;
    world->aerial = std::move(aerial);

    const earth::AirState air =
        earth::SiteAir(site.show_centre.elevation_m, weather.temperature_k, weather.qnh_pa).at(0);
    world->speed_of_sound_mps = air.speed_of_sound_mps;

    const double utc_s = earth::parseUtc(site.show_time_utc)
                             .value_or(midsummerNoon_s(site.show_centre.longitude_rad));
    const earth::SunPosition sun =
        earth::sunPosition(utc_s, site.show_centre, air.pressure_pa, air.temperature_k);
    world->sun_S = earth::directionToSun(sun, site.show_line_bearing_rad);
    world->sun_elevation_rad = sun.apparent_elevation_rad;

    world->wind = fly::windOf(weather, site);
    return world;
}

}  // namespace plumbline::scene
