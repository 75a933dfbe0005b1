#include "viewer/ui/ui.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "viewer/model/draft_path.h"
#include "viewer/ui/fingers.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/trends_parts.h"

namespace plumbline::ui {
namespace {

ImVec4 unpacked(Colour colour) { return ImGui::ColorConvertU32ToFloat4(colour); }

/// The edges between the regions can be dragged; a double click gives them back to the layout.
void handleEdges(const PanelInput& in, UiState& state) {
    const Layout& layout = in.layout;
    const float grip = in.canvas.px(6);
    if (!ImGui::IsMouseDown(0)) state.edge = 0;
    if (!in.model.start_panel && !layout.spine && layout.sheet.width > 0) {
        const Press edge = press(
            "sheet edge", Rect{layout.sheet.right() - grip / 2, 0, grip, layout.sheet.height});
        if (edge.began) state.edge = 1;
        if (edge.hovered || state.edge == 1) state.wants_resize_across = true;
    }
    if (layout.timeline.height > 0 && !layout.timeline_short) {
        const Press edge = press(
            "timeline edge", Rect{0, layout.timeline.y - grip / 2, layout.timeline.width, grip});
        if (edge.began) state.edge = 2;
        if (edge.hovered || state.edge == 2) state.wants_resize_down = true;
    }
    if (state.edge == 0) return;
    const ImVec2 pointer = ImGui::GetIO().MousePos;
    const bool whole = ImGui::IsMouseDoubleClicked(0);
    if (state.edge == 1) {
        in.actions.push(model::ActionKind::SetSheetWidth,
                        whole ? 0.0 : static_cast<double>(pointer.x / layout.scale));
    } else {
        in.actions.push(
            model::ActionKind::SetTimelineHeight,
            whole ? 0.0 : static_cast<double>((layout.window.height - pointer.y) / layout.scale));
    }
    if (whole) state.edge = 0;
}

/// What lies behind everything else in a picture: dragging turns, the wheel zooms.
/// @param which  0 the picture, 1 the second view
void handlePicture(const PanelInput& in, UiState& state, const Rect& rect, int which) {
    if (!in.model.shown) return;
    const Press picture = press(which == 0 ? "picture" : "second view", rect);
    const ImGuiIO& io = ImGui::GetIO();
    const auto push = [&](model::ActionKind kind, double value, double x, double y) {
        model::Action action;
        action.kind = kind;
        action.index = which;
        action.value = value;
        action.x = x;
        action.y = y;
        in.actions.push(std::move(action));
    };
    if (picture.hovered && io.MouseWheel != 0 && !io.KeyCtrl) {
        push(model::ActionKind::ZoomView, static_cast<double>(io.MouseWheel), 0, 0);
    }
    const bool pan = ImGui::IsMouseDown(1) || ImGui::IsMouseDown(2) || io.KeyShift;
    // The way that the pointer came to the place it is pressed at is no drag.
    const bool dragging =
        (picture.held && !picture.began) || (picture.hovered && pan && !picture.held &&
                                             (ImGui::IsMouseDown(1) || ImGui::IsMouseDown(2)));
    if (dragging && (io.MouseDelta.x != 0 || io.MouseDelta.y != 0)) {
        const scene::View view =
            which == 0 ? in.model.session.view.view : model::secondViewOf(in.model.session).view;
        push(pan || view == scene::View::Map ? model::ActionKind::PanView
                                             : model::ActionKind::TurnView,
             0, static_cast<double>(io.MouseDelta.x / (100 * in.layout.scale)),
             static_cast<double>(io.MouseDelta.y / (100 * in.layout.scale)));
    }
    if (picture.hovered && ImGui::IsMouseDoubleClicked(0)) {
        push(model::ActionKind::ResetView, 0, 0, 0);
    }
    if (picture.began) {
        state.pressed_x = io.MousePos.x;
        state.pressed_y = io.MousePos.y;
    }
    if (!picture.hovered) return;
    state.wants_hand = false;
    state.hint =
        "Drag: turn. Right drag: move. Wheel: lens or distance. Double-click: as at first (R)";
    const float moved =
        std::hypot(io.MousePos.x - state.pressed_x, io.MousePos.y - state.pressed_y);
    if (picture.held && moved > in.canvas.px(4)) return;
    const std::optional<double> moment = pointedMoment(in, which);
    if (!moment) return;
    state.wants_hand = true;
    state.hint = "Click: go to this moment of the path";
    drawPointed(in, *moment, which);
    if (picture.clicked) in.actions.push(model::ActionKind::Seek, *moment);
}

/// Of a draft only the figures that are looked at are as they will be: the others keep their
/// pictures until the fine path is there.
void refreshRibbons(const model::Model& model, UiState& state) {
    if (!model.shown || state.revision == model.shown->revision) return;
    state.revision = model.shown->revision;
    const std::vector<model::OutlineRow>& outline = model.shown->outline;
    const bool keeps = model.shown->draft && state.ribbons.size() == outline.size();
    state.ribbons.resize(outline.size());
    const model::LookedAt dense = model::aroundMoment(model.clock.time_s());
    for (std::size_t i = 0; i < outline.size(); ++i) {
        const model::OutlineRow& row = outline[i];
        if (keeps && (row.start_s < dense.from_s || row.stop_s > dense.to_s)) continue;
        state.ribbons[i] = makeRibbon(model.shown->path(), row.start_s, row.stop_s,
                                      model.shown->source.aircraft->geometry.span_m);
    }
}

}  // namespace

Press press(const char* id, const Rect& rect) {
    Press out;
    if (rect.width < 1 || rect.height < 1) return out;
    targets().pressed.push_back(rect);
    ImGui::SetCursorScreenPos(ImVec2(rect.x, rect.y));
    out.clicked = ImGui::InvisibleButton(id, ImVec2(rect.width, rect.height));
    out.hovered = ImGui::IsItemHovered();
    out.held = ImGui::IsItemActive();
    out.began = ImGui::IsItemActivated();
    return out;
}

void applyStyle(const Theme& theme) {
    ImGuiStyle& style = ImGui::GetStyle();
    style = ImGuiStyle();
    style.WindowPadding = ImVec2(0, 0);
    style.WindowRounding = 0;
    style.WindowBorderSize = 0;
    style.PopupRounding = 2;
    style.PopupBorderSize = 1;
    style.FrameRounding = 2;
    style.FrameBorderSize = 0;
    style.ItemSpacing = ImVec2(8, 4);
    style.ItemInnerSpacing = ImVec2(8, 4);
    style.ScrollbarSize = 6;
    style.ScrollbarRounding = 3;
    style.GrabMinSize = 12;
    style.GrabRounding = 1;
    style.DisabledAlpha = 0.45F;
    // The line textures of the toolkit's own atlas are not in ours.
    style.AntiAliasedLinesUseTex = false;
    for (int i = 0; i < ImGuiCol_COUNT; ++i) style.Colors[i] = unpacked(theme.raised);
    style.Colors[ImGuiCol_Text] = unpacked(theme.ink);
    style.Colors[ImGuiCol_TextDisabled] = unpacked(theme.ink3);
    style.Colors[ImGuiCol_WindowBg] = unpacked(theme.surface);
    style.Colors[ImGuiCol_Border] = unpacked(theme.line);
    style.Colors[ImGuiCol_NavHighlight] = unpacked(theme.now);
}

void drawUi(const model::Model& model, const Layout& layout, const PictureInfo& picture,
            UiState& state, Glyphs& glyphs, model::Actions& actions) {
    targets() = Targets();
    refreshRibbons(model, state);
    state.wants_text = state.wants_hand = state.wants_resize_across = state.wants_resize_down =
        false;
    const Theme& theme = themeOf(model.session.theme == model::ThemeChoice::Light);
    applyStyle(theme);
    handleKeys(model, actions);

    ImGui::SetNextWindowPos(ImVec2(0, 0));
    ImGui::SetNextWindowSize(ImVec2(layout.window.width, layout.window.height));
    ImGui::Begin("window", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove |
                     ImGuiWindowFlags_NoBackground | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoNav);
    // The window's own clip rectangle is inset by half a pixel of padding; we draw edge to edge.
    ImDrawList* list = ImGui::GetWindowDrawList();
    list->PushClipRect(ImVec2(0, 0), ImVec2(layout.window.width, layout.window.height));
    const Canvas canvas(list, theme, glyphs, layout.scale);
    const PanelInput in{model, layout, picture, canvas, actions};

    // What is pressed first wins, what is drawn last lies on top: overlays take input early and
    // are drawn late, through channels of the one list.
    list->ChannelsSplit(4);
    list->ChannelsSetCurrent(3);
    drawKeyHelp(in);
    drawList(in, state);
    const bool prompter = model.prompter.on && model.shown;
    // The prompter has a place of its own for what is said.
    if (!prompter || !model.question.choices.empty()) drawMessages(in, state);
    list->ChannelsSetCurrent(2);
    if (!prompter) drawTrends(in, state);
    list->ChannelsSetCurrent(3);
    if (!prompter) handleEdges(in, state);
    list->ChannelsSetCurrent(2);
    if (!model.trends.open) drawHelpCard(in, state);
    list->ChannelsSetCurrent(1);
    if (prompter) {
        drawPrompter(in, state);
    } else if (model.start_panel) {
        drawStart(in, state);
    } else if (layout.brief.width > 0) {
        drawCueColumn(in, state);
        drawBriefPage(in, state);
    } else if (layout.sheet.width > 0) {
        drawSheet(in, state);
    }
    drawReviewColumn(in, state);
    if (layout.timeline.height > 0) drawTimeline(in, state);
    drawWalkWords(in);
    list->ChannelsSetCurrent(0);
    if (!prompter) drawPictureMarks(in, state);
    if (picture.second) handlePicture(in, state, picture.second_rect, 1);
    handlePicture(in, state, layout.picture, 0);
    list->ChannelsMerge();
    list->PopClipRect();
    ImGui::End();
}

}  // namespace plumbline::ui
