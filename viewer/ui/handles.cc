// Numbers of the open figure as handles in the picture.

#include "viewer/model/handles.h"

#include <cmath>

#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

struct Placed {
    ImVec2 at{0, 0};
    ImVec2 along{0, -1};  ///< on the picture, unit
    bool seen = false;
};

/// Several numbers of one place stand apart along their ways.
Placed placeOf(const PanelInput& in, const model::Handle& handle, float away) {
    const Rect& picture = in.layout.picture;
    const auto onPicture = [&](const Vec3& point_S_m, ImVec2& at) {
        double x = 0, y = 0, distance_m = 0;
        if (!scene::project(in.picture.list->camera, static_cast<int>(picture.width),
                            static_cast<int>(picture.height), point_S_m, x, y, distance_m)) {
            return false;
        }
        at = ImVec2(picture.x + static_cast<float>(x), picture.y + static_cast<float>(y));
        return true;
    };
    Placed out;
    ImVec2 ahead(0, 0);
    if (!onPicture(handle.position_S_m, out.at) ||
        !onPicture(handle.position_S_m + handle.way_S, ahead)) {
        return out;
    }
    const float dx = ahead.x - out.at.x, dy = ahead.y - out.at.y;
    const float length = std::sqrt(dx * dx + dy * dy);
    if (length < 0.02F) return out;  // its way points at the eye
    out.along = ImVec2(dx / length, dy / length);
    out.at = ImVec2(out.at.x + out.along.x * away, out.at.y + out.along.y * away);
    out.seen = picture.contains(out.at.x, out.at.y) && out.at.y < in.layout.strip.y;
    return out;
}

void drawHandle(const Canvas& c, const Placed& placed, bool lit) {
    const auto point = [&](float along, float across) {
        return ImVec2(placed.at.x + c.px(along) * placed.along.x - c.px(across) * placed.along.y,
                      placed.at.y + c.px(along) * placed.along.y + c.px(across) * placed.along.x);
    };
    const ImVec2 corners[4] = {point(11, 0), point(0, 5), point(-11, 0), point(0, -5)};
    c.list()->AddConvexPolyFilled(corners, 4, lit ? c.theme().now : c.theme().fill);
    c.list()->AddPolyline(corners, 4, c.theme().ink, ImDrawFlags_Closed, c.scale());
}

}  // namespace

void drawHandles(const PanelInput& in, UiState& state) {
    if (in.picture.list == nullptr || in.model.clock.playing() || in.model.start_panel) return;
    if (in.model.session.view.view == scene::View::Cockpit) return;
    const std::vector<model::Handle> handles = model::handlesOf(in.model);
    const Canvas& c = in.canvas;
    if (!ImGui::IsMouseDown(0)) state.handle = -1;
    for (std::size_t i = 0; i < handles.size(); ++i) {
        const model::Handle& handle = handles[i];
        const bool shares =
            i > 0 && glm::length(handle.position_S_m - handles[i - 1].position_S_m) < 1;
        const Placed placed = placeOf(in, handle, shares ? c.px(28) : 0);
        const int number = static_cast<int>(i);
        if (!placed.seen && state.handle != number) continue;
        const float grip = c.px(22);
        ImGui::PushID(number);
        const Press pressed =
            press("handle", Rect{placed.at.x - grip / 2, placed.at.y - grip / 2, grip, grip});
        ImGui::PopID();
        const ImVec2 pointer = ImGui::GetIO().MousePos;
        if (pressed.began) {
            in.actions.push(model::ActionKind::PlaceCaret, static_cast<double>(handle.byte));
            state.handle = number;
            state.handle_taken = handle;
            state.handle_camera = in.picture.list->camera;
            state.handle_x = pointer.x;
            state.handle_y = pointer.y;
        }
        const bool held = state.handle == number && pressed.held;
        if (held && !pressed.began) {
            // As the picture was when it was taken: the path under it moves meanwhile.
            const double by_m = model::draggedBy_m(state.handle_taken, state.handle_camera,
                                                   static_cast<int>(in.layout.picture.width),
                                                   static_cast<int>(in.layout.picture.height),
                                                   static_cast<double>(pointer.x - state.handle_x),
                                                   static_cast<double>(pointer.y - state.handle_y));
            model::Action set;
            set.kind = model::ActionKind::SetNumber;
            set.value = static_cast<double>(handle.byte);
            set.text = model::draggedDigits(state.handle_taken, by_m);
            in.actions.push(std::move(set));
        }
        if (pressed.hovered || held) {
            state.wants_hand = true;
            state.hint = "Drag: changes the number in the text";
            const float width = c.textWidth(kNoteStrong, handle.words) + c.px(16);
            const Rect box{placed.at.x + c.px(14), placed.at.y - c.px(11), width, c.px(22)};
            c.fill(box, c.theme().veil);
            c.text(box.x + c.px(8), box.y + c.px(3), kNoteStrong, c.theme().ink, handle.words);
        }
        drawHandle(c, placed, pressed.hovered || held);
    }
}

}  // namespace plumbline::ui
