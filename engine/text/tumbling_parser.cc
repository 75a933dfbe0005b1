// What is flown in the stall or in the propeller's own wind: spin left 2 1/2 turns inverted,
// torque-roll left 3 rolls, tumble forward 3 turns in 4 s.
#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

constexpr double kMostSpinTurns = 20;    // chosen: a record, not a display
constexpr double kMostTumbleTurns = 10;  // chosen: no aircraft has the speed for more

/// `2 1/2 turns`; the angle comes out positive.
std::optional<double> parseTurns(LineReader& reader, const char* example, double most) {
    const auto count = reader.readCount("the number of turns", example, most);
    if (!count || !reader.expectOneOf({"turns", "turn"}, "the word turns")) return std::nullopt;
    return *count * kTurn_rad;
}

}  // namespace

std::optional<ElementBody> parseTorqueRoll(LineReader& reader) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    TorqueRoll roll;
    roll.left = *side == "left";
    const auto count =
        reader.readCount("the number of rolls", "torque-roll left 3 rolls", kMostRolls);
    if (!count || !reader.expectOneOf({"rolls", "roll"}, "the word rolls")) return std::nullopt;
    roll.angle_rad = *count * kTurn_rad;
    if (!parseOptionalPower(reader, roll.power_frac)) return std::nullopt;
    if (!(roll.power_frac ? reader.expectEnd({}) : reader.expectEnd({"power"})))
        return std::nullopt;
    return roll;
}

std::optional<ElementBody> parseSpin(LineReader& reader) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    Spin spin;
    spin.left = *side == "left";
    const auto angle_rad = parseTurns(reader, "spin left 2 1/2 turns", kMostSpinTurns);
    if (!angle_rad) return std::nullopt;
    spin.angle_rad = *angle_rad;
    spin.inverted = reader.accept("inverted");
    if (!(spin.inverted ? reader.expectEnd({}) : reader.expectEnd({"inverted"})))
        return std::nullopt;
    return spin;
}

std::optional<ElementBody> parseTumble(LineReader& reader) {
    const auto way =
        reader.expectOneOf({"forward", "backward", "left", "right"}, "the way it tumbles");
    if (!way) return std::nullopt;
    Tumble tumble;
    tumble.way = *way == "forward"    ? Tumble::Way::Forward
                 : *way == "backward" ? Tumble::Way::Backward
                 : *way == "left"     ? Tumble::Way::Left
                                      : Tumble::Way::Right;
    const auto angle_rad = parseTurns(reader, "tumble forward 3 turns", kMostTumbleTurns);
    if (!angle_rad) return std::nullopt;
    tumble.angle_rad = *angle_rad;
    const bool timed = reader.accept("in");
    if (timed) {
        tumble.duration_s = reader.readQuantity(kTumbleTime);
        if (!tumble.duration_s) return std::nullopt;
    }
    if (!(timed ? reader.expectEnd({}) : reader.expectEnd({"in"}))) return std::nullopt;
    return tumble;
}

}  // namespace plumbline::text
