#pragma once
// The music of a routine: read once, looked at by the timeline, heard through MusicPlayer.

#include <cstdint>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "engine/system/worker.h"

namespace plumbline::model {

/// A whole track in memory: 12 minutes at 48 kHz are 138 MB, and any moment is there at once.
struct Music {
    double rate_hz = 0;
    std::vector<std::int16_t> stereo;  ///< left, right, left, ...; of one channel: twice the same
    std::vector<float> peaks;          ///< greatest sound of each kPeak_s, 0..1
    float greatest = 0;                ///< of all peaks
    double duration_s() const { return static_cast<double>(stereo.size() / 2) / rate_hz; }
};

inline constexpr double kPeak_s = 0.01;
inline constexpr double kLongestMusic_s = 3600;  ///< chosen: 700 MB

/// Of its samples.
void makePeaks(Music& music);

/// Greatest sound from one time to another; 0 outside of the track.
float peakWithin(const Music& music, double from_s, double to_s);

/// A score (NAME.score.toml, see engine/score/score.h) is played; the demo's own is in the program.
/// @errors the file is not there, no sound that can be read (WAV, FLAC, OGG, MP3 and others), or
/// too long; a clause without a full stop
Expected<std::shared_ptr<const Music>, std::string> readMusic(const std::filesystem::path& file);
/// The same of recorded sound alone.
Expected<std::shared_ptr<const Music>, std::string> readMusicFile(
    const std::filesystem::path& file);

/// Notes to be played, not a recording.
bool isScore(const std::filesystem::path& file);

/// Reads beside the frames, one file at a time; the same file is not read again.
class MusicReader {
public:
    /// The file wanted from now on; empty: none.
    void want(const std::filesystem::path& file);
    /// True once when what is wanted has been read or cannot be.
    bool done();
    /// Until what is being read has been.
    void wait() const;
    const std::shared_ptr<const Music>& music() const { return music_; }
    const std::string& failure() const { return failure_; }

private:
    using Result = Expected<std::shared_ptr<const Music>, std::string>;
    std::filesystem::path wanted_, reading_;
    system::Later<Result> result_;
    std::shared_ptr<const Music> music_;
    std::string failure_;
};

}  // namespace plumbline::model
