// A file as a whole in the sheet: routine, aircraft, site or weather, with live effect.

#include <algorithm>

#include "viewer/ui/fingers.h"
#include "viewer/ui/text_field.h"

namespace plumbline::ui {

void drawFileText(const PanelInput& in, UiState& state, float right) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Editor& editor = in.model.editor;
    const Rect region{0, c.px(kHeaderHeight), right,
                      in.layout.sheet.bottom() - c.px(kHeaderHeight + kFooterHeight)};
    const float head = c.px(34);
    const Rect back{0, region.y, right, head};
    const Press pressed = press("end writing", back);
    if (pressed.hovered) state.wants_hand = true;
    if (pressed.clicked) in.actions.push(model::ActionKind::StopWriting);
    c.fill(back, pressed.hovered ? theme.raised : theme.surface);
    const std::string name =
        editor.files[static_cast<std::size_t>(editor.active)].file.filename().string();
    const ImVec2 arrow[3] = {ImVec2(c.px(24), back.y + c.px(11)),
                             ImVec2(c.px(18), back.y + c.px(17)),
                             ImVec2(c.px(24), back.y + c.px(23))};
    c.stroke(arrow, theme.ink2, 1.5F);
    c.textClipped(c.px(40), back.y + c.px(8), right - c.px(16), kName, theme.ink, name);
    c.across(0, right, back.bottom(), theme.line);

    const Rect body{0, back.bottom(), right, region.bottom() - back.bottom()};
    const model::TextRange range = model::writtenRange(editor);
    const float x = c.px(16);
    TextLayout layout =
        layoutText(c, editor.text(), range, x, 0, right - c.px(16), notesIn(editor, range));
    const float total = layout.bottom + c.px(24);
    if (state.followed_caret != editor.caret) {
        state.followed_caret = editor.caret;
        for (const TextLayout::Piece& piece : layout.pieces) {
            if (editor.caret < piece.begin || editor.caret > piece.end) continue;
            state.text_scroll = std::clamp(state.text_scroll, piece.y - body.height + c.px(60),
                                           std::max(0.0F, piece.y - c.px(20)));
        }
    }
    targets().scrolled.push_back(body);
    const bool over = ImGui::IsMouseHoveringRect(ImVec2(body.x, body.y),
                                                 ImVec2(body.right(), body.bottom()), false);
    if (over && in.model.list.kind == model::ListKind::None) {
        state.text_scroll -= ImGui::GetIO().MouseWheel * c.px(66);
    }
    state.text_scroll = std::clamp(state.text_scroll, 0.0F, std::max(0.0F, total - body.height));
    const float shift = std::round(body.y + c.px(8) - state.text_scroll);
    for (TextLayout::Piece& piece : layout.pieces) piece.y += shift;
    for (TextLayout::Note& note : layout.notes) note.y += shift;
    layout.top += shift;
    layout.bottom += shift;
    const Clip clip(c, body);
    textField(in, state, layout, -1, true);
}

}  // namespace plumbline::ui
