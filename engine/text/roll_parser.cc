// ROLLS of figure text: 1/4 roll left at 360 deg/s then 4 of 8 points right pause 0.4 s at end.
#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

constexpr int kMostParts = 20;        // chosen: as above
constexpr double kMostSnaps = 4;      // chosen: each costs much of the speed
constexpr int kMostPointsRound = 32;  // chosen: 16 is the most that is flown

bool fractionNext(const LineReader& reader) {
    return reader.numberNext(1) &&
           reader.tokens()[reader.position() + 1].text.find('/') != std::string_view::npos;
}

/// `4 of 8 points right` without its side; the angle comes out positive.
std::optional<RollPart> parsePoints(LineReader& reader) {
    const std::size_t count_index = reader.position();
    const auto count = reader.readWhole("the number of points", 1, 4 * kMostPointsRound);
    if (!count || !reader.expect("of", "write 4 of 8 points right")) return std::nullopt;
    const auto round =
        reader.readWhole("the number of points in a whole roll", 2, kMostPointsRound);
    if (!round || !reader.expectOneOf({"points", "point"}, "the word points")) return std::nullopt;
    if (*count > 4 * *round) {
        reader.failAt(count_index, "the hesitation roll has more than four turns",
                      "write at most " + std::to_string(4 * *round) + " of " +
                          std::to_string(*round) + " points");
    }
    RollPart part;
    part.points = *count;
    part.angle_rad = kTurn_rad * *count / *round;
    return part;
}

/// `1 1/2 rolls`, `1 snap`, `2 negative snaps`, without its side; the angle comes out positive.
std::optional<RollPart> parseSteadyRoll(LineReader& reader) {
    const std::size_t count_index = reader.position();
    const auto count = reader.readCount("the number of rolls", "1 1/2 rolls left", kMostRolls);
    if (!count) return std::nullopt;
    RollPart part;
    part.angle_rad = kTurn_rad * *count;
    const bool negative = reader.accept("negative");
    if (!negative && reader.word() != "snap" && reader.word() != "snaps") {
        if (!reader.expectOneOf({"roll", "rolls", "snap", "snaps", "negative"}, "the word roll"))
            return std::nullopt;
        return part;
    }
    if (!reader.expectOneOf({"snap", "snaps"}, "the word snap")) return std::nullopt;
    part.kind = negative ? RollPart::Kind::NegativeSnap : RollPart::Kind::Snap;
    if (*count > kMostSnaps)
        reader.failAt(count_index, "more than 4 snaps stand together",
                      "write at most 4 snaps; there is no speed left for more");
    return part;
}

/// `at 360 deg/s` and `pause 0.4 s` after a roll, in any order.
bool parseRollManner(LineReader& reader, RollPart& part) {
    for (;;) {
        if (reader.word() == "at" && !reader.numberNext(1)) return true;  // a placement
        const bool rate = reader.word() == "at" && !reader.quantityNext(units::Dimension::Speed, 1);
        if (part.kind != RollPart::Kind::Roll && (rate || reader.word() == "pause")) {
            reader.fail("a snap turns at its own rate, without stops",
                        "leave this out, or write a roll");
            return false;
        }
        if (reader.word() == "pause") {
            if (part.points == 0) {
                reader.fail("a steady roll has no pause",
                            "write points for a roll that pauses: "
                            "4 of 4 points right pause 0.4 s");
                return false;
            }
            reader.accept("pause");
            const auto pause_s = reader.readQuantity(kPause);
            if (!pause_s) return false;
            part.pause_s = *pause_s;
        } else if (rate) {
            reader.accept("at");
            const auto rate_radps = reader.readQuantity(kRollRate);
            if (!rate_radps) return false;
            part.rate_radps = *rate_radps;
        } else {
            return true;
        }
    }
}

/// A roll and its side, without its manner.
std::optional<RollPart> parseRollPart(LineReader& reader) {
    const bool points = reader.numberNext() && !fractionNext(reader) && reader.word(1) == "of";
    std::optional<RollPart> part = points ? parsePoints(reader) : parseSteadyRoll(reader);
    if (!part) return std::nullopt;
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    if (*side == "left") part->angle_rad = -part->angle_rad;
    return part;
}

std::optional<RollPlacement> parseMeasuredPlacement(LineReader& reader) {
    RollPlacement placement;
    std::optional<double> value;
    if (reader.accept("after")) {
        placement.kind = RollPlacement::Kind::AfterDistance;
        value = reader.readQuantity(kAfterDistance);
    } else {
        reader.accept("at");
        const bool height = reader.accept("height");
        placement.kind = height ? RollPlacement::Kind::AtHeight : RollPlacement::Kind::AtSpeed;
        value = reader.readQuantity(height ? kHeight : kSpeed);
    }
    if (!value) return std::nullopt;
    placement.value = *value;
    return placement;
}

/// `at start`, `at end`, `[starting] at 60 kt`, `[starting] at height 300 m`,
/// `[starting] after 80 m`; nothing said: in the middle.
std::optional<RollPlacement> parsePlacement(LineReader& reader) {
    const bool starting = reader.accept("starting");
    if (starting && reader.word() != "at" && reader.word() != "after") {
        constexpr auto kRemedy =
            "write starting at 60 kt, starting at height 300 m or starting after 80 m";
        if (reader.atEnd()) {
            reader.fail("where the roll starts is missing", kRemedy);
        } else {
            reader.failUnknown({"at", "after"}, kRemedy);
        }
        return std::nullopt;
    }
    const bool after = reader.word() == "after";
    if (!after && reader.word() != "at") return RollPlacement{};
    if (after || starting || reader.word(1) == "height" || reader.numberNext(1)) {
        return parseMeasuredPlacement(reader);
    }
    reader.accept("at");
    const auto place = reader.expectOneOf({"start", "end", "height"}, "where the roll stands");
    if (!place) return std::nullopt;
    RollPlacement placement;
    placement.kind = *place == "start" ? RollPlacement::Kind::AtStart : RollPlacement::Kind::AtEnd;
    return placement;
}

/// Rolls joined by `then`; `manner` reads what may stand after each.
template <class Manner>
std::optional<Rolls> parseRollList(LineReader& reader, Manner manner) {
    Rolls rolls;
    const std::size_t first_index = reader.position();
    do {
        auto part = parseRollPart(reader);
        if (!part || !manner(reader, *part)) return std::nullopt;
        rolls.parts.push_back(*part);
    } while (reader.accept("then"));
    if (rolls.parts.size() > kMostParts) {
        reader.failAt(first_index, "more than 20 rolls stand on one line", "write a second line");
    }
    return rolls;
}

}  // namespace

std::optional<Rolls> parseRolls(LineReader& reader) {
    std::optional<Rolls> rolls = parseRollList(reader, parseRollManner);
    if (!rolls) return std::nullopt;
    const auto placement = parsePlacement(reader);
    if (!placement) return std::nullopt;
    rolls->placement = *placement;
    return rolls;
}

std::optional<Rolls> parseArcRolls(LineReader& reader) {
    const auto none = [](LineReader& at, const RollPart& part) {
        if (part.kind != RollPart::Kind::Roll) {
            at.fail("a snap is flown on a line, not on an arc",
                    "put it on the line before or after: line 200 m with 1 snap left");
            return false;
        }
        const std::string_view word = at.word();
        if (word != "at" && word != "starting" && word != "after" && word != "pause") return true;
        at.fail("a roll on an arc is spread evenly over it",
                "leave out its rate, pause and place, or put it on the line before or after");
        return false;
    };
    return parseRollList(reader, none);
}

}  // namespace plumbline::text
