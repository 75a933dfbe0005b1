#include "viewer/ui/text_field.h"

#include <algorithm>
#include <cmath>

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kLine = 22;

Type typeOf(const TextLayout::Piece& piece) {
    return piece.quantity ? Type{13, 22, Weight::SemiBold} : Type{13, 22, Weight::Regular};
}

/// Comments are quiet, what is said or named a little.
Colour inkOf(const Theme& theme, const TextLayout::Piece& piece) {
    if (piece.comment) return theme.ink3;
    return piece.quoted ? theme.ink2 : theme.ink;
}

std::string_view wordsOf(const std::string& text, const TextLayout::Piece& piece) {
    return std::string_view(text).substr(piece.begin, piece.end - piece.begin);
}

/// The piece that a byte stands in; at a joint the one that begins there, if it is on the line.
const TextLayout::Piece* pieceOf(const TextLayout& layout, std::size_t byte) {
    const TextLayout::Piece* found = nullptr;
    for (const TextLayout::Piece& piece : layout.pieces) {
        if (byte >= piece.begin && byte <= piece.end) found = &piece;
        if (piece.begin > byte) break;
    }
    return found;
}

ImVec2 placeOf(const Canvas& c, const TextLayout& layout, const std::string& text,
               std::size_t byte) {
    const TextLayout::Piece* piece = pieceOf(layout, byte);
    if (piece == nullptr) return ImVec2(layout.x, layout.top);
    const float before =
        c.textWidth(typeOf(*piece), wordsOf(text, *piece).substr(0, byte - piece->begin));
    return ImVec2(piece->x + before, piece->y);
}

void drawSelection(const Canvas& c, const TextLayout& layout, const std::string& text,
                   model::TextRange selected) {
    for (const TextLayout::Piece& piece : layout.pieces) {
        const std::size_t begin = std::max(piece.begin, selected.begin);
        const std::size_t end = std::min(piece.end, selected.end);
        if (begin >= end) continue;
        const std::string_view words = wordsOf(text, piece);
        const float x0 = piece.x + c.textWidth(typeOf(piece), words.substr(0, begin - piece.begin));
        const float x1 = piece.x + c.textWidth(typeOf(piece), words.substr(0, end - piece.begin));
        c.fill(Rect{x0, piece.y, x1 - x0, c.px(kLine)}, faded(c.theme().now, 0.28));
    }
}

/// From the byte to the end of its word.
void drawWave(const Canvas& c, const TextLayout& layout, const std::string& text,
              std::size_t byte) {
    std::size_t end = byte;
    while (end < text.size() && text[end] != ' ' && text[end] != '\n') ++end;
    const ImVec2 from = placeOf(c, layout, text, byte);
    ImVec2 to = placeOf(c, layout, text, end);
    if (to.y != from.y || to.x < from.x + c.px(8)) to = ImVec2(from.x + c.px(8), from.y);
    std::vector<ImVec2> points;
    const float y = from.y + c.px(19);
    for (float x = from.x; x <= to.x; x += c.px(1)) {
        const float phase = (x - from.x) / c.px(5) * 6.2831853F;
        points.emplace_back(x, y + 1.5F * c.scale() * std::sin(phase));
    }
    c.stroke(points, c.theme().alarm, 1.5F);
}

void drawOffers(const PanelInput& in, const TextLayout& layout) {
    const Canvas& c = in.canvas;
    const std::vector<std::string> offers = model::offersAt(in.model.editor);
    if (offers.empty() || in.model.list.kind != model::ListKind::None) return;
    const ImVec2 at = placeOf(c, layout, in.model.editor.text(), in.model.editor.caret);
    float x = std::min(at.x, layout.right - c.px(120));
    const float y = at.y + c.px(kLine + 2);
    float width = c.px(8);
    for (const std::string& offer : offers) {
        width = std::max(width, c.textWidth(kBody, offer) + c.px(56));
    }
    const Rect box{x, y, width, c.px(22) * static_cast<float>(offers.size())};
    ImDrawList* list = c.list();
    list->ChannelsSetCurrent(2);
    c.fill(box, c.theme().surface);
    c.frame(box, c.theme().edge);
    for (std::size_t i = 0; i < offers.size(); ++i) {
        const Rect row{box.x, box.y + c.px(22) * static_cast<float>(i), width, c.px(22)};
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("offer", row);
        ImGui::PopID();
        if (pressed.hovered) c.fill(row, c.theme().raised);
        if (pressed.clicked) in.actions.pushIndex(ActionKind::TakeOffer, static_cast<int>(i));
        c.text(row.x + c.px(8), row.y + c.px(2), kBody, c.theme().ink, offers[i]);
        if (i == 0) {
            c.textRight(row.right() - c.px(6), row.y + c.px(4), kSmall, c.theme().ink3, "Tab");
        }
    }
    list->ChannelsSetCurrent(1);
}

void push(const PanelInput& in, ActionKind kind, std::size_t byte, bool selects) {
    model::Action action;
    action.kind = kind;
    action.value = static_cast<double>(byte);
    action.x = selects ? 1 : 0;
    in.actions.push(std::move(action));
}

void takePointer(const PanelInput& in, UiState& state, const TextLayout& layout, int row,
                 bool written) {
    const Canvas& c = in.canvas;
    const std::string& text = in.model.editor.text();
    ImGui::PushID(row);
    const Press pressed =
        press("text", Rect{layout.x - c.px(4), layout.top, layout.right - layout.x + c.px(8),
                           layout.bottom - layout.top});
    ImGui::PopID();
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    if (pressed.hovered) {
        state.wants_text = true;
        const std::size_t byte = byteAt(c, layout, text, pointer.x, pointer.y);
        const TextLayout::Piece* piece = pieceOf(layout, byte);
        if (piece != nullptr && piece->quantity && written) state.wants_resize_across = true;
    }
    if (pressed.began) {
        const std::size_t byte = byteAt(c, layout, text, pointer.x, pointer.y);
        if (!written) in.actions.pushIndex(ActionKind::WriteFigure, row);
        push(in, ActionKind::PlaceCaret, byte, ImGui::GetIO().KeyShift);
        const TextLayout::Piece* piece = pieceOf(layout, byte);
        state.number_drag = piece != nullptr && piece->quantity;
        state.drag_x = pointer.x;
        state.drag_steps = 0;
    } else if (pressed.held && state.number_drag) {
        // chosen: eight pixels a step, so that a hand can stop at one
        const int steps = static_cast<int>((pointer.x - state.drag_x) / c.px(8));
        if (steps != state.drag_steps) {
            model::Action action;
            action.kind = ActionKind::StepNumber;
            action.index = steps - state.drag_steps;
            action.x = ImGui::GetIO().KeyShift ? 1 : 0;
            in.actions.push(std::move(action));
            state.drag_steps = steps;
        }
    } else if (pressed.held &&
               (ImGui::GetIO().MouseDelta.x != 0 || ImGui::GetIO().MouseDelta.y != 0)) {
        push(in, ActionKind::PlaceCaret, byteAt(c, layout, text, pointer.x, pointer.y), true);
    }
}

}  // namespace

TextLayout layoutText(const Canvas& c, const std::string& text, model::TextRange range, float x,
                      float y, float right, std::vector<TextLayout::Note> notes) {
    TextLayout out;
    out.x = x;
    out.right = right;
    out.top = y;
    const float line_height = c.px(kLine);
    const float indent = c.px(14);
    std::size_t at = range.begin;
    while (at <= range.end) {
        const std::size_t end = std::min(text.find('\n', at), range.end);
        float pen = x;
        out.pieces.push_back({at, at, x, y, false, false, false});
        std::size_t byte = at;
        for (const Run& run : runsOf(text.substr(at, end - at))) {
            std::string_view rest = run.words;
            while (!rest.empty()) {
                const std::size_t blank = run.quantity ? rest.size() : rest.find(' ', 1);
                const std::string_view word = rest.substr(0, std::min(blank, rest.size()));
                TextLayout::Piece piece{byte,         byte + word.size(), pen,       y,
                                        run.quantity, run.comment,        run.quoted};
                const float width = c.textWidth(typeOf(piece), word);
                if (pen > x && pen + width > right) {
                    y += line_height;
                    piece.x = pen = x + indent;
                    piece.y = y;
                }
                out.pieces.push_back(piece);
                pen += width;
                byte += word.size();
                rest.remove_prefix(word.size());
            }
        }
        y += line_height;
        for (TextLayout::Note& note : notes) {
            if (note.byte < at || note.byte > end) continue;
            note.y = y;
            y += c.paragraph(0, 0, right - x - c.px(18), kNote, 0, note.words, false) + c.px(4);
            out.notes.push_back(note);
        }
        if (end >= range.end) break;
        at = end + 1;
    }
    out.bottom = y;
    return out;
}

std::size_t byteAt(const Canvas& c, const TextLayout& layout, const std::string& text, float x,
                   float y) {
    const TextLayout::Piece* best = nullptr;
    float nearest = 1e9F;
    for (const TextLayout::Piece& piece : layout.pieces) {
        const float dy = std::abs(piece.y + c.px(kLine / 2) - y);
        const float row = std::floor(dy / c.px(kLine) * 2) * 1000;  // the row first
        const float end = piece.x + c.textWidth(typeOf(piece), wordsOf(text, piece));
        const float dx = std::max({piece.x - x, x - end, 0.0F});
        if (row + dx <= nearest) {
            nearest = row + dx;
            best = &piece;
        }
    }
    if (best == nullptr) return 0;
    std::size_t byte = best->begin;
    while (byte < best->end) {
        const std::size_t next = model::codePointAfter(text, byte);
        const float middle =
            (c.textWidth(typeOf(*best), wordsOf(text, *best).substr(0, byte - best->begin)) +
             c.textWidth(typeOf(*best), wordsOf(text, *best).substr(0, next - best->begin))) /
            2;
        if (x < best->x + middle) break;
        byte = next;
    }
    return byte;
}

std::vector<TextLayout::Note> notesIn(const model::Editor& editor, model::TextRange range) {
    std::vector<TextLayout::Note> notes;
    for (const Problem& problem : editor.problems) {
        const auto byte = model::byteOfProblem(editor, problem);
        if (!byte || *byte < range.begin || *byte > range.end) continue;
        TextLayout::Note note;
        note.byte = *byte;
        note.words = problem.what + (problem.remedy.empty() ? "" : ": " + problem.remedy);
        notes.push_back(std::move(note));
    }
    return notes;
}

void textField(const PanelInput& in, UiState& state, const TextLayout& layout, int row,
               bool written) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Editor& editor = in.model.editor;
    const std::string& text = editor.text();
    if (written) drawOffers(in, layout);
    takePointer(in, state, layout, row, written);
    if (written) drawSelection(c, layout, text, model::selection(editor));
    for (const TextLayout::Piece& piece : layout.pieces) {
        if (piece.begin == piece.end) continue;
        const float end =
            c.text(piece.x, piece.y, typeOf(piece), inkOf(theme, piece), wordsOf(text, piece));
        if (piece.quantity) {
            const bool blank = text[piece.begin] == ' ';
            const float from = piece.x + (blank ? c.textWidth(typeOf(piece), " ") : 0);
            c.dotted(from, end, piece.y + c.px(18), theme.edge, 1, 2);
        }
    }
    for (const TextLayout::Note& note : layout.notes) {
        drawWave(c, layout, text, note.byte);
        c.mark(Mark::Filled, layout.x + c.px(6), note.y + c.px(8), theme.alarm, 10);
        c.paragraph(layout.x + c.px(18), note.y, layout.right - layout.x - c.px(18), kNote,
                    theme.alarm, note.words);
    }
    if (written) {
        const ImVec2 at = placeOf(c, layout, text, editor.caret);
        c.fill(Rect{std::round(at.x), at.y + c.px(2), std::max(1.0F, c.px(1.5F)), c.px(18)},
               theme.now);
    }
}

}  // namespace plumbline::ui
