#include "engine/brief/narration.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/brief/brief.h"
#include "engine/earth/atmosphere.h"
#include "engine/margins/margins.h"
#include "engine/units/units.h"

namespace plumbline::brief {
namespace {

/// A routine of which every figure with narration has a cue, and whose cue each one is.
variant::Flown withCues(const variant::Flown& flown, std::vector<std::size_t>& acts,
                        std::vector<bool>& first) {
    variant::Flown cued = flown;
    std::vector<routine::RoutineFigure>& figures = cued.workspace.routine.figures;
    for (std::size_t i = 0; i < figures.size(); ++i) {
        std::vector<text::Element>& elements = figures[i].elements;
        const auto isCue = [](const text::Element& element) {
            return std::holds_alternative<text::CueMark>(element.body);
        };
        if (!figures[i].narration.empty() &&
            std::none_of(elements.begin(), elements.end(), isCue)) {
            text::Element mark;
            mark.body = text::CueMark{};
            elements.insert(elements.begin(), mark);
        }
        bool is_first = true;
        for (const text::Element& element : elements) {
            if (!isCue(element)) continue;
            acts.push_back(i);
            first.push_back(is_first);
            is_first = false;
        }
    }
    const load::Workspace& w = cued.workspace;
    cued.solution =
        fly::solve(w.aircraft, w.site, w.weather, w.routine, {.raise_m = cued.raised_m});
    return cued;
}

/// Heights and speeds as one says them.
double saidStep(double value, double step) { return step * std::round(value / step); }

/// Kept on one line: a number and its unit.
std::string bound(const std::string& words) {
    std::string out;
    for (const char c : words) out += c == ' ' ? std::string("\u00a0") : std::string(1, c);
    return out;
}

std::string sayHeight(double height_m, units::DisplayUnits units) {
    const bool feet = units == units::DisplayUnits::Feet;
    constexpr double kFoot_m = 0.3048;
    const double step_m = (feet ? 50 * kFoot_m : 10);  // chosen: said, not read from an instrument
    return bound(units::formatHeight(saidStep(height_m, step_m), units));
}

std::string saySpeed(double speed_mps, units::DisplayUnits units) {
    const bool metric = units == units::DisplayUnits::Metric;
    const double step_mps = metric ? 10 / 3.6 : 5 * 1852.0 / 3600;
    return bound(units::formatSpeed(saidStep(speed_mps, step_mps), units));
}

std::string lookWords(const path::Path& path, double time_s, const variant::Flown& flown,
                      const Act& act, units::DisplayUnits units) {
    const data::Site& site = flown.workspace.site;
    const path::Sample s = path::sampleAt(path, time_s);
    const Vec3 eye(0.5 * (site.crowd_x_min_m + site.crowd_x_max_m), site.crowd_line_y_m, 0);
    const Vec3 to = s.position_S_m - eye;
    const double aside = std::atan2(to.x, to.y) / units::kDegree_rad;
    const double up = std::atan2(to.z, std::hypot(to.x, to.y)) / units::kDegree_rad;
    // chosen: a head straight ahead, turned half, turned right round
    const double turned = std::abs(aside);
    std::string look = turned < 15   ? "straight ahead"
                       : turned < 40 ? "half "
                       : turned < 70 ? ""
                                     : "far ";
    if (turned >= 15) look += aside < 0 ? "left" : "right";
    look += up > 35 ? ", high up" : up > 12 ? ", well above the horizon" : ", low";
    const double away_m = glm::length(to);
    const earth::SiteAir air(site.show_centre.elevation_m, flown.workspace.weather.temperature_k,
                             flown.workspace.weather.qnh_pa);
    const double late_s = away_m / air.at(0).speed_of_sound_mps;
    std::string words = "Look " + look + ", " +
                        bound(away_m < 950 ? units::formatDistance(saidStep(away_m, 50))
                                           : formatFixed(away_m / 1000, 1) + " km") +
                        " off";
    if (late_s >= 0.75) words += "; heard " + bound(formatFixed(late_s, 0) + " s") + " late";
    words += ". " + saySpeed(s.airspeed_mps, units) + " at " + sayHeight(s.position_S_m.z, units);
    if (act.top_m > s.position_S_m.z + 60)
        words +=
            ", then up to " + sayHeight(act.top_m, units) +
            (act.slowest_mps < 15 ? " and no speed" : " at " + saySpeed(act.slowest_mps, units));
    return words + ".";
}

/// Stretches within a time: smoke, and the engine heard idle.
std::vector<std::string> beatsOf(const path::Path& path, const Cue& cue, const Act& act) {
    constexpr double kIdle_frac = 0.1, kQuiet_s = 3;  // chosen: long enough to be noticed
    std::vector<std::string> beats;
    if (act.low && cue.first) beats.push_back("low");
    const double stop_s = std::min(cue.time_s + cue.until_next_s, act.stop_s);
    const auto on =
        std::any_of(path.smoke.begin(), path.smoke.end(), [&](const path::Smoke& smoke) {
            return smoke.start_s < stop_s - 1 && smoke.stop_s > cue.time_s + 1;
        });
    if (on) beats.push_back("smoke");
    double quiet_s = 0, longest_s = 0;
    for (std::size_t i = path::sampleIndexAt(path, cue.time_s);
         i + 1 < path.samples.size() && path.samples[i].time_s < stop_s; ++i) {
        const double step_s = path.samples[i + 1].time_s - path.samples[i].time_s;
        quiet_s = path.samples[i].power_frac < kIdle_frac ? quiet_s + step_s : 0;
        longest_s = std::max(longest_s, quiet_s);
    }
    if (longest_s >= kQuiet_s)
        beats.push_back("engine idle " + formatFixed(std::floor(longest_s), 0) + " s");
    for (const ScriptPart& part : cue.script.parts)
        if (!part.spoken) beats.push_back(part.words);
    return beats;
}

}  // namespace

CueTimes timeCues(const variant::Flown& flown, const Wishes& wishes) {
    CueTimes times;
    std::vector<std::size_t> acts;
    std::vector<bool> first;
    const variant::Flown cued = withCues(flown, acts, first);
    if (acts.empty()) return times;
    margins::Wishes fly;
    fly.flights = wishes.flights;
    fly.seed = wishes.seed;
    fly.executor = wishes.executor;
    fly.progress = wishes.progress;
    fly.give_up = wishes.give_up;
    const margins::Report report = margins::fly(cued, fly);
    times.flights = report.flights;
    const std::size_t count = std::min(acts.size(), report.cues.size());
    for (std::size_t i = 0; i < count; ++i) {
        const margins::CueWindow& window = report.cues[i];
        CueTimes::One one{acts[i],       first[i],      window.plan_s,
                          window.plan_s, window.plan_s, window.words};
        if (report.flights > 0) {
            one.early_s = std::min(window.early_s, window.plan_s);
            one.late_s = std::max(window.late_s, window.plan_s);
        }
        times.cues.push_back(std::move(one));
    }
    return times;
}

Narration narrate(const variant::Flown& flown, const Outline& outline, const CueTimes& times,
                  const Wishes& wishes) {
    Narration narration;
    narration.words_per_min = wishes.words_per_min;
    narration.flights = times.flights;
    const routine::Routine& routine = flown.workspace.routine;
    if (!routine.music_file.empty())
        narration.music =
            routine.music_file + (routine.music_start_s < 0 ? " has begun " : " begins ") +
            (routine.music_start_s < 0
                 ? units::formatTime(-routine.music_start_s) + " before the first call"
                 : "at " + units::formatTime(routine.music_start_s));
    const path::Path& path = outline.path;
    for (const CueTimes::One& time : times.cues) {
        if (time.act >= outline.acts.size() || time.act >= routine.figures.size()) break;
        Cue cue;
        cue.act = time.act;
        cue.first = time.first;
        cue.time_s = time.plan_s;
        cue.early_s = time.early_s;
        cue.late_s = time.late_s;
        cue.words = time.words;
        if (cue.first) cue.script = readScript(routine.figures[cue.act].narration);
        narration.cues.push_back(std::move(cue));
    }
    for (std::size_t i = 0; i < narration.cues.size(); ++i) {
        Cue& cue = narration.cues[i];
        const double next_s =
            i + 1 < narration.cues.size() ? narration.cues[i + 1].time_s : path.duration_s();
        cue.until_next_s = std::max(0.0, next_s - cue.time_s);
        cue.fit = wordsThatFit(cue.until_next_s, cue.script.pauses_s, wishes.words_per_min);
        cue.too_many = std::max(0, static_cast<int>(std::ceil(cue.script.words - 1e-9)) - cue.fit);
        const Act& act = outline.acts[cue.act];
        if (!cue.words.empty() && !cue.script.empty()) cue.look = cue.words + ". ";
        cue.look += lookWords(path, cue.time_s, flown, act, wishes.units);
        cue.beats = beatsOf(path, cue, act);
    }
    return narration;
}

}  // namespace plumbline::brief
