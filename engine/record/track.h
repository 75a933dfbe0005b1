#pragma once
// What every reader of a recording hands on, and what an import ends with.

#include <cstdint>
#include <functional>
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
    std::function<void()> forget = {};  ///< called once the bytes are read and needed no more
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
    Vec3 velocity_E_mps{0};  ///< east, north, up
    bool has_velocity = false;
    bool has_vertical_velocity = false;
    // one standard deviation as the receiver tells it; 0: it does not
    float horizontal_sigma_m = 0;
    float vertical_sigma_m = 0;
};

/// Numbers at their own times, in the log's clock.
template <class T>
struct Series {
    std::vector<double> clock_s;
    std::vector<T> values;

    std::size_t size() const { return clock_s.size(); }
    void add(double time_s, const T& value) {
        clock_s.push_back(time_s);
        values.push_back(value);
    }
};

/// What sensors logged, each in its own frame I and at its own rate.
struct SensorLog {
    Series<Vec3> rate_I_radps;
    Series<Vec3> force_I_mps2;  ///< at rest +g upward
    Series<Vec3> field_I;       ///< any unit
    Series<double> pressure_height_m;
    Series<double> airspeed_mps;
    bool airspeed_indicated = false;  ///< else true airspeed
    Series<Quat> q_EB;                ///< attitude solved elsewhere, body to east-north-up
    bool empty() const { return rate_I_radps.size() + q_EB.size() + force_I_mps2.size() == 0; }
};

/// What a reader made of a file. Fixes in the file's order, not yet checked against each other.
struct FixLog {
    std::string kind;  ///< "IGC", "GPX", "CSV"
    std::string file;
    Clock clock = Clock::Own;
    bool geodetic = true;  ///< Fix::place counts, else Fix::position_S_m
    std::vector<Fix> fixes;
    SensorLog sensors;
    Problems warnings;
};

struct TimeSpan {
    double start_s = 0;
    double stop_s = 0;
};

/// A stream's numbers as logged, thinned for drawing: each entry stands for a few samples in a row.
struct StreamNumbers {
    struct Entry {
        double time_s = 0;  ///< of its first sample
        float low[3] = {0, 0, 0}, high[3] = {0, 0, 0};
    };
    std::string unit;    ///< "rad/s"; empty: the log's own
    int components = 0;  ///< 1 or 3 of each entry's count
    std::vector<Entry> entries;
};

/// When one stream of a recording ran and what it gave, in the path's time.
struct StreamCoverage {
    std::string name;                ///< "Places", "Rates"...
    std::vector<TimeSpan> spans;     ///< without holes
    std::vector<double> rejected_s;  ///< of samples that did not fit the rest
    StreamNumbers numbers;
};

/// A recording as a path.
struct ImportedTrack {
    std::string kind;  ///< "IGC", "GPX", "CSV", "path CSV"...
    path::Path path;   ///< origin Recording; `known` says what is measured
    /// Where the origin of the site frame lies: the first fix. Absent when the file is in metres.
    std::optional<data::GeoPoint> origin;
    std::string start_utc;           ///< ISO 8601; empty when the file has no date
    Problems warnings;               ///< what was left out or taken for granted
    std::vector<std::string> notes;  ///< how the path was made, a sentence each
    std::vector<StreamCoverage> streams;
};

}  // namespace plumbline::record
