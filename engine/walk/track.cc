#include "engine/walk/track.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "engine/math/frames.h"

namespace plumbline::walk {
namespace {

struct Tone {
    double frequency_hz, lasts_s, loudness;
};

constexpr Tone kTick{1568, 0.04, 0.25};
constexpr Tone kCount{784, 0.12, 0.4};
constexpr Tone kStart{1175, 0.45, 0.4};
constexpr double kEdge_s = 0.008;  ///< a tone swells and fades so long, so that it does not click

/// chosen: what matters more sounds higher, a switch and a height low
Tone toneOf(Call::Kind kind) {
    switch (kind) {
        case Call::Kind::Figure:
            return {988, 0.35, 0.4};
        case Call::Kind::Element:
            return {740, 0.18, 0.4};
        case Call::Kind::Roll:
            return {880, 0.12, 0.4};
        case Call::Kind::Gate:
            return {1319, 0.25, 0.4};
        case Call::Kind::Switch:
            return {392, 0.15, 0.4};
        case Call::Kind::Height:
            return {294, 0.2, 0.4};
        case Call::Kind::Line:
            break;
    }
    return {523, 0.1, 0.3};
}

class Mixer {
public:
    explicit Mixer(double duration_s)
        : mix_(static_cast<std::size_t>(std::ceil((duration_s + kRunIn_s) * kRate_hz))) {}

    void tone(double time_s, const Tone& tone) {
        const auto count = static_cast<std::size_t>(tone.lasts_s * kRate_hz);
        const double edge = kEdge_s * kRate_hz;
        for (std::size_t i = 0; i < count; ++i) {
            const auto from_start = static_cast<double>(i);
            const auto to_end = static_cast<double>(count - i);
            const double swell = std::min({1.0, from_start / edge, to_end / edge});
            add(time_s, i,
                tone.loudness * swell *
                    std::sin(2 * kPi * tone.frequency_hz * from_start / kRate_hz));
        }
    }
    void sound(double time_s, const std::vector<float>& samples, double longest_s) {
        const std::size_t count =
            std::min(samples.size(), static_cast<std::size_t>(std::max(0.0, longest_s) * kRate_hz));
        const double edge = kEdge_s * kRate_hz;
        for (std::size_t i = 0; i < count; ++i) {
            const double fade = std::min(1.0, static_cast<double>(count - i) / edge);
            add(time_s, i, 0.8 * fade * static_cast<double>(samples[i]));
        }
    }
    std::vector<std::int16_t> done() const {
        std::vector<std::int16_t> out(mix_.size());
        std::transform(mix_.begin(), mix_.end(), out.begin(), [](float v) {
            return static_cast<std::int16_t>(std::lround(std::clamp(v, -1.0F, 1.0F) * 32767));
        });
        return out;
    }

private:
    void add(double time_s, std::size_t i, double value) {
        const double at = std::round((time_s + kRunIn_s) * kRate_hz) + static_cast<double>(i);
        if (at < 0 || at >= static_cast<double>(mix_.size())) return;
        mix_[static_cast<std::size_t>(at)] += static_cast<float>(value);
    }

    std::vector<float> mix_;
};

void append(std::string& out, std::uint32_t value, int bytes) {
    for (int i = 0; i < bytes; ++i) out += static_cast<char>((value >> (8 * i)) & 0xFFU);
}

}  // namespace

std::vector<std::int16_t> trackOf(const Calls& calls, double duration_s, const Voice& voice) {
    Mixer mixer(duration_s);
    for (const double t : {-3.0, -2.0, -1.0}) mixer.tone(t, kCount);
    mixer.tone(0, kStart);
    for (std::size_t i = 0; i < calls.calls.size(); ++i) {
        const Call& call = calls.calls[i];
        const double next_s = i + 1 < calls.calls.size() ? calls.calls[i + 1].time_s : duration_s;
        std::optional<std::vector<float>> spoken;
        if (voice) spoken = voice(call.words);
        if (spoken) {
            mixer.sound(call.time_s, *spoken, next_s - call.time_s);
        } else {
            mixer.tone(call.time_s, toneOf(call.kind));
        }
        if (call.kind == Call::Kind::Element || call.kind == Call::Kind::Roll) {
            mixer.tone(call.begins_s, kTick);
        }
    }
    return mixer.done();
}

std::string waveFile(const std::vector<std::int16_t>& samples, int rate_hz, int channels) {
    const auto bytes = static_cast<std::uint32_t>(samples.size() * 2);
    std::string out = "RIFF";
    append(out, 36 + bytes, 4);
    out += "WAVEfmt ";
    append(out, 16, 4);
    const auto rate = static_cast<std::uint32_t>(rate_hz);
    const auto frame = static_cast<std::uint32_t>(2 * channels);  // bytes
    append(out, 1, 2);                                            // whole numbers
    append(out, frame / 2, 2);
    append(out, rate, 4);
    append(out, rate * frame, 4);
    append(out, frame, 2);
    append(out, 16, 2);  // bits
    out += "data";
    append(out, bytes, 4);
    out.reserve(out.size() + bytes);
    for (const std::int16_t sample : samples) append(out, static_cast<std::uint16_t>(sample), 2);
    return out;
}

}  // namespace plumbline::walk
