// What coach and pilot said of moments, in the column beside the picture.

#include "viewer/ui/quantity_text.h"
#include "viewer/ui/review_parts.h"

namespace plumbline::ui {

float drawSaid(const PanelInput& in, UiState& state, const Rect& region, float y) {
    using model::ActionKind;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float x = region.x + c.px(kColumnSide), right = region.right() - c.px(kColumnSide);
    const auto pressed = [&](const char* id, std::size_t number, const Rect& rect) {
        if (rect.y < region.y || rect.bottom() > region.bottom()) return false;
        ImGui::PushID(static_cast<int>(number));
        const Press at = press(id, rect);
        ImGui::PopID();
        if (at.hovered) {
            state.wants_hand = true;
            c.fill(rect, theme.line);
        }
        return at.clicked;
    };
    const std::vector<season::Remark>& list = in.model.remarks.list;
    for (std::size_t i = 0; i < list.size(); ++i) {
        const std::string words = list[i].by + ": " + list[i].words;
        const float left = x + c.px(44), words_right = right - c.px(56);
        const float height = c.paragraph(left, y, words_right - left, kNote, 0, words, false);
        if (pressed("change", i, Rect{right - c.px(52), y, c.px(56), c.px(20)}))
            in.actions.pushIndex(ActionKind::WriteRemark, static_cast<int>(i));
        if (pressed("said", i, Rect{x - c.px(4), y, words_right - x, height + c.px(4)}))
            in.actions.push(ActionKind::Seek, list[i].time_s);
        c.text(x, y + c.px(2), kNoteStrong, theme.ink2, timeText(list[i].time_s));
        c.paragraph(left, y + c.px(2), words_right - left, kNote, theme.ink, words);
        c.textRight(right, y + c.px(2), kNote, theme.ink3, "change");
        y += height + c.px(8);
    }
    if (pressed("say", list.size(), Rect{x - c.px(4), y, right - x + c.px(8), c.px(20)}))
        in.actions.pushIndex(ActionKind::WriteRemark, -1);
    c.text(x, y + c.px(2), kNote, theme.ink2, "Say something of this moment (N)");
    return y + c.px(32);
}

}  // namespace plumbline::ui
