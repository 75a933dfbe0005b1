#pragma once
// A piece of music written down as notes, and its sound: no recording is needed, none is owned by
// anybody.
//
// A score file (NAME.score.toml):
//     name = "Evening"
//     tempo = 96                     # beats a minute, 20 to 300
//     order = ["opening", "walk"]    # its parts as they follow; a part may come again
//
//     [[part]]
//     name = "opening"
//     [[part.voice]]                 # all voices of a part begin together
//     sound = "horn"                 # strings, horn, pluck, bass
//     loudness = 0.6                 # 0 to 1
//     side = -0.4                    # -1 left, 1 right
//     notes = "D4:1 F4+A4:2 -:1"     # name and octave (C4 is the middle C, F#4, Bb3), beats;
//                                    # + sounds together, - is silence, | may part the bars

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"

namespace plumbline::score {

enum class Sound { Strings, Horn, Pluck, Bass };

struct Note {
    std::vector<double> pitches_hz;  ///< together; none: silence
    double beats = 0;
};

struct Voice {
    Sound sound = Sound::Strings;
    double loudness = 0.5;  ///< 0..1
    double side = 0;        ///< -1 left .. 1 right
    std::vector<Note> notes;
};

struct Part {
    std::string name;
    std::vector<Voice> voices;
    /// Of its longest voice.
    double beats() const;
};

struct Score {
    std::string name;
    double beats_per_min = 96;
    std::vector<Part> parts;
    std::vector<std::size_t> order;  ///< indices into `parts`
    double duration_s() const;
};

/// Longest piece.
inline constexpr double kLongest_s = 3600;

/// @errors every problem of the file with its place
Expected<Score, Problems> readScore(std::string_view toml_text, const std::string& file);

/// Of a note's name and octave in equal temperament, A4 at 440 Hz; 0: no such note.
/// @source ISO 16:1975, standard tuning frequency; octaves by scientific pitch notation
double pitchOf(std::string_view name);

inline constexpr int kRate_hz = 32000;  ///< samples a second; chosen: notes and their partials

/// Left and right in turn. The same score gives the same samples on one system.
std::vector<std::int16_t> samplesOf(const Score& score);

}  // namespace plumbline::score
