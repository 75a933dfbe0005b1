// Turns of figure text, and what brings the aircraft back: turn left 360 deg bank 60 deg, climb to
// height 300 m, wait 60 s in level turn left, reposition to x ...
#include <cmath>

#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

/// `height 300 m`.
std::optional<double> parseHeight(LineReader& reader) {
    if (!reader.expect("height", "write to height 300 m")) return std::nullopt;
    return reader.readQuantity(kHeight);
}

/// `[in 24 s] with 4 rolls outward` after the angle.
std::optional<ElementBody> parseRollingTurn(LineReader& reader, bool left, double angle_rad) {
    RollingTurn turn;
    turn.left = left;
    turn.angle_rad = angle_rad;
    if (reader.accept("in")) {
        turn.duration_s = reader.readQuantity(kTurnTime);
        if (!turn.duration_s) return std::nullopt;
    }
    if (!reader.expect("with", "write the rolls, with 4 rolls outward")) return std::nullopt;
    const std::size_t count_index = reader.position();
    const auto rolls = reader.readCount("the number of rolls", "with 4 rolls outward", kMostRolls);
    if (!rolls || !reader.expectOneOf({"rolls", "roll"}, "the word rolls")) return std::nullopt;
    constexpr double kQuarters = 4;
    if (*rolls * kQuarters != std::floor(*rolls * kQuarters)) {
        reader.failAt(count_index, "a rolling turn has whole rolls and quarters",
                      "write a count such as 1, 1 1/2 or 2 3/4");
    }
    turn.rolls = *rolls;
    const auto sense =
        reader.expectOneOf({"inward", "outward", "alternating"}, "the side that the rolls go to");
    if (!sense || !reader.expectEnd({})) return std::nullopt;
    turn.sense = *sense == "inward"    ? RollingTurn::Sense::Inward
                 : *sense == "outward" ? RollingTurn::Sense::Outward
                                       : RollingTurn::Sense::Alternating;
    return turn;
}

/// What `reposition to` names, in any order.
struct RepositionFields {
    std::optional<double> x_m, y_m, height_m, speed_mps;
    std::optional<bool> crowd_right;
};

bool parseRepositionField(LineReader& reader, RepositionFields& fields) {
    constexpr auto kRemedy = "write to x -900 m y 0 m height 60 m heading crowd-right speed 80 m/s";
    const std::size_t word_index = reader.position();
    if (reader.atEnd()) {
        const char* missing = !fields.x_m           ? "x"
                              : !fields.y_m         ? "y"
                              : !fields.height_m    ? "height"
                              : !fields.crowd_right ? "heading"
                                                    : "speed";
        reader.fail(std::string("'") + missing + "' is missing", kRemedy);
        return false;
    }
    const auto field =
        reader.expectOneOf({"x", "y", "height", "heading", "speed"}, "where to reposition");
    if (!field) return false;
    if (*field == "heading") {
        const auto side = reader.expectOneOf({"crowd-right", "crowd-left"}, "the heading");
        if (!side) return false;
        if (fields.crowd_right) reader.failAt(word_index, "'heading' stands twice", "keep one");
        fields.crowd_right = *side == "crowd-right";
        return true;
    }
    std::optional<double>& value = *field == "x"        ? fields.x_m
                                   : *field == "y"      ? fields.y_m
                                   : *field == "height" ? fields.height_m
                                                        : fields.speed_mps;
    if (value) {
        reader.failAt(word_index, "'" + std::string(*field) + "' stands twice", "keep one of them");
        return false;
    }
    value = reader.readQuantity(*field == "height"  ? kHeight
                                : *field == "speed" ? kStartSpeed
                                                    : kPlace);
    return value.has_value();
}

}  // namespace

std::optional<ElementBody> parseTurn(LineReader& reader) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    Turn turn;
    turn.left = *side == "left";
    const auto angle_rad = reader.readQuantity(kTurnAngle);
    if (!angle_rad) return std::nullopt;
    turn.angle_rad = *angle_rad;
    if (reader.word() == "in" || reader.word() == "with") {
        return parseRollingTurn(reader, turn.left, turn.angle_rad);
    }
    const auto how = reader.expectOneOf({"bank", "at", "in", "with"}, "the bank or the load");
    if (!how) return std::nullopt;
    const auto value = reader.readQuantity(*how == "bank" ? kBank : kTurnLoad);
    if (!value) return std::nullopt;
    if (reader.accept("to")) {
        turn.to_height_m = parseHeight(reader);
        if (!turn.to_height_m || !reader.expectEnd({})) return std::nullopt;
    } else if (!reader.expectEnd({"to"})) {
        return std::nullopt;
    }
    if (*how == "bank") {
        turn.bank_rad = *value;
    } else {
        turn.load_g = *value;
    }
    return turn;
}

std::optional<ElementBody> parseClimb(LineReader& reader, bool descend) {
    const char* remedy = descend ? "write descend to height 120 m" : "write climb to height 300 m";
    if (!reader.expect("to", remedy)) return std::nullopt;
    const auto height_m = parseHeight(reader);
    if (!height_m || !reader.expectEnd({})) return std::nullopt;
    return Climb{*height_m, descend};
}

std::optional<ElementBody> parseWait(LineReader& reader) {
    constexpr auto kRemedy = "write wait 60 s in level turn left";
    const auto duration_s = reader.readQuantity(kWaitTime);
    if (!duration_s || !reader.expect("in", kRemedy) || !reader.expect("level", kRemedy) ||
        !reader.expect("turn", kRemedy)) {
        return std::nullopt;
    }
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side || !reader.expectEnd({})) return std::nullopt;
    return Wait{*duration_s, *side == "left"};
}

std::optional<ElementBody> parseReposition(LineReader& reader) {
    if (!reader.expect("to",
                       "write reposition to x -900 m y 0 m height 60 m heading crowd-right "
                       "speed 80 m/s")) {
        return std::nullopt;
    }
    RepositionFields fields;
    constexpr int kFields = 5;
    for (int i = 0; i < kFields; ++i) {
        if (!parseRepositionField(reader, fields)) return std::nullopt;
    }
    const bool complete = fields.x_m && fields.y_m && fields.height_m && fields.speed_mps &&
                          fields.crowd_right.has_value();
    if (!complete || !reader.expectEnd({})) return std::nullopt;
    Reposition reposition;
    reposition.x_m = *fields.x_m;
    reposition.y_m = *fields.y_m;
    reposition.height_m = *fields.height_m;
    reposition.speed_mps = *fields.speed_mps;
    reposition.crowd_right = *fields.crowd_right;
    return reposition;
}

}  // namespace plumbline::text
