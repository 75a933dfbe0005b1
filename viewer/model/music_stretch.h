#pragma once
// Music at another speed with its pitch kept: pieces of the track are laid over each other where
// they match (overlap-add by similarity of the wave).

#include <cstddef>
#include <vector>

#include "viewer/model/music.h"

namespace plumbline::model {

/// Makes sound piece by piece; each begins where the one before would have gone on.
///
/// @source W. Verhelst, M. Roelands, An overlap-add technique based on waveform similarity (WSOLA)
/// for high quality time-scale modification of speech, ICASSP 1993 (from memory)
class MusicStretch {
public:
    /// The next piece begins where it is asked for, not where the one before ended.
    void begin() { begun_ = false; }
    /// The next piece and one frame of what will follow, left and right in turn.
    /// @param at  frame of the track that should be heard now; behind and before it is silence
    const std::vector<float>& next(const Music& music, double at);
    /// Frames of a piece.
    static std::size_t pieceFrames(double rate_hz);

private:
    bool begun_ = false;
    std::ptrdiff_t follows_ = 0;  ///< frame that would be heard next
    std::vector<float> piece_;
    std::vector<float> wanted_;  ///< what would follow, of both channels together
};

}  // namespace plumbline::model
