// Small pictures of figures, drawn from the computed path.

#include <algorithm>
#include <cmath>

#include "engine/brief/rungs.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

constexpr float kHalfWidth = 20, kHalfHeight = 13;  ///< units
constexpr int kSteps = 44;  // chosen: a step is a pixel or two of the picture

}  // namespace

Ribbon makeRibbon(const path::Path& path, double start_s, double stop_s, double span_m) {
    Ribbon ribbon;
    const std::vector<brief::Rung> points = brief::rungsOf(path, start_s, stop_s, span_m, kSteps);
    double x0 = points[0].x, x1 = x0, y0 = points[0].y, y1 = y0;
    for (const brief::Rung& p : points) {
        x0 = std::min({x0, p.left_x, p.right_x});
        x1 = std::max({x1, p.left_x, p.right_x});
        y0 = std::min({y0, p.left_y, p.right_y});
        y1 = std::max({y1, p.left_y, p.right_y});
    }
    constexpr double kLead = 7;  ///< units kept free at both sides for dots and chevron
    const double per_m = std::min((2 * kHalfWidth - kLead) / std::max(x1 - x0, 60.0),
                                  (2 * kHalfHeight - 2) / std::max(y1 - y0, 60.0));
    const auto place = [&](double x, double y) {
        return ImVec2(static_cast<float>((x - (x0 + x1) / 2) * per_m),
                      static_cast<float>((y - (y0 + y1) / 2) * per_m));
    };
    std::vector<std::pair<double, Ribbon::Quad>> quads;
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const brief::Rung& a = points[i];
        const brief::Rung& b = points[i + 1];
        Ribbon::Quad quad;
        quad.corner[0] = place(a.left_x, a.left_y);
        quad.corner[1] = place(a.right_x, a.right_y);
        quad.corner[2] = place(b.right_x, b.right_y);
        quad.corner[3] = place(b.left_x, b.left_y);
        quad.canopy = a.canopy;
        quads.emplace_back(a.depth + b.depth, quad);
    }
    std::stable_sort(quads.begin(), quads.end(),
                     [](const auto& a, const auto& b) { return a.first > b.first; });
    for (const auto& quad : quads) ribbon.quads.push_back(quad.second);

    const auto direction = [](ImVec2 from, ImVec2 to) {
        const float dx = to.x - from.x, dy = to.y - from.y;
        const float length = std::max(0.01F, std::sqrt(dx * dx + dy * dy));
        return ImVec2(dx / length, dy / length);
    };
    const std::size_t last = points.size() - 1;
    const ImVec2 first_at = place(points[0].x, points[0].y);
    const ImVec2 in = direction(first_at, place(points[2].x, points[2].y));
    for (int i = 1; i <= 3; ++i) {
        const float away = 3.0F * static_cast<float>(i);
        ribbon.lead_in.emplace_back(first_at.x - in.x * away, first_at.y - in.y * away);
    }
    const ImVec2 end = place(points[last].x, points[last].y);
    const ImVec2 out = direction(place(points[last - 2].x, points[last - 2].y), end);
    const ImVec2 tip(end.x + out.x * 3, end.y + out.y * 3);
    ribbon.chevron[0] = ImVec2(tip.x - out.x * 3 - out.y * 3, tip.y - out.y * 3 + out.x * 3);
    ribbon.chevron[1] = tip;
    ribbon.chevron[2] = ImVec2(tip.x - out.x * 3 + out.y * 3, tip.y - out.y * 3 - out.x * 3);
    return ribbon;
}

void drawRibbon(const Canvas& canvas, const Ribbon& ribbon, float x, float y, float size) {
    const float s = canvas.scale() * size;
    const auto at = [&](const ImVec2& p) { return ImVec2(x + p.x * s, y + p.y * s); };
    const Theme& theme = canvas.theme();
    const float least = 0.75F * canvas.scale();  // a ribbon seen edge on is still a line
    for (const Ribbon::Quad& quad : ribbon.quads) {
        const Colour colour = quad.canopy ? theme.fill : theme.wheel_side;
        canvas.list()->AddQuadFilled(at(quad.corner[0]), at(quad.corner[1]), at(quad.corner[2]),
                                     at(quad.corner[3]), colour);
        const ImVec2 from((quad.corner[0].x + quad.corner[1].x) / 2,
                          (quad.corner[0].y + quad.corner[1].y) / 2);
        const ImVec2 to((quad.corner[2].x + quad.corner[3].x) / 2,
                        (quad.corner[2].y + quad.corner[3].y) / 2);
        canvas.list()->AddLine(at(from), at(to), colour, 2 * least);
    }
    float radius = 0.9F * canvas.scale();
    for (const ImVec2& dot : ribbon.lead_in) {
        canvas.list()->AddCircleFilled(at(dot), radius, theme.ink2, 8);
        radius *= 0.8F;
    }
    const ImVec2 chevron[3] = {at(ribbon.chevron[0]), at(ribbon.chevron[1]), at(ribbon.chevron[2])};
    canvas.list()->AddPolyline(chevron, 3, theme.ink, 0, 1.2F * canvas.scale());
}

}  // namespace plumbline::ui
