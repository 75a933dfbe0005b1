// What stands between the elements and flies nothing: smoke on, cue "words", ribbon low, expect
// heading crowd-left.
#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

/// `crowd-left`, `crowd-right`, `toward crowd`, `to crowd`, `away from crowd`.
bool parseWay(LineReader& reader, Expect& expect) {
    const auto word = reader.expectOneOf({"crowd-left", "crowd-right", "toward", "to", "away"},
                                         "which way it faces");
    if (!word) return false;
    if (*word == "crowd-left" || *word == "crowd-right") {
        expect.way = *word == "crowd-left" ? Expect::Way::CrowdLeft : Expect::Way::CrowdRight;
        return true;
    }
    if (*word == "away") {
        expect.way = Expect::Way::AwayFromCrowd;
        return reader.expect("from", "write away from crowd") &&
               reader.expect("crowd", "write away from crowd");
    }
    expect.way = Expect::Way::TowardCrowd;
    return reader.expect("crowd", "write toward crowd");
}

/// `above 100 m`, `below 80 m/s`.
bool parseLimit(LineReader& reader, const QuantityRule& rule, Expect& expect) {
    const auto side = reader.expectOneOf({"above", "below"}, "above or below");
    if (!side) return false;
    const auto value = reader.readQuantity(rule);
    if (!value) return false;
    expect.above = *side == "above";
    expect.value = *value;
    return true;
}

}  // namespace

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

std::optional<ElementBody> parseRibbon(LineReader& reader) {
    constexpr auto kRemedy = "write its name as a word or in quotes, ribbon first";
    const std::size_t index = reader.position();
    const std::string name = reader.readName();
    if (name.find_first_not_of(" \t") == std::string::npos) {
        reader.failAt(index, "the ribbon's name is missing", kRemedy);
        return std::nullopt;
    }
    if (!reader.expectEnd({})) return std::nullopt;
    return Ribbon{name};
}

std::optional<ElementBody> parseExpect(LineReader& reader) {
    const auto what = reader.expectOneOf(
        {"heading", "canopy", "upright", "inverted", "knife-edge", "height", "speed"},
        "what is expected");
    if (!what) return std::nullopt;
    Expect expect;
    if (*what == "heading" || *what == "canopy") {
        expect.what = *what == "heading" ? Expect::What::Heading : Expect::What::Canopy;
        if (!parseWay(reader, expect)) return std::nullopt;
    } else if (*what == "height" || *what == "speed") {
        expect.what = *what == "height" ? Expect::What::Height : Expect::What::Speed;
        if (!parseLimit(reader, *what == "height" ? kHeight : kSpeed, expect)) return std::nullopt;
    } else {
        expect.what = Expect::What::Attitude;
        expect.attitude = *what == "upright"    ? Expect::Attitude::Upright
                          : *what == "inverted" ? Expect::Attitude::Inverted
                                                : Expect::Attitude::KnifeEdge;
    }
    if (!reader.expectEnd({})) return std::nullopt;
    return expect;
}

}  // namespace plumbline::text
