#pragma once
// Which numbers figure text takes: dimension and sane range of each. Whether an aircraft can fly
// them is decided in fly/. All ranges are chosen: wide enough for any display aircraft, narrow
// enough to catch a slip of the pen such as a missing decimal point.

#include "engine/units/quantity.h"
#include "engine/units/units.h"

namespace plumbline::text {

inline constexpr double kTurn_rad = 2 * kPi;
using units::kDegree_rad;

/// A quantity that is expected somewhere in an element.
struct QuantityRule {
    units::Dimension dimension;
    const char* name;     ///< with its article: "the radius"
    const char* example;  ///< "radius 90 m"
    double least;         ///< SI
    double greatest;      ///< SI
    const char* range;    ///< the same two in words
    bool above = false;   ///< `least` itself is out of range too
};

inline constexpr QuantityRule kLineLength{
    units::Dimension::Length,       "the line", "line 120 m", 0, 20000,
    "more than 0 m, at most 20 km", true};
inline constexpr QuantityRule kLineTime{units::Dimension::Time,
                                        "the line's time",
                                        "line 3 s",
                                        0,
                                        600,
                                        "more than 0 s, at most 600 s",
                                        true};
inline constexpr QuantityRule kCap{units::Dimension::Time,
                                   "the longest time",
                                   "or 8 s",
                                   0,
                                   600,
                                   "more than 0 s, at most 600 s",
                                   true};
inline constexpr QuantityRule kPlace{
    units::Dimension::Length, "the place", "x -150 m", -20000, 20000, "from -20 km to 20 km"};
inline constexpr QuantityRule kHeight{units::Dimension::Length,
                                      "the height",
                                      "height 300 m",
                                      -100,
                                      6000,
                                      "from -100 m to 6000 m above show centre"};
inline constexpr QuantityRule kSpeed{units::Dimension::Speed, "the speed", "60 kt", 0, 300,
                                     "from 0 m/s to 300 m/s"};
inline constexpr QuantityRule kDirectionAngle{
    units::Dimension::Angle,
    "the angle",
    "45 deg up",
    0,
    89.9 * kDegree_rad,
    "more than 0 deg and less than 90 deg, or one of level, up, down",
    true};
inline constexpr QuantityRule kRollRate{units::Dimension::AngularRate,
                                        "the roll rate",
                                        "at 360 deg/s",
                                        1 * kDegree_rad,
                                        720 * kDegree_rad,
                                        "from 1 deg/s to 720 deg/s"};
inline constexpr QuantityRule kPause{
    units::Dimension::Time, "the pause", "pause 0.4 s", 0, 30, "more than 0 s, at most 30 s", true};
inline constexpr QuantityRule kAfterDistance{
    units::Dimension::Length, "the distance", "after 80 m", 0, 20000, "from 0 m to 20 km"};
inline constexpr QuantityRule kArcAngle{
    units::Dimension::Angle,
    "the angle",
    "pull 270 deg at 5 g",
    0,
    360 * kDegree_rad,
    "more than 0 deg, at most 360 deg, and go on in a second element",
    true};
inline constexpr QuantityRule kArcLoad{
    units::Dimension::Load,
    "the load",
    "at 6 g",
    0,
    15,
    "more than 0 g, at most 15 g, and push or pull for the direction",
    true};
inline constexpr QuantityRule kFloatLoad{
    units::Dimension::Load,
    "the load",
    "at 0.2 g",
    -1,
    1,
    "from -1 g to 1 g: a float is flown with little load, else write pull or push"};
inline constexpr QuantityRule kSideLength{
    units::Dimension::Length,        "the side", "side 60 m", 0, 2000,
    "more than 0 m, at most 2000 m", true};
inline constexpr QuantityRule kRadius{
    units::Dimension::Length, "the radius", "radius 90 m", 5, 5000, "from 5 m to 5 km"};
inline constexpr QuantityRule kTurnAngle{
    units::Dimension::Angle,
    "the angle",
    "turn left 270 deg bank 70 deg",
    0,
    1080 * kDegree_rad,
    "more than 0 deg, at most 1080 deg, and left or right for the side",
    true};
inline constexpr QuantityRule kBank{units::Dimension::Angle, "the bank",
                                    "bank 70 deg",           1 * kDegree_rad,
                                    89 * kDegree_rad,        "from 1 deg to 89 deg"};
inline constexpr QuantityRule kTurnLoad{
    units::Dimension::Load,
    "the load",
    "at 4 g",
    1,
    15,
    "more than 1 g, at most 15 g: a level turn needs more than 1 g",
    true};
inline constexpr QuantityRule kTurnTime{units::Dimension::Time, "the time", "in 24 s", 1, 600,
                                        "from 1 s to 600 s"};
inline constexpr QuantityRule kWaitTime{units::Dimension::Time,
                                        "the time",
                                        "wait 60 s in level turn left",
                                        0,
                                        3600,
                                        "more than 0 s, at most one hour",
                                        true};
inline constexpr QuantityRule kPivotTime{units::Dimension::Time, "the time", "in 2.2 s", 0.5, 10,
                                         "from 0.5 s to 10 s"};
inline constexpr QuantityRule kPivotOver{
    units::Dimension::Angle, "the angle past the downline",     "over 5 deg", 0,
    10 * kDegree_rad,        "more than 0 deg, at most 10 deg", true};
inline constexpr QuantityRule kTumbleTime{units::Dimension::Time, "the time", "in 4 s", 0.5, 60,
                                          "from 0.5 s to 60 s"};
inline constexpr QuantityRule kSlideLength{
    units::Dimension::Length,        "the slide", "slide 60 m", 0, 2000,
    "more than 0 m, at most 2000 m", true};
inline constexpr QuantityRule kSlideTime{
    units::Dimension::Time, "the time", "slide 4 s", 0, 60, "more than 0 s, at most 60 s", true};
inline constexpr QuantityRule kSlideSpeed{units::Dimension::Speed,
                                          "the tail-first speed",
                                          "until 40 m/s",
                                          0,
                                          150,
                                          "more than 0 m/s, at most 150 m/s, tail first",
                                          true};
inline constexpr QuantityRule kTilt{
    units::Dimension::Angle,           "the tilt", "tilt 5 deg", 0, 45 * kDegree_rad,
    "more than 0 deg, at most 45 deg", true};
inline constexpr QuantityRule kStartSpeed{
    units::Dimension::Speed, "the speed", "speed 80 m/s", 20, 300, "from 20 m/s to 300 m/s"};
inline constexpr QuantityRule kPower{units::Dimension::Ratio, "the power", "power 50 %", 0, 1,
                                     "from 0 % to 100 %"};

}  // namespace plumbline::text
