#pragma once
// The music of what is shown: read, put into the model, played in step with its clock.

#include <memory>

#include "viewer/model/model.h"
#include "viewer/model/music_player.h"
#include "viewer/platform/audio.h"

namespace plumbline::app {

class MusicDesk {
public:
    /// Only a window makes sounds; pictures show the music's lane all the same.
    void allowSound() { sound_allowed_ = true; }
    /// Each frame, after time has passed.
    void frame(model::Model& model);

    /// Waits for the music to be there (pictures of the window).
    void finish(model::Model& model);

private:
    void hear(const model::Model& model);
    void takeTrack(const model::Model& model);

    model::MusicReader reader_;
    model::MusicPlayer player_;
    std::shared_ptr<const model::Music> heard_;  ///< that the player has
    bool sound_allowed_ = false;
    bool tried_ = false;
    std::unique_ptr<platform::AudioOutput> output_;  ///< last: it calls the player
};

}  // namespace plumbline::app
