#include "engine/text/print.h"

#include <cmath>
#include <limits>

#include "engine/base/number_text.h"
#include "engine/text/quantity_rule.h"

namespace plumbline::text {

namespace {

/// Fewest decimals that, times `factor`, read back to the same value.
std::string decimals(double value, double factor) {
    // A quotient can be one step off the number that was written. Digits of a double above 1e-6 end
    // by the 24th decimal, those of the smallest by the 340th.
    constexpr double kInfinity = std::numeric_limits<double>::infinity();
    constexpr double kSmall = 1e-6;
    const double quotient = value / factor;
    const int most = std::abs(quotient) < kSmall ? 340 : 24;
    for (const double candidate :
         {quotient, std::nextafter(quotient, -kInfinity), std::nextafter(quotient, kInfinity)}) {
        for (int count = 0; count <= most; ++count) {
            std::string digits = formatFixed(candidate, count);
            if (parseDouble(digits).value_or(0) * factor == value) return digits;
        }
    }
    return formatFixed(quotient, most);
}

std::string quantity(double value, const char* unit) {
    return decimals(value, units::findUnit(unit)->factor) + " " + unit;
}

/// `1 1/2 rolls` for what is 1.5 times `one`; a fraction where a small denominator gives exactly
/// this, else decimals.
std::string rollCount(double total, double one, const char* single = " roll",
                      const char* several = " rolls") {
    constexpr int kMostParts = 32;
    const double count = total / one;
    const char* word = total > one ? several : single;
    for (int parts = 1; parts <= kMostParts; ++parts) {
        const double all = std::round(count * parts);
        const double whole = std::floor(all / parts);
        const double rest = all - whole * parts;
        if (one * (whole + rest / parts) != total) continue;
        const std::string whole_words = formatFixed(whole, 0);
        if (parts == 1) return whole_words + word;
        const std::string fraction = formatFixed(rest, 0) + "/" + std::to_string(parts);
        return (whole > 0 ? whole_words + " " + fraction : fraction) + word;
    }
    return decimals(total, one) + word;
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
    } else if (part.kind == RollPart::Kind::Snap) {
        words = rollCount(angle_rad, kTurn_rad, " snap", " snaps") + " ";
    } else if (part.kind == RollPart::Kind::NegativeSnap) {
        words = rollCount(angle_rad, kTurn_rad, " negative snap", " negative snaps") + " ";
    } else {
        words = rollCount(angle_rad, kTurn_rad) + " ";
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

std::string print(const Rolls& rolls) {
    std::string words;
    const char* joint = " with ";
    for (const RollPart& part : rolls.parts) {
        words += joint + print(part);
        joint = " then ";
    }
    return words + print(rolls.placement);
}

std::string print(const Line& line) {
    std::string words = "line ";
    if (line.direction) words += print(*line.direction) + " ";
    if (line.reference == LineReference::Nose) words += "by nose ";
    if (line.reference == LineReference::Path) words += "by path ";
    if (line.reference == LineReference::Ground) words += "over the ground ";
    return words + print(line.extent) + print(line.rolls);
}

std::string printSize(ArcSize size, double load_g, double radius_m) {
    switch (size) {
        case ArcSize::Load:
            return " at " + quantity(load_g, "g");
        case ArcSize::Radius:
            return " radius " + quantity(radius_m, "m");
        case ArcSize::RoundAtLoad:
            return " round at " + quantity(load_g, "g");
        case ArcSize::Tightest:
            break;
    }
    return " tightest";
}

std::string print(const Arc& arc) {
    std::string words = arc.floating ? "float " : arc.push ? "push " : "pull ";
    words += arc.to ? "to " + print(*arc.to) : quantity(arc.angle_rad, "deg");
    words += printSize(arc.size, arc.load_g, arc.radius_m);
    if (arc.over_ground) words += " over the ground";
    return words + print(arc.rolls);
}

std::string print(const Polygon& polygon) {
    return std::string(polygon.push ? "push " : "pull ") + std::to_string(polygon.sides) +
           " sides " + quantity(polygon.angle_rad, "deg") + " side " +
           quantity(polygon.side_m, "m") +
           printSize(polygon.size, polygon.load_g, polygon.radius_m);
}

std::string print(const Turn& turn) {
    const std::string height =
        turn.to_height_m ? " to height " + quantity(*turn.to_height_m, "m") : "";
    return "turn " + side(turn.left) + " " + quantity(turn.angle_rad, "deg") +
           (turn.bank_rad ? " bank " + quantity(*turn.bank_rad, "deg")
                          : " at " + quantity(turn.load_g, "g")) +
           height;
}

std::string print(const RollingTurn& turn) {
    const std::string time = turn.duration_s ? " in " + quantity(*turn.duration_s, "s") : "";
    const char* sense = turn.sense == RollingTurn::Sense::Inward    ? " inward"
                        : turn.sense == RollingTurn::Sense::Outward ? " outward"
                                                                    : " alternating";
    return "turn " + side(turn.left) + " " + quantity(turn.angle_rad, "deg") + time + " with " +
           rollCount(turn.rolls, 1) + sense;
}

std::string print(const Pivot& pivot) {
    return (pivot.count > 1 ? std::to_string(pivot.count) + " pivots " : "pivot ") +
           side(pivot.left) + " in " + quantity(pivot.duration_s, "s") +
           (pivot.power_frac ? " " + power(*pivot.power_frac) : "") +
           (pivot.over_rad > 0 ? " over " + quantity(pivot.over_rad, "deg") : "");
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

std::string print(const TorqueRoll& roll) {
    return "torque-roll " + side(roll.left) + " " + rollCount(roll.angle_rad, kTurn_rad) +
           (roll.power_frac ? " " + power(*roll.power_frac) : "");
}

std::string turnCount(double angle_rad) {
    return rollCount(angle_rad, kTurn_rad, " turn", " turns");
}

std::string print(const Spin& spin) {
    return "spin " + side(spin.left) + " " + turnCount(spin.angle_rad) +
           (spin.inverted ? " inverted" : "");
}

std::string print(const Tumble& tumble) {
    const char* way = tumble.way == Tumble::Way::Forward    ? "forward "
                      : tumble.way == Tumble::Way::Backward ? "backward "
                      : tumble.way == Tumble::Way::Left     ? "left "
                                                            : "right ";
    return std::string("tumble ") + way + turnCount(tumble.angle_rad) +
           (tumble.duration_s ? " in " + quantity(*tumble.duration_s, "s") : "");
}

std::string print(const Reposition& to) {
    return "reposition to x " + quantity(to.x_m, "m") + " y " + quantity(to.y_m, "m") + " height " +
           quantity(to.height_m, "m") + " heading " +
           (to.crowd_right ? "crowd-right" : "crowd-left") + " speed " +
           quantity(to.speed_mps, "m/s");
}

std::string print(const Climb& climb) {
    return (climb.descend ? "descend to height " : "climb to height ") +
           quantity(climb.height_m, "m");
}

std::string print(const Wait& wait) {
    return "wait " + quantity(wait.duration_s, "s") + " in level turn " + side(wait.left);
}

std::string print(const PowerSetting& setting) { return power(setting.frac); }

std::string print(const SmokeSwitch& smoke) { return smoke.on ? "smoke on" : "smoke off"; }

std::string print(const CueMark& cue) { return "cue \"" + cue.words + "\""; }

std::string print(const Ribbon& ribbon) { return "ribbon \"" + ribbon.name + "\""; }

std::string printWay(const Expect& expect) {
    switch (expect.way) {
        case Expect::Way::CrowdLeft:
            return "crowd-left";
        case Expect::Way::CrowdRight:
            return "crowd-right";
        case Expect::Way::TowardCrowd:
            return expect.what == Expect::What::Canopy ? "to crowd" : "toward crowd";
        case Expect::Way::AwayFromCrowd:
            break;
    }
    return "away from crowd";
}

std::string print(const Expect& expect) {
    const std::string limit = expect.above ? "above " : "below ";
    switch (expect.what) {
        case Expect::What::Heading:
            return "expect heading " + printWay(expect);
        case Expect::What::Canopy:
            return "expect canopy " + printWay(expect);
        case Expect::What::Height:
            return "expect height " + limit + quantity(expect.value, "m");
        case Expect::What::Speed:
            return "expect speed " + limit + quantity(expect.value, "m/s");
        case Expect::What::Attitude:
            break;
    }
    return expect.attitude == Expect::Attitude::Upright    ? "expect upright"
           : expect.attitude == Expect::Attitude::Inverted ? "expect inverted"
                                                           : "expect knife-edge";
}

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
