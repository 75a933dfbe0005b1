#pragma once
// Sheets of paper and what is laid on them: places and lengths in millimetres from the upper left
// corner, x to the right, y down; letters and strokes in points.

#include <optional>
#include <string_view>

namespace plumbline::page {

inline constexpr double kPoint_mm = 25.4 / 72;  ///< the PDF point (ISO 32000-1, 8.3.2.3)

/// @source ISO 216 (A sizes); ANSI/ASME Y14.1 (letter, and its half)
enum class Paper { A4, A5, Letter, HalfLetter };

struct Size {
    double width_mm = 0, height_mm = 0;
};
/// Upright.
Size sizeOf(Paper paper);

/// "a4", "a5", "letter", "half-letter"; nothing for another word.
std::optional<Paper> paperNamed(std::string_view name);

struct Point {
    double x_mm = 0, y_mm = 0;
};

struct Box {
    double x_mm = 0, y_mm = 0, width_mm = 0, height_mm = 0;
    double right_mm() const { return x_mm + width_mm; }
    double bottom_mm() const { return y_mm + height_mm; }
};

/// Red, green, blue of sRGB, 0..1.
struct Colour {
    double r = 0, g = 0, b = 0;
    bool operator==(const Colour&) const = default;
};

// What is printed in colour must read in a grey copy too: the lightness (CIE L*) of each is told.
inline constexpr Colour kInk{0.055, 0.055, 0.055};         // 4
inline constexpr Colour kQuiet{0.34, 0.36, 0.35};          // 38: said beside something
inline constexpr Colour kHairline{0.75, 0.75, 0.73};       // 77
inline constexpr Colour kWheelSide{0.467, 0.467, 0.467};   // 50
inline constexpr Colour kPaper{1, 1, 1};                   // 100
inline constexpr Colour kDo{0.949, 0.659, 0.114};          // 73: do this
inline constexpr Colour kFlown{0.055, 0.341, 0.588};       // 36
inline constexpr Colour kFlownDoubt{0.706, 0.804, 0.890};  // 81: how surely it is known
inline constexpr Colour kLimit{0.608, 0.059, 0.314};       // 33

struct Stroke {
    double width_pt = 0.5;
    Colour colour = kInk;
    double dash_pt = 0;  ///< length of dashes and gaps; 0: drawn through
    bool round = false;  ///< ends and corners
};

}  // namespace plumbline::page
