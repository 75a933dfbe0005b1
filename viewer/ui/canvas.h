#pragma once
// The few helpers that every visible mark is drawn with. Positions and lengths are pixels; px()
// turns units of the design into whole pixels.

#include <cmath>
#include <span>
#include <string>
#include <string_view>

#include <imgui.h>

#include "viewer/ui/glyphs.h"
#include "viewer/ui/layout.h"
#include "viewer/ui/theme.h"

namespace plumbline::ui {

enum class Icon { Play, Pause, ToStart, ToNext, Loop, Sun, Moon, Keys };
enum class Mark { Filled, Open, Dot };  ///< triangle, triangle, note

class Canvas {
public:
    Canvas(ImDrawList* list, const Theme& theme, Glyphs& glyphs, float scale)
        : list_(list), theme_(theme), glyphs_(glyphs), scale_(scale) {}

    const Theme& theme() const { return theme_; }
    float scale() const { return scale_; }
    float px(float units) const { return std::round(units * scale_); }
    ImDrawList* list() const { return list_; }
    /// The same canvas on another list.
    Canvas on(ImDrawList* list) const { return Canvas(list, theme_, glyphs_, scale_); }

    void fill(const Rect& rect, Colour colour) const;
    /// A hairline inside the rectangle's edge.
    void frame(const Rect& rect, Colour colour) const;
    void across(float x0, float x1, float y, Colour colour) const;
    void down(float x, float y0, float y1, Colour colour) const;
    void stroke(std::span<const ImVec2> points, Colour colour, float width_units) const;
    void dotted(float x0, float x1, float y, Colour colour, float dot_units, float gap_units) const;

    /// Draws at the top left of the text's line; returns where it ends.
    float text(float x, float y, const Type& type, Colour colour, std::string_view words) const;
    /// Ends at `right`; returns where it begins.
    float textRight(float right, float y, const Type& type, Colour colour,
                    std::string_view words) const;
    float textWidth(const Type& type, std::string_view words) const;
    float lineHeight(const Type& type) const { return px(static_cast<float>(type.line)); }
    /// Cut at the end so that it fits, without a mark for what is cut.
    void textClipped(float x, float y, float right, const Type& type, Colour colour,
                     std::string_view words) const;
    /// Words wrapped at blanks; returns the height used. `draw` false: only measures.
    float paragraph(float x, float y, float width, const Type& type, Colour colour,
                    std::string_view words, bool draw = true) const;

    /// A line set by the fonts of Glyphs::useFonts, its sizes in pixels; top left of a line of
    /// that height.
    void setLine(float x, float y, float line_px, const page::SetLine& line, Colour ink,
                 Colour quiet) const;

    /// The plumb bob; its thread ends at its top.
    void bob(float x, float top, Colour colour, float size = 1) const;
    void mark(Mark kind, float x, float y, Colour colour, float size_units) const;
    void icon(Icon kind, float x, float y, Colour colour) const;  ///< 16 grid, centre

private:
    int sizeOf(const Type& type) const {
        return static_cast<int>(std::round(static_cast<float>(type.size) * scale_));
    }
    Weight weightOf(const Type& type) const;
    void quad(const Glyph& glyph, float x, float baseline, Colour colour) const;

    ImDrawList* list_;
    const Theme& theme_;
    Glyphs& glyphs_;
    float scale_;
};

/// Clips to a rectangle while it lives.
class Clip {
public:
    Clip(const Canvas& canvas, const Rect& rect);
    ~Clip() { list_->PopClipRect(); }
    Clip(const Clip&) = delete;
    Clip& operator=(const Clip&) = delete;

private:
    ImDrawList* list_;
};

}  // namespace plumbline::ui
