#pragma once
// Figure text: the language a routine is written in, as a syntax tree. Grammar and examples: the
// README's "Figure text". Syntax only: whether an element can be flown is decided in fly/.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/base/problem.h"

namespace plumbline::text {

/// Where an element stands: lines and columns from 1, in code points, of its file.
struct Span {
    std::int32_t line = 0;
    std::int32_t column = 0;
    std::int32_t end_column = 0;  ///< one past the last
};

/// A direction that a line or an arc goes to. Level and Angle mean upright unless `inverted`.
struct Direction {
    enum class Kind { Level, Up, Down, Angle };
    Kind kind = Kind::Level;
    double climb_rad = 0;  ///< Angle: positive up
    bool inverted = false;
    bool operator==(const Direction&) const = default;
};

/// What ends a line: a place, a height, a speed. `Centre` is x = 0.
struct Condition {
    enum class Kind { X, Y, Height, Speed };
    Kind kind = Kind::X;
    double value = 0;   ///< m or m/s
    std::string words;  ///< as written, for messages: "until x -150 m"
    bool operator==(const Condition&) const = default;
};

/// How far: a distance, a time, or until a condition (with an optional cap on time).
struct Extent {
    enum class Kind { Distance, Duration, Until };
    Kind kind = Kind::Distance;
    double distance_m = 0;
    double duration_s = 0;  ///< Duration; cap of Until when > 0
    Condition until;
    bool operator==(const Extent&) const = default;
};

/// One roll of a list joined by `then`. Right is positive.
struct RollPart {
    double angle_rad = 0;     ///< signed; 1/4 roll left = -pi/2; 4 of 8 points right = +pi
    std::int32_t points = 0;  ///< 0: a steady roll; else points flown, each angle_rad/points
    double rate_radps = 0;    ///< 0: as fast as the aircraft rolls here
    double pause_s = 0;       ///< between points; 0: the default of 0.4 s
    bool operator==(const RollPart&) const = default;
};

struct RollPlacement {
    enum class Kind { Middle, AtStart, AtEnd, AtSpeed, AtHeight, AfterDistance };
    Kind kind = Kind::Middle;
    double value = 0;  ///< m/s, m, m
    bool operator==(const RollPlacement&) const = default;
};

struct Rolls {
    std::vector<RollPart> parts;  ///< empty: none
    RollPlacement placement;
    bool operator==(const Rolls&) const = default;
};

/// By which axis a line is held.
enum class LineReference { Default, Nose, Path };

struct Line {
    std::optional<Direction> direction;  ///< absent: the one now
    LineReference reference = LineReference::Default;
    Extent extent;
    Rolls rolls;
    bool operator==(const Line&) const = default;
};

/// `pull` / `push` to a direction or through an angle.
struct Arc {
    bool push = false;
    std::optional<Direction> to;  ///< absent: by angle
    double angle_rad = 0;         ///< positive
    enum class Size { Load, Radius, RoundAtLoad };
    Size size = Size::Load;
    double load_g = 0;  ///< magnitude
    double radius_m = 0;
    bool operator==(const Arc&) const = default;
};

struct Turn {
    bool left = true;
    double angle_rad = 0;
    std::optional<double> bank_rad;  ///< else by load
    double load_g = 0;
    bool operator==(const Turn&) const = default;
};

struct Pivot {
    bool left = true;
    double duration_s = 2.2;
    std::optional<double> power_frac;  ///< absent: full
    bool operator==(const Pivot&) const = default;
};

struct Slide {
    enum class Until { Distance, Duration, Speed };
    Until until = Until::Distance;
    double value = 0;                  ///< m, s, m/s tail first; distance and time from the top
    std::optional<double> power_frac;  ///< absent: idle
    bool operator==(const Slide&) const = default;
};

struct Fall {
    bool wheels_down = true;
    double tilt_rad = 0;  ///< the small initial tilt; 0: the default of 5 deg
    bool operator==(const Fall&) const = default;
};

struct Reposition {
    double x_m = 0, y_m = 0, height_m = 0;
    bool crowd_right = true;
    double speed_mps = 0;
    bool operator==(const Reposition&) const = default;
};

struct PowerSetting {
    double frac = 1;  ///< 0 idle .. 1 full
    bool operator==(const PowerSetting&) const = default;
};
struct SmokeSwitch {
    bool on = false;
    bool operator==(const SmokeSwitch&) const = default;
};
struct CueMark {
    std::string words;
    bool operator==(const CueMark&) const = default;
};

using ElementBody = std::variant<Line, Arc, Turn, Pivot, Slide, Fall, Reposition, PowerSetting,
                                 SmokeSwitch, CueMark>;

struct Element {
    ElementBody body;
    Span span;
    std::string words;  ///< the element as written, without its comment, single blanks
};

/// What was understood, and every problem; both can be there.
struct ParsedText {
    std::vector<Element> elements;
    Problems problems;
};

/// One element a line; a line with a problem gives no element, and reading goes on with the next.
/// Any bytes are allowed in `text`; time is linear in its length. Reading stops after 1000
/// problems.
///
/// @param text        one element a line, `#` comments; line ends LF or CRLF
/// @param file        for messages
/// @param first_line  line number of the text's first line in its file
ParsedText parseFigureText(std::string_view text, const std::string& file, std::int32_t first_line);

}  // namespace plumbline::text
