#include "viewer/model/playback_clock.h"

#include <algorithm>
#include <cmath>

namespace plumbline::model {

void PlaybackClock::setDuration(double duration_s) {
    duration_s_ = std::max(0.0, duration_s);
    time_s_ = std::min(time_s_, duration_s_);
    loop_.reset();
}

void PlaybackClock::seek(double time_s) {
    if (std::isnan(time_s)) return;
    time_s_ = std::clamp(time_s, 0.0, duration_s_);
}

void PlaybackClock::play() {
    if (duration_s_ <= 0) return;
    if (time_s_ >= duration_s_) time_s_ = loop_ ? loop_->start_s : 0;
    playing_ = true;
}

void PlaybackClock::setSpeedIndex(int index) { speed_ = std::clamp(index, 0, kSpeedCount - 1); }

void PlaybackClock::setLoop(std::optional<Loop> loop) {
    loop_ = loop;
    if (!loop_) return;
    loop_->start_s = std::clamp(loop_->start_s, 0.0, duration_s_);
    loop_->stop_s = std::clamp(loop_->stop_s, 0.0, duration_s_);
    if (!(loop_->stop_s > loop_->start_s)) loop_.reset();
}

void PlaybackClock::advance(double elapsed_s) {
    if (!playing_ || !(elapsed_s > 0)) return;
    const double next_s = time_s_ + elapsed_s * speed();
    if (loop_ && time_s_ <= loop_->stop_s && next_s >= loop_->stop_s) {
        const double length_s = loop_->stop_s - loop_->start_s;
        time_s_ = loop_->start_s + std::fmod(next_s - loop_->stop_s, length_s);
        return;
    }
    time_s_ = std::min(next_s, duration_s_);
    if (time_s_ >= duration_s_) playing_ = false;
}

}  // namespace plumbline::model
