#pragma once
// The one clock of the viewer, in double seconds of the path's time.

#include <optional>

namespace plumbline::model {

/// A stretch of time that is played over and over.
struct Loop {
    double start_s = 0;
    double stop_s = 0;  ///< > start_s
};

/// Speeds a person can choose, slowest first; 1 stands at kNormalSpeed.
inline constexpr double kSpeeds[] = {0.125, 0.25, 0.5, 1, 2, 4, 8};
inline constexpr int kSpeedCount = 7;
inline constexpr int kNormalSpeed = 3;

/// Where the replay stands and how it goes on. Time never leaves [0, duration].
class PlaybackClock {
public:
    double time_s() const { return time_s_; }
    double duration_s() const { return duration_s_; }
    bool playing() const { return playing_; }
    int speedIndex() const { return speed_; }
    double speed() const { return kSpeeds[speed_]; }
    const std::optional<Loop>& loop() const { return loop_; }

    /// A new path: its length; time is kept where it fits, the loop is dropped.
    void setDuration(double duration_s);
    /// Clamped; NaN is ignored.
    void seek(double time_s);
    /// From the end, play starts again at the beginning (of the loop, when there is one).
    void play();
    void pause() { playing_ = false; }
    /// Index into kSpeeds, clamped.
    void setSpeedIndex(int index);
    /// An empty or reversed stretch is no loop.
    void setLoop(std::optional<Loop> loop);

    /// Lets `elapsed_s` of wall time pass. At the end it stops there; in a loop it wraps, keeping
    /// what is left over. Time past the loop's end plays on to the path's end.
    void advance(double elapsed_s);

private:
    double time_s_ = 0;
    double duration_s_ = 0;
    bool playing_ = false;
    int speed_ = kNormalSpeed;
    std::optional<Loop> loop_;
};

}  // namespace plumbline::model
