#include "viewer/model/session.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include "engine/base/number_text.h"
#include "viewer/model/prompter_state.h"
#include "viewer/model/walk_state.h"

namespace plumbline::model {
namespace {

constexpr std::array<const char*, 2> kThemes{"dark", "light"};
constexpr std::array<const char*, 3> kUnits{"metric", "aviation", "feet"};
constexpr std::array<const char*, 4> kQuantities{"load", "speed", "height", "apart"};
constexpr std::array<const char*, 3> kLaneWishes{"auto", "shown", "hidden"};
constexpr std::array<const char*, 3> kPlaces{"inset", "beside", "none"};

constexpr std::string_view kLanePrefix = "lane_";

template <std::size_t N>
std::optional<int> indexOf(const std::array<const char*, N>& words, std::string_view word) {
    for (std::size_t i = 0; i < N; ++i) {
        if (word == words[i]) return static_cast<int>(i);
    }
    return std::nullopt;
}

std::string_view withoutBlanks(std::string_view text) {
    while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
    while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) {
        text.remove_suffix(1);
    }
    return text;
}

/// Numbers by name, with the range in which they are sane.
struct NumberEntry {
    const char* name;
    double* value;
    double least;
    double greatest;
};

/// Applies `entry(name, pointer, least, greatest)` to every number that is kept.
template <class Visit>
void visitNumbers(Session& session, Visit&& visit) {
    scene::ViewSettings& view = session.view;
    visit(NumberEntry{"ui_scale", &session.ui_scale, kLeastScale, kGreatestScale});
    visit(NumberEntry{"sheet_width", &session.sheet_width, 0, 480});
    visit(NumberEntry{"timeline_height", &session.timeline_height, 0, kHighestTimeline});
    visit(NumberEntry{"prompter_size", &session.prompt_size, kSmallestPrompt, kLargestPrompt});
    visit(NumberEntry{"words_per_min", &session.words_per_min, kSlowestPace, kFastestPace});
    visit(NumberEntry{"walk_lead_s", &session.walk_lead_s, kShortestLead_s, kLongestLead_s});
    visit(NumberEntry{"seat_x_m", &view.seat_x_m, -5000, 5000});
    visit(NumberEntry{"rows_back_m", &view.rows_back_m, 0, 1000});
    visit(NumberEntry{"eye_height_m", &view.eye_height_m, 0.5, 50});
    visit(NumberEntry{"lens_mm", &view.lens_mm, 24, 400});
    visit(NumberEntry{"chase_distance_m", &view.chase_distance_m, 8, 500});
    visit(NumberEntry{"chase_azimuth_rad", &view.chase_azimuth_rad, -4, 4});
    visit(NumberEntry{"chase_elevation_rad", &view.chase_elevation_rad, -1.5, 1.5});
    visit(NumberEntry{"orbit_distance_m", &view.orbit_distance_m, 20, 20000});
    visit(NumberEntry{"orbit_azimuth_rad", &view.orbit_azimuth_rad, -10, 10});
    visit(NumberEntry{"orbit_elevation_rad", &view.orbit_elevation_rad, -1.5, 1.55});
}

void readWord(Session& session, std::string_view name, std::string_view word) {
    if (name == "theme") {
        if (const auto i = indexOf(kThemes, word)) session.theme = static_cast<ThemeChoice>(*i);
    } else if (name == "units") {
        if (const auto i = indexOf(kUnits, word)) session.units = static_cast<UnitChoice>(*i);
    } else if (name == "colour_by") {
        if (const auto i = indexOf(kQuantities, word)) {
            session.marks.band_quantity = static_cast<scene::Quantity>(*i);
        }
    } else if (name == "grey_maps") {
        session.marks.grey = word == "true";
    } else if (name == "second_view") {
        if (const auto i = indexOf(kPlaces, word)) {
            session.second_place = static_cast<SecondPlace>(*i);
        }
    } else if (name == "second_from") {
        session.second_chosen = scene::viewFromWord(std::string(word), session.second.view);
    } else if (name == "sighting_frames") {
        session.marks.sighting = word == "true";
    } else if (name == "gates") {
        session.marks.gates = word == "true";
    } else if (name == "ground_in_reach") {
        session.marks.reach = word == "true";
    } else if (name.substr(0, kLanePrefix.size()) == kLanePrefix) {
        for (int i = 0; i < kLaneCount; ++i) {
            if (name.substr(kLanePrefix.size()) != laneWord(static_cast<Lane>(i))) continue;
            if (const auto wish = indexOf(kLaneWishes, word))
                session.lane_wishes[static_cast<std::size_t>(i)] = static_cast<LaneWish>(*wish);
        }
    } else if (name == "paper") {
        session.letter_paper = word == "letter";
    } else if (name == "font") {
        if (!word.empty() && session.fonts.size() < kMostFonts) session.fonts.emplace_back(word);
    } else if (name == "recent") {
        if (!word.empty() && session.recent.size() < kMostRecent) session.recent.emplace_back(word);
    } else if (name == "sheet_folded") {
        session.sheet_folded = word == "true";
    } else if (name == "mending_folded") {
        session.mending_folded = word == "true";
    } else if (name == "remarks_by") {
        session.coach = word == "coach";
    } else if (name == "plan_by_time") {
        session.by_time = word == "true";
    } else if (name == "timeline_folded") {
        session.timeline_folded = word == "true";
    } else if (name == "window_width" || name == "window_height") {
        const auto number = parseDouble(word);
        if (!number || *number < 320 || *number > 16384) return;
        int& size = name == "window_width" ? session.window_width : session.window_height;
        size = static_cast<int>(*number);
    } else {
        visitNumbers(session, [&](const NumberEntry& entry) {
            if (name != entry.name) return;
            const auto number = parseDouble(word);
            if (number && *number >= entry.least && *number <= entry.greatest) {
                *entry.value = *number;
            }
        });
    }
}

}  // namespace

scene::ViewSettings secondViewOf(const Session& session) {
    if (session.second_chosen) return session.second;
    // A picture-filling flight is small from the crowd: the long lens shows how the aircraft
    // stands.
    constexpr double kLong_mm = 540, kShort_mm = 85;
    constexpr double kWholeFigure_mm = 50;
    scene::ViewSettings second = session.view;
    second.follow = true;
    if (session.reviewing && session.view.view != scene::View::Judge) {
        second.view = scene::View::Judge;
        second.lens_mm = kWholeFigure_mm;
        return second;
    }
    const bool on_ground = second.view == scene::View::Crowd || second.view == scene::View::Judge;
    if (!on_ground) second.view = scene::View::Crowd;
    second.lens_mm = on_ground ? kLong_mm : kShort_mm;
    return second;
}

void remember(Session& session, const std::filesystem::path& file) {
    std::error_code failed;
    const std::string name = std::filesystem::absolute(file, failed).string();
    if (failed) return;
    auto& recent = session.recent;
    recent.erase(std::remove(recent.begin(), recent.end(), name), recent.end());
    recent.insert(recent.begin(), name);
    if (recent.size() > kMostRecent) recent.resize(kMostRecent);
}

std::string sessionText(const Session& session) {
    std::string out = "# Written by plumbline on exit; delete it to start afresh.\n";
    const auto line = [&out](const char* name, const std::string& value) {
        out += name;
        out += " = " + value + "\n";
    };
    const auto word = [](const char* text) { return '"' + std::string(text) + '"'; };
    line("theme", word(kThemes[static_cast<std::size_t>(session.theme)]));
    line("units", word(kUnits[static_cast<std::size_t>(session.units)]));
    line("colour_by", word(kQuantities[static_cast<std::size_t>(session.marks.band_quantity)]));
    line("grey_maps", session.marks.grey ? "true" : "false");
    line("second_view", word(kPlaces[static_cast<std::size_t>(session.second_place)]));
    if (session.second_chosen) line("second_from", word(scene::viewWord(session.second.view)));
    line("sighting_frames", session.marks.sighting ? "true" : "false");
    line("gates", session.marks.gates ? "true" : "false");
    line("ground_in_reach", session.marks.reach ? "true" : "false");
    line("window_width", formatDouble(session.window_width));
    line("window_height", formatDouble(session.window_height));
    line("sheet_folded", session.sheet_folded ? "true" : "false");
    line("timeline_folded", session.timeline_folded ? "true" : "false");
    line("mending_folded", session.mending_folded ? "true" : "false");
    line("remarks_by", word(session.coach ? "coach" : "pilot"));
    line("plan_by_time", session.by_time ? "true" : "false");
    for (int i = 0; i < kLaneCount; ++i) {
        const LaneWish wish = session.lane_wishes[static_cast<std::size_t>(i)];
        if (wish == LaneWish::Auto) continue;
        const std::string name = std::string(kLanePrefix) + laneWord(static_cast<Lane>(i));
        line(name.c_str(), word(kLaneWishes[static_cast<std::size_t>(wish)]));
    }
    line("paper", word(session.letter_paper ? "letter" : "a4"));
    for (const std::string& file : session.fonts) {
        if (file.find_first_of("\"\n\\") == std::string::npos) line("font", '"' + file + '"');
    }
    for (const std::string& file : session.recent) {
        if (file.find_first_of("\"\n\\") == std::string::npos) line("recent", '"' + file + '"');
    }
    Session copy = session;
    visitNumbers(copy,
                 [&](const NumberEntry& entry) { line(entry.name, formatDouble(*entry.value)); });
    return out;
}

Session sessionFromText(std::string_view text) {
    Session session;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size());
        const std::string_view line = text.substr(0, end);
        text.remove_prefix(std::min(end + 1, text.size()));
        const std::size_t equals = line.find('=');
        if (equals == std::string_view::npos) continue;
        std::string_view value = withoutBlanks(line.substr(equals + 1));
        if (value.size() >= 2 && value.front() == '"' && value.back() == '"') {
            value = value.substr(1, value.size() - 2);
        }
        readWord(session, withoutBlanks(line.substr(0, equals)), value);
    }
    return session;
}

}  // namespace plumbline::model
