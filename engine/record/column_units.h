#pragma once
// Units as the headers of tables carry them.

#include <string_view>

namespace plumbline::record {

enum class UnitKind { Time, Angle, Length, Speed, Rate, Force, Field, Pressure, None };
/// SI value of one of a unit ("deg_s", "ft", "hpa"); 0 when it is none of that kind. A field's is
/// relative: its units are only compared with each other.
double unitValue(UnitKind kind, std::string_view unit);
/// What a column without a unit is taken in: "deg", "m"; a rate's, force's and pressure's follows
/// from the size of the numbers.
std::string_view usualUnit(UnitKind kind);

/// True when it is one of any kind.
bool isColumnUnit(std::string_view unit);

double lengthOf(std::string_view unit);

}  // namespace plumbline::record
