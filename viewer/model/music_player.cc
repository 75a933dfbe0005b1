#include "viewer/model/music_player.h"

#include <algorithm>
#include <cmath>

namespace plumbline::model {
namespace {

constexpr double kFade_s = 0.008;  // chosen: no click is heard, no note is missed
constexpr double kLead = 0.01;     // chosen: a sixth of a semitone; nobody hears it
constexpr double kLeadEach_s = 0.02;

float soundAt(const Music& music, double at, std::size_t channel) {
    const auto frames = static_cast<double>(music.stereo.size() / 2);
    if (at < 0 || at >= frames - 1) return 0;
    const auto i = static_cast<std::size_t>(at);
    const auto part = static_cast<float>(at - static_cast<double>(i));
    const float a = music.stereo[2 * i + channel], b = music.stereo[2 * i + 2 + channel];
    return (a + part * (b - a)) / 32768.0F;
}

}  // namespace

void MusicPlayer::take(std::shared_ptr<const Music> music) {
    const std::lock_guard lock(mutex_);
    music_.swap(music);
    gain_ = 0;
}

void MusicPlayer::follow(double time_s, double speed, bool playing) {
    const std::lock_guard lock(mutex_);
    wish_s_ = time_s;
    speed_ = speed;
    playing_ = playing;
}

double MusicPlayer::position_s() const {
    const std::lock_guard lock(mutex_);
    return position_s_;
}

void MusicPlayer::fill(std::span<float> stereo, double rate_hz) {
    const std::lock_guard lock(mutex_);
    std::fill(stereo.begin(), stereo.end(), 0.0F);
    const bool heard =
        music_ && playing_ && speed_ >= kSlowestHeard && speed_ <= kFastestHeard && rate_hz > 0;
    if (!heard && gain_ <= 0) {
        position_s_ = wish_s_;
        return;
    }
    const double fade = 1 / (kFade_s * rate_hz);
    for (std::size_t i = 0; i + 1 < stereo.size(); i += 2) {
        const double behind_s = wish_s_ - position_s_;
        const bool astray = std::abs(behind_s) > kStray_s;
        gain_ = std::clamp(gain_ + (heard && !astray ? fade : -fade), 0.0, 1.0);
        if (gain_ <= 0) position_s_ = wish_s_;
        if (music_) {
            for (std::size_t channel = 0; channel < 2; ++channel) {
                stereo[i + channel] = static_cast<float>(gain_) *
                                      soundAt(*music_, position_s_ * music_->rate_hz, channel);
            }
        }
        const double lead = kLead * std::clamp(behind_s / kLeadEach_s, -1.0, 1.0);
        position_s_ += speed_ * (1 + lead) / rate_hz;
        if (playing_) wish_s_ += speed_ / rate_hz;
    }
}

}  // namespace plumbline::model
