#include "viewer/app/music_desk.h"

#include <utility>

#include "engine/walk/track.h"

namespace plumbline::app {

void MusicDesk::frame(model::Model& model) {
    if (!model.shown) return;
    reader_.want(model.shown->music_file);
    if (model.music && !reader_.music()) {
        model.music = nullptr;
    }
    if (reader_.done()) {
        model.music = reader_.music();
        heard_ = nullptr;
        if (!reader_.failure().empty()) {
            model.message.text = "The music " + model.shown->music_file.string() +
                                 " cannot be used: " + reader_.failure();
            model.message.wrong = true;
            model.message.left_s = model::kMessage_s;
        }
    }
    takeTrack(model);
    if (sound_allowed_ && (model.music || model.walk.on)) hear(model);
}

/// The walk-through's calls have the sound card for themselves.
void MusicDesk::takeTrack(const model::Model& model) {
    const model::Walk& walk = model.walk;
    std::shared_ptr<const model::Music> wanted = model.music;
    if (walk.on) wanted = walk.sound ? walk.sound->track : nullptr;
    if (wanted == heard_) return;
    heard_ = wanted;
    player_.take(std::move(wanted));
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
    const model::Walk& walk = model.walk;
    if (walk.on) {
        const bool runs = clock.playing() || (walk.run_in_s > 0 && walk.sound);
        player_.follow(model::walkTime_s(model) + walk::kRunIn_s + ahead_s, clock.speed(),
                       runs && !model.session.music_off);
        return;
    }
    // Nobody asked for music by starting the program.
    player_.follow(clock.time_s() - model.shown->music_start_s + ahead_s, clock.speed(),
                   clock.playing() && !model.session.music_off && !model.start_panel);
}

}  // namespace plumbline::app
