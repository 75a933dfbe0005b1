#pragma once
// What a table's column means, from its header: names and units of any logger.

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "engine/record/column_units.h"

namespace plumbline::record {

/// A column's name taken apart: "Altitude (ft)", "alt_ft" and "alt [ft]" are "alt..." in "ft".
struct ColumnName {
    std::string words;  ///< lower case, words joined by '_'
    std::string unit;   ///< lower case, words joined by '_'; empty when there is none that is known
};
ColumnName columnName(std::string_view header_cell);

/// What can be made use of.
enum class Quantity {
    Time,
    Date,
    Latitude,
    Longitude,
    Altitude,
    X,
    Y,
    Z,
    North,  ///< velocities
    East,
    Down,
    Up,
    GroundSpeed,
    Track,
    RateX,
    RateY,
    RateZ,
    ForceX,
    ForceY,
    ForceZ,
    FieldX,
    FieldY,
    FieldZ,
    Pressure,
    PressureHeight,
    Airspeed,
    IndicatedAirspeed,
    Roll,
    Pitch,
    Heading,
    Qw,
    Qx,
    Qy,
    Qz,
    HorizontalSigma,
    VerticalSigma,
};
constexpr std::size_t kQuantityCount = static_cast<std::size_t>(Quantity::VerticalSigma) + 1;

UnitKind unitKind(Quantity quantity);
/// In words, as a mapping file names it: "rate x".
std::string_view quantityName(Quantity quantity);
std::optional<Quantity> quantityNamed(std::string_view name);

/// The quantity that a column's words name, and how telling the name is (the most telling of
/// several columns counts): 0 best.
struct Recognised {
    Quantity quantity;
    int rank;
};
std::optional<Recognised> recognise(const ColumnName& name);

}  // namespace plumbline::record
