#pragma once
// The narrator's script as captions with times: WebVTT for browsers and players, SRT for all else.

#include <string>
#include <vector>

#include "engine/brief/narration.h"
#include "engine/brief/outline.h"

namespace plumbline::brief {

/// A few words on the screen.
struct Caption {
    double start_s = 0, stop_s = 0;  ///< from the first radio call; never into the next one
    std::string text;                ///< one or two lines
    int cue = -1;  ///< index into Narration::cues where this is its first; -1: one behind it
};

/// Lines of a caption and their letters, broad ones (ideographs) counted twice.
/// chosen: what subtitles usually have (common practice, no source)
inline constexpr int kCaptionLines = 2, kCaptionLetters = 42;

/// Every cue's words, spoken at the narrator's rate from the cue on, its pauses kept. What is too
/// long before the next cue is shown faster than it can be said: Cue::too_many tells that. A cue
/// without a script shows its own words.
std::vector<Caption> captionsOf(const Narration& narration, double end_s);

/// With the cues' windows and the cautions as comments.
/// @source W3C, WebVTT: The Web Video Text Tracks Format, Candidate Recommendation 4 April 2019
std::string webVtt(const std::vector<Caption>& captions, const Narration& narration,
                   const Outline& outline);
/// No published standard; as players read it.
std::string srt(const std::vector<Caption>& captions);

}  // namespace plumbline::brief
