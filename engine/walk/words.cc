// Figure text as somebody would call it: no abbreviations, nothing that the hands do not need.

#include <cmath>

#include "engine/base/number_text.h"
#include "engine/walk/calls.h"

namespace plumbline::walk {
namespace {

std::string whole(double value) { return formatFixed(value, 0); }
std::string degrees(double angle_rad) { return whole(std::fabs(angle_rad) * 180 / kPi); }

/// "6 g", "5.5 g".
std::string loadWords(double load_g) {
    return formatFixed(load_g, std::fabs(load_g - std::round(load_g)) < 0.05 ? 0 : 1) + " g";
}

/// Whole turns and quarters: "quarter", "one and a half", "3"; `noun` follows: "roll", "rolls".
std::string turnWords(double angle_rad, const std::string& noun) {
    const auto quarters = static_cast<int>(std::lround(std::fabs(angle_rad) / (kPi / 2)));
    const int turns = quarters / 4;
    constexpr const char* kParts[] = {"", "quarter", "half", "three quarter"};
    const char* part = kParts[quarters % 4];
    if (turns == 0) return std::string(part) + " " + noun;
    std::string out = turns == 1 ? "one" : std::to_string(turns);
    if (quarters % 4 != 0) out += std::string(" and ") + (quarters % 4 == 3 ? "" : "a ") + part;
    return out + " " + noun + (turns > 1 || quarters % 4 != 0 ? "s" : "");
}

std::string side(bool left) { return left ? " left" : " right"; }

std::string directionWords(const text::Direction& d) {
    using Kind = text::Direction::Kind;
    const std::string inverted = d.inverted ? "inverted " : "";
    switch (d.kind) {
        case Kind::Up:
            return "up";
        case Kind::Down:
            return "down";
        case Kind::Level:
            return inverted + "level";
        case Kind::Angle:
            break;
    }
    return inverted + degrees(d.climb_rad) + (d.climb_rad < 0 ? " down" : " up");
}

struct Caller {
    std::string operator()(const text::Line& l) const {
        return l.direction ? "line " + directionWords(*l.direction) : "";
    }
    std::string operator()(const text::Arc& a) const {
        std::string out = a.floating ? "float" : a.push ? "push" : "pull";
        out += a.to ? " to " + directionWords(*a.to) : " " + degrees(a.angle_rad);
        if (a.size == text::ArcSize::Load && !a.floating) out += ", " + loadWords(a.load_g);
        const std::string rolls = rollWords(a.rolls);
        return rolls.empty() ? out : out + ", with " + rolls;
    }
    std::string operator()(const text::Polygon& p) const {
        return std::string(p.push ? "push " : "pull ") + std::to_string(p.sides) + " sides";
    }
    std::string operator()(const text::Turn& t) const {
        return "turn" + side(t.left) + " " + degrees(t.angle_rad);
    }
    std::string operator()(const text::RollingTurn& t) const {
        return "rolling turn" + side(t.left) + ", " + turnWords(t.rolls * 2 * kPi, "roll") +
               (t.sense == text::RollingTurn::Sense::Inward    ? " inward"
                : t.sense == text::RollingTurn::Sense::Outward ? " outward"
                                                               : " alternating");
    }
    std::string operator()(const text::Pivot& p) const {
        return (p.count > 1 ? std::to_string(p.count) + " pivots" : "pivot") + side(p.left);
    }
    std::string operator()(const text::Slide&) const { return "slide, hold it"; }
    std::string operator()(const text::Fall& f) const {
        return f.wheels_down ? "fall, wheels down" : "fall, wheels up";
    }
    std::string operator()(const text::TorqueRoll& r) const {
        return "torque roll" + side(r.left) + ", " + turnWords(r.angle_rad, "roll");
    }
    std::string operator()(const text::Spin& s) const {
        return std::string(s.inverted ? "inverted " : "") + "spin" + side(s.left) + ", " +
               turnWords(s.angle_rad, "turn");
    }
    std::string operator()(const text::Tumble& t) const {
        using Way = text::Tumble::Way;
        const char* way = t.way == Way::Forward    ? "forward"
                          : t.way == Way::Backward ? "backward"
                          : t.way == Way::Left     ? "left"
                                                   : "right";
        return std::string("tumble ") + way + ", " + turnWords(t.angle_rad, "turn");
    }
    std::string operator()(const text::Reposition&) const { return "get into place"; }
    std::string operator()(const text::Climb& c) const { return c.descend ? "descend" : "climb"; }
    std::string operator()(const text::Wait& w) const {
        return "wait, turning" + side(w.left) + ", " + whole(w.duration_s) + " seconds";
    }
    std::string operator()(const text::PowerSetting& p) const {
        if (p.frac >= 0.995) return "full power";
        return p.frac <= 0.005 ? "idle" : "power " + whole(p.frac * 100);
    }
    std::string operator()(const text::SmokeSwitch& s) const {
        return s.on ? "smoke on" : "smoke off";
    }
    std::string operator()(const text::CueMark&) const { return ""; }
    std::string operator()(const text::Ribbon&) const { return ""; }
    std::string operator()(const text::Expect&) const { return ""; }
};

}  // namespace

std::string rollWords(const text::Rolls& rolls) {
    std::string out;
    for (const text::RollPart& part : rolls.parts) {
        if (!out.empty()) out += " then ";
        using Kind = text::RollPart::Kind;
        const std::string way = side(part.angle_rad < 0);
        if (part.points > 0) {
            const double point_rad = std::fabs(part.angle_rad) / part.points;
            out +=
                std::to_string(part.points) + " of " + whole(2 * kPi / point_rad) + " points" + way;
        } else if (part.kind == Kind::Roll) {
            out += turnWords(part.angle_rad, "roll") + way;
        } else {
            out += (part.kind == Kind::NegativeSnap ? "negative " : "") +
                   turnWords(part.angle_rad, "snap") + way;
        }
    }
    return out;
}

std::string wordsOf(const text::ElementBody& body) { return std::visit(Caller{}, body); }

}  // namespace plumbline::walk
