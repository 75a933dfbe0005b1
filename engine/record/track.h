#pragma once
// What every reader of a recording hands on, and what an import ends with.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/site.h"
#include "engine/path/path.h"

namespace plumbline::record {

/// A file's bytes and the name it goes by in messages.
struct NamedBytes {
    std::string file;
    std::string_view bytes;
};

inline Problem problem(TextPosition where, std::string what, std::string remedy) {
    return {std::move(where), std::move(what), std::move(remedy)};
}

/// A reader's failure with one reason, and after it what had been said before.
inline Unexpected<Problems> failure(Problem problem, const Problems& said_before = {}) {
    Problems problems;
    problems.push_back(std::move(problem));
    problems.insert(problems.end(), said_before.begin(), said_before.end());
    return Unexpected(std::move(problems));
}

/// What the numbers of a log's clock count from.
enum class Clock {
    Utc,        ///< 1970-01-01T00:00:00Z
    TimeOfDay,  ///< midnight of an unknown day
    Own,        ///< something of the file's own
};

/// One position, as logged.
struct Fix {
    double clock_s = 0;
    data::GeoPoint place;  ///< of a log in latitude and longitude
    Vec3 position_S_m{0};  ///< of a log in metres
    std::int32_t line = 0;
};

/// A log of positions. Fixes in the file's order, not yet checked against each other.
struct FixLog {
    std::string kind;  ///< "IGC", "GPX", "CSV"
    std::string file;
    Clock clock = Clock::Own;
    bool geodetic = true;  ///< Fix::place counts, else Fix::position_S_m
    std::vector<Fix> fixes;
    Problems warnings;
};

/// A recording as a path.
struct ImportedTrack {
    std::string kind;  ///< "IGC", "GPX", "CSV", "path CSV"
    path::Path path;   ///< origin Recording; `known` says what is measured
    /// Where the origin of the site frame lies: the first fix. Absent when the file is in metres.
    std::optional<data::GeoPoint> origin;
    std::string start_utc;  ///< ISO 8601; empty when the file has no date
    Problems warnings;      ///< what was left out or taken for granted
};

}  // namespace plumbline::record
