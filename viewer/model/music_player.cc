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
    const bool heard = music_ && playing_ && rate_hz > 0;
    if (!heard && gain_ <= 0) {
        position_s_ = wish_s_;
        return;
    }
    const double fade = 1 / (kFade_s * rate_hz);
    const bool stretches = speed_ != 1;
    const double stray_s = kStray_s * std::max(speed_, 1.0);
    for (std::size_t i = 0; i + 1 < stereo.size(); i += 2) {
        const double behind_s = wish_s_ - position_s_;
        const bool astray = std::abs(behind_s) > stray_s || stretches != stretched_;
        gain_ = std::clamp(gain_ + (heard && !astray ? fade : -fade), 0.0, 1.0);
        if (gain_ <= 0) {
            position_s_ = wish_s_;
            stretched_ = stretches;
            stretch_.begin();
            piece_.clear();
        }
        if (music_) {
            float left = 0, right = 0;
            if (stretched_) {
                takeNext(rate_hz, left, right);
            } else {
                left = soundAt(*music_, position_s_ * music_->rate_hz, 0);
                right = soundAt(*music_, position_s_ * music_->rate_hz, 1);
            }
            stereo[i] = static_cast<float>(gain_) * left;
            stereo[i + 1] = static_cast<float>(gain_) * right;
        }
        const double lead = kLead * std::clamp(behind_s / kLeadEach_s, -1.0, 1.0);
        position_s_ += speed_ * (1 + lead) / rate_hz;
        if (playing_) wish_s_ += speed_ / rate_hz;
    }
}

void MusicPlayer::takeNext(double rate_hz, float& left, float& right) {
    const std::size_t frames = MusicStretch::pieceFrames(music_->rate_hz);
    if (!piece_.empty() && in_piece_ >= static_cast<double>(frames)) {
        in_piece_ -= static_cast<double>(frames);
        piece_ = stretch_.next(*music_, position_s_ * music_->rate_hz);
    } else if (piece_.empty()) {
        in_piece_ = 0;
        piece_ = stretch_.next(*music_, position_s_ * music_->rate_hz);
    }
    const auto at = std::min(static_cast<std::size_t>(in_piece_), frames - 1);
    const auto part = static_cast<float>(in_piece_ - static_cast<double>(at));
    left = piece_[2 * at] + part * (piece_[2 * at + 2] - piece_[2 * at]);
    right = piece_[2 * at + 1] + part * (piece_[2 * at + 3] - piece_[2 * at + 1]);
    in_piece_ += music_->rate_hz / rate_hz;
}

}  // namespace plumbline::model
