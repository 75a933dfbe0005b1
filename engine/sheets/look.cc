#include "engine/sheets/look.h"

#include <algorithm>
#include <cmath>

namespace plumbline::sheets {

using page::Point;

Look Look::from(const Vec3& eye, const Vec3& at) {
    Look look;
    look.perspective_ = true;
    look.eye_S_m_ = eye;
    look.forward_S_ = glm::normalize(at - eye);
    const Vec3 side = glm::cross(look.forward_S_, Vec3(0, 0, 1));
    look.right_S_ = glm::length(side) > 1e-6 ? glm::normalize(side) : Vec3(1, 0, 0);
    look.up_S_ = glm::cross(look.right_S_, look.forward_S_);
    return look;
}

Look Look::along(const Vec3& forward, const Vec3& right) {
    Look look;
    look.forward_S_ = forward;
    look.right_S_ = right;
    look.up_S_ = glm::cross(right, forward);
    return look;
}

Look::Spot Look::spotOf(const Vec3& place) const {
    const Vec3 from = place - eye_S_m_;
    Spot spot{glm::dot(from, right_S_), glm::dot(from, up_S_), glm::dot(from, forward_S_)};
    if (perspective_) {
        const double ahead = std::max(spot.depth, 1.0);  // what is behind the eye is not drawn
        spot.x /= ahead;
        spot.y /= ahead;
    }
    return spot;
}

bool Look::sees(const Vec3& place, const Vec3& outward) const {
    return glm::dot(outward, perspective_ ? place - eye_S_m_ : forward_S_) < 0;
}

Band bandOf(const path::Path& path, double start_s, double stop_s, int steps, double wing_m,
            const Look& look, const Vec3& drift_S_mps) {
    Band band;
    for (int i = 0; i <= steps; ++i) {
        const double t_s = start_s + (stop_s - start_s) * i / steps;
        const path::Sample sample = path::sampleAt(path, t_s);
        const Vec3 at = sample.position_S_m + drift_S_mps * (t_s - start_s);
        const Vec3 wing = rotate(sample.q_SB, Vec3(0, 0.5 * wing_m, 0));
        Band::Rung rung;
        rung.left = look.spotOf(at - wing);
        rung.right = look.spotOf(at + wing);
        rung.middle = look.spotOf(at);
        rung.canopy = look.sees(at, rotate(sample.q_SB, Vec3(0, 0, -1)));
        band.rungs.push_back(rung);
    }
    return band;
}

void Fit::take(const Look::Spot& spot) {
    x0_ = std::min(x0_, spot.x);
    x1_ = std::max(x1_, spot.x);
    y0_ = std::min(y0_, spot.y);
    y1_ = std::max(y1_, spot.y);
}

void Fit::take(const Band& band) {
    for (const Band::Rung& rung : band.rungs) {
        take(rung.left);
        take(rung.right);
    }
}

void Fit::settle(double least) {
    const double wide = std::max(x1_ - x0_, least), high = std::max(y1_ - y0_, least);
    per_unit_mm_ =
        std::min((box_.width_mm - 2 * margin_mm_) / wide, (box_.height_mm - 2 * margin_mm_) / high);
}

Point Fit::operator()(const Look::Spot& spot) const {
    return {box_.x_mm + 0.5 * box_.width_mm + (spot.x - 0.5 * (x0_ + x1_)) * per_unit_mm_,
            box_.y_mm + 0.5 * box_.height_mm - (spot.y - 0.5 * (y0_ + y1_)) * per_unit_mm_};
}

void drawBand(page::Document& document, const Band& band, const Fit& fit, const BandInk& ink) {
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i + 1 < band.rungs.size(); ++i) order.push_back(i);
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return band.rungs[a].middle.depth + band.rungs[a + 1].middle.depth >
               band.rungs[b].middle.depth + band.rungs[b + 1].middle.depth;
    });
    for (const std::size_t i : order) {
        const Band::Rung &a = band.rungs[i], &b = band.rungs[i + 1];
        const Point al = fit(a.left), ar = fit(a.right), bl = fit(b.left), br = fit(b.right);
        const Point quad[] = {al, ar, br, bl};
        document.fill(quad, a.canopy ? ink.canopy : ink.wheels);
        const page::Stroke edge{ink.edge_pt, ink.edge, 0, true};
        document.line(al, bl, edge);
        document.line(ar, br, edge);
    }
    for (const Band::Rung* end : {&band.rungs.front(), &band.rungs.back()})
        document.line(fit(end->left), fit(end->right), {ink.edge_pt, ink.edge, 0, true});
}

}  // namespace plumbline::sheets
