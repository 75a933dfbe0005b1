#pragma once
// Progress on stderr: told now and then, not at every step.

#include <chrono>

namespace plumbline::cli {

class Pace {
public:
    explicit Pace(double each_s) : each_s_(each_s) {}
    /// True once `each_s` after the last time it was true, or after the beginning.
    bool due() {
        const Clock::time_point now = Clock::now();
        if (seconds(now - told_) < each_s_) return false;
        told_ = now;
        return true;
    }
    double elapsed_s() const { return seconds(Clock::now() - began_); }
    /// Time that is left where so much of the whole is done and the rest takes as long.
    double left_s(double share) const { return elapsed_s() * (1 - share) / share; }

private:
    using Clock = std::chrono::steady_clock;
    static double seconds(Clock::duration d) { return std::chrono::duration<double>(d).count(); }
    double each_s_;
    Clock::time_point began_ = Clock::now(), told_ = began_;
};

}  // namespace plumbline::cli
