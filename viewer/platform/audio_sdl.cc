#include <SDL.h>

#include "viewer/platform/audio.h"

namespace plumbline::platform {
namespace {

constexpr int kFramesAtOnce =
    1024;  // chosen: a fiftieth of a second; fewer stutter on busy machines

class SdlOutput final : public AudioOutput {
public:
    explicit SdlOutput(Fill fill) : fill_(std::move(fill)) {}
    SdlOutput(const SdlOutput&) = delete;
    SdlOutput& operator=(const SdlOutput&) = delete;
    ~SdlOutput() override {
        if (device_ != 0) SDL_CloseAudioDevice(device_);
        SDL_QuitSubSystem(SDL_INIT_AUDIO);
    }
    bool begin() {
        SDL_AudioSpec wish{};
        wish.freq = 48000;
        wish.format = AUDIO_F32SYS;
        wish.channels = 2;
        wish.samples = kFramesAtOnce;
        wish.userdata = this;
        wish.callback = [](void* self, Uint8* bytes, int size) {
            auto* floats = reinterpret_cast<float*>(bytes);  // as asked for: AUDIO_F32SYS
            auto& output = *static_cast<SdlOutput*>(self);
            output.fill_({floats, static_cast<std::size_t>(size) / sizeof(float)},
                         output.got_.freq);
        };
        device_ = SDL_OpenAudioDevice(nullptr, 0, &wish, &got_, SDL_AUDIO_ALLOW_FREQUENCY_CHANGE);
        if (device_ == 0) return false;
        SDL_PauseAudioDevice(device_, 0);
        return true;
    }
    /// One buffer is heard while the next is filled.
    double latency_s() const override { return 2.0 * got_.samples / got_.freq; }

private:
    Fill fill_;
    SDL_AudioDeviceID device_ = 0;
    SDL_AudioSpec got_{};
};

}  // namespace

std::unique_ptr<AudioOutput> AudioOutput::open(Fill fill) {
    // Ctrl-C stays ours.
    SDL_SetHint(SDL_HINT_NO_SIGNAL_HANDLERS, "1");
    SDL_SetMainReady();
    if (SDL_InitSubSystem(SDL_INIT_AUDIO) != 0) return nullptr;
    auto output = std::make_unique<SdlOutput>(std::move(fill));
    if (!output->begin()) return nullptr;
    return output;
}

}  // namespace plumbline::platform
