#pragma once
// The sensors of several files as one set of series, and how to go along them.

#include <algorithm>

#include "engine/record/track.h"

namespace plumbline::record {

/// A series between its samples, along rising times; clamped at its ends.
template <class T>
class Follower {
public:
    explicit Follower(const Series<T>& series) : series_(series) {}
    /// Share of the way from the sample `index` to the next one.
    void go(double clock_s) {
        const auto& t = series_.clock_s;
        while (index_ + 2 < t.size() && t[index_ + 1] <= clock_s) ++index_;
        share_ = t.size() < 2
                     ? 0
                     : std::clamp((clock_s - t[index_]) / (t[index_ + 1] - t[index_]), 0.0, 1.0);
    }
    T linear() const {
        const auto& v = series_.values;
        if (v.size() < 2) return v.front();
        return (1 - share_) * v[index_] + share_ * v[index_ + 1];
    }
    T turned() const {
        const auto& v = series_.values;
        if (v.size() < 2) return v.front();
        return glm::slerp(v[index_], v[index_ + 1], share_);
    }

private:
    const Series<T>& series_;
    std::size_t index_ = 0;
    double share_ = 0;
};

/// All sensors of the logs on the clock of the first that has some.
struct Gathered {
    SensorLog sensors;
    Clock clock = Clock::Own;
    std::string file, kind;
    Problems warnings;
};

/// Takes the sensors out of the logs, in rising time.
/// @errors sensors of several files whose clocks count from different moments
Expected<Gathered, Problems> gatherSensors(std::vector<FixLog>& logs);

}  // namespace plumbline::record
