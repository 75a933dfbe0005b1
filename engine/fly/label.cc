#include "engine/fly/label.h"

#include <algorithm>
#include <cmath>

#include "engine/fly/flight.h"

namespace plumbline::fly {
namespace {

std::string directionWords(const text::Direction& d) {
    switch (d.kind) {
        case text::Direction::Kind::Up:
            return "up";
        case text::Direction::Kind::Down:
            return "down";
        case text::Direction::Kind::Level:
            return d.inverted ? "inverted level" : "level";
        case text::Direction::Kind::Angle:
            break;
    }
    return std::string(d.inverted ? "inverted " : "") + angleText(std::fabs(d.climb_rad)) +
           (d.climb_rad < 0 ? " down" : " up");
}

const char* rollWords(const text::Rolls& rolls) {
    if (rolls.parts.empty()) return "";
    const bool snap =
        std::any_of(rolls.parts.begin(), rolls.parts.end(),
                    [](const text::RollPart& p) { return p.kind != text::RollPart::Kind::Roll; });
    return snap ? " with snap" : " with roll";
}

const char* tumbleWords(text::Tumble::Way way) {
    switch (way) {
        case text::Tumble::Way::Forward:
            return "tumble forward";
        case text::Tumble::Way::Backward:
            return "tumble backward";
        case text::Tumble::Way::Left:
            return "tumble left";
        case text::Tumble::Way::Right:
            break;
    }
    return "tumble right";
}

}  // namespace

std::string labelOf(const text::ElementBody& body) {
    struct Namer {
        std::string operator()(const text::Line& l) const {
            return std::string("line") + (l.direction ? " " + directionWords(*l.direction) : "") +
                   rollWords(l.rolls);
        }
        std::string operator()(const text::Arc& a) const {
            return std::string(a.floating ? "float"
                               : a.push   ? "push"
                                          : "pull") +
                   (a.to ? " to " + directionWords(*a.to) : " " + angleText(a.angle_rad));
        }
        std::string operator()(const text::Polygon& p) const {
            return std::string(p.push ? "push " : "pull ") + std::to_string(p.sides) + " sides";
        }
        std::string operator()(const text::Turn& t) const {
            return t.left ? "turn left" : "turn right";
        }
        std::string operator()(const text::RollingTurn& t) const {
            return t.left ? "rolling turn left" : "rolling turn right";
        }
        std::string operator()(const text::Pivot& p) const {
            return p.left ? "pivot left" : "pivot right";
        }
        std::string operator()(const text::Slide&) const { return "slide"; }
        std::string operator()(const text::Fall& f) const {
            return f.wheels_down ? "fall wheels-down" : "fall wheels-up";
        }
        std::string operator()(const text::TorqueRoll& r) const {
            return r.left ? "torque roll left" : "torque roll right";
        }
        std::string operator()(const text::Spin& s) const {
            return std::string(s.inverted ? "inverted spin " : "spin ") +
                   (s.left ? "left" : "right");
        }
        std::string operator()(const text::Tumble& t) const { return tumbleWords(t.way); }
        std::string operator()(const text::Reposition&) const { return "reposition"; }
        std::string operator()(const text::Climb& c) const {
            return c.descend ? "descend" : "climb";
        }
        std::string operator()(const text::Wait&) const { return "wait"; }
        std::string operator()(const text::PowerSetting&) const { return "power"; }
        std::string operator()(const text::SmokeSwitch&) const { return "smoke"; }
        std::string operator()(const text::CueMark&) const { return "cue"; }
        std::string operator()(const text::Ribbon&) const { return "ribbon"; }
        std::string operator()(const text::Expect&) const { return "expect"; }
    };
    return std::visit(Namer{}, body);
}

}  // namespace plumbline::fly
