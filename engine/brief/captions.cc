#include "engine/brief/captions.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "engine/check/check.h"
#include "engine/page/line_breaks.h"
#include "engine/page/utf8.h"
#include "engine/units/quantity.h"

namespace plumbline::brief {
namespace {

// chosen: less is a flash that nobody reads
constexpr double kLeast_s = 1;

/// simplified: all from the CJK radicals on are broad, all before them narrow.
int widthOf(char32_t letter) { return letter >= 0x2e80 ? 2 : 1; }

int widthOf(std::string_view text) {
    int width = 0;
    for (const page::Utf8Letter& l : page::lettersOf(text)) width += widthOf(l.letter);
    return width;
}

/// Words, and pieces of what has no blanks and is longer than a line.
struct Piece {
    std::string text;
    bool blank_before = true;
};

/// One behind the last letter that a line has room for, parted where reading does not stumble.
std::size_t endOfPiece(const std::vector<page::Utf8Letter>& letters, std::size_t from) {
    std::size_t to = from;
    int width = 0;
    while (to < letters.size() && width + widthOf(letters[to].letter) <= kCaptionLetters)
        width += widthOf(letters[to++].letter);
    if (to == letters.size()) return to;
    // chosen: a clause may end a third of a line early
    const std::size_t least = from + (to - from) * 2 / 3;
    for (std::size_t at = to; at > least; --at)
        if (page::endsClause(letters[at - 1].letter) &&
            !page::staysWithTheOneBefore(letters[at].letter))
            return at;
    for (std::size_t at = to; at > least; --at)
        if (!page::staysWithTheOneBefore(letters[at].letter) &&
            !page::staysWithTheOneAfter(letters[at - 1].letter))
            return at;
    return to;
}

std::vector<Piece> piecesOf(std::string_view words) {
    std::vector<Piece> pieces;
    for (std::size_t at = 0; at < words.size();) {
        const std::size_t begin = words.find_first_not_of(" \t\r\n", at);
        if (begin == std::string_view::npos) break;
        const std::size_t end = std::min(words.find_first_of(" \t\r\n", begin), words.size());
        const std::string_view word = words.substr(begin, end - begin);
        const std::vector<page::Utf8Letter> letters = page::lettersOf(word);
        bool first = true;
        for (std::size_t from = 0; from < letters.size();) {
            const std::size_t to = endOfPiece(letters, from);
            std::string piece;
            for (std::size_t i = from; i < to; ++i) page::appendUtf8(piece, letters[i].letter);
            pieces.push_back({std::move(piece), first});
            first = false;
            from = to;
        }
        at = end;
    }
    return pieces;
}

/// Words set in captions of a few lines.
std::vector<std::string> setInLines(std::string_view words) {
    std::vector<std::string> captions;
    std::string line, caption;
    int lines = 0;
    const auto endLine = [&] {
        if (line.empty()) return;
        if (lines == kCaptionLines) {
            captions.push_back(std::move(caption));
            caption.clear();
            lines = 0;
        }
        caption += (lines > 0 ? "\n" : "") + line;
        ++lines;
        line.clear();
    };
    for (const Piece& piece : piecesOf(words)) {
        const bool blank = piece.blank_before && !line.empty();
        if (!line.empty() && widthOf(line) + blank + widthOf(piece.text) > kCaptionLetters)
            endLine();
        if (piece.blank_before && !line.empty()) line += ' ';
        line += piece.text;
    }
    endLine();
    if (!caption.empty()) captions.push_back(std::move(caption));
    return captions;
}

/// "01:02:03.456", with the mark between seconds and thousandths.
std::string timeText(double time_s, char mark) {
    const auto ms = static_cast<long long>(std::llround(std::max(time_s, 0.0) * 1000));
    char text[40];
    std::snprintf(text, sizeof text, "%02lld:%02lld:%02lld%c%03lld", ms / 3600000, ms / 60000 % 60,
                  ms / 1000 % 60, mark, ms % 1000);
    return text;
}

/// In the text of a WebVTT cue, section 3.1: no "<", no "&", and so no "-->".
std::string vttText(const std::string& text) {
    std::string out;
    for (const char c : text) {
        if (c == '&')
            out += "&amp;";
        else if (c == '<')
            out += "&lt;";
        else if (c == '>')
            out += "&gt;";
        else
            out += c;
    }
    return out;
}

/// In a comment: one line without an arrow.
std::string noteText(std::string text) {
    std::replace(text.begin(), text.end(), '\n', ' ');
    for (std::size_t at = text.find("-->"); at != std::string::npos; at = text.find("-->"))
        text.replace(at, 3, "->");
    return text;
}

}  // namespace

std::vector<Caption> captionsOf(const Narration& narration, double end_s) {
    std::vector<Caption> captions;
    for (std::size_t c = 0; c < narration.cues.size(); ++c) {
        const Cue& cue = narration.cues[c];
        const double next_s = c + 1 < narration.cues.size()
                                  ? narration.cues[c + 1].time_s
                                  : std::max(end_s, cue.time_s + kLeast_s);
        std::vector<ScriptPart> parts = cue.script.parts;
        if (cue.script.words == 0) parts = {{cue.words, true, 0}};
        double needed_s = 0;
        for (const ScriptPart& part : parts)
            needed_s += part.spoken ? std::max(60 * wordsIn(part.words) / narration.words_per_min,
                                               part.words.empty() ? 0 : kLeast_s)
                                    : part.pause_s;
        const double room_s = next_s - cue.time_s;
        if (!(room_s > 0) || needed_s <= 0) continue;
        const double pace = std::min(1.0, room_s / needed_s);
        double at_s = cue.time_s;
        int first = static_cast<int>(c);
        for (const ScriptPart& part : parts) {
            if (!part.spoken) {
                at_s += pace * part.pause_s;
                continue;
            }
            const double words = wordsIn(part.words);
            const double part_s = pace * std::max(60 * words / narration.words_per_min, kLeast_s);
            for (std::string& text : setInLines(part.words)) {
                const double share = words > 0 ? wordsIn(text) / words : 1;
                captions.push_back({at_s, at_s + share * part_s, std::move(text), first});
                at_s += share * part_s;
                first = -1;
            }
        }
    }
    // Rounded to thousandths, one that would last none goes.
    std::erase_if(captions, [](const Caption& c) {
        return std::llround(c.stop_s * 1000) <= std::llround(c.start_s * 1000);
    });
    return captions;
}

std::string webVtt(const std::vector<Caption>& captions, const Narration& narration,
                   const Outline& outline) {
    std::string out = "WEBVTT\n\nNOTE\n" + noteText(outline.title) + ", " + noteText(outline.site) +
                      ", " + outline.day + ", " + outline.revision +
                      "\nTimes count from the first radio call, as computed.\n" +
                      (outline.warning.empty() ? "" : noteText(outline.warning) + "\n") +
                      noteText(check::caution()) + "\n\n";
    int number = 0;
    for (const Caption& caption : captions) {
        if (caption.cue >= 0) {
            const Cue& cue = narration.cues[static_cast<std::size_t>(caption.cue)];
            out += "NOTE " + noteText(outline.acts[cue.act].name) + ": between " +
                   units::formatTime(cue.early_s) + " and " + units::formatTime(cue.late_s) +
                   " in 90 of 100 flights";
            if (cue.too_many > 0) out += "; too long by " + std::to_string(cue.too_many) + " words";
            out += "\n\n";
        }
        out += std::to_string(++number) + "\n" + timeText(caption.start_s, '.') + " --> " +
               timeText(caption.stop_s, '.') + "\n" + vttText(caption.text) + "\n\n";
    }
    return out;
}

std::string srt(const std::vector<Caption>& captions) {
    std::string out;
    int number = 0;
    for (const Caption& caption : captions)
        out += std::to_string(++number) + "\n" + timeText(caption.start_s, ',') + " --> " +
               timeText(caption.stop_s, ',') + "\n" + caption.text + "\n\n";
    return out;
}

}  // namespace plumbline::brief
