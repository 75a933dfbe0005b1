// Moments of the path in the picture: the one under the pointer, and the one that is heard now.

#include <algorithm>

#include "viewer/scene/hearing.h"
#include "viewer/scene/pick.h"
#include "viewer/ui/picture_parts.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::ui {
namespace {

struct Spot {
    Rect rect;
    const scene::DrawList* list = nullptr;
};

Spot placeOf(const PanelInput& in, int which) {
    if (which == 1) return {in.picture.second_rect, in.picture.second_list};
    return {in.layout.picture, in.picture.list};
}

/// A ring on the path with words beside it, on a veil.
void drawMoment(const PanelInput& in, const Spot& place, double time_s, Colour colour,
                const std::string& words) {
    const Canvas& c = in.canvas;
    const path::Sample at = path::sampleAt(in.model.shown->path(), time_s);
    double x = 0, y = 0, distance_m = 0;
    if (!scene::project(place.list->camera, static_cast<int>(place.rect.width),
                        static_cast<int>(place.rect.height), at.position_S_m, x, y, distance_m)) {
        return;
    }
    const ImVec2 centre(place.rect.x + static_cast<float>(x), place.rect.y + static_cast<float>(y));
    if (!place.rect.contains(centre.x, centre.y) || in.layout.strip.contains(centre.x, centre.y)) {
        return;
    }
    c.list()->AddCircle(centre, c.px(5), c.theme().veil, 24, 3.5F * c.scale());
    c.list()->AddCircle(centre, c.px(5), colour, 24, 1.5F * c.scale());
    const float width = c.textWidth(kNote, words) + c.px(14);
    const float right = place.rect.right() - c.px(12);
    const Rect box{std::min(centre.x + c.px(10), right - width), centre.y - c.px(28), width,
                   c.px(20)};
    c.fill(box, c.theme().veil);
    c.text(box.x + c.px(7), box.y + c.px(2), kNote, c.theme().ink, words);
}

}  // namespace

std::optional<double> pointedMoment(const PanelInput& in, int which) {
    const Spot place = placeOf(in, which);
    const scene::Marks& marks = in.model.session.marks;
    if (place.list == nullptr || !in.model.shown) return std::nullopt;
    const double now_s = in.model.clock.time_s(), end_s = in.model.clock.duration_s();
    // At the aircraft itself there is nothing to go to.
    constexpr double kHere_s = 0.3;
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    const auto pick = [&](double from_s, double to_s) {
        scene::PickWish wish;
        wish.from_s = std::max(0.0, from_s);
        wish.to_s = std::min(end_s, to_s);
        wish.within_px = static_cast<double>(in.canvas.px(8));
        return scene::pickPath(
            in.model.shown->path(), place.list->camera, static_cast<int>(place.rect.width),
            static_cast<int>(place.rect.height), static_cast<double>(mouse.x - place.rect.x),
            static_cast<double>(mouse.y - place.rect.y), wish);
    };
    if (marks.to_come) {
        if (const auto ahead = pick(now_s + kHere_s, now_s + marks.to_come_s)) return ahead;
    }
    if (!marks.band) return std::nullopt;
    return pick(now_s - marks.band_behind_s, now_s - kHere_s);
}

void drawPointed(const PanelInput& in, double time_s, int which) {
    drawMoment(in, placeOf(in, which), time_s, in.canvas.theme().ink,
               timeText(time_s) + hundredthsText(time_s).substr(0, 2));
}

void drawHeardMark(const PanelInput& in) {
    const model::Session& session = in.model.session;
    const model::LaneSet lanes =
        model::shownLanes(session.lane_wishes, model::laneSituation(in.model));
    const bool seated =
        session.view.view == scene::View::Crowd || session.view.view == scene::View::Judge;
    if (!seated || in.picture.list == nullptr ||
        !lanes[static_cast<std::size_t>(model::Lane::Heard)]) {
        return;
    }
    const scene::World& world = *in.model.shown->source.world;
    const double made_s =
        scene::madeAt(in.model.shown->path(), scene::seatOf(session.view, world.site),
                      world.speed_of_sound_mps, in.model.clock.time_s());
    drawMoment(in, placeOf(in, 0), made_s, in.canvas.theme().ink2, "heard now");
}

}  // namespace plumbline::ui
