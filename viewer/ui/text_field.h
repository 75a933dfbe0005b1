#pragma once
// Text that can be written: wrapped lines with their bytes, a caret, what is selected, what is
// wrong with it, numbers that can be dragged.

#include <string>
#include <vector>

#include "engine/base/problem.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// A wrapped text, placed. Bytes are those of the whole text.
struct TextLayout {
    struct Piece {
        std::size_t begin = 0, end = 0;
        float x = 0, y = 0;
        bool quantity = false, comment = false, quoted = false;
    };
    struct Note {
        std::size_t byte = 0;
        std::string words;
        float y = 0;
    };
    std::vector<Piece> pieces;  ///< in the order of the text; every line has one
    std::vector<Note> notes;    ///< sentences below their lines
    float x = 0, right = 0, top = 0, bottom = 0;
};

TextLayout layoutText(const Canvas& c, const std::string& text, model::TextRange range, float x,
                      float y, float right, std::vector<TextLayout::Note> notes);

/// The byte nearest to a place.
std::size_t byteAt(const Canvas& c, const TextLayout& layout, const std::string& text, float x,
                   float y);

/// What is wrong in the range: its places and sentences.
std::vector<TextLayout::Note> notesIn(const model::Editor& editor, model::TextRange range);

/// Draws the text and takes the pointer. @param row  of the sheet; -1: a whole file
void textField(const PanelInput& in, UiState& state, const TextLayout& layout, int row,
               bool written);

}  // namespace plumbline::ui
