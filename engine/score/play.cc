// Notes to samples: each a row of sines above its pitch, swelling and fading as its sound does.

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/score/score.h"

namespace plumbline::score {
namespace {

/// How a sound is made. chosen by ear: plain, unlike each other, none harsh
struct Recipe {
    std::array<double, 6> partials;  ///< loudness of the pitch and its whole multiples
    double swell_s = 0.01;
    double fade_s = 0.08;    ///< behind the note's end
    double rings_s = 0;      ///< falls to 1/e in this time; 0: holds
    double higher_dies = 1;  ///< so many times faster does each partial die than the pitch
};

Recipe recipeOf(Sound sound) {
    switch (sound) {
        case Sound::Horn:
            return {{1, 0.7, 0.45, 0.25, 0.12, 0.05}, 0.05, 0.09, 0, 1};
        case Sound::Pluck:
            return {{1, 0.5, 0.33, 0.25, 0.2, 0.16}, 0.004, 0.12, 0.7, 1.6};
        case Sound::Bass:
            return {{1, 0.5, 0.2, 0.08, 0, 0}, 0.012, 0.08, 1.6, 1.5};
        case Sound::Strings:
            break;
    }
    return {{1, 0.5, 0.33, 0.22, 0.12, 0.08}, 0.12, 0.2, 0, 1};
}

constexpr double kTail_s = 0.25;    ///< of the longest fade behind a part
constexpr double kPeak = 0.7;       ///< of full scale; chosen: 3 dB of room
constexpr double kGap_frac = 0.06;  ///< of a note that is left free before the next

struct Stereo {
    std::vector<float> left, right;
};

/// A sine that swells, rings and fades, added to both sides.
void addPartial(Stereo& out, double from_s, double lasts_s, double pitch_hz, double loudness,
                double left, double right, const Recipe& recipe, double rings_s) {
    const auto first = static_cast<std::size_t>(from_s * kRate_hz);
    const auto held = static_cast<std::size_t>(lasts_s * kRate_hz);
    const auto fade = static_cast<std::size_t>(recipe.fade_s * kRate_hz);
    const double turn = 2 * kPi * pitch_hz / kRate_hz;
    // The next sample of a sine follows from two before it.
    const double twice = 2 * std::cos(turn);
    double before = -std::sin(turn), now = 0;
    double ring = 1;
    const double dies = rings_s > 0 ? std::exp(-1 / (rings_s * kRate_hz)) : 1;
    const double swell = std::max(1.0, recipe.swell_s * kRate_hz);
    for (std::size_t i = 0; i < held + fade && first + i < out.left.size(); ++i) {
        const auto at = static_cast<double>(i);
        const double in = std::min(1.0, at / swell);
        const double off =
            i < held ? 1 : static_cast<double>(held + fade - i) / static_cast<double>(fade);
        const double value = loudness * ring * in * off * now;
        out.left[first + i] += static_cast<float>(left * value);
        out.right[first + i] += static_cast<float>(right * value);
        const double next = twice * now - before;
        before = now;
        now = next;
        ring *= dies;
    }
}

void addVoice(Stereo& out, const Voice& voice, double beat_s) {
    const Recipe recipe = recipeOf(voice.sound);
    const double angle = (voice.side + 1) * kPi / 4;  // as loud in the middle as at the sides
    double at_s = 0;
    for (const Note& note : voice.notes) {
        const double lasts_s = note.beats * beat_s;
        const double each =
            voice.loudness /
            std::sqrt(static_cast<double>(std::max<std::size_t>(note.pitches_hz.size(), 1)));
        for (const double pitch_hz : note.pitches_hz) {
            for (std::size_t k = 0; k < recipe.partials.size(); ++k) {
                const double partial_hz = pitch_hz * static_cast<double>(k + 1);
                if (recipe.partials[k] <= 0 || partial_hz > 0.45 * kRate_hz) continue;
                const double rings_s =
                    recipe.rings_s / std::pow(recipe.higher_dies, static_cast<double>(k));
                addPartial(out, at_s, lasts_s * (1 - kGap_frac), partial_hz,
                           each * recipe.partials[k], std::cos(angle), std::sin(angle), recipe,
                           rings_s);
            }
        }
        at_s += lasts_s;
    }
}

Stereo soundOf(const Part& part, double beat_s) {
    const auto frames =
        static_cast<std::size_t>(std::ceil((part.beats() * beat_s + kTail_s) * kRate_hz));
    Stereo out{std::vector<float>(frames), std::vector<float>(frames)};
    for (const Voice& voice : part.voices) addVoice(out, voice, beat_s);
    return out;
}

}  // namespace

std::vector<std::int16_t> samplesOf(const Score& score) {
    const double beat_s = 60 / score.beats_per_min;
    std::vector<Stereo> parts;
    float greatest = 1e-6F;
    for (const Part& part : score.parts) {
        parts.push_back(soundOf(part, beat_s));
        for (const auto* side : {&parts.back().left, &parts.back().right})
            for (const float v : *side) greatest = std::max(greatest, std::abs(v));
    }
    const double gain = kPeak * 32767 / static_cast<double>(greatest);
    const auto frames =
        static_cast<std::size_t>(std::ceil((score.duration_s() + kTail_s) * kRate_hz));
    std::vector<std::int16_t> out(2 * frames);
    const auto add = [&](std::size_t i, float value) {
        const double sum = out[i] + gain * static_cast<double>(value);
        out[i] = static_cast<std::int16_t>(std::lround(std::clamp(sum, -32767.0, 32767.0)));
    };
    double at_beats = 0;
    for (const std::size_t index : score.order) {
        const Stereo& part = parts[index];
        const auto first = static_cast<std::size_t>(at_beats * beat_s * kRate_hz);
        for (std::size_t i = 0; i < part.left.size() && first + i < frames; ++i) {
            add(2 * (first + i), part.left[i]);
            add(2 * (first + i) + 1, part.right[i]);
        }
        at_beats += score.parts[index].beats();
    }
    return out;
}

}  // namespace plumbline::score
