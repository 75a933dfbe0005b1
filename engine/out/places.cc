#include "engine/out/places.h"

#include <cmath>
#include <cstdio>

#include "engine/base/check.h"
#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/record/clock_text.h"
#include "engine/units/units.h"

namespace plumbline::out {

Places::Places(const Flight& flight) : frame_(*flight.origin, flight.path->show_line_bearing_rad) {}

std::string Places::lonLatHeight(const Vec3& position_S_m) const {
    const data::GeoPoint place = at(position_S_m);
    return degreesText(place.longitude_rad) + "," + degreesText(place.latitude_rad) + "," +
           metresText(place.elevation_m);
}

std::string degreesText(double angle_rad) {
    constexpr int kDecimals = 7;
    return formatFixed(angle_rad / units::kDegree_rad, kDecimals);
}

std::string metresText(double length_m) { return formatFixed(length_m, 2); }

std::string utcText(double utc_s) {
    const double milliseconds = std::round(utc_s * 1000);
    const double whole_s = std::floor(milliseconds / 1000);
    const int rest = static_cast<int>(milliseconds - 1000 * whole_s);
    std::string text = record::formatUtc(whole_s);
    if (rest == 0) return text;
    char part[8];
    std::snprintf(part, sizeof part, ".%03d", rest);
    text.insert(text.size() - 1, part);
    return text;
}

std::string aboutFlight(const Flight& flight) {
    const bool plan = flight.path->origin == path::Origin::Plan;
    std::string text = plan ? "Computed from a simplified model, not flown. "
                            : "Made of a recording, with its errors. ";
    text +=
        plan ? "Heights are above mean sea level: the site file's elevation and the height above "
               "show centre. "
             : "Heights are as the recorder gave them: above mean sea level with most, above the "
               "WGS 84 ellipsoid with some. ";
    if (!flight.start_utc_s)
        text += "The day is not known: no times. ";
    else if (plan)
        text += "Times count from the site file's show time. ";
    return text + check::caution();
}

}  // namespace plumbline::out
