#include "viewer/ui/layout.h"

#include <algorithm>
#include <cmath>

namespace plumbline::ui {
namespace {

/// Straight between three points of the table (window at 1280, 1600, 1920 or 720, 900, 1080), held
/// beyond its ends, on the grid of 2.
float between(float at, const std::array<float, 3>& points, const std::array<float, 3>& values) {
    float value = values[0];
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const float t = std::clamp((at - points[i]) / (points[i + 1] - points[i]), 0.0F, 1.0F);
        value += t * (values[i + 1] - values[i]);
    }
    return 2 * std::round(value / 2);
}

constexpr std::array<float, 3> kWidths{1280, 1600, 1920};
constexpr std::array<float, 3> kHeights{720, 900, 1080};

/// Of the timeline with the lanes that it shows by itself.
float usualTimeline(float height) { return between(height, kHeights, {176, 208, 248}); }
/// What those lanes take, with and without speed and smoke.
constexpr float kUsualLanes = 124, kLowLanes = 92;

}  // namespace

bool lowTimeline(float height_px, const LayoutWish& wish) {
    constexpr float kLow = 196;
    const float height =
        wish.timeline_height > 0 ? wish.timeline_height : usualTimeline(height_px / wish.scale);
    return height < kLow;
}

Rect pageRoom(const Layout& layout) {
    const auto px = [&](float units) { return std::round(units * layout.scale); };
    const Rect& column = layout.brief;
    const float note = layout.brief_note;
    return {column.x + px(12), column.y + px(kPageHead + 8) + note,
            std::max(0.0F, column.width - px(24)),
            std::max(0.0F, column.height - px(kPageHead + kPageFoot + 16) - note)};
}

Layout layoutOf(float width_px, float height_px, const LayoutWish& wish) {
    Layout out;
    const float scale = wish.scale;
    const auto px = [scale](float units) { return std::round(units * scale); };
    const float width = width_px / scale;
    const float height = height_px / scale;
    out.scale = scale;
    out.window = Rect{0, 0, width_px, height_px};

    float timeline = wish.timeline_height > 0 ? wish.timeline_height : usualTimeline(height);
    if (wish.lanes_height > 0 && wish.timeline_height <= 0) {
        const bool low = lowTimeline(height_px, wish);
        timeline += wish.lanes_height - (low ? kLowLanes : kUsualLanes);
    }
    if (wish.timeline_folded) {
        out.timeline_short = true;
        timeline = 66;
    }
    if (wish.picture_only) timeline = 0;
    const float timeline_px = px(std::min(timeline, height * 0.5F));
    out.timeline = Rect{0, height_px - timeline_px, width_px, timeline_px};

    const bool briefed = wish.brief && !wish.picture_only && !wish.start_panel;
    const bool with_mending = wish.mending && !briefed && !wish.picture_only && !wish.start_panel;
    const float mending = with_mending ? between(width, kWidths, {320, 380, 440}) : 0;
    // Sheet and column together would leave too little picture.
    constexpr float kFoldBelow = 1100, kFoldBesideMending = 1440;
    float sheet =
        wish.sheet_width > 0 ? wish.sheet_width : between(width, kWidths, {272, 320, 360});
    if (wish.start_panel) {
        sheet = std::min(520.0F, std::max(0.42F * width, std::min(424.0F, 0.55F * width)));
    } else if (wish.sheet_folded || width < kFoldBelow ||
               (with_mending && width < kFoldBesideMending)) {
        out.spine = true;
        sheet = kSpineWidth;
    }
    // Both are read and written in; the picture has what is left.
    float page = 0;
    if (briefed) {
        const auto share = [width](float part, float least, float most) {
            return 2 * std::round(std::clamp(part * width, least, most) / 2);
        };
        out.spine = false;
        sheet = wish.sheet_width > 0 ? std::max(wish.sheet_width, 300.0F) : share(0.26F, 300, 460);
        page = share(0.31F, 320, 640);
    }
    if (wish.picture_only) sheet = 0;
    const float sheet_px = px(sheet);
    out.sheet = Rect{0, 0, sheet_px, out.timeline.y};
    const float mending_px = px(mending);
    if (with_mending) out.mending = Rect{width_px - mending_px, 0, mending_px, out.timeline.y};
    const float page_px = px(page);
    if (briefed && wish.brief_note) out.brief_note = px(kPageNote);
    if (briefed) out.brief = Rect{width_px - page_px, 0, page_px, out.timeline.y};
    out.picture = Rect{sheet_px, 0, width_px - sheet_px - mending_px - page_px, out.timeline.y};

    const float strip_px = px(width < 1440 ? 44 : 52);
    out.strip = Rect{out.picture.x, out.picture.bottom() - strip_px, out.picture.width, strip_px};
    const float room = out.picture.width / scale - 16;
    out.strip_cells = std::clamp(static_cast<int>(room / kCellWidth), 0, 8);

    if (wish.beside && !wish.start_panel) {
        const float half = std::floor(out.picture.width / 2);
        out.second = Rect{out.picture.x + half, 0, out.picture.width - half, out.picture.height};
        out.picture.width = half;
    }
    const float inset_width = px(between(width, kWidths, {184, 240, 288}));
    const float inset_height = px(between(width, kWidths, {106, 140, 166}));
    out.inset_count = width < 1440 ? 1 : 2;
    // The chooser and its captions keep their place in a narrow picture.
    const bool beside = out.second.width > 0;
    if (beside) out.inset_count = std::min(out.inset_count, 1);
    if ((out.picture.width < px(460) + inset_width && !beside) || wish.start_panel) {
        out.inset_count = 0;
    }
    const float inset_right = beside ? out.second.right() : out.picture.right();
    for (int i = 0; i < out.inset_count; ++i) {
        out.insets[static_cast<std::size_t>(i)] = Rect{
            inset_right - px(12) - inset_width,
            px(12) + static_cast<float>(i) * (inset_height + px(8)), inset_width, inset_height};
    }
    if (with_mending && !beside) {
        const Rect left{out.picture.x + px(12), px(12 + 32 + 4 + 56 + 8),
                        px(between(width, kWidths, {152, 204, 240})),
                        px(between(width, kWidths, {140, 180, 216}))};
        // Between the captions and the legend of the path's colours.
        const bool fits = left.bottom() < out.strip.y - px(12 + 208 + 8) &&
                          left.right() < out.picture.x + out.picture.width / 3;
        if (fits) out.left_inset = left;
    }
    while (out.inset_count > 0 &&
           out.insets[static_cast<std::size_t>(out.inset_count - 1)].bottom() >
               out.strip.y - px(8)) {
        --out.inset_count;
    }
    return out;
}

}  // namespace plumbline::ui
