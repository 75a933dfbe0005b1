#include "engine/fly/world.h"

#include <cmath>
#include <vector>

namespace plumbline::fly {
namespace {

// Heights above show centre that a display can reach, with room; the spline's error is below 1e-9
// of the density.
constexpr double kLowest_m = -200, kStep_m = 25;
constexpr int kPoints = 200;

}  // namespace

World::World(const data::Aircraft& a, const data::Site& s, const data::Weather& w, double raise)
    : aircraft(a),
      site(s),
      aero(a),
      power(a),
      wing_area_m2(a.geometry.wing_area_m2),
      raise_m(raise) {
    const earth::SiteAir air(s.show_centre.elevation_m, w.temperature_k, w.qnh_pa);
    std::vector<double> density, temperature, unit_speed;
    for (int i = 0; i < kPoints; ++i) {
        const earth::AirState state = air.at(kLowest_m + i * kStep_m + raise);
        density.push_back(state.density_kgpm3);
        temperature.push_back(state.temperature_k);
        unit_speed.push_back(power.unitSpeed_mps(state.density_kgpm3));
    }
    air_of_height = UniformSplines<3>(kLowest_m, kStep_m, {density, temperature, unit_speed});
    wind = windOf(w, s, raise);
}

earth::WindProfile windOf(const data::Weather& weather, const data::Site& site, double raise_m) {
    // Wind is given by where it comes from, true; the site frame's x lies on the show-line bearing.
    std::vector<earth::WindPoint> points;
    for (const data::WindLayer& layer : weather.wind) {
        const double to = site.show_line_bearing_rad - (layer.from_rad + kPi);
        points.push_back(
            {layer.height_m - raise_m, layer.speed_mps * Vec3(std::cos(to), std::sin(to), 0)});
    }
    return earth::WindProfile(points);
}

}  // namespace plumbline::fly
