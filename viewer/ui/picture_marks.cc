// What stands over the picture: view chooser, captions, labels, legend, insets.

#include <algorithm>
#include <cmath>

#include "viewer/ui/picture_parts.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

constexpr float kInset = 12;
constexpr float kChooserHeight = 32;

void drawChooser(const PanelInput& in, UiState& state) {
    constexpr const char* kNames[] = {"Crowd", "Judge", "Cockpit", "Chase", "Map", "Free"};
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float y = c.px(kInset);
    const float height = c.px(kChooserHeight);
    const float gap = c.px(22);
    float widths[scene::kViewCount];
    float total = c.px(10) * 2 - gap;
    for (int i = 0; i < scene::kViewCount; ++i) {
        // As wide as when chosen, so that nothing moves.
        widths[i] = c.px(14) + c.textWidth(kStrong, kNames[i]);
        total += widths[i] + gap;
    }
    float x = in.layout.picture.x + c.px(kInset);
    c.fill(Rect{x, y, total, height}, theme.veil);
    x += c.px(10);
    for (int i = 0; i < scene::kViewCount; ++i) {
        const auto view = static_cast<scene::View>(i);
        const bool chosen = in.model.session.view.view == view;
        ImGui::PushID(i);
        const Press tab = press("view", Rect{x - gap / 2, y, widths[i] + gap, height});
        if (tab.hovered) state.hint = "Look from there (1 to 6); with Shift in the second view";
        ImGui::PopID();
        if (tab.hovered) state.wants_hand = true;
        if (tab.clicked) in.actions.pushIndex(ActionKind::SetView, i);
        if (tab.hovered && !chosen) {
            c.fill(Rect{x - gap / 2, y, widths[i] + gap, height}, theme.raised);
        }
        const std::string number = std::to_string(i + 1);
        c.text(x, y + c.px(9), kSmall, theme.ink2, number);
        c.text(x + c.px(13), y + c.px(7), chosen ? kStrong : kBody,
               chosen || tab.hovered ? theme.ink : theme.ink2, kNames[i]);
        if (chosen) {
            c.fill(Rect{x, y + height - c.px(6), widths[i], c.px(2)},
                   theme.light ? theme.now : theme.fill);
        }
        x += widths[i] + gap;
    }
}

void drawCaption(const PanelInput& in) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const scene::ViewCaption& caption = in.picture.caption;
    if (caption.where.empty() && caption.distance.empty()) return;
    const float width =
        std::max({c.textWidth(kNote, caption.where), c.textWidth(kNote, caption.distance),
                  c.textWidth(kNote, caption.glare)});
    const int lines = (caption.where.empty() ? 0 : 1) + (caption.distance.empty() ? 0 : 1) +
                      (caption.glare.empty() ? 0 : 1);
    const Rect box{in.layout.picture.x + c.px(kInset), c.px(kInset + kChooserHeight + 4),
                   width + c.px(20), c.px(8) + c.px(16) * static_cast<float>(lines)};
    c.fill(box, theme.veil);
    float y = box.y + c.px(4);
    if (!caption.where.empty()) {
        c.text(box.x + c.px(10), y, kNote, theme.ink, caption.where);
        y += c.px(16);
    }
    c.text(box.x + c.px(10), y, kNote, theme.ink2, caption.distance);
    if (!caption.glare.empty())
        c.text(box.x + c.px(10), y + c.px(16), kNote, theme.now, caption.glare);
}

void drawSecond(const PanelInput& in) {
    if (!in.picture.second) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& rect = in.picture.second_rect;
    c.frame(rect, theme.light ? theme.surface : theme.line);
    const float width = c.textWidth(kNote, in.picture.second_caption) + c.px(16);
    // Beside the first view the strip covers the lower edge.
    const bool beside = in.layout.second.width > 0;
    const Rect box = beside ? Rect{rect.x + c.px(kInset), rect.y + c.px(kInset), width, c.px(24)}
                            : Rect{rect.x, rect.bottom() - c.px(20), width, c.px(20)};
    c.fill(box, theme.veil);
    c.text(box.x + c.px(8), box.y + c.px(beside ? 4 : 2), kNote, theme.ink,
           in.picture.second_caption);
}

}  // namespace

Rect legendRect(const PanelInput& in) {
    const Canvas& c = in.canvas;
    const float height = c.px(150) + c.px(58);
    return Rect{in.layout.picture.x + c.px(kInset), in.layout.strip.y - c.px(kInset) - height,
                c.px(72), height};
}

/// "Gate 340 m".
std::string wordsOf(const scene::Label& label, model::UnitChoice units) {
    if (!label.height_m) return label.text;
    const NumberText height =
        label.least ? leastHeightText(*label.height_m, units) : heightText(*label.height_m, units);
    return label.text + (label.text.empty() ? "" : " ") + height.joined();
}

std::string quietWordsOf(const scene::Label& label, model::UnitChoice units) {
    if (!label.quiet_m) return label.quiet;
    return label.quiet + " " + heightText(*label.quiet_m, units).joined();
}

/// Labels stand where the scene projects them, 12 from the edges, apart from each other and away
/// from the insets.
void drawLabels(const PanelInput& in) {
    if (in.picture.list == nullptr) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& picture = in.layout.picture;
    const Rect room{picture.x + c.px(kInset), picture.y + c.px(kInset),
                    picture.width - 2 * c.px(kInset),
                    in.layout.strip.y - picture.y - 2 * c.px(kInset)};
    std::vector<Rect> taken;
    for (int i = 0; i < in.layout.inset_count; ++i) {
        taken.push_back(in.layout.insets[static_cast<std::size_t>(i)]);
    }
    if (in.picture.second && in.layout.second.width <= 0) taken.push_back(in.picture.second_rect);
    taken.push_back(Rect{picture.x, 0, c.px(440), c.px(92)});  // chooser and caption
    if (in.model.session.marks.band) taken.push_back(legendRect(in));
    for (const scene::Label& label : in.picture.list->labels) {
        double x = 0, y = 0, distance_m = 0;
        if (!scene::project(in.picture.list->camera, static_cast<int>(picture.width),
                            static_cast<int>(picture.height), label.position_S_m, x, y,
                            distance_m)) {
            continue;
        }
        const std::string text = wordsOf(label, in.model.session.units);
        const std::string quiet_text = quietWordsOf(label, in.model.session.units);
        const float words = c.textWidth(kNoteStrong, text);
        const float quiet = quiet_text.empty() ? 0 : c.textWidth(kNote, quiet_text) + c.px(6);
        Rect box{picture.x + static_cast<float>(x) + c.px(label.offset_x_px),
                 picture.y + static_cast<float>(y) + c.px(label.offset_y_px) - c.px(4),
                 words + quiet + c.px(16), c.px(22)};
        if (box.x < picture.x - box.width || box.x > picture.right() || box.y > picture.bottom()) {
            continue;
        }
        box.x = std::clamp(box.x, room.x, std::max(room.x, room.right() - box.width));
        box.y = std::clamp(box.y, room.y, std::max(room.y, room.bottom() - box.height));
        const auto meets = [&box](const Rect& other) {
            return box.x < other.right() && other.x < box.right() && box.y < other.bottom() &&
                   other.y < box.bottom();
        };
        for (int step = 0; step < 60 && std::any_of(taken.begin(), taken.end(), meets); ++step) {
            box.y += c.px(4);
        }
        if (box.bottom() > room.bottom()) continue;
        box.x = std::round(box.x);
        box.y = std::round(box.y);
        if (label.leads) {
            const ImVec2 at(picture.x + static_cast<float>(x), picture.y + static_cast<float>(y));
            const ImVec2 line[2] = {
                at, ImVec2(at.x < box.x ? box.x : box.right(), box.y + box.height / 2)};
            c.stroke(line, theme.veil, 3.5F);
            c.stroke(line, theme.ink, 1);
            c.list()->AddCircleFilled(at, 3 * c.scale(), theme.ink, 16);
        }
        c.fill(box, theme.veil);
        const float end = c.text(box.x + c.px(8), box.y + c.px(3), kNoteStrong, theme.ink, text);
        c.text(end + c.px(6), box.y + c.px(3), kNote, theme.ink2, quiet_text);
        taken.push_back(box);
    }
}

void drawLegend(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const model::Session& session = in.model.session;
    if (!session.marks.band) return;
    const scene::Quantity quantity = session.marks.band_quantity;
    const path::Path& path = in.model.shown->path();
    const bool apart = quantity == scene::Quantity::Apart;
    const scene::Ghost* ghost = in.model.shown->source.ghost.get();
    if (apart && ghost == nullptr) return;
    const scene::QuantityRange range =
        apart ? ghost->apart_range
              : in.model.shown->source.shape->ranges[static_cast<std::size_t>(quantity)];
    const float ramp_height = c.px(150);
    const Rect placed = legendRect(in);
    if (placed.y < c.px(100)) return;  // no room under the captions
    const Press pressed = press("legend", placed);
    if (pressed.hovered) state.wants_hand = true;
    if (pressed.clicked) in.actions.push(ActionKind::CycleQuantity);
    c.fill(placed, theme.veil);
    const bool load = quantity == scene::Quantity::Load;
    const bool speed = quantity == scene::Quantity::Speed;
    const std::string title = load    ? "Load, g"
                              : apart ? (in.model.shown->review ? "Off plan, m" : "Apart, m")
                              : speed ? std::string("Speed, ") + speedUnit(session.units)
                                      : std::string("Height, ") + heightUnit(session.units);
    c.text(placed.x + c.px(10), placed.y + c.px(8), Type{11, 14, Weight::SemiBold}, theme.ink,
           title);
    const float x = placed.x + c.px(10);
    const float top = placed.y + c.px(38);
    const int steps = static_cast<int>(ramp_height);
    for (int i = 0; i < steps; ++i) {
        const double t = 1 - (i + 0.5) / steps;
        const glm::vec3 rgb = scene::mapColour(
            quantity, range, range.low + t * (range.high - range.low), session.marks.grey);
        c.fill(Rect{x, top + static_cast<float>(i), c.px(8), 1},
               ImGui::ColorConvertFloat4ToU32(ImVec4(rgb.r, rgb.g, rgb.b, 1)));
    }
    std::vector<double> ticks = {range.low, range.high};
    if (load) {
        ticks = {-6, 0, 5, 10};
    } else {
        ticks.push_back(range.low + (range.high - range.low) / 3);
        ticks.push_back(range.low + (range.high - range.low) * 2 / 3);
    }
    const auto tick_y = [&](double value) {
        const double t = (value - range.low) / (range.high - range.low);
        return std::round(top + (1 - static_cast<float>(t)) * ramp_height);
    };
    for (double value : ticks) {
        const float y = tick_y(value);
        c.across(x + c.px(8), x + c.px(12), y, theme.ink2);
        std::string words = speed ? wholeText(speedInUnit(value, session.units))
                                  : wholeText(heightInUnit(value, session.units));
        if (load) words = (value > 0 ? "+" : "") + wholeText(value);
        if (apart) words = wholeText(value);
        c.text(x + c.px(16), y - c.px(7), kSmall, theme.ink, words);
    }
    // Where the flight stands now.
    const path::Sample now = path::sampleAt(path, in.model.clock.time_s());
    const double value = apart ? static_cast<double>(scene::keptApart(*ghost, now.time_s))
                               : scene::valueOf(quantity, now);
    if (!std::isfinite(value)) return;
    const float y = tick_y(std::clamp(value, range.low, range.high));
    c.fill(Rect{x - c.px(3), y - c.px(1), c.px(14), c.px(2)}, theme.ink);
}

void drawPictureMarks(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    if (!in.model.shown) {
        c.fill(in.layout.picture, c.theme().under);
        return;
    }
    Rect both = in.layout.picture;
    both.width += in.layout.second.width;
    const Clip clip(c, both);
    drawLabels(in);
    drawSecond(in);
    if (in.picture.map) drawMapInset(in, in.picture.map_rect);
    if (!in.model.start_panel) {
        drawLegend(in, state);
        drawStrip(in);
        drawSightingCard(in);
        drawHeardMark(in);
        drawCaption(in);
        drawHandles(in, state);
    }
    drawChooser(in, state);
}

}  // namespace plumbline::ui
