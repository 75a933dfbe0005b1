#pragma once
// The fonts that pages are set in: the embedded one in three weights, then what the user gives for
// scripts that it lacks. None is ever looked for on the system: the same page everywhere.

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/page/text.h"

namespace plumbline::page {

/// One letter shape at its place.
struct Glyph {
    unsigned index = 0;  ///< in its font
    double x_pt = 0;     ///< from the start of the line
    double y_pt = 0;     ///< down from the base line
};

/// Letters of one font, one direction and one style in a row.
struct GlyphRun {
    int font = 0;
    Style style;
    bool leftward = false;
    std::size_t begin = 0;             ///< byte of the text, its spans joined, that it begins with
    double left_pt = 0, right_pt = 0;  ///< from the start of the line
    std::string words;                 ///< what the letters stand for, in reading order
    std::vector<Glyph> glyphs;         ///< from left to right
    /// Bytes of `words` and how many glyphs stand for them, in reading order.
    struct Cluster {
        int bytes = 0, glyphs = 0;
    };
    std::vector<Cluster> clusters;
};

struct SetLine {
    std::vector<GlyphRun> runs;
    double width_pt = 0;
    double size_pt = 0;     ///< of the largest letters
    std::size_t begin = 0;  ///< byte of the text, its spans joined, that it begins with
    bool leftward = false;  ///< of the paragraph
};

class Fonts {
public:
    /// The embedded ones.
    Fonts();
    ~Fonts();
    Fonts(Fonts&&) noexcept;
    Fonts& operator=(Fonts&&) noexcept;

    /// A font file to fall back on, after those before it (TrueType, OpenType, the first of a
    /// collection).
    /// @return why it is none; empty when it is
    std::string add(std::string bytes);

    /// Text in lines of at most that width, 0: no limit.
    ///
    /// Order by the Unicode bidirectional algorithm (FriBidi), letters by HarfBuzz; figures
    /// tabular. simplified: of the line breaking rules (UAX #14) blanks, hyphens and ideographs.
    std::vector<SetLine> set(const Text& text, double width_pt) const;

    /// Letters that no font had in what was set, each once, as UTF-8: to be said.
    std::string missing() const;

    /// A font's file, alive as long as any copy of the pointer.
    std::shared_ptr<const std::string> owned(int font) const;
    std::string_view bytesOf(int font) const;
    int count() const;

private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace plumbline::page
