#pragma once
// Dates and times of day as logs write them.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace plumbline::record {

/// Seconds from 1970-01-01T00:00:00Z to the start of a day; nothing when there is no such day.
std::optional<double> secondsOfDate(std::int32_t year, std::int32_t month, std::int32_t day);

/// "14:05:52", "14:05:52.25", "14:05": seconds from midnight.
std::optional<double> parseTimeOfDay(std::string_view text);

/// ISO 8601 as earth/utc_time.h reads it; a time without a zone, as some loggers write it, is taken
/// as UTC.
std::optional<double> parseUtc(std::string_view text);

/// A day as tables write it: 2012-10-31, 2012/10/31, 20121031, 31.10.2012, 31/10/2012 (day first):
/// its start in seconds.
std::optional<double> parseDate(std::string_view text);

/// "2009-10-17T18:37:26Z", whole seconds.
std::string formatUtc(double utc_s);

}  // namespace plumbline::record
