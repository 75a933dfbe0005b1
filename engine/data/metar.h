#pragma once
// Weather from a METAR, as airfields send it.

#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/weather.h"

namespace plumbline::data {

enum class CloudCover { Few, Scattered, Broken, Overcast };

/// Share of the sky, the middle of the oktas that the word stands for: few 1-2, scattered 3-4,
/// broken 5-7, overcast 8.
double coverOf(CloudCover cover);

/// Reads wind, visibility, cloud, temperature and pressure of a METAR or SPECI; station, time,
/// present weather, runway groups and all behind the pressure (trend, remarks) are passed over.
///
/// The wind is the mean wind, at 10 m, the same at all heights; gusts are left out. Variable wind
/// up to 6 kt counts as calm. Cloud is the lowest layer from scattered on, else the lowest;
/// visibility the prevailing one, at most 10 km where the METAR says no more.
/// @param start  where the METAR's first character stands, for problems
/// @errors no wind, temperature or pressure; variable wind above 6 kt (it has no direction to plan
///   with); a group that is none or out of range
/// @source WMO-No. 306, Manual on Codes, FM 15 METAR
Expected<Weather, Problems> readMetar(std::string_view metar, const TextPosition& start);

}  // namespace plumbline::data
