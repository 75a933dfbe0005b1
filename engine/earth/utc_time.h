#pragma once
// Dates and times in UTC, without the system's clock or time zones.

#include <optional>
#include <string_view>

namespace plumbline::earth {

/// Seconds since 1970-01-01T00:00:00Z without leap seconds, from ISO 8601:
/// `2026-06-27T17:40:00Z`, seconds optional and with decimals, `+02:00` instead of `Z`. Nothing
/// when the text is none, the date does not exist or no zone is given.
std::optional<double> parseUtc(std::string_view text);

}  // namespace plumbline::earth
