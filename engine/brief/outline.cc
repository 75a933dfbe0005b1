#include "engine/brief/outline.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdint>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/earth/atmosphere.h"
#include "engine/earth/magnetic.h"
#include "engine/earth/utc_time.h"
#include "engine/units/units.h"

namespace plumbline::brief {
namespace {

/// As it blows where the crowd stands: the lowest layer.
std::string windOf(const data::Weather& weather, const data::Site& site,
                   units::DisplayUnits units) {
    if (weather.wind.empty() || weather.wind.front().speed_mps < 0.5) return "calm";
    const data::WindLayer& layer = weather.wind.front();
    // Where it comes from against the show line: 0 is from crowd right, 90 deg from the crowd.
    const double from_rad = std::remainder(layer.from_rad - site.show_line_bearing_rad, 2 * kPi);
    const double deg = from_rad / units::kDegree_rad;
    const char* side = std::abs(deg) <= 45    ? "the right"
                       : std::abs(deg) >= 135 ? "the left"
                       : deg > 0              ? "behind the crowd"
                                              : "ahead of the crowd";
    return units::formatSpeed(layer.speed_mps, units) + " from " + side + " (" +
           units::formatHeading(layer.from_rad) + "\u00b0 true)";
}

std::string airOf(const data::Weather& weather, const data::Site& site, units::DisplayUnits units) {
    const earth::SiteAir air(site.show_centre.elevation_m, weather.temperature_k, weather.qnh_pa);
    // chosen: no finer than temperature and pressure are known
    const double finest_m = units == units::DisplayUnits::Feet ? 50 * 0.3048 : 10;
    const double density_m =
        finest_m * std::round(earth::densityAltitude_m(air.at(0).density_kgpm3) / finest_m);
    return formatFixed(weather.temperature_k - 273.15, 0) + " \u00b0C, QNH " +
           formatFixed(weather.qnh_pa / 100, 0) + " hPa, density height " +
           units::formatHeight(density_m, units);
}

void findMagnetic(Outline& outline, const data::Site& site) {
    const earth::MagneticModel& model = earth::worldMagneticModel();
    const auto utc_s = earth::parseUtc(site.show_time_utc);
    if (!utc_s) {
        outline.magnetic =
            "Headings are true: no day is given (show_time in the site file) to "
            "reckon magnetic north for.";
        return;
    }
    const double year = earth::decimalYear(*utc_s);
    const std::string years = model.name() + ", good from " + formatFixed(model.firstYear(), 0) +
                              " to " + formatFixed(model.lastYear(), 0);
    if (!model.covers(year)) {
        outline.magnetic =
            "Headings are true: the day is outside the magnetic model (" + years + ").";
        return;
    }
    const earth::MagneticField field = model.at(site.show_centre, year);
    if (field.compassUseless()) {
        outline.magnetic = "Headings are true: the magnetic field is too steep here for a compass.";
        return;
    }
    outline.declination_rad = field.declination_rad();
    const double deg = field.declination_rad() / units::kDegree_rad;
    outline.magnetic = "Magnetic north " + formatFixed(std::abs(deg), 1) + "\u00b0 " +
                       (deg < 0 ? "west" : "east") + " of true (\u00b1" +
                       formatFixed(field.declinationSigma_rad() / units::kDegree_rad, 1) +
                       "\u00b0, " + years + ").";
}

Act actOf(const path::Path& path, std::size_t index) {
    const path::Figure& figure = path.figures[index];
    Act act;
    act.number = static_cast<int>(index) + 1;
    act.name = figure.name;
    act.start_s = figure.start_s;
    act.stop_s = figure.stop_s;
    const path::Sample first = path::sampleAt(path, figure.start_s);
    act.heading_rad = headingOf(first.velocity_S_mps, path.show_line_bearing_rad);
    const Vec3& v = first.velocity_S_mps;
    act.to_right = v.x > std::abs(v.y);
    act.to_left = -v.x > std::abs(v.y);
    act.away = v.y > 0;
    act.entry_mps = first.airspeed_mps;
    act.entry_m = act.lowest_m = act.top_m = first.position_S_m.z;
    act.fastest_mps = act.slowest_mps = first.airspeed_mps;
    act.most_g = act.least_g = loadFactors(first.specific_force_B_mps2).normal_g;
    for (std::size_t i = path::sampleIndexAt(path, figure.start_s); i < path.samples.size(); ++i) {
        const path::Sample& s = path.samples[i];
        if (s.time_s < figure.start_s) continue;
        if (s.time_s > figure.stop_s) break;
        act.lowest_m = std::min(act.lowest_m, s.position_S_m.z);
        act.top_m = std::max(act.top_m, s.position_S_m.z);
        act.fastest_mps = std::max(act.fastest_mps, s.airspeed_mps);
        act.slowest_mps = std::min(act.slowest_mps, s.airspeed_mps);
        const double g = loadFactors(s.specific_force_B_mps2).normal_g;
        act.most_g = std::max(act.most_g, g);
        act.least_g = std::min(act.least_g, g);
    }
    return act;
}

/// What nobody may be briefed without.
std::string warningOf(const variant::Flown& flown, const path::Path& path,
                      const std::vector<check::Gate>& gates) {
    const load::Workspace& w = flown.workspace;
    std::vector<check::Finding> findings = check::checkRoutine(
        w.aircraft, w.site, w.weather, w.routine, path, flown.solution.notes(), w.pilot, w.rules);
    check::addFindings(findings, check::checkGates(gates, path));
    const auto count = std::count_if(findings.begin(), findings.end(), [](const auto& finding) {
        return finding.grade == check::Grade::Unsafe || finding.grade == check::Grade::Cannot;
    });
    const std::size_t all = w.routine.figures.size();
    const std::size_t left_out = all - std::min(all, path.figures.size());
    std::string words;
    if (left_out > 0)
        words = "The flight ends early: " + std::to_string(left_out) +
                (left_out == 1 ? " figure is not flown. " : " figures are not flown. ");
    if (count > 0)
        words += std::to_string(count) + (count == 1 ? " finding is" : " findings are") +
                 " unsafe or worse: see plumbline check.";
    return words;
}

/// Marks what is flown along near the lowest height of all for most of its time.
void markLow(std::vector<Act>& acts, const path::Path& path) {
    constexpr double kAbove_m = 15, kShare = 0.6;  // chosen: a pass, not the foot of a loop
    double lowest_m = 1e9;
    for (const Act& act : acts) lowest_m = std::min(lowest_m, act.lowest_m);
    for (Act& act : acts) {
        std::size_t low = 0, all = 0;
        for (std::size_t i = path::sampleIndexAt(path, act.start_s);
             i < path.samples.size() && path.samples[i].time_s <= act.stop_s; ++i) {
            ++all;
            if (path.samples[i].position_S_m.z < lowest_m + kAbove_m) ++low;
        }
        act.low = static_cast<double>(low) > kShare * static_cast<double>(all);
    }
}

}  // namespace

std::string dayWords(const std::string& utc) {
    const auto utc_s = earth::parseUtc(utc);
    if (!utc_s) return "";
    using namespace std::chrono;
    constexpr const char* kMonths[] = {"January",   "February", "March",    "April",
                                       "May",       "June",     "July",     "August",
                                       "September", "October",  "November", "December"};
    const auto minutes = static_cast<std::int64_t>(std::floor(*utc_s / 60));
    const std::int64_t day_count = (minutes - (minutes % 1440 + 1440) % 1440) / 1440;
    const std::int64_t of_day = minutes - day_count * 1440;
    const year_month_day day{sys_days(days(day_count))};
    const auto two = [](std::int64_t n) { return (n < 10 ? "0" : "") + std::to_string(n); };
    return std::to_string(static_cast<unsigned>(day.day())) + " " +
           kMonths[static_cast<unsigned>(day.month()) - 1] + " " +
           std::to_string(static_cast<int>(day.year())) + ", " + two(of_day / 60) + ":" +
           two(of_day % 60) + " UTC";
}

Outline outlineOf(const variant::Flown& flown, units::DisplayUnits units) {
    constexpr double kRate_hz = 50;  // chosen: as the checks look at it
    const load::Workspace& w = flown.workspace;
    Outline outline;
    outline.title = w.routine.name;
    outline.variant = flown.label;
    outline.site = w.site.name;
    outline.day = dayWords(w.site.show_time_utc);
    if (outline.day.empty()) outline.day = "day not given";
    outline.wind = windOf(w.weather, w.site, units);
    outline.air = airOf(w.weather, w.site, units);
    outline.revision = "rev " + w.revision();
    outline.span_m = w.aircraft.geometry.span_m;
    findMagnetic(outline, w.site);
    outline.path = flown.solution.samplePath(kRate_hz);
    for (std::size_t i = 0; i < outline.path.figures.size(); ++i) {
        outline.acts.push_back(actOf(outline.path, i));
        if (i < w.routine.figures.size()) outline.acts.back().note = noteOf(w.routine.figures[i]);
    }
    markLow(outline.acts, outline.path);
    const std::vector<check::Gate> gates =
        check::gatesOf(w.aircraft, w.site, w.pilot, flown.solution, outline.path);
    outline.warning = warningOf(flown, outline.path, gates);
    for (const check::Gate& gate : gates)
        for (Act& act : outline.acts) {
            if (act.name != gate.figure) continue;
            if (!act.gate || act.gate->complete_m < gate.complete_m) act.gate = gate;
        }
    outline.fuel_in_l = w.routine.start.fuel_l;
    if (!outline.path.samples.empty())
        outline.fuel_left_l =
            1000 * outline.path.samples.back().fuel_kg / w.aircraft.mass.fuel_density_kgpm3;
    return outline;
}

std::string bearingWords(const Outline& outline, double true_rad, bool magnetic) {
    if (magnetic && outline.declination_rad) true_rad -= *outline.declination_rad;
    return units::formatHeading(true_rad) + "\u00b0";
}

}  // namespace plumbline::brief
