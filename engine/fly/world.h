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
    UniformSpline density_of_height;      ///< kg/m3 over height above show centre
    UniformSpline temperature_of_height;  ///< K
    earth::WindProfile wind;
    double wing_area_m2 = 0;

    World(const data::Aircraft& a, const data::Site& s, const data::Weather& w);

    double density_kgpm3(double height_m) const { return density_of_height(height_m); }
};

}  // namespace plumbline::fly
