#pragma once
// Random routines: figures of the trade with random numbers, and now and then one that cannot be
// flown. The same seed gives the same text on every system.

#include <cstdint>
#include <string>

namespace plumbline::test {

/// SplitMix64 (Steele, Lea & Flood, OOPSLA 2014; public domain by its authors).
class Random {
public:
    explicit Random(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next();
    /// 0 <= value < 1
    double share() { return static_cast<double>(next() >> 11) * 0x1p-53; }
    double between(double low, double high) { return low + share() * (high - low); }
    /// 0 <= value < count
    int below(int count) { return static_cast<int>(next() % static_cast<std::uint64_t>(count)); }
    bool chance(double share_of_all) { return share() < share_of_all; }

private:
    std::uint64_t state_;
};

struct RandomRoutine {
    std::string text;
    double x_m = 0, height_m = 0, speed_mps = 0;
    bool crowd_right = true;
};

/// @param mirrored  the same routine seen in a mirror that stands across the show line
RandomRoutine randomRoutine(std::uint64_t seed, bool mirrored);

}  // namespace plumbline::test
