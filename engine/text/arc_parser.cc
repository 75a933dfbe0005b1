// Part loops of figure text: pull to up at 6 g, float to 45 deg down at 0.2 g, push 8 sides 360 deg
// side 60 m at 5 g.
#include <cmath>

#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

constexpr std::int32_t kMostSides = 16;  // chosen: more cannot be told from round

/// `at 6 g`, `radius 90 m`, `round at 6 g` or `tightest`.
template <class Body>
bool parseArcSize(LineReader& reader, Body& arc) {
    if (reader.accept("tightest")) {
        arc.size = ArcSize::Tightest;
        return true;
    }
    const bool round = reader.accept("round");
    if (!round && reader.accept("radius")) {
        const auto radius_m = reader.readQuantity(kRadius);
        if (!radius_m) return false;
        arc.size = ArcSize::Radius;
        arc.radius_m = *radius_m;
        return true;
    }
    if (!reader.accept("at")) {
        constexpr auto kRemedy = "write at 6 g, radius 90 m, round at 6 g or tightest";
        if (reader.atEnd()) {
            reader.fail("how tight the arc is flown is missing", kRemedy);
        } else {
            reader.failUnknown({"at", "radius", "round", "tightest"}, kRemedy);
        }
        return false;
    }
    const auto load_g = reader.readQuantity(kArcLoad);
    if (!load_g) return false;
    arc.size = round ? ArcSize::RoundAtLoad : ArcSize::Load;
    arc.load_g = *load_g;
    return true;
}

/// `to up` or `270 deg`. `verb` is the word before.
bool parseArcWay(LineReader& reader, Arc& arc, const std::string& verb) {
    if (reader.accept("to")) {
        arc.to = parseDirection(reader);
        return arc.to.has_value();
    }
    if (reader.numberNext()) {
        const auto angle_rad = reader.readQuantity(kArcAngle);
        if (!angle_rad) return false;
        arc.angle_rad = *angle_rad;
        if (reader.word() == "up" || reader.word() == "down") {
            reader.fail("'to' is missing before the direction",
                        "write " + verb + " to 45 deg " + std::string(reader.word()));
            return false;
        }
        return true;
    }
    const std::string remedy =
        "write " + verb + (verb == "pull" ? " to up" : " to level") + " or " + verb + " 90 deg";
    if (reader.atEnd() || directionNext(reader)) {
        reader.fail("'to' and a direction, or an angle, is missing", remedy);
    } else {
        reader.failUnknown({"to"}, remedy);
    }
    return false;
}

/// `over the ground` after the size, for a round arc.
bool parseArcGround(LineReader& reader, Arc& arc) {
    if (reader.word() != "over") return true;
    if (arc.size != ArcSize::Radius && arc.size != ArcSize::RoundAtLoad) {
        reader.fail("only a round arc can be round over the ground",
                    "write radius 90 m over the ground or round at 5 g over the ground");
        return false;
    }
    arc.over_ground = true;
    return parseOverTheGround(reader);
}

/// `8 sides 360 deg side 60 m at 5 g` after the verb.
std::optional<ElementBody> parsePolygon(LineReader& reader, bool push) {
    Polygon polygon;
    polygon.push = push;
    const auto sides = reader.readWhole("the number of sides", 3, kMostSides);
    if (!sides || !reader.expectOneOf({"sides"}, "the word sides")) return std::nullopt;
    polygon.sides = *sides;
    const std::size_t angle_index = reader.position();
    const auto angle_rad = reader.readQuantity(kArcAngle);
    if (!angle_rad) return std::nullopt;
    const double corner_rad = kTurn_rad / *sides;
    const double corners = std::round(*angle_rad / corner_rad);
    constexpr double kSame = 1e-6;  // chosen: decimals of 360/7 deg pass, another angle does not
    if (corners < 1 || std::abs(*angle_rad - corners * corner_rad) > kSame) {
        reader.failAt(angle_index,
                      "the angle is no whole number of corners of a loop with " +
                          std::to_string(*sides) + " sides",
                      "write a multiple of 360/" + std::to_string(*sides) + " deg");
    }
    polygon.angle_rad = corners * corner_rad;
    if (!reader.expect("side", "write the length of a side, side 60 m")) return std::nullopt;
    const auto side_m = reader.readQuantity(kSideLength);
    if (!side_m || !parseArcSize(reader, polygon) || !reader.expectEnd({})) return std::nullopt;
    polygon.side_m = *side_m;
    return polygon;
}

}  // namespace

std::optional<ElementBody> parseArc(LineReader& reader, bool push) {
    if (reader.numberNext() && (reader.word(1) == "sides" || reader.word(1) == "side")) {
        return parsePolygon(reader, push);
    }
    Arc arc;
    arc.push = push;
    if (!parseArcWay(reader, arc, push ? "push" : "pull") || !parseArcSize(reader, arc) ||
        !parseArcGround(reader, arc)) {
        return std::nullopt;
    }
    if (reader.accept("with")) {
        const auto rolls = parseArcRolls(reader);
        if (!rolls || !reader.expectEnd({"then"})) return std::nullopt;
        arc.rolls = *rolls;
        return arc;
    }
    const bool round = arc.size == ArcSize::Radius || arc.size == ArcSize::RoundAtLoad;
    const bool complete =
        round && !arc.over_ground ? reader.expectEnd({"over", "with"}) : reader.expectEnd({"with"});
    if (!complete) return std::nullopt;
    return arc;
}

std::optional<ElementBody> parseFloat(LineReader& reader) {
    Arc arc;
    arc.floating = true;
    if (!parseArcWay(reader, arc, "float")) return std::nullopt;
    constexpr auto kRemedy = "write the load that the meter is to read, at 0.2 g";
    const std::string_view word = reader.word();
    if (word == "radius" || word == "round" || word == "tightest") {
        reader.fail("a float is flown by its load", kRemedy);
        return std::nullopt;
    }
    if (!reader.expect("at", kRemedy)) return std::nullopt;
    const auto load_g = reader.readQuantity(kFloatLoad);
    if (!load_g || !reader.expectEnd({})) return std::nullopt;
    arc.load_g = *load_g;
    return arc;
}

}  // namespace plumbline::text
