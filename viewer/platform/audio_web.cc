// Sound through the browser's Web Audio, filled by the page's own thread.

#include <vector>

#include <emscripten.h>

#include "viewer/platform/audio.h"

// Of viewer/browser/library.js.
extern "C" {
double plumbline_sound_begin(int frames_at_once);
void plumbline_sound_end();
}

namespace plumbline::platform {
namespace {

constexpr int kFramesAtOnce = 2048;  // chosen: a twentieth of a second; frames of the page fit in

AudioOutput::Fill& filler() {
    static AudioOutput::Fill fill;
    return fill;
}

double& rateNow_hz() {
    static double rate_hz = 0;
    return rate_hz;
}

class WebOutput final : public AudioOutput {
public:
    ~WebOutput() override {
        plumbline_sound_end();
        filler() = nullptr;
    }
    /// One buffer is heard while the next is filled.
    double latency_s() const override { return 2.0 * kFramesAtOnce / rateNow_hz(); }
};

}  // namespace

std::unique_ptr<AudioOutput> AudioOutput::open(Fill fill) {
    filler() = std::move(fill);
    rateNow_hz() = plumbline_sound_begin(kFramesAtOnce);
    if (rateNow_hz() > 0) return std::make_unique<WebOutput>();
    filler() = nullptr;
    return nullptr;
}

}  // namespace plumbline::platform

/// @return left and right in turn, of as many frames as were agreed on
extern "C" EMSCRIPTEN_KEEPALIVE float* plumbline_sound() {
    static std::vector<float> stereo(2 * plumbline::platform::kFramesAtOnce);
    if (plumbline::platform::filler())
        plumbline::platform::filler()(stereo, plumbline::platform::rateNow_hz());
    return stereo.data();
}
