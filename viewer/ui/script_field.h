#pragma once
// The narrator's words as they are written: any script, shaped and ordered as on the cue sheet,
// with a caret, what is selected and the pointer.

#include <string>
#include <string_view>
#include <vector>

#include "engine/page/fonts.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Words in lines, placed. Bytes are those of the words.
struct ScriptLayout {
    struct Cluster {
        std::size_t byte = 0;
        float left = 0, right = 0;  ///< from the line's left end
        bool leftward = false;
    };
    struct Line {
        page::SetLine set;
        std::size_t begin = 0, end = 0;
        float x = 0;
        std::vector<Cluster> clusters;  ///< in the order of the bytes
    };
    std::vector<Line> lines;  ///< at least one
    float x = 0, y = 0, width = 0, line_px = 0;

    float height() const { return line_px * static_cast<float>(lines.size()); }
};

/// @param size_px  of the letters
ScriptLayout layoutScript(const page::Fonts& fonts, std::string_view words, float x, float y,
                          float width, float size_px, float line_px);

/// The place of the caret before a byte: top of its line.
ImVec2 caretAt(const ScriptLayout& layout, std::size_t byte);
/// The byte nearest to a place.
std::size_t byteAt(const ScriptLayout& layout, float x, float y);
/// So many lines down at the same place.
std::size_t byteLinesAway(const ScriptLayout& layout, std::size_t byte, int lines);

/// Draws them; `selected` in bytes of the words.
void drawScriptWords(const Canvas& canvas, const ScriptLayout& layout, Colour ink, Colour quiet,
                     model::TextRange selected);

}  // namespace plumbline::ui
