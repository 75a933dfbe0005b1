#include "engine/text/element_parser.h"

#include "engine/text/words.h"

namespace plumbline::text {

namespace {

constexpr auto kElementWords =
    "begin with line, pull, push, turn, pivot, slide, fall, reposition, power, smoke or cue";
constexpr auto kExtentRemedy =
    "write a distance (120 m), a time (3 s), or until x, y, height, centre or a speed";
constexpr auto kDirectionRemedy = "write level, up, down, 45 deg up or 45 deg down";

/// `level`, `up`, `down`, `45 deg up`, with `inverted` before them, stands next.
bool directionNext(const LineReader& reader) {
    const std::string_view word = reader.word();
    return word == "inverted" || word == "level" || word == "up" || word == "down" ||
           reader.quantityNext(units::Dimension::Angle);
}

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
            reader.failUnknown({"until", "inverted", "level", "up", "down", "by"}, kExtentRemedy);
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

/// `at 6 g`, `radius 90 m` or `round at 6 g`.
bool parseArcSize(LineReader& reader, Arc& arc) {
    const bool round = reader.accept("round");
    if (!round && reader.accept("radius")) {
        const auto radius_m = reader.readQuantity(kRadius);
        if (!radius_m) return false;
        arc.size = Arc::Size::Radius;
        arc.radius_m = *radius_m;
        return true;
    }
    if (!reader.accept("at")) {
        constexpr auto kRemedy = "write at 6 g, radius 90 m or round at 6 g";
        if (reader.atEnd()) {
            reader.fail("how tight the arc is flown is missing", kRemedy);
        } else {
            reader.failUnknown({"at", "radius", "round"}, kRemedy);
        }
        return false;
    }
    const auto load_g = reader.readQuantity(kArcLoad);
    if (!load_g) return false;
    arc.size = round ? Arc::Size::RoundAtLoad : Arc::Size::Load;
    arc.load_g = *load_g;
    return true;
}

std::optional<ElementBody> parseArc(LineReader& reader, bool push) {
    Arc arc;
    arc.push = push;
    if (reader.accept("to")) {
        arc.to = parseDirection(reader);
        if (!arc.to) return std::nullopt;
    } else if (reader.numberNext()) {
        const auto angle_rad = reader.readQuantity(kArcAngle);
        if (!angle_rad) return std::nullopt;
        arc.angle_rad = *angle_rad;
        if (reader.word() == "up" || reader.word() == "down") {
            reader.fail("'to' is missing before the direction",
                        std::string("write ") + (push ? "push" : "pull") + " to 45 deg " +
                            std::string(reader.word()));
            return std::nullopt;
        }
    } else {
        const std::string remedy =
            push ? "write push to level or push 90 deg" : "write pull to up or pull 270 deg";
        if (reader.atEnd() || directionNext(reader)) {
            reader.fail("'to' and a direction, or an angle, is missing", remedy);
        } else {
            reader.failUnknown({"to"}, remedy);
        }
        return std::nullopt;
    }
    if (!parseArcSize(reader, arc)) return std::nullopt;
    if (reader.word() == "with") {
        reader.fail("this version does not fly rolls on an arc",
                    "put them on the line before or after it");
        return std::nullopt;
    }
    if (!reader.expectEnd({})) return std::nullopt;
    return arc;
}

std::optional<ElementBody> parseTurn(LineReader& reader) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    Turn turn;
    turn.left = *side == "left";
    const auto angle_rad = reader.readQuantity(kTurnAngle);
    if (!angle_rad) return std::nullopt;
    turn.angle_rad = *angle_rad;
    if (reader.word() == "in" || reader.word() == "with") {
        reader.fail("this version does not fly rolling turns", "write bank 70 deg or at 4 g");
        return std::nullopt;
    }
    const auto how = reader.expectOneOf({"bank", "at"}, "the bank or the load");
    if (!how) return std::nullopt;
    const auto value = reader.readQuantity(*how == "bank" ? kBank : kTurnLoad);
    if (!value || !reader.expectEnd({})) return std::nullopt;
    if (*how == "bank") {
        turn.bank_rad = *value;
    } else {
        turn.load_g = *value;
    }
    return turn;
}

/// `full`, `idle`, `50 %`, after the word power.
std::optional<double> parsePowerValue(LineReader& reader) {
    if (reader.numberNext()) return reader.readQuantity(kPower);
    if (reader.accept("full")) return 1;
    if (reader.accept("idle")) return 0;
    if (reader.atEnd()) {
        reader.fail("how much power is missing", "write power full, power idle or power 50 %");
    } else {
        reader.failUnknown({"full", "idle"}, "write power full, power idle or power 50 %");
    }
    return std::nullopt;
}

bool parseOptionalPower(LineReader& reader, std::optional<double>& power_frac) {
    if (!reader.accept("power")) return true;
    power_frac = parsePowerValue(reader);
    return power_frac.has_value();
}

std::optional<ElementBody> parsePivot(LineReader& reader) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    Pivot pivot;
    pivot.left = *side == "left";
    const bool timed = reader.accept("in");
    if (timed) {
        const auto duration_s = reader.readQuantity(kPivotTime);
        if (!duration_s) return std::nullopt;
        pivot.duration_s = *duration_s;
    }
    if (!parseOptionalPower(reader, pivot.power_frac)) return std::nullopt;
    const bool complete = pivot.power_frac ? reader.expectEnd({})
                          : timed          ? reader.expectEnd({"power"})
                                           : reader.expectEnd({"in", "power"});
    if (!complete) return std::nullopt;
    return pivot;
}

std::optional<ElementBody> parseSlide(LineReader& reader) {
    constexpr auto kRemedy = "write slide 60 m, slide 4 s or slide until 40 m/s";
    Slide slide;
    const QuantityRule* rule = &kSlideLength;
    if (reader.accept("until")) {
        slide.until = Slide::Until::Speed;
        rule = &kSlideSpeed;
    } else if (reader.quantityNext(units::Dimension::Time)) {
        slide.until = Slide::Until::Duration;
        rule = &kSlideTime;
    } else if (!reader.numberNext()) {
        if (reader.atEnd()) {
            reader.fail("how far the slide goes is missing", kRemedy);
        } else {
            reader.failUnknown({"until"}, kRemedy);
        }
        return std::nullopt;
    }
    const auto value = reader.readQuantity(*rule);
    if (!value || !parseOptionalPower(reader, slide.power_frac)) return std::nullopt;
    slide.value = *value;
    if (!(slide.power_frac ? reader.expectEnd({}) : reader.expectEnd({"power"}))) {
        return std::nullopt;
    }
    return slide;
}

std::optional<ElementBody> parseFall(LineReader& reader) {
    const auto side = reader.expectOneOf({"wheels-down", "wheels-up"}, "the side it falls to");
    if (!side) return std::nullopt;
    Fall fall;
    fall.wheels_down = *side == "wheels-down";
    const bool tilted = reader.accept("tilt");
    if (tilted) {
        const auto tilt_rad = reader.readQuantity(kTilt);
        if (!tilt_rad) return std::nullopt;
        fall.tilt_rad = *tilt_rad;
    }
    if (!(tilted ? reader.expectEnd({}) : reader.expectEnd({"tilt"}))) return std::nullopt;
    return fall;
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

std::optional<ElementBody> parsePower(LineReader& reader) {
    const auto frac = parsePowerValue(reader);
    if (!frac || !reader.expectEnd({})) return std::nullopt;
    return PowerSetting{*frac};
}

std::optional<ElementBody> parseSmoke(LineReader& reader) {
    const auto state = reader.expectOneOf({"on", "off"}, "on or off");
    if (!state || !reader.expectEnd({})) return std::nullopt;
    return SmokeSwitch{*state == "on"};
}

std::optional<ElementBody> parseCue(LineReader& reader) {
    constexpr auto kExample = "cue \"and now the hammerhead\"";
    const std::size_t index = reader.position();
    const auto words = reader.readQuoted(kExample);
    if (!words || !reader.expectEnd({})) return std::nullopt;
    if (words->find_first_not_of(" \t") == std::string::npos) {
        reader.failAt(index, "the cue has no words", std::string("write ") + kExample);
    }
    return CueMark{*words};
}

}  // namespace

std::optional<ElementBody> parseElement(LineReader& reader) {
    if (reader.accept("line")) return parseLine(reader);
    if (reader.accept("pull")) return parseArc(reader, false);
    if (reader.accept("push")) return parseArc(reader, true);
    if (reader.accept("turn")) return parseTurn(reader);
    if (reader.accept("pivot")) return parsePivot(reader);
    if (reader.accept("slide")) return parseSlide(reader);
    if (reader.accept("fall")) return parseFall(reader);
    if (reader.accept("reposition")) return parseReposition(reader);
    if (reader.accept("power")) return parsePower(reader);
    if (reader.accept("smoke")) return parseSmoke(reader);
    if (reader.accept("cue")) return parseCue(reader);
    // `2 pivots left`, `1 snap left`, `1 roll left`: name what follows the count.
    if (reader.numberNext() && findHonestAnswer(reader.word(1)) != nullptr) {
        const HonestAnswer& answer = *findHonestAnswer(reader.word(1));
        reader.fail(std::string(answer.what), std::string(answer.remedy));
    } else if (reader.word() == "roll" || reader.word() == "rolls" || reader.numberNext()) {
        reader.fail("a line of figure text begins with what is flown",
                    "a roll is flown on a line: line 200 m with 1 roll left");
    } else {
        reader.failUnknown({"line", "pull", "push", "turn", "pivot", "slide", "fall", "reposition",
                            "power", "smoke", "cue"},
                           kElementWords);
    }
    return std::nullopt;
}

}  // namespace plumbline::text
