#pragma once
// Sound to the system's sound card, where there is one.

#include <functional>
#include <memory>
#include <span>

namespace plumbline::platform {

class AudioOutput {
public:
    /// Left and right in turn, -1..1, at this rate; called on a thread of the sound card's.
    using Fill = std::function<void(std::span<float> stereo, double rate_hz)>;
    /// @return null without a sound card
    static std::unique_ptr<AudioOutput> open(Fill fill);
    virtual ~AudioOutput() = default;
    /// From asking for sound until it is heard, about.
    virtual double latency_s() const = 0;
};

}  // namespace plumbline::platform
