#pragma once
// Everything a solve looks up, tabulated once: air by height, wind, aerodynamics, power, masses.

#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/earth/atmosphere.h"
#include "engine/earth/wind.h"
#include "engine/fly/aero.h"
#include "engine/fly/power.h"
#include "engine/math/spline.h"

namespace plumbline::fly {

struct World {
    data::Aircraft aircraft;
    data::Site site;
    AeroModel aero;
    PowerModel power;
    UniformSplines<3> air_of_height;  ///< density, temperature, unit speed, as in Air
    earth::WindProfile wind;
    double wing_area_m2 = 0;
    /// Heights in the equations are this much less than heights above show centre: the whole
    /// routine is flown so much higher.
    double raise_m = 0;

    World(const data::Aircraft& a, const data::Site& s, const data::Weather& w, double raise = 0);

    /// The air at a height (less the raise), and what the propeller makes of it.
    struct Air {
        double density_kgpm3, temperature_k;
        double unit_speed_mps;  ///< PowerModel::unitSpeed_mps at full power
    };
    Air air(double height_m) const {
        const std::array<double, 3> v = air_of_height(height_m);
        return {v[0], v[1], v[2]};
    }
    double density_kgpm3(double height_m) const { return air(height_m).density_kgpm3; }
};

/// The wind of a day over a site, in site axes; heights less `raise_m`.
earth::WindProfile windOf(const data::Weather& weather, const data::Site& site, double raise_m = 0);

}  // namespace plumbline::fly
