// What is written into pictures and films: the cue that is due, the figure, the moment's numbers.

#include <algorithm>

#include "viewer/model/cues.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

constexpr float kFromEdge = 12;

void drawCue(const PanelInput& in, float bottom) {
    const path::Cue* cue = model::cueAt(in.model.shown->path(), in.model.clock.time_s());
    if (cue == nullptr) return;
    const Canvas& c = in.canvas;
    const Rect& picture = in.layout.picture;
    const float most = 0.8F * picture.width;
    const float width = std::min(c.textWidth(kCue, cue->words) + 1, most);
    const float height = c.paragraph(0, 0, width, kCue, c.theme().ink, cue->words, false);
    const float x = picture.x + std::round((picture.width - width) / 2);
    const float y = bottom - c.px(kFromEdge + 8) - height;
    c.fill(Rect{x - c.px(16), y - c.px(8), width + c.px(32), height + c.px(16)}, c.theme().veil);
    c.paragraph(x, y, width, kCue, c.theme().ink, cue->words);
}

/// Which figure, when: top left.
void drawFigure(const PanelInput& in) {
    const Canvas& c = in.canvas;
    const model::Shown& shown = *in.model.shown;
    const double time_s = in.model.clock.time_s();
    const std::int32_t row = model::rowAt(shown.outline, time_s);
    const std::string name =
        row < 0 ? shown.title : shown.outline[static_cast<std::size_t>(row)].name;
    const std::string when = timeText(time_s);
    const float width = c.textWidth(kHead, name) + c.px(12) + c.textWidth(kSubhead, when);
    const Rect box{c.px(kFromEdge), c.px(kFromEdge), width + c.px(24), c.px(32)};
    c.fill(box, c.theme().veil);
    const float end = c.text(box.x + c.px(12), box.y + c.px(6), kHead, c.theme().ink, name);
    c.text(end + c.px(12), box.y + c.px(6), kSubhead, c.theme().ink2, when);
}

}  // namespace

void drawBurntIn(const model::Model& model, const scene::DrawList& list, const BurntIn& burnt,
                 float width_px, float height_px, Glyphs& glyphs, model::Actions& actions) {
    const Theme& theme = themeOf(model.session.theme == model::ThemeChoice::Light);
    applyStyle(theme);
    ImGui::SetNextWindowPos(ImVec2(0, 0));
    ImGui::SetNextWindowSize(ImVec2(width_px, height_px));
    ImGui::Begin("picture", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoInputs);
    ImDrawList* drawn = ImGui::GetWindowDrawList();
    drawn->PushClipRect(ImVec2(0, 0), ImVec2(width_px, height_px));
    // Its letters keep their share of the picture, whatever its size.
    LayoutWish wish;
    wish.scale = static_cast<float>(model.session.ui_scale) * height_px / 720;
    wish.picture_only = true;
    Layout layout = layoutOf(width_px, height_px, wish);
    layout.inset_count = 0;
    PictureInfo picture;
    picture.list = &list;
    const Canvas canvas(drawn, theme, glyphs, wish.scale);
    const PanelInput in{model, layout, picture, canvas, actions};
    float bottom = layout.picture.bottom();
    if (burnt.numbers) {
        drawLabels(in);
        drawStrip(in);
        drawFigure(in);
        drawSightingCard(in);
        if (layout.strip_cells > 0) bottom = layout.strip.y;
    }
    if (burnt.cues) drawCue(in, bottom);
    drawn->PopClipRect();
    ImGui::End();
}

}  // namespace plumbline::ui
