#include "engine/text/element_parser.h"

#include "engine/text/words.h"

namespace plumbline::text {

namespace {

constexpr auto kElementWords =
    "begin with line, pull, push, float, turn, pivot, slide, fall, spin, torque-roll, tumble, "
    "reposition, climb, descend, wait, power, smoke, cue, ribbon or expect";
constexpr auto kExtentRemedy =
    "write a distance (120 m), a time (3 s), or until x, y, height, centre or a speed";
constexpr auto kDirectionRemedy = "write level, up, down, 45 deg up or 45 deg down";

std::optional<Direction> parseAngleDirection(LineReader& reader) {
    const auto angle_rad = reader.readQuantity(kDirectionAngle);
    if (!angle_rad) return std::nullopt;
    const auto side = reader.expectOneOf({"up", "down"}, "up or down after the angle");
    if (!side) return std::nullopt;
    Direction direction;
    direction.kind = Direction::Kind::Angle;
    direction.climb_rad = *side == "up" ? *angle_rad : -*angle_rad;
    return direction;
}

std::optional<Condition> parseCondition(LineReader& reader) {
    const std::size_t first = reader.position() - 1;  // from `until`
    Condition condition;
    std::optional<double> value;
    if (reader.accept("x")) {
        value = reader.readQuantity(kPlace);
    } else if (reader.accept("y")) {
        condition.kind = Condition::Kind::Y;
        value = reader.readQuantity(kPlace);
    } else if (reader.accept("height")) {
        condition.kind = Condition::Kind::Height;
        value = reader.readQuantity(kHeight);
    } else if (reader.accept("centre")) {
        value = 0;
    } else if (reader.quantityNext(units::Dimension::Length)) {
        reader.fail("a distance alone is no condition",
                    "write until x -150 m, y 40 m or height 300 m");
    } else if (reader.numberNext()) {
        condition.kind = Condition::Kind::Speed;
        value = reader.readQuantity(kSpeed);
    } else if (reader.atEnd()) {
        reader.fail("what ends the line is missing",
                    "write until x -150 m, y 40 m, height 300 m, centre or 60 kt");
    } else {
        reader.failUnknown({"x", "y", "height", "centre"},
                           "write until x -150 m, y 40 m, height 300 m, centre or 60 kt");
    }
    if (!value) return std::nullopt;
    condition.value = *value;
    condition.words = lowerCase(joinTokens(reader.tokens(), first, reader.position()));
    return condition;
}

std::optional<Extent> parseUntil(LineReader& reader) {
    const auto condition = parseCondition(reader);
    if (!condition) return std::nullopt;
    Extent extent;
    extent.kind = Extent::Kind::Until;
    extent.until = *condition;
    if (reader.accept("or")) {
        const auto cap_s = reader.readQuantity(kCap);
        if (!cap_s) return std::nullopt;
        extent.duration_s = *cap_s;
    }
    return extent;
}

std::optional<Extent> parseExtent(LineReader& reader) {
    if (reader.accept("until")) return parseUntil(reader);
    if (!reader.numberNext()) {
        if (reader.atEnd() || reader.word() == "with") {
            reader.fail("how far the line goes is missing", kExtentRemedy);
        } else {
            reader.failUnknown({"until", "inverted", "level", "up", "down", "by", "over"},
                               kExtentRemedy);
        }
        return std::nullopt;
    }
    Extent extent;
    const bool timed = reader.quantityNext(units::Dimension::Time);
    const auto value = reader.readQuantity(timed ? kLineTime : kLineLength);
    if (!value) return std::nullopt;
    extent.kind = timed ? Extent::Kind::Duration : Extent::Kind::Distance;
    (timed ? extent.duration_s : extent.distance_m) = *value;
    return extent;
}

std::optional<ElementBody> parseLine(LineReader& reader) {
    Line line;
    if (directionNext(reader)) {
        line.direction = parseDirection(reader);
        if (!line.direction) return std::nullopt;
    }
    if (reader.accept("by")) {
        const auto reference = reader.expectOneOf({"nose", "path"}, "what the line goes by");
        if (!reference) return std::nullopt;
        line.reference = *reference == "nose" ? LineReference::Nose : LineReference::Path;
    } else if (reader.word() == "over") {
        if (!parseOverTheGround(reader)) return std::nullopt;
        line.reference = LineReference::Ground;
    }
    const auto extent = parseExtent(reader);
    if (!extent) return std::nullopt;
    line.extent = *extent;
    if (reader.accept("with")) {
        const auto rolls = parseRolls(reader);
        if (!rolls || !reader.expectEnd({"then"})) return std::nullopt;
        line.rolls = *rolls;
    } else if (line.extent.kind == Extent::Kind::Until && line.extent.duration_s == 0) {
        if (!reader.expectEnd({"or", "with"})) return std::nullopt;
    } else if (!reader.expectEnd({"with"})) {
        return std::nullopt;
    }
    return line;
}

}  // namespace

bool directionNext(const LineReader& reader) {
    const std::string_view word = reader.word();
    return word == "inverted" || word == "level" || word == "up" || word == "down" ||
           reader.quantityNext(units::Dimension::Angle);
}

std::optional<Direction> parseDirection(LineReader& reader) {
    const bool inverted = reader.accept("inverted");
    std::optional<Direction> direction;
    if (inverted && reader.numberNext() && !reader.quantityNext(units::Dimension::Angle)) {
        reader.fail("'inverted' needs a direction after it", kDirectionRemedy);
        return std::nullopt;
    }
    if (reader.numberNext()) {
        direction = parseAngleDirection(reader);
        if (!direction) return std::nullopt;
    } else {
        const bool vertical = reader.word() == "up" || reader.word() == "down";
        if (inverted && vertical) {
            reader.fail("a vertical is neither upright nor inverted", "leave out inverted");
            return std::nullopt;
        }
        if (reader.atEnd()) {
            reader.fail("the direction is missing", kDirectionRemedy);
            return std::nullopt;
        }
        const auto word = reader.expectOneOf({"level", "up", "down"}, "the direction");
        if (!word) return std::nullopt;
        direction.emplace();
        direction->kind = *word == "up"     ? Direction::Kind::Up
                          : *word == "down" ? Direction::Kind::Down
                                            : Direction::Kind::Level;
    }
    direction->inverted = inverted;
    return direction;
}

bool parseOverTheGround(LineReader& reader) {
    constexpr auto kRemedy = "write over the ground";
    return reader.expect("over", kRemedy) && reader.expect("the", kRemedy) &&
           reader.expect("ground", kRemedy);
}

std::optional<ElementBody> parseElement(LineReader& reader) {
    if (reader.accept("line")) return parseLine(reader);
    if (reader.accept("pull")) return parseArc(reader, false);
    if (reader.accept("push")) return parseArc(reader, true);
    if (reader.accept("float")) return parseFloat(reader);
    if (reader.accept("turn")) return parseTurn(reader);
    if (reader.accept("pivot")) return parsePivot(reader, 1);
    if (reader.accept("slide")) return parseSlide(reader);
    if (reader.accept("fall")) return parseFall(reader);
    if (reader.accept("torque-roll")) return parseTorqueRoll(reader);
    if (reader.accept("spin")) return parseSpin(reader);
    if (reader.accept("tumble")) return parseTumble(reader);
    if (reader.accept("reposition")) return parseReposition(reader);
    if (reader.accept("climb")) return parseClimb(reader, false);
    if (reader.accept("descend")) return parseClimb(reader, true);
    if (reader.accept("wait")) return parseWait(reader);
    if (reader.accept("power")) return parsePower(reader);
    if (reader.accept("smoke")) return parseSmoke(reader);
    if (reader.accept("cue")) return parseCue(reader);
    if (reader.accept("ribbon")) return parseRibbon(reader);
    if (reader.accept("expect")) return parseExpect(reader);
    if (reader.numberNext() && (reader.word(1) == "pivot" || reader.word(1) == "pivots")) {
        return parsePivots(reader);
    }
    // `1 barrel-roll left`, `1 roll left`: name what follows the count.
    const bool snap = reader.word() == "snap" || reader.word() == "snaps" ||
                      reader.word() == "negative" || reader.word(1) == "snap" ||
                      reader.word(1) == "snaps" || reader.word(1) == "negative";
    if (snap) {
        reader.fail("a line of figure text begins with what is flown",
                    "a snap is flown on a line: line 200 m with 1 snap left");
    } else if (reader.numberNext() && findHonestAnswer(reader.word(1)) != nullptr) {
        const HonestAnswer& answer = *findHonestAnswer(reader.word(1));
        reader.fail(std::string(answer.what), std::string(answer.remedy));
    } else if (reader.word() == "roll" || reader.word() == "rolls" || reader.numberNext()) {
        reader.fail("a line of figure text begins with what is flown",
                    "a roll is flown on a line: line 200 m with 1 roll left");
    } else {
        reader.failUnknown(
            {"line", "pull",  "push",        "float",  "turn",       "pivot", "slide",
             "fall", "spin",  "torque-roll", "tumble", "reposition", "climb", "descend",
             "wait", "power", "smoke",       "cue",    "ribbon",     "expect"},
            kElementWords);
    }
    return std::nullopt;
}

}  // namespace plumbline::text
