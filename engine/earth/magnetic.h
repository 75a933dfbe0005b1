#pragma once
// The earth's magnetic field, for what a compass shows: the World Magnetic Model.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "engine/earth/geo_point.h"

namespace plumbline::earth {

/// The field at one place and time, nT.
struct MagneticField {
    double north_nt = 0, east_nt = 0, down_nt = 0;

    double horizontal_nt() const;
    /// True bearing of magnetic north, east positive, (-pi, pi].
    double declination_rad() const;
    /// Standard deviation of that bearing against the real field away from local iron.
    /// @source error model of the WMM2025: sqrt(0.26^2 + (5417 / H)^2) deg (from memory)
    double declinationSigma_rad() const;
    /// Where the field is too steep for a compass.
    /// @source blackout zone of the WMM: a horizontal field below 2000 nT (from memory)
    bool compassUseless() const { return horizontal_nt() < 2000; }
};

/// A model of degree and order 12 with its yearly change, good for five years.
///
/// @accuracy 0.001 nT, 0.005 deg of NOAA's test values; tested in literature Magnetic
/// @source Chulliat et al., The US/UK World Magnetic Model, NOAA/NCEI: geodetic to spherical place,
///   sums of Schmidt half-normalised functions, turned back
class MagneticModel {
public:
    /// Of a coefficient file as NOAA/NCEI publish it.
    static std::optional<MagneticModel> read(std::string_view coefficients);

    const std::string& name() const { return name_; }  ///< "WMM-2025"
    double firstYear() const { return epoch_; }
    double lastYear() const { return epoch_ + 5; }
    bool covers(double year) const { return year >= firstYear() && year <= lastYear(); }

    /// @param place  WGS 84; the height above the sea stands for that above the ellipsoid: a
    ///   hundred metres change the bearing by less than 0.001 deg
    /// @param year   decimal; beyond the five years the same change goes on
    MagneticField at(const GeoPoint& place, double year) const;

private:
    static constexpr int kDegree = 12;
    /// Of one function: nT, and nT a year.
    struct Term {
        double g = 0, h = 0, g_change = 0, h_change = 0;
    };
    using Row = std::array<Term, kDegree + 1>;

    std::string name_;
    double epoch_ = 0;
    std::array<Row, kDegree + 1> terms_{};
};

/// The one that is built in.
const MagneticModel& worldMagneticModel();

/// The year with its part of days, of seconds since 1970 UTC.
double decimalYear(double utc_s);

}  // namespace plumbline::earth
