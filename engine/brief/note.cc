// What is worth saying of a figure beside its name, from its own text.

#include <string_view>
#include <variant>

#include "engine/brief/outline.h"

namespace plumbline::brief {
namespace {

void replaceAll(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size()))
        text.replace(at, from.size(), to);
}

/// Fractions and degrees as they are printed.
std::string printed(std::string words) {
    // "1 1/2" closes up.
    for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"})
        replaceAll(words, std::string(digit) + " 1/2 ", std::string(digit) + "\u00bd ");
    replaceAll(words, "1/4", "\u00bc");
    replaceAll(words, "3/4", "\u00be");
    replaceAll(words, "1/2", "\u00bd");
    replaceAll(words, " deg", "\u00b0");
    return words;
}

/// What stands behind " with " without where it sits on the line.
std::string rollsOf(const std::string& words) {
    const std::size_t with = words.find(" with ");
    if (with == std::string::npos) return "";
    std::string rolls = words.substr(with + 6);
    for (const std::string_view place :
         {" at start", " at end", " starting at", " at height", " after "})
        rolls = rolls.substr(0, rolls.find(place));
    return rolls;
}

std::string without(std::string words, std::string_view what) {
    return words.substr(0, words.find(what));
}

const char* wayWords(const text::Direction& way) {
    switch (way.kind) {
        case text::Direction::Kind::Up:
            return " up";
        case text::Direction::Kind::Down:
            return " down";
        case text::Direction::Kind::Angle:
            return way.climb_rad > 0 ? " climbing" : " descending";
        case text::Direction::Kind::Level:
            break;
    }
    return "";
}

}  // namespace

std::string noteOf(const routine::RoutineFigure& figure) {
    std::vector<std::string> notes;
    std::string arc;
    text::Direction way;
    for (const text::Element& element : figure.elements) {
        const std::string& words = element.words;
        if (const auto* line = std::get_if<text::Line>(&element.body)) {
            if (line->direction) way = *line->direction;
            const std::string rolls = rollsOf(words);
            if (!rolls.empty()) notes.push_back(rolls + wayWords(way));
        } else if (const auto* curve = std::get_if<text::Arc>(&element.body)) {
            if (curve->to) way = *curve->to;
            const std::string rolls = rollsOf(words);
            if (!rolls.empty()) notes.push_back(rolls + " on the arc");
            if (arc.empty()) arc = words;
        } else if (std::holds_alternative<text::Pivot>(element.body) ||
                   std::holds_alternative<text::Slide>(element.body) ||
                   std::holds_alternative<text::TorqueRoll>(element.body)) {
            notes.push_back(without(words, " power"));
        } else if (std::holds_alternative<text::Fall>(element.body) ||
                   std::holds_alternative<text::Spin>(element.body) ||
                   std::holds_alternative<text::Tumble>(element.body) ||
                   std::holds_alternative<text::Turn>(element.body) ||
                   std::holds_alternative<text::RollingTurn>(element.body) ||
                   std::holds_alternative<text::Climb>(element.body) ||
                   std::holds_alternative<text::Wait>(element.body)) {
            notes.push_back(words);
        } else if (std::holds_alternative<text::Polygon>(element.body)) {
            notes.push_back(without(without(words, " at "), " radius"));
        } else if (std::holds_alternative<text::Reposition>(element.body)) {
            const std::size_t at = words.find("height ");
            if (at != std::string::npos)
                notes.push_back("to " + without(words.substr(at), " heading"));
        } else if (const auto* ribbon = std::get_if<text::Ribbon>(&element.body)) {
            notes.push_back("ribbon " + ribbon->name);
        }
    }
    if (notes.empty() && !arc.empty()) notes.push_back(arc);
    std::string all;
    for (const std::string& note : notes) all += (all.empty() ? "" : "; ") + printed(note);
    return all;
}

}  // namespace plumbline::brief
