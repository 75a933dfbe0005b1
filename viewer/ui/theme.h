#pragma once
// Colours and type by role. Every visible mark takes its colour from here.

#include <cstdint>

namespace plumbline::ui {

/// 0xAABBGGRR, as the draw lists take it.
using Colour = std::uint32_t;

/// From 0xRRGGBB and opacity.
constexpr Colour colourOf(std::uint32_t rgb, double opacity = 1) {
    const auto alpha = static_cast<std::uint32_t>(opacity * 255 + 0.5);
    return (alpha << 24) | ((rgb & 0xFF) << 16) | (rgb & 0xFF00) | (rgb >> 16);
}

/// The same colour, more transparent.
constexpr Colour faded(Colour colour, double opacity) {
    const auto alpha = static_cast<std::uint32_t>((colour >> 24) * opacity + 0.5);
    return (colour & 0x00FFFFFF) | (alpha << 24);
}

/// Four meanings only: plan = ink, flown = flight, now and chosen = fill/now, limit = alarm.
struct Theme {
    bool light = false;
    Colour under = 0;       ///< behind everything
    Colour surface = 0;     ///< sheet, timeline
    Colour raised = 0;      ///< open figure, hover
    Colour line = 0;        ///< hairlines
    Colour edge = 0;        ///< control outlines, ticks
    Colour ink = 0;         ///< text, data
    Colour ink2 = 0;        ///< secondary text
    Colour ink3 = 0;        ///< quiet text, never on veils
    Colour fill = 0;        ///< now, chosen, as an area
    Colour on_fill = 0;     ///< text on it
    Colour now = 0;         ///< now, chosen, as a stroke or text
    Colour flight = 0;      ///< flown
    Colour alarm = 0;       ///< limit, error
    Colour veil = 0;        ///< under labels over the picture
    Colour wheel_side = 0;  ///< of the small pictures' ribbons
    float hairline = 1;     ///< units
};
const Theme& themeOf(bool light);

enum class Weight : std::uint8_t { Regular, Medium, SemiBold };

/// Size and line height in units.
struct Type {
    int size = 13;
    int line = 18;
    Weight weight = Weight::Regular;
};
inline constexpr Type kSmall{11, 14, Weight::Regular};
inline constexpr Type kNote{12, 16, Weight::Regular};
inline constexpr Type kNoteStrong{12, 16, Weight::SemiBold};
inline constexpr Type kBody{13, 18, Weight::Regular};
inline constexpr Type kName{13, 18, Weight::Medium};
inline constexpr Type kStrong{13, 18, Weight::SemiBold};
inline constexpr Type kSubhead{15, 20, Weight::Regular};
inline constexpr Type kHead{15, 20, Weight::SemiBold};
inline constexpr Type kValue{20, 24, Weight::SemiBold};
inline constexpr Type kCue{20, 26, Weight::SemiBold};
inline constexpr Type kTitle{40, 44, Weight::SemiBold};

}  // namespace plumbline::ui
