#pragma once
// What a person says about recordings beforehand, and how they hear how far the work is.

#include <cstddef>
#include <functional>
#include <optional>
#include <string_view>

#include "engine/math/frames.h"
#include "engine/record/csv_layout.h"

namespace plumbline::record {

struct Wishes {
    const ColumnMap* columns = nullptr;  ///< of CSV files
    /// Sensor axes to body axes; else as the column map says, else found from the flight where it
    /// tells.
    std::optional<Quat> q_BI;
    /// Called now and then with the share done, rising from 0 to 1, and what is being done.
    std::function<void(double share, std::string_view doing)> progress;

    /// Runs job(0) .. job(count - 1), in any order, so many of them at once; empty: one after the
    /// other.
    std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)> run;
    std::size_t at_once = 1;

    void tell(double share, std::string_view doing) const {
        if (progress) progress(share, doing);
    }
};

/// How the sensors sit, from words: where two of their axes point in the aircraft, each "x", "y" or
/// "z" and "forward", "back", "right", "left", "down" or "up": "x forward, z down".
/// @return nothing when the words say something else, or two axes along one line
std::optional<Quat> readMounting(std::string_view words);

}  // namespace plumbline::record
