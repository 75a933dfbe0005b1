#pragma once
// Calls as sound: a voice where there is one, else tones.

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/walk/calls.h"

namespace plumbline::walk {

inline constexpr int kRate_hz = 22050;  ///< samples a second, one channel
inline constexpr double kRunIn_s = 5;   ///< before the show: three ticks, then a longer one at 0

/// Words to sound at kRate_hz, -1..1; nothing when it cannot.
using Voice = std::function<std::optional<std::vector<float>>(const std::string& words)>;

/// A speech engine of the system, started anew for each call, without a shell; what it writes goes
/// into a folder that is this program's alone.
/// @param language        "en", as the engine names it
/// @param words_a_minute  80 or more
Voice systemVoice(const std::string& language, double words_a_minute);

/// The whole show: each call from its first word on, a short tick when what it announces begins.
/// What the voice says too long is cut where the next call begins.
/// @param voice  null: each kind of call is a tone of its own
std::vector<std::int16_t> trackOf(const Calls& calls, double duration_s, const Voice& voice);

/// A RIFF WAVE file of samples: 16 bit (Microsoft and IBM, Multimedia Programming Interface
/// and Data Specifications 1.0, 1991).
/// @param channels  whose samples stand in turn
std::string waveFile(const std::vector<std::int16_t>& samples, int rate_hz = kRate_hz,
                     int channels = 1);

}  // namespace plumbline::walk
