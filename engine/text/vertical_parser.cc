// What is flown at the top of a vertical: pivot left, slide 60 m, fall wheels-down; and the power.
#include "engine/text/element_parser.h"

namespace plumbline::text {

namespace {

constexpr std::int32_t kMostPivots = 4;  // chosen: there is no speed left for more

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

}  // namespace

bool parseOptionalPower(LineReader& reader, std::optional<double>& power_frac) {
    if (!reader.accept("power")) return true;
    power_frac = parsePowerValue(reader);
    return power_frac.has_value();
}

std::optional<ElementBody> parsePivots(LineReader& reader) {
    const auto count = reader.readWhole("the number of pivots", 1, kMostPivots);
    if (!count || !reader.expectOneOf({"pivots", "pivot"}, "the word pivots")) return std::nullopt;
    return parsePivot(reader, *count);
}

std::optional<ElementBody> parsePivot(LineReader& reader, std::int32_t count) {
    const auto side = reader.expectOneOf({"left", "right"}, "the side");
    if (!side) return std::nullopt;
    Pivot pivot;
    pivot.count = count;
    pivot.left = *side == "left";
    const bool timed = reader.accept("in");
    if (timed) {
        const auto duration_s = reader.readQuantity(kPivotTime);
        if (!duration_s) return std::nullopt;
        pivot.duration_s = *duration_s;
    }
    if (!parseOptionalPower(reader, pivot.power_frac)) return std::nullopt;
    const bool over = reader.accept("over");
    if (over) {
        const auto over_rad = reader.readQuantity(kPivotOver);
        if (!over_rad) return std::nullopt;
        pivot.over_rad = *over_rad;
    }
    const bool complete = over               ? reader.expectEnd({})
                          : pivot.power_frac ? reader.expectEnd({"over"})
                          : timed            ? reader.expectEnd({"power", "over"})
                                             : reader.expectEnd({"in", "power", "over"});
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

std::optional<ElementBody> parsePower(LineReader& reader) {
    const auto frac = parsePowerValue(reader);
    if (!frac || !reader.expectEnd({})) return std::nullopt;
    return PowerSetting{*frac};
}

}  // namespace plumbline::text
