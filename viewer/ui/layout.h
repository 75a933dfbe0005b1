#pragma once
// Where every region of the window lies: one function from the window's size, tested without any
// drawing.

#include <array>

namespace plumbline::ui {

/// Pixels, origin top left.
struct Rect {
    float x = 0;
    float y = 0;
    float width = 0;
    float height = 0;

    float right() const { return x + width; }
    float bottom() const { return y + height; }
    bool contains(float px, float py) const {
        return px >= x && px < right() && py >= y && py < bottom();
    }
    bool operator==(const Rect&) const = default;
};

/// What shapes the layout besides the size.
struct LayoutWish {
    float scale = 1;  ///< pixels per unit: the person's scale times the display's pixel ratio
    bool start_panel = false;
    bool sheet_folded = false;
    bool timeline_folded = false;
    bool picture_only = false;
    bool mending = false;       ///< with the column of what is worth mending
    bool brief_note = false;    ///< with words above its page
    bool brief = false;         ///< the narrator's cues in the sheet, a page right of the picture
    bool beside = false;        ///< two views side by side
    float lanes_height = 0;     ///< that they take, units; 0: as by themselves
    float sheet_width = 0;      ///< units; 0: by the window's size
    float timeline_height = 0;  ///< units; 0: by the window's size
};

/// All whole pixels. The sheet stands left, the timeline along the bottom over the full width, the
/// picture reaches the top edge and, unless something stands there, the right one.
struct Layout {
    float scale = 1;
    Rect window;
    Rect sheet;
    bool spine = false;  ///< the sheet shows its thread and beads only
    Rect picture;
    Rect mending;          ///< right of the picture: what is worth mending; empty: there is none
    float brief_note = 0;  ///< height above its page, pixels
    Rect brief;            ///< right of the picture: a page of the brief; empty: there is none
    Rect second;           ///< the view to its right; empty: there is none
    Rect strip;            ///< over the picture's lower edge
    int strip_cells = 0;   ///< that fit side by side
    Rect timeline;
    bool timeline_short = false;  ///< ruler and figures only
    std::array<Rect, 2> insets;   ///< over the picture's top right corner
    int inset_count = 0;
    Rect left_inset;  ///< below chooser and captions: what the judge sees of a reviewed flight
};

/// So little height that some lanes fold away by themselves.
bool lowTimeline(float height_px, const LayoutWish& wish);
Layout layoutOf(float width_px, float height_px, const LayoutWish& wish);

/// Of the brief's column: where the page lies.
Rect pageRoom(const Layout& layout);

// Lengths shared by layout and panels, units.
inline constexpr float kHeaderHeight = 56;
inline constexpr float kFooterHeight = 40;
inline constexpr float kRowHeight = 34;
inline constexpr float kSpineWidth = 44;
inline constexpr float kCellWidth = 152;
inline constexpr float kTransportHeight = 30;
inline constexpr float kRulerHeight = 14;
inline constexpr float kPageHead = 48, kPageFoot = 44, kPageNote = 44;  ///< of the brief's column
inline constexpr float kGutter = 84;
inline constexpr float kLanesTop = 78, kLanesFoot = 6;  ///< of the timeline, above and below

}  // namespace plumbline::ui
