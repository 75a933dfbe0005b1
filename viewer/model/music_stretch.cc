#include "viewer/model/music_stretch.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace plumbline::model {
namespace {

constexpr double kPiece_s = 0.025;     // chosen: several waves of most notes, shorter than a note
constexpr double kSought_s = 0.012;    // chosen: half a wave of 42 Hz either way
constexpr std::ptrdiff_t kCoarse = 4;  // frames between places that are tried at first

float soundAt(const Music& music, std::ptrdiff_t frame, std::size_t channel) {
    const auto frames = static_cast<std::ptrdiff_t>(music.stereo.size() / 2);
    if (frame < 0 || frame >= frames) return 0;
    return static_cast<float>(music.stereo[2 * static_cast<std::size_t>(frame) + channel]) /
           32768.0F;
}

float bothAt(const Music& music, std::ptrdiff_t frame) {
    return soundAt(music, frame, 0) + soundAt(music, frame, 1);
}

/// How alike the track from a frame on is to what is wanted, whatever its loudness.
float likeness(const Music& music, std::ptrdiff_t from, const std::vector<float>& wanted,
               std::ptrdiff_t step) {
    float product = 0, energy = 1e-9F;
    for (std::ptrdiff_t i = 0; i < static_cast<std::ptrdiff_t>(wanted.size()); i += step) {
        const float there = bothAt(music, from + i);
        product += there * wanted[static_cast<std::size_t>(i)];
        energy += there * there;
    }
    return product / std::sqrt(energy);
}

std::ptrdiff_t mostAlike(const Music& music, const std::vector<float>& wanted,
                         std::ptrdiff_t around) {
    const auto most = static_cast<std::ptrdiff_t>(kSought_s * music.rate_hz);
    const auto best = [&](std::ptrdiff_t from, std::ptrdiff_t to, std::ptrdiff_t stride,
                          std::ptrdiff_t step) {
        std::ptrdiff_t found = from;
        float greatest = -1e30F;
        for (std::ptrdiff_t at = from; at <= to; at += stride) {
            const float value = likeness(music, at, wanted, step);
            if (value <= greatest) continue;
            greatest = value;
            found = at;
        }
        return found;
    };
    const std::ptrdiff_t near = best(around - most, around + most, kCoarse, kCoarse);
    return best(near - kCoarse + 1, near + kCoarse - 1, 1, 1);
}

}  // namespace

std::size_t MusicStretch::pieceFrames(double rate_hz) {
    return static_cast<std::size_t>(std::max(8.0, std::round(kPiece_s * rate_hz)));
}

const std::vector<float>& MusicStretch::next(const Music& music, double at) {
    const std::size_t frames = pieceFrames(music.rate_hz);
    const auto wish = static_cast<std::ptrdiff_t>(std::llround(at));
    if (!begun_) follows_ = wish;
    wanted_.resize(frames);
    for (std::size_t i = 0; i < frames; ++i)
        wanted_[i] = bothAt(music, follows_ + static_cast<std::ptrdiff_t>(i));
    const std::ptrdiff_t from = begun_ ? mostAlike(music, wanted_, wish) : wish;
    begun_ = true;
    piece_.resize(2 * (frames + 1));
    for (std::size_t i = 0; i <= frames; ++i) {
        const double phase = kPi * static_cast<double>(i) / static_cast<double>(frames);
        const auto in = static_cast<float>(0.5 - 0.5 * std::cos(phase));
        const auto step = static_cast<std::ptrdiff_t>(i);
        for (std::size_t channel = 0; channel < 2; ++channel)
            piece_[2 * i + channel] = (1 - in) * soundAt(music, follows_ + step, channel) +
                                      in * soundAt(music, from + step, channel);
    }
    follows_ = from + static_cast<std::ptrdiff_t>(frames);
    return piece_;
}

}  // namespace plumbline::model
