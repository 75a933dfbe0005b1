#include "viewer/app/music_desk.h"

namespace plumbline::app {

void MusicDesk::frame(model::Model& model) {
    if (!model.shown) return;
    reader_.want(model.shown->music_file);
    if (model.music && !reader_.music()) {
        model.music = nullptr;
        player_.take(nullptr);
    }
    if (reader_.done()) {
        model.music = reader_.music();
        player_.take(model.music);
        if (!reader_.failure().empty()) {
            model.message.text = "The music " + model.shown->music_file.string() +
                                 " cannot be used: " + reader_.failure();
            model.message.wrong = true;
            model.message.left_s = model::kMessage_s;
        }
    }
    if (sound_allowed_ && model.music) hear(model);
}

void MusicDesk::finish(model::Model& model) {
    frame(model);
    reader_.wait();
    frame(model);
}

void MusicDesk::hear(const model::Model& model) {
    if (!tried_) {
        tried_ = true;  // without a sound card there is the lane alone
        output_ = platform::AudioOutput::open(
            [this](std::span<float> stereo, double rate_hz) { player_.fill(stereo, rate_hz); });
    }
    if (!output_) return;
    const model::PlaybackClock& clock = model.clock;
    const double ahead_s = output_->latency_s() * clock.speed();
    player_.follow(clock.time_s() - model.shown->music_start_s + ahead_s, clock.speed(),
                   clock.playing() && !model.session.music_off);
}

}  // namespace plumbline::app
