#include "viewer/ui/canvas.h"

#include <array>
#include <vector>

namespace plumbline::ui {
namespace {

ImVec2 minOf(const Rect& rect) { return ImVec2(rect.x, rect.y); }
ImVec2 maxOf(const Rect& rect) { return ImVec2(rect.right(), rect.bottom()); }

}  // namespace

void Canvas::fill(const Rect& rect, Colour colour) const {
    list_->AddRectFilled(minOf(rect), maxOf(rect), colour);
}

void Canvas::frame(const Rect& rect, Colour colour) const {
    const float w = std::max(1.0F, std::floor(theme_.hairline * scale_));
    fill(Rect{rect.x, rect.y, rect.width, w}, colour);
    fill(Rect{rect.x, rect.bottom() - w, rect.width, w}, colour);
    fill(Rect{rect.x, rect.y + w, w, rect.height - 2 * w}, colour);
    fill(Rect{rect.right() - w, rect.y + w, w, rect.height - 2 * w}, colour);
}

void Canvas::across(float x0, float x1, float y, Colour colour) const {
    const float w = std::max(1.0F, std::floor(theme_.hairline * scale_));
    fill(Rect{x0, std::floor(y), x1 - x0, w}, colour);
}

void Canvas::down(float x, float y0, float y1, Colour colour) const {
    const float w = std::max(1.0F, std::floor(theme_.hairline * scale_));
    fill(Rect{std::floor(x), y0, w, y1 - y0}, colour);
}

void Canvas::stroke(std::span<const ImVec2> points, Colour colour, float width_units) const {
    list_->AddPolyline(points.data(), static_cast<int>(points.size()), colour, 0,
                       width_units * scale_);
}

void Canvas::dotted(float x0, float x1, float y, Colour colour, float dot_units,
                    float gap_units) const {
    const float dot = std::max(1.0F, dot_units * scale_);
    const float step = dot + std::max(1.0F, gap_units * scale_);
    const float height = std::max(1.0F, std::round(scale_));
    for (float x = x0; x < x1; x += step) {
        fill(Rect{x, std::floor(y), std::min(dot, x1 - x), height}, colour);
    }
}

Weight Canvas::weightOf(const Type& type) const {
    return theme_.light && type.weight == Weight::Regular ? Weight::Medium : type.weight;
}

float Canvas::textWidth(const Type& type, std::string_view words) const {
    const int size = sizeOf(type);
    const Weight weight = weightOf(type);
    float width = 0;
    while (!words.empty()) width += glyphs_.advance(weight, size, takeCodePoint(words));
    return width;
}

void Canvas::quad(const Glyph& glyph, float x, float baseline, Colour colour) const {
    if (glyph.width <= 0) return;
    constexpr float kTexel = 1.0F / Glyphs::kSize;
    const ImVec2 from(x + static_cast<float>(glyph.left), baseline - static_cast<float>(glyph.top));
    const ImVec2 to(from.x + static_cast<float>(glyph.width),
                    from.y + static_cast<float>(glyph.height));
    list_->PrimReserve(6, 4);
    list_->PrimRectUV(
        from, to,
        ImVec2(static_cast<float>(glyph.x) * kTexel, static_cast<float>(glyph.y) * kTexel),
        ImVec2(static_cast<float>(glyph.x + glyph.width) * kTexel,
               static_cast<float>(glyph.y + glyph.height) * kTexel),
        colour);
}

void Canvas::setLine(float x, float y, float line_px, const page::SetLine& line, Colour ink,
                     Colour quiet) const {
    constexpr auto kPhases = static_cast<float>(Glyphs::kPhases);
    for (const page::GlyphRun& run : line.runs) {
        const int size = static_cast<int>(std::lround(run.style.size_pt));
        const float baseline = std::round(y) + glyphs_.baseline(size, line_px);
        const Colour colour = run.style.colour == page::kInk ? ink : quiet;
        for (const page::Glyph& glyph : run.glyphs) {
            const float pen = x + static_cast<float>(glyph.x_pt);
            const float quarter = std::floor(pen * kPhases + 0.5F);
            const float whole = std::floor(quarter / kPhases);
            const int phase = static_cast<int>(quarter - whole * kPhases);
            quad(glyphs_.shape(run.font, size, glyph.index, phase), whole,
                 baseline + std::round(static_cast<float>(glyph.y_pt)), colour);
        }
    }
}

float Canvas::text(float x, float y, const Type& type, Colour colour,
                   std::string_view words) const {
    const int size = sizeOf(type);
    const Weight weight = weightOf(type);
    // Large sizes are set a little tighter.
    const float tracking = type.size >= 28 ? -0.018F * static_cast<float>(size) : 0;
    const float baseline = std::round(y) + glyphs_.baseline(size, lineHeight(type));
    constexpr auto kPhases = static_cast<float>(Glyphs::kPhases);
    float pen = x;
    while (!words.empty()) {
        const char32_t code = takeCodePoint(words);
        const float quarter = std::floor(pen * kPhases + 0.5F);
        const float whole = std::floor(quarter / kPhases);
        const int phase = static_cast<int>(quarter - whole * kPhases);
        const Glyph glyph = glyphs_.glyph(weight, size, code, phase);
        quad(glyph, whole, baseline, colour);
        pen += glyph.advance + tracking;
    }
    return pen;
}

float Canvas::textRight(float right, float y, const Type& type, Colour colour,
                        std::string_view words) const {
    const float x = right - textWidth(type, words);
    text(x, y, type, colour, words);
    return x;
}

void Canvas::textClipped(float x, float y, float right, const Type& type, Colour colour,
                         std::string_view words) const {
    if (right <= x) return;
    list_->PushClipRect(ImVec2(x, y), ImVec2(right, y + lineHeight(type)), true);
    text(x, y, type, colour, words);
    list_->PopClipRect();
}

float Canvas::paragraph(float x, float y, float width, const Type& type, Colour colour,
                        std::string_view words, bool draw) const {
    const float line = lineHeight(type);
    float at = y;
    while (!words.empty()) {
        std::size_t fits = 0;  // bytes of the line that fit, up to a blank
        std::size_t end = 0;
        while (end < words.size()) {
            std::size_t next = words.find(' ', end);
            if (next == std::string_view::npos) next = words.size();
            if (fits > 0 && textWidth(type, words.substr(0, next)) > width) break;
            fits = next;
            end = std::min(next + 1, words.size());
        }
        if (draw) text(x, at, type, colour, words.substr(0, fits));
        words.remove_prefix(std::min(words.size(), fits + 1));
        at += line;
    }
    return at - y;
}

void Canvas::bob(float x, float top, Colour colour, float size) const {
    const float s = scale_ * size;
    const std::array<ImVec2, 6> shape{
        ImVec2(x, top),          ImVec2(x + 5 * s, top + 5 * s), ImVec2(x + 5 * s, top + 8 * s),
        ImVec2(x, top + 17 * s), ImVec2(x - 5 * s, top + 8 * s), ImVec2(x - 5 * s, top + 5 * s)};
    list_->AddConvexPolyFilled(shape.data(), static_cast<int>(shape.size()), colour);
    if (theme_.light) {
        list_->AddPolyline(shape.data(), static_cast<int>(shape.size()), theme_.now,
                           ImDrawFlags_Closed, scale_);
    }
}

void Canvas::mark(Mark kind, float x, float y, Colour colour, float size_units) const {
    const float r = size_units * scale_ / 2;
    if (kind == Mark::Dot) {
        list_->AddCircleFilled(ImVec2(x, y), r * 0.5F, colour, 12);
        return;
    }
    const std::array<ImVec2, 3> shape{ImVec2(x, y - r), ImVec2(x + r, y + 0.85F * r),
                                      ImVec2(x - r, y + 0.85F * r)};
    if (kind == Mark::Filled) {
        list_->AddConvexPolyFilled(shape.data(), 3, colour);
    } else {
        list_->AddPolyline(shape.data(), 3, colour, ImDrawFlags_Closed, 1.5F * scale_);
    }
}

void Canvas::icon(Icon kind, float x, float y, Colour colour) const {
    const auto at = [&](float dx, float dy) { return ImVec2(x + dx * scale_, y + dy * scale_); };
    const auto line = [&](std::initializer_list<ImVec2> points, bool closed = false) {
        list_->AddPolyline(points.begin(), static_cast<int>(points.size()), colour,
                           closed ? ImDrawFlags_Closed : 0, 1.5F * scale_);
    };
    switch (kind) {
        case Icon::Play:
            list_->AddTriangleFilled(at(-4, -6), at(6, 0), at(-4, 6), colour);
            break;
        case Icon::Pause:
            line({at(-3, -6), at(-3, 6)});
            line({at(3, -6), at(3, 6)});
            break;
        case Icon::ToStart:
            line({at(-5, -6), at(-5, 6)});
            line({at(5, -5.5F), at(-1, 0), at(5, 5.5F)});
            break;
        case Icon::ToNext:
            line({at(5, -6), at(5, 6)});
            line({at(-5, -5.5F), at(1, 0), at(-5, 5.5F)});
            break;
        case Icon::Loop:
            line({at(-6, -1), at(-6, -4), at(5, -4)});
            line({at(2, -7), at(5, -4), at(2, -1)});
            line({at(6, 1), at(6, 4), at(-5, 4)});
            line({at(-2, 7), at(-5, 4), at(-2, 1)});
            break;
        case Icon::Sun:
            list_->AddCircle(at(0, 0), 3.2F * scale_, colour, 20, 1.5F * scale_);
            for (int i = 0; i < 8; ++i) {
                const float a = static_cast<float>(i) * 0.785398F;
                line({at(5 * std::cos(a), 5 * std::sin(a)), at(7 * std::cos(a), 7 * std::sin(a))});
            }
            break;
        case Icon::Moon: {
            std::vector<ImVec2> points;
            for (int i = 0; i <= 16; ++i) {
                const float a = 0.9F + static_cast<float>(i) * 0.268F;
                points.push_back(at(-1 + 6 * std::cos(a), 6 * std::sin(a)));
            }
            for (int i = 16; i >= 0; --i) {
                const float a = 1.35F + static_cast<float>(i) * 0.224F;
                points.push_back(at(1.6F + 4.9F * std::cos(a), 4.9F * std::sin(a)));
            }
            list_->AddPolyline(points.data(), static_cast<int>(points.size()), colour,
                               ImDrawFlags_Closed, 1.5F * scale_);
            break;
        }
        case Icon::Keys:
            line({at(-7, -5), at(7, -5), at(7, 5), at(-7, 5)}, true);
            line({at(-4, 2), at(4, 2)});
            line({at(-4, -2), at(-2.5F, -2)});
            line({at(-0.7F, -2), at(0.7F, -2)});
            line({at(2.5F, -2), at(4, -2)});
            break;
    }
}

Clip::Clip(const Canvas& canvas, const Rect& rect) : list_(canvas.list()) {
    list_->PushClipRect(minOf(rect), maxOf(rect), true);
}

}  // namespace plumbline::ui
