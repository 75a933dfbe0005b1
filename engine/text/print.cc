#include "engine/text/print.h"

#include <cmath>

#include "engine/base/number_text.h"
#include "engine/text/quantity_rule.h"

namespace plumbline::text {

namespace {

/// Fewest decimals that read back to the same value.
std::string quantity(double value, const char* unit) {
    const double factor = units::findUnit(unit)->factor;
    constexpr int kMostDecimals = 20;  // doubles of the sizes in use need no more
    std::string digits;
    for (int decimals = 0; decimals <= kMostDecimals; ++decimals) {
        digits = formatFixed(value / factor, decimals);
        if (parseDouble(digits).value_or(0) * factor == value) break;
    }
    return digits + " " + unit;
}

/// `1 1/2` for 1.5 turns where a small denominator gives exactly this angle, else decimals.
std::string turns(double angle_rad) {
    constexpr int kMostParts = 32;
    const double count = angle_rad / kTurn_rad;
    for (int parts = 1; parts <= kMostParts; ++parts) {
        const double total = std::round(count * parts);
        const double whole = std::floor(total / parts);
        const double rest = total - whole * parts;
        if (kTurn_rad * (whole + rest / parts) != angle_rad) continue;
        const std::string whole_words = formatFixed(whole, 0);
        if (parts == 1) return whole_words;
        const std::string fraction = formatFixed(rest, 0) + "/" + std::to_string(parts);
        return whole > 0 ? whole_words + " " + fraction : fraction;
    }
    return formatFixed(count, 17);
}

std::string side(bool left) { return left ? "left" : "right"; }

std::string power(double frac) {
    return frac == 1 ? "power full" : frac == 0 ? "power idle" : "power " + quantity(frac, "%");
}

std::string print(const Direction& direction) {
    const std::string inverted = direction.inverted ? "inverted " : "";
    switch (direction.kind) {
        case Direction::Kind::Level:
            return inverted + "level";
        case Direction::Kind::Up:
            return "up";
        case Direction::Kind::Down:
            return "down";
        case Direction::Kind::Angle:
            break;
    }
    return inverted + quantity(std::abs(direction.climb_rad), "deg") +
           (direction.climb_rad > 0 ? " up" : " down");
}

std::string print(const Condition& condition) {
    switch (condition.kind) {
        case Condition::Kind::X:
            return "x " + quantity(condition.value, "m");
        case Condition::Kind::Y:
            return "y " + quantity(condition.value, "m");
        case Condition::Kind::Height:
            return "height " + quantity(condition.value, "m");
        case Condition::Kind::Speed:
            break;
    }
    return quantity(condition.value, "m/s");
}

std::string print(const Extent& extent) {
    if (extent.kind == Extent::Kind::Distance) return quantity(extent.distance_m, "m");
    if (extent.kind == Extent::Kind::Duration) return quantity(extent.duration_s, "s");
    const std::string cap = extent.duration_s > 0 ? " or " + quantity(extent.duration_s, "s") : "";
    return "until " + print(extent.until) + cap;
}

std::string print(const RollPart& part) {
    const double angle_rad = std::abs(part.angle_rad);
    std::string words;
    if (part.points > 0) {
        const double round = std::round(kTurn_rad * part.points / angle_rad);
        words = std::to_string(part.points) + " of " + formatFixed(round, 0) + " points ";
    } else {
        words = turns(angle_rad) + (angle_rad > kTurn_rad ? " rolls " : " roll ");
    }
    words += side(part.angle_rad < 0);
    if (part.rate_radps > 0) words += " at " + quantity(part.rate_radps, "deg/s");
    if (part.pause_s > 0) words += " pause " + quantity(part.pause_s, "s");
    return words;
}

std::string print(const RollPlacement& placement) {
    switch (placement.kind) {
        case RollPlacement::Kind::Middle:
            return "";
        case RollPlacement::Kind::AtStart:
            return " at start";
        case RollPlacement::Kind::AtEnd:
            return " at end";
        case RollPlacement::Kind::AtSpeed:
            return " starting at " + quantity(placement.value, "m/s");
        case RollPlacement::Kind::AtHeight:
            return " starting at height " + quantity(placement.value, "m");
        case RollPlacement::Kind::AfterDistance:
            break;
    }
    return " starting after " + quantity(placement.value, "m");
}

std::string print(const Line& line) {
    std::string words = "line ";
    if (line.direction) words += print(*line.direction) + " ";
    if (line.reference == LineReference::Nose) words += "by nose ";
    if (line.reference == LineReference::Path) words += "by path ";
    words += print(line.extent);
    const char* joint = " with ";
    for (const RollPart& part : line.rolls.parts) {
        words += joint + print(part);
        joint = " then ";
    }
    return words + print(line.rolls.placement);
}

std::string print(const Arc& arc) {
    std::string words = arc.push ? "push " : "pull ";
    words += arc.to ? "to " + print(*arc.to) : quantity(arc.angle_rad, "deg");
    if (arc.size == Arc::Size::Radius) return words + " radius " + quantity(arc.radius_m, "m");
    if (arc.size == Arc::Size::RoundAtLoad) words += " round";
    return words + " at " + quantity(arc.load_g, "g");
}

std::string print(const Turn& turn) {
    return "turn " + side(turn.left) + " " + quantity(turn.angle_rad, "deg") +
           (turn.bank_rad ? " bank " + quantity(*turn.bank_rad, "deg")
                          : " at " + quantity(turn.load_g, "g"));
}

std::string print(const Pivot& pivot) {
    return "pivot " + side(pivot.left) + " in " + quantity(pivot.duration_s, "s") +
           (pivot.power_frac ? " " + power(*pivot.power_frac) : "");
}

std::string print(const Slide& slide) {
    std::string words = "slide ";
    if (slide.until == Slide::Until::Distance) words += quantity(slide.value, "m");
    if (slide.until == Slide::Until::Duration) words += quantity(slide.value, "s");
    if (slide.until == Slide::Until::Speed) words += "until " + quantity(slide.value, "m/s");
    return words + (slide.power_frac ? " " + power(*slide.power_frac) : "");
}

std::string print(const Fall& fall) {
    return std::string("fall ") + (fall.wheels_down ? "wheels-down" : "wheels-up") +
           (fall.tilt_rad > 0 ? " tilt " + quantity(fall.tilt_rad, "deg") : "");
}

std::string print(const Reposition& to) {
    return "reposition to x " + quantity(to.x_m, "m") + " y " + quantity(to.y_m, "m") + " height " +
           quantity(to.height_m, "m") + " heading " +
           (to.crowd_right ? "crowd-right" : "crowd-left") + " speed " +
           quantity(to.speed_mps, "m/s");
}

std::string print(const PowerSetting& setting) { return power(setting.frac); }

std::string print(const SmokeSwitch& smoke) { return smoke.on ? "smoke on" : "smoke off"; }

std::string print(const CueMark& cue) { return "cue \"" + cue.words + "\""; }

}  // namespace

std::string printElement(const ElementBody& body) {
    return std::visit([](const auto& element) { return print(element); }, body);
}

std::string printFigureText(const std::vector<Element>& elements) {
    std::string text;
    for (const Element& element : elements) text += printElement(element.body) + "\n";
    return text;
}

}  // namespace plumbline::text
