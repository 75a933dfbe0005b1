#pragma once
// Figure text: the language a routine is written in, as a syntax tree. Grammar and examples: the
// README's "Figure text". Syntax only: whether an element can be flown is decided in fly/.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"

namespace plumbline::text {

/// Where an element stands: lines and columns from 1, in code points, of its file.
struct Span {
    std::int32_t line = 0;
    std::int32_t column = 0;
    std::int32_t end_column = 0;  ///< one past the last
    bool operator==(const Span&) const = default;
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
    /// A snap is a roll in the stall, nose pulled off the path or (negative) pushed; its side is
    /// that of the roll. It has neither points nor a rate of its own.
    enum class Kind { Roll, Snap, NegativeSnap };
    double angle_rad = 0;     ///< signed; 1/4 roll left = -pi/2; 4 of 8 points right = +pi
    std::int32_t points = 0;  ///< 0: a steady roll; else points flown, each angle_rad/points
    double rate_radps = 0;    ///< 0: as fast as the aircraft rolls here
    double pause_s = 0;       ///< between points; 0: the default of 0.4 s
    Kind kind = Kind::Roll;
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

/// By which axis a line is held. Ground: by the path over the ground, the wind allowed for.
enum class LineReference { Default, Nose, Path, Ground };

struct Line {
    std::optional<Direction> direction;  ///< absent: the one now
    LineReference reference = LineReference::Default;
    Extent extent;
    Rolls rolls;
    bool operator==(const Line&) const = default;
};

/// How tight an arc is flown, or the corners of a polygon.
enum class ArcSize {
    Load,         ///< `at 6 g`: what the meter reads, not round
    Radius,       ///< `radius 90 m`: round
    RoundAtLoad,  ///< `round at 6 g`: round, its radius set by the load at entry
    Tightest      ///< `tightest`: as the wing or the load limit allows
};

/// `pull` / `push` / `float` to a direction or through an angle.
struct Arc {
    bool push = false;
    std::optional<Direction> to;  ///< absent: by angle
    double angle_rad = 0;         ///< positive
    using Size = ArcSize;
    Size size = Size::Load;
    double load_g = 0;  ///< magnitude; of a float signed, from -1 to +1
    double radius_m = 0;
    /// `float`: always Size::Load; the nose falls, towards the ground, and `push` says nothing.
    bool floating = false;
    bool over_ground = false;  ///< Radius and RoundAtLoad: round over the ground, not in the air
    Rolls rolls;               ///< spread evenly over the arc: no rates, pauses, placement
    bool operator==(const Arc&) const = default;
};

/// A loop of straight sides with an arc at each corner, closed by a whole turn:
/// `push 8 sides 360 deg side 60 m at 5 g`.
struct Polygon {
    bool push = false;
    std::int32_t sides = 8;  ///< of the whole figure
    double angle_rad = 0;    ///< flown; a whole number of corners of 2 pi / sides each
    double side_m = 0;       ///< straight part of a side
    ArcSize size = ArcSize::Load;
    double load_g = 0;    ///< at the corners, magnitude
    double radius_m = 0;  ///< of the corners
    bool operator==(const Polygon&) const = default;
};

struct Turn {
    bool left = true;
    double angle_rad = 0;
    std::optional<double> bank_rad;  ///< else by load
    double load_g = 0;
    std::optional<double> to_height_m;  ///< climbs or descends evenly to there; absent: level
    bool operator==(const Turn&) const = default;
};

/// A turn with rolls spread evenly over it: `turn left 360 deg in 24 s with 4 rolls outward`.
struct RollingTurn {
    bool left = true;
    double angle_rad = 0;
    std::optional<double> duration_s;  ///< absent: as fast as it flies
    double rolls = 0;                  ///< whole rolls and quarters
    /// Inward: the rolls go to the turn's own side. Alternating: a roll each way, the first inward.
    enum class Sense { Inward, Outward, Alternating };
    Sense sense = Sense::Inward;
    bool operator==(const RollingTurn&) const = default;
};

struct Pivot {
    bool left = true;
    double duration_s = 2.2;
    std::optional<double> power_frac;  ///< absent: full
    std::int32_t count = 1;            ///< half turns one after the other, duration_s each
    double over_rad = 0;               ///< how far past the downline the nose goes, and back
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

/// `torque-roll left 3 rolls`: hanging on the propeller and backing.
struct TorqueRoll {
    bool left = true;
    double angle_rad = 0;              ///< positive
    std::optional<double> power_frac;  ///< absent: full
    bool operator==(const TorqueRoll&) const = default;
};

/// `spin left 2 1/2 turns inverted`: from the stall to a downline. The side is that of the rudder,
/// as the pilot feels it.
struct Spin {
    bool left = true;
    double angle_rad = 0;  ///< positive
    bool inverted = false;
    bool operator==(const Spin&) const = default;
};

/// `tumble forward 3 turns in 4 s`: end over end, or over a wing tip.
struct Tumble {
    enum class Way { Forward, Backward, Left, Right };
    Way way = Way::Forward;
    double angle_rad = 0;              ///< positive
    std::optional<double> duration_s;  ///< absent: as fast as the aircraft does it
    bool operator==(const Tumble&) const = default;
};

struct Reposition {
    double x_m = 0, y_m = 0, height_m = 0;
    bool crowd_right = true;
    double speed_mps = 0;
    bool operator==(const Reposition&) const = default;
};

/// `climb to height 300 m`, `descend to height 120 m`.
struct Climb {
    double height_m = 0;
    bool descend = false;  ///< the word used
    bool operator==(const Climb&) const = default;
};

/// `wait 60 s in level turn left`.
struct Wait {
    double duration_s = 0;
    bool left = true;
    bool operator==(const Wait&) const = default;
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

/// The ribbon that the line before it cuts; the site says where it hangs.
struct Ribbon {
    std::string name;  ///< as written
    bool operator==(const Ribbon&) const = default;
};

/// What must be true where it stands.
struct Expect {
    enum class What { Heading, Canopy, Attitude, Height, Speed };
    enum class Way { CrowdLeft, CrowdRight, TowardCrowd, AwayFromCrowd };
    enum class Attitude { Upright, Inverted, KnifeEdge };
    What what = What::Heading;
    Way way = Way::CrowdLeft;               ///< Heading, Canopy
    Attitude attitude = Attitude::Upright;  ///< Attitude
    bool above = true;                      ///< Height, Speed: above, else below
    double value = 0;                       ///< m above show centre, m/s
    bool operator==(const Expect&) const = default;
};

using ElementBody = std::variant<Line, Arc, Polygon, Turn, RollingTurn, Pivot, Slide, Fall,
                                 TorqueRoll, Spin, Tumble, Reposition, Climb, Wait, PowerSetting,
                                 SmokeSwitch, CueMark, Ribbon, Expect>;

/// A parameter's value, which stands in the text for `{name}`.
struct ParameterValue {
    std::string name;
    std::string value;   ///< words and numbers: `5 g`, `left`, `1/4 roll left`
    TextPosition where;  ///< where the value is written
    bool operator==(const ParameterValue&) const = default;
};

struct Element {
    ElementBody body;
    Span span;
    std::string words;    ///< the element as written, values put in, without comment, single blanks
    std::string pattern;  ///< the line as written, where it has parameters; else empty
    std::vector<std::int32_t> parameters;  ///< indices of the values that it uses, rising
    bool operator==(const Element&) const = default;
};

/// What was understood, and every problem; both can be there.
struct ParsedText {
    std::vector<Element> elements;
    Problems problems;
};

/// True of what takes no time: it stands between the stretches that are flown (power, smoke, cue,
/// expectation, ribbon).
inline bool isMark(const ElementBody& body) {
    return std::holds_alternative<PowerSetting>(body) ||
           std::holds_alternative<SmokeSwitch>(body) || std::holds_alternative<CueMark>(body) ||
           std::holds_alternative<Expect>(body) || std::holds_alternative<Ribbon>(body);
}

/// One element a line; a line with a problem gives no element, and reading goes on with the next.
/// Any bytes are allowed in `text`; time is linear in its length. Reading stops after 1000
/// problems.
///
/// @param text        one element a line, `#` comments; line ends LF or CRLF
/// @param file        for messages
/// @param first_line  line number of the text's first line in its file
/// @param values      of the parameters; every one must be used. What is wrong within a value is
///   told at its braces, and names the parameter.
ParsedText parseFigureText(std::string_view text, const std::string& file, std::int32_t first_line,
                           const std::vector<ParameterValue>& values = {});

/// An element read again with other values, which stand in the order of those it was read with; its
/// span stays. Takes microseconds: for searches.
/// @errors as parseFigureText
Expected<Element, Problems> parseAgain(const Element& element, const std::string& file,
                                       const std::vector<ParameterValue>& values);

}  // namespace plumbline::text
