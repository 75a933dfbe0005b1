#include "engine/text/mirror.h"

#include <utility>

#include "engine/text/token.h"

namespace plumbline::text {

namespace {

/// Never a negative zero.
double opposite(double value) { return value == 0 ? 0 : -value; }

Rolls mirror(Rolls rolls) {
    for (RollPart& part : rolls.parts) part.angle_rad = opposite(part.angle_rad);
    return rolls;
}

Line mirror(Line line) {
    Condition& until = line.extent.until;
    if (until.kind == Condition::Kind::X) until.value = opposite(until.value);
    until.words = mirrorWords(until.words);
    line.rolls = mirror(std::move(line.rolls));
    return line;
}

Arc mirror(Arc arc) {
    arc.rolls = mirror(std::move(arc.rolls));
    return arc;
}

/// What goes to one side. Inward and outward are sides of a rolling turn itself, so they stay.
template <class Sided>
requires requires(Sided sided) { sided.left = !sided.left; }
Sided mirror(Sided sided) {
    sided.left = !sided.left;
    return sided;
}

Tumble mirror(Tumble tumble) {
    if (tumble.way == Tumble::Way::Left) {
        tumble.way = Tumble::Way::Right;
    } else if (tumble.way == Tumble::Way::Right) {
        tumble.way = Tumble::Way::Left;
    }
    return tumble;
}

Reposition mirror(Reposition to) {
    to.x_m = opposite(to.x_m);
    to.crowd_right = !to.crowd_right;
    return to;
}

Expect mirror(Expect expect) {
    const bool facing = expect.what == Expect::What::Heading || expect.what == Expect::What::Canopy;
    if (facing && expect.way == Expect::Way::CrowdLeft) {
        expect.way = Expect::Way::CrowdRight;
    } else if (facing && expect.way == Expect::Way::CrowdRight) {
        expect.way = Expect::Way::CrowdLeft;
    }
    return expect;
}

// Without a side and a place along the show line.
Polygon mirror(const Polygon& polygon) { return polygon; }
Slide mirror(const Slide& slide) { return slide; }
Fall mirror(const Fall& fall) { return fall; }
Climb mirror(const Climb& climb) { return climb; }
PowerSetting mirror(const PowerSetting& power) { return power; }
SmokeSwitch mirror(const SmokeSwitch& smoke) { return smoke; }
CueMark mirror(const CueMark& cue) { return cue; }
Ribbon mirror(const Ribbon& ribbon) { return ribbon; }

std::string_view oppositeWord(std::string_view word) {
    if (word == "left") return "right";
    if (word == "right") return "left";
    if (word == "crowd-left") return "crowd-right";
    if (word == "crowd-right") return "crowd-left";
    return {};
}

std::string oppositeNumber(std::string_view number) {
    if (number.front() == '-') return std::string(number.substr(1));
    if (number.front() == '+') number.remove_prefix(1);
    const bool zero = number.find_first_not_of("0.") == std::string_view::npos;
    return (zero ? "" : "-") + std::string(number);
}

}  // namespace

ElementBody mirrorBody(const ElementBody& body) {
    return std::visit([](const auto& element) -> ElementBody { return mirror(element); }, body);
}

Element mirrorElement(Element element) {
    element.body = mirrorBody(element.body);
    element.words = mirrorWords(element.words);
    return element;
}

std::string mirrorWords(std::string_view line) {
    static const std::vector<ParameterValue> kNone;
    Problems problems;
    const std::vector<Token> tokens = cutLine(line, "", 1, problems, kNone).tokens;
    if (!problems.empty()) return std::string(line);
    const bool names_ribbon = !tokens.empty() && lowerCase(tokens[0].text) == "ribbon";
    std::string words;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const Token& token = tokens[i];
        if (i > 0 && token.blank_before) words += ' ';
        const bool word = token.kind == Token::Kind::Word && !names_ribbon;
        const std::string_view other = word ? oppositeWord(lowerCase(token.text)) : "";
        const bool place =
            token.kind == Token::Kind::Number && i > 0 && lowerCase(tokens[i - 1].text) == "x";
        if (!other.empty()) {
            words += other;
        } else {
            words += place ? oppositeNumber(token.text) : std::string(token.text);
        }
    }
    return words;
}

}  // namespace plumbline::text
