// The site from above in a corner: lines, box, aircraft, where the eye stands, wind and sun.

#include <algorithm>
#include <cmath>

#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

/// Site metres to the inset's pixels, +x to the right, +y up.
struct MapScale {
    float x = 0, y = 0;  ///< of the site point (mid_x, mid_y)
    double mid_x = 0, mid_y = 0;
    double px_per_m = 1;

    ImVec2 at(double x_m, double y_m) const {
        return ImVec2(x + static_cast<float>((x_m - mid_x) * px_per_m),
                      y - static_cast<float>((y_m - mid_y) * px_per_m));
    }
};

MapScale scaleOf(const model::Shown& shown, const Rect& room) {
    const data::Site& site = shown.source.world->site;
    double x0 = -100, x1 = 100, y0 = -100, y1 = 100;
    const auto include = [&](double x, double y) {
        x0 = std::min(x0, x);
        x1 = std::max(x1, x);
        y0 = std::min(y0, y);
        y1 = std::max(y1, y);
    };
    if (!shown.recording()) {
        include(site.crowd_x_min_m, site.crowd_line_y_m - 30);
        include(site.crowd_x_max_m, site.crowd_line_y_m);
    }
    if (site.box) {
        include(site.box->x_min_m, 0);
        include(site.box->x_max_m, 0);
    } else if (!shown.recording()) {
        include(-600, 0);  // chosen: a usual display's length where the file gives none
        include(600, 0);
    }
    if (shown.recording()) {
        const std::size_t step = std::max<std::size_t>(1, shown.path().samples.size() / 500);
        for (std::size_t i = 0; i < shown.path().samples.size(); i += step) {
            const Vec3& p = shown.path().samples[i].position_S_m;
            include(p.x, p.y);
        }
    }
    MapScale scale;
    scale.px_per_m = std::min(static_cast<double>(room.width) / (x1 - x0),
                              static_cast<double>(room.height) / (y1 - y0));
    scale.mid_x = (x0 + x1) / 2;
    // A show keeps its crowd at the lower edge; what lies beyond the upper one is cut off.
    scale.mid_y = shown.recording() ? (y0 + y1) / 2
                                    : y0 + static_cast<double>(room.height) / 2 / scale.px_per_m;
    scale.x = room.x + room.width / 2;
    scale.y = room.y + room.height / 2;
    return scale;
}

void dashed(const Canvas& c, ImVec2 from, ImVec2 to, Colour colour) {
    const float dx = to.x - from.x, dy = to.y - from.y;
    const float length = std::sqrt(dx * dx + dy * dy);
    const float dash = c.px(4);
    for (float s = 0; s < length; s += dash * 2) {
        const float a = s / length, b = std::min(s + dash, length) / length;
        c.list()->AddLine(ImVec2(from.x + dx * a, from.y + dy * a),
                          ImVec2(from.x + dx * b, from.y + dy * b), colour, c.scale());
    }
}

void drawSite(const Canvas& c, const data::Site& site, const MapScale& map) {
    const Theme& theme = c.theme();
    if (site.runway) {
        const double angle = site.show_line_bearing_rad - site.runway->bearing_rad;
        const double half = site.runway->length_m / 2;
        const double dx = std::cos(angle) * half, dy = std::sin(angle) * half;
        const Vec3& m = site.runway->centre_S_m;
        c.list()->AddLine(map.at(m.x - dx, m.y - dy), map.at(m.x + dx, m.y + dy),
                          faded(theme.edge, 0.6), c.px(4));
    }
    if (site.box) {
        const data::Box& b = *site.box;
        const ImVec2 corner[4] = {map.at(b.x_min_m, b.y_max_m), map.at(b.x_max_m, b.y_max_m),
                                  map.at(b.x_max_m, b.y_min_m), map.at(b.x_min_m, b.y_min_m)};
        for (int i = 0; i < 4; ++i) dashed(c, corner[i], corner[(i + 1) % 4], theme.edge);
    }
    c.list()->AddLine(map.at(site.crowd_x_min_m, site.crowd_line_y_m),
                      map.at(site.crowd_x_max_m, site.crowd_line_y_m), theme.ink2, c.px(2));
    const ImVec2 crowd = map.at(site.crowd_x_min_m, site.crowd_line_y_m);
    c.textRight(crowd.x - c.px(6), crowd.y - c.px(7), kSmall, theme.ink2, "crowd");
    const double show_x0 = site.box ? site.box->x_min_m : -600.0;
    const double show_x1 = site.box ? site.box->x_max_m : 600.0;
    c.list()->AddLine(map.at(show_x0, 0), map.at(show_x1, 0), faded(theme.now, 0.8), c.scale());
}

void drawPathAndAircraft(const PanelInput& in, const MapScale& map) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const path::Path& path = in.model.shown->path();
    const double now_s = in.model.clock.time_s();
    const auto trail = [&](double from_s, double to_s, Colour colour) {
        constexpr int kPoints = 40;
        std::vector<ImVec2> points;
        for (int i = 0; i <= kPoints; ++i) {
            const Vec3 p =
                path::sampleAt(path, from_s + (to_s - from_s) * i / kPoints).position_S_m;
            points.push_back(map.at(p.x, p.y));
        }
        c.stroke(points, colour, 1.5F);
    };
    const bool recording = in.model.shown->recording();
    const double stay_s = recording ? 120 : 16;
    const double to_come_s = recording ? 60 : 6;
    trail(now_s, std::min(now_s + to_come_s, path.duration_s()), faded(theme.ink, 0.45));
    trail(std::max(0.0, now_s - stay_s), now_s, recording ? theme.flight : theme.ink);
    const path::Sample now = path::sampleAt(path, now_s);
    const ImVec2 at = map.at(now.position_S_m.x, now.position_S_m.y);
    const Vec3 nose = rotate(now.q_SB, Vec3(1, 0, 0));
    Vec3 along = std::hypot(nose.x, nose.y) > 0.2 ? nose : now.velocity_S_mps;
    const double length = std::hypot(along.x, along.y);
    if (length < 1e-6) {
        c.list()->AddCircleFilled(at, 3 * c.scale(), theme.fill, 16);
        return;
    }
    const auto fx = static_cast<float>(along.x / length);
    const auto fy = static_cast<float>(-along.y / length);
    const float s = c.scale();
    const auto point = [&](float forward, float right) {
        return ImVec2(at.x + (fx * forward - fy * right) * s,
                      at.y + (fy * forward + fx * right) * s);
    };
    c.list()->AddTriangleFilled(point(7, 0), point(-5, 4.5F), point(-2.5F, 0), theme.fill);
    c.list()->AddTriangleFilled(point(7, 0), point(-5, -4.5F), point(-2.5F, 0), theme.fill);
}

/// Where the crowd's eye stands and what it sees.
void drawEye(const PanelInput& in, const MapScale& map) {
    const scene::View view = in.model.session.view.view;
    if (in.picture.list == nullptr || (view != scene::View::Crowd && view != scene::View::Judge)) {
        return;
    }
    const Canvas& c = in.canvas;
    const scene::Camera& camera = in.picture.list->camera;
    const ImVec2 eye = map.at(camera.eye_S_m.x, camera.eye_S_m.y);
    const double aspect = static_cast<double>(in.layout.picture.width) /
                          std::max(1.0, static_cast<double>(in.layout.picture.height));
    const double half_rad = std::atan(std::tan(camera.vertical_fov_rad / 2) * aspect);
    const double middle_rad = std::atan2(camera.forward_S.y, camera.forward_S.x);
    for (double side : {-1.0, 1.0}) {
        const double a = middle_rad + side * half_rad;
        const float reach = c.px(58);
        c.list()->AddLine(eye,
                          ImVec2(eye.x + static_cast<float>(std::cos(a)) * reach,
                                 eye.y - static_cast<float>(std::sin(a)) * reach),
                          faded(c.theme().ink2, 0.7), c.scale());
    }
    c.list()->AddCircleFilled(eye, 2.5F * c.scale(), c.theme().ink, 16);
}

}  // namespace

void drawMapInset(const PanelInput& in, const Rect& rect) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Shown& shown = *in.model.shown;
    c.fill(rect, theme.veil);
    c.frame(rect, theme.line);
    const Clip clip(c, rect);
    const float line = rect.y + c.px(11);
    float x = rect.x + c.px(14);
    if (shown.wind_mps) {
        if (*shown.wind_mps >= 0.5) {
            const auto dx = static_cast<float>(std::cos(shown.wind_to_rad)) * c.px(9);
            const auto dy = -static_cast<float>(std::sin(shown.wind_to_rad)) * c.px(9);
            const ImVec2 m(x + c.px(9), line + c.px(7));
            const ImVec2 tip(m.x + dx, m.y + dy);
            c.list()->AddLine(ImVec2(m.x - dx, m.y - dy), tip, theme.ink, 1.5F * c.scale());
            const ImVec2 head[3] = {
                ImVec2(tip.x - dx * 0.55F - dy * 0.45F, tip.y - dy * 0.55F + dx * 0.45F), tip,
                ImVec2(tip.x - dx * 0.55F + dy * 0.45F, tip.y - dy * 0.55F - dx * 0.45F)};
            c.list()->AddPolyline(head, 3, theme.ink, 0, 1.5F * c.scale());
            x += c.px(26);
            c.text(x, line, kSmall, theme.ink2,
                   "wind " + speedText(*shown.wind_mps, in.model.session.units).joined());
        } else {
            c.text(x, line, kSmall, theme.ink2, "calm");
        }
    } else {
        c.text(x, line, kSmall, theme.ink2, "north up");
    }
    const double sun_deg = shown.source.world->sun_elevation_rad * 180 / kPi;
    std::string sun = sun_deg > 0 ? "sun " + wholeText(sun_deg) + "\u00B0" : "sun down";
    if (sun_deg > 0 && rect.width > c.px(220)) sun += " high";
    c.list()->AddCircle(ImVec2(rect.right() - c.px(18), line + c.px(7)), 5 * c.scale(), theme.ink,
                        20, 1.5F * c.scale());
    c.textRight(rect.right() - c.px(28), line, kSmall, theme.ink2, sun);

    const float top = rect.y + c.px(32);
    const Rect room{rect.x + c.px(10), top, rect.width - c.px(20), rect.bottom() - c.px(8) - top};
    const MapScale map = scaleOf(shown, room);
    if (!shown.recording()) {
        drawSite(c, shown.source.world->site, map);
        const ImVec2 centre = map.at(0, 0);
        const float r = 4 * c.scale();
        c.list()->AddLine(ImVec2(centre.x - r, centre.y - r), ImVec2(centre.x + r, centre.y + r),
                          theme.now, 1.5F * c.scale());
        c.list()->AddLine(ImVec2(centre.x - r, centre.y + r), ImVec2(centre.x + r, centre.y - r),
                          theme.now, 1.5F * c.scale());
    }
    drawPathAndAircraft(in, map);
    drawEye(in, map);
}

}  // namespace plumbline::ui
