#pragma once
// Music in step with the clock of the replay: what the sound card is given. No sound card in it.

#include <memory>
#include <mutex>
#include <span>

#include "viewer/model/music.h"
#include "viewer/model/music_stretch.h"

namespace plumbline::model {

/// Within this the sound may stray from the picture, at a faster speed by as much more of the
/// track; it is led back without a gap.
inline constexpr double kStray_s = 0.08;

/// follow() by the frames, fill() by the sound card's thread.
class MusicPlayer {
public:
    /// Null: silence.
    void take(std::shared_ptr<const Music> music);
    /// Where the music should be now, and how fast it goes on.
    /// @param time_s  of the track; may lie before or after it
    void follow(double time_s, double speed, bool playing);
    /// The next sound: left and right in turn, -1..1. The pitch is the track's at every speed.
    void fill(std::span<float> stereo, double rate_hz);
    /// Where in the track the next sound comes from.
    double position_s() const;

private:
    mutable std::mutex mutex_;
    std::shared_ptr<const Music> music_;
    double wish_s_ = 0;
    double speed_ = 1;
    bool playing_ = false;
    double position_s_ = 0;
    double gain_ = 0;
    void takeNext(double rate_hz, float& left, float& right);
    bool stretched_ = false;  ///< at another speed than its own
    MusicStretch stretch_;
    std::vector<float> piece_;
    double in_piece_ = 0;  ///< frames of it that were heard
};

}  // namespace plumbline::model
