#include "engine/walk/calls.h"

#include <algorithm>
#include <cmath>
#include <sstream>

#include "engine/units/least_height.h"

namespace plumbline::walk {
namespace {

constexpr double kRolling_radps = 0.35;  // chosen: slower is holding on
constexpr double kPause_s = 0.12;        // chosen: between two calls
constexpr double kEarlier_s = 1.2;       // chosen: a call earlier than this is about something else
constexpr double kLater_s = 0.5;         // chosen
constexpr double kLongLine_s = 2.5;      // chosen: a shorter line needs no call

double spokenFor_s(const std::string& words, double words_a_minute) {
    std::istringstream in(words);
    std::size_t count = 0;
    for (std::string word; in >> word;) ++count;
    return static_cast<double>(count) * 60 / words_a_minute;
}

std::string heightWords(double height_m, units::DisplayUnits units) {
    std::string out = units::formatHeight(height_m, units);
    const std::size_t blank = out.find(' ');
    if (blank == std::string::npos) return out;
    return out.substr(0, blank) + (units == units::DisplayUnits::Feet ? " feet" : " metres");
}

/// Never lower than it is.
std::string leastWords(double height_m, units::DisplayUnits units) {
    if (units != units::DisplayUnits::Feet) return heightWords(height_m, units);
    return heightWords(units::leastHeight_ft(height_m) * units::kFoot_m, units);
}

class Collector {
public:
    Collector(const path::Path& path, const CallWishes& wishes) : path_(path), wishes_(wishes) {}

    void add(Call::Kind kind, double begins_s, std::string words, double extra_lead_s = 0) {
        if (words.empty()) return;
        Call call;
        call.kind = kind;
        call.begins_s = begins_s;
        call.lasts_s = spokenFor_s(words, wishes_.words_a_minute);
        call.time_s = begins_s - wishes_.lead_s - extra_lead_s;
        if (kind == Call::Kind::Figure) call.time_s -= call.lasts_s + kPause_s;
        call.words = std::move(words);
        calls_.push_back(std::move(call));
    }

    /// When the rolls of an element begin; its own beginning where none is seen.
    double rollBegins_s(const path::Element& element) const {
        for (std::size_t i = path::sampleIndexAt(path_, element.start_s);
             i < path_.samples.size() && path_.samples[i].time_s <= element.stop_s; ++i) {
            const path::Sample& s = path_.samples[i];
            if (s.time_s >= element.start_s && std::fabs(s.rate_B_radps.x) > kRolling_radps) {
                return s.time_s;
            }
        }
        return element.start_s;
    }

    /// The lowest moment of a figure.
    const path::Sample* lowest(const path::Figure& figure) const {
        const path::Sample* out = nullptr;
        for (std::size_t i = path::sampleIndexAt(path_, figure.start_s);
             i < path_.samples.size() && path_.samples[i].time_s <= figure.stop_s; ++i) {
            const path::Sample& s = path_.samples[i];
            if (out == nullptr || s.position_S_m.z < out->position_S_m.z) out = &s;
        }
        return out;
    }

    /// The important ones first; the others where they find room.
    Calls placed() {
        std::stable_sort(calls_.begin(), calls_.end(), [](const Call& a, const Call& b) {
            return a.kind != b.kind ? a.kind < b.kind : a.time_s < b.time_s;
        });
        Calls out;
        for (Call& call : calls_) {
            if (!place(out.calls, call)) ++out.left_out;
        }
        return out;
    }

private:
    /// Puts it where it is wanted, or a little earlier or later, between those that are there.
    static bool place(std::vector<Call>& taken, Call& call) {
        const double wanted_s = call.time_s;
        // Each step looks from the neighbour that is in the way.
        for (const double way : {-1.0, 1.0}) {
            double at_s = wanted_s;
            while (at_s >= wanted_s - kEarlier_s && at_s <= wanted_s + kLater_s) {
                const auto meets = std::find_if(taken.begin(), taken.end(), [&](const Call& other) {
                    return at_s < other.time_s + other.lasts_s + kPause_s - 1e-9 &&
                           other.time_s < at_s + call.lasts_s + kPause_s - 1e-9;
                });
                if (meets == taken.end()) {
                    call.time_s = at_s;
                    const auto behind = std::upper_bound(
                        taken.begin(), taken.end(), at_s,
                        [](double t, const Call& other) { return t < other.time_s; });
                    taken.insert(behind, std::move(call));
                    return true;
                }
                at_s = way < 0 ? meets->time_s - call.lasts_s - kPause_s
                               : meets->time_s + meets->lasts_s + kPause_s;
            }
        }
        return false;
    }

    const path::Path& path_;
    const CallWishes& wishes_;
    std::vector<Call> calls_;
};

}  // namespace

Calls callsOf(const routine::Routine& routine, const path::Path& path,
              const std::vector<check::Gate>& gates, const CallWishes& wishes) {
    Collector collector(path, wishes);
    std::size_t next = 0;  // element of the path: each that is flown has one, in the text's order
    for (std::size_t f = 0; f < path.figures.size() && f < routine.figures.size(); ++f) {
        const path::Figure& figure = path.figures[f];
        collector.add(Call::Kind::Figure, figure.start_s, figure.name);
        double now_s = figure.start_s;
        for (const text::Element& element : routine.figures[f].elements) {
            if (text::isMark(element.body)) {
                collector.add(Call::Kind::Switch, now_s, wordsOf(element.body));
                continue;
            }
            if (next >= path.elements.size() ||
                path.elements[next].figure != static_cast<std::int32_t>(f)) {
                break;  // the flight ended before it
            }
            const path::Element& flown = path.elements[next++];
            now_s = flown.stop_s;
            const auto* line = std::get_if<text::Line>(&element.body);
            if (line == nullptr) {
                collector.add(Call::Kind::Element, flown.start_s, wordsOf(element.body));
                continue;
            }
            if (flown.stop_s - flown.start_s > kLongLine_s) {
                collector.add(Call::Kind::Line, flown.start_s, wordsOf(element.body));
            }
            if (!line->rolls.parts.empty()) {
                collector.add(Call::Kind::Roll, collector.rollBegins_s(flown),
                              rollWords(line->rolls));
            }
        }
        if (const path::Sample* low = collector.lowest(figure)) {
            collector.add(Call::Kind::Height, low->time_s,
                          heightWords(low->position_S_m.z, wishes.units));
        }
    }
    for (const check::Gate& gate : gates) {
        collector.add(Call::Kind::Gate, gate.time_s,
                      "gate " + leastWords(check::shownLeast_m(gate.complete_m), wishes.units));
    }
    return collector.placed();
}

}  // namespace plumbline::walk
