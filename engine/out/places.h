#pragma once
// Points of a flight as latitude, longitude, elevation and time, as text.

#include <string>

#include "engine/earth/local_projection.h"
#include "engine/out/flight.h"

namespace plumbline::out {

class Places {
public:
    /// @param flight  with an origin
    explicit Places(const Flight& flight);

    data::GeoPoint at(const Vec3& position_S_m) const { return frame_.toGeodetic(position_S_m); }
    /// "9.0512345,52.0498765,180.25": longitude, latitude in degrees, metres above mean sea level.
    std::string lonLatHeight(const Vec3& position_S_m) const;

private:
    earth::LocalProjection frame_;
};

/// Degrees with seven decimals: a centimetre.
std::string degreesText(double angle_rad);
/// Metres with two decimals.
std::string metresText(double length_m);
/// "2026-06-27T16:30:00.250Z": milliseconds, left out where they are none.
std::string utcText(double utc_s);

/// What every export says of itself: that it is computed or recorded, and what its heights are.
std::string aboutFlight(const Flight& flight);

}  // namespace plumbline::out
