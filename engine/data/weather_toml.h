#pragma once
// Reads *.weather.toml.

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/weather.h"

namespace plumbline::data {

/// Reads the weather of a day. Keys, an example of the unit, the sane range, * what may be left
/// out:
///
///     name *                     text
///     temperature                degC      -60 .. 60          at show centre
///     qnh                        hPa       850 .. 1100
///     visibility *               km        0.1 .. 100         10 km
///     [[wind]] *                                              of rising height; none: calm
///     height                     m           0 .. 5000        above show centre
///     from                       deg         0 .. 360         true, where it blows from
///     speed                      kt          0 .. 100
///     [cloud] *
///     base                       m           1 .. 10 000      above show centre
///     cover                      few, scattered, broken or overcast
///
/// or `metar = "..."` (readMetar) instead of all but the name.
/// @errors every problem of the file: not TOML, unknown and missing keys, wrong or missing units,
/// out
///   of range, wind heights that do not rise, a METAR that cannot be used
Expected<Weather, Problems> readWeather(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data
