#include "engine/check/check.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/earth/atmosphere.h"
#include "engine/units/units.h"

namespace plumbline::check {
namespace {

// chosen: what a small slip of the hand or of the model can use up is called tight.
constexpr double kTightHeight_m = 3;
constexpr double kTightDistance_m = 10;
constexpr double kTightLoad_g = 0.3;
constexpr double kTightInverted_s = 5;
constexpr double kOilBack_s = 3;  // chosen: upright for so long, and a stretch is over
constexpr double kTightSpeed_mps = 5 * units::kKnot_mps;

std::string metres(double m) { return formatFixed(m, 0) + " m"; }
std::string knots(double mps) { return formatFixed(mps / units::kKnot_mps, 0) + " kt"; }
std::string loads(double g) {
    return (g < 0 ? "\u2212" : "+") + formatFixed(std::fabs(g), 1) + " g";
}
std::string litres(double l) { return formatFixed(l, 0) + " l"; }

// The sample of a figure at which a margin is least.
struct Worst {
    double margin = 1e300;
    std::size_t sample = 0;
    void offer(double m, std::size_t i) {
        if (m < margin) {
            margin = m;
            sample = i;
        }
    }
};

class Checker {
public:
    Checker(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
            const routine::Routine& routine, const path::Path& path)
        : aircraft_(aircraft),
          site_(site),
          routine_(routine),
          path_(path),
          air_(site.show_centre.elevation_m, weather.temperature_k, weather.qnh_pa) {}

    std::vector<Finding> findings;

    void figures() {
        std::size_t i = 0;
        const std::vector<path::Sample>& s = path_.samples;
        for (std::size_t f = 0; f < path_.figures.size(); ++f) {
            const std::size_t first = i;
            while (i < s.size() && figureOf(s[i]) <= static_cast<std::int32_t>(f)) ++i;
            if (i > first) figure(first, i);
        }
    }

    void whole() {
        if (path_.samples.empty()) return;
        const path::Sample& last = path_.samples.back();
        const double litre_kg = 1e-3 * aircraft_.mass.fuel_density_kgpm3;
        const double left_l = last.fuel_kg / litre_kg;
        if (left_l < routine_.reserve_l)
            add(left_l < 0 ? Grade::Cannot : Grade::Unsafe, "fuel", path_.samples.size() - 1,
                left_l < 0 ? "the fuel runs out before the end"
                           : "less fuel at the end than the reserve",
                litres(std::max(left_l, 0.0)), litres(routine_.reserve_l), "routine file",
                "start with more fuel, or fly fewer figures");
        else
            add(Grade::Note, "fuel", path_.samples.size() - 1, "fuel at the end", litres(left_l),
                litres(routine_.reserve_l), "routine file", "");
        if (routine_.slot_s > 0 && path_.duration_s() > routine_.slot_s)
            add(Grade::Unsafe, "slot", path_.samples.size() - 1,
                "the routine is longer than its slot", clock(path_.duration_s()),
                clock(routine_.slot_s), "routine file", "leave a figure out");
    }

    // Oil and fuel at negative load: the time of a stretch counts until they had time to come back.
    void inverted() {
        const std::vector<path::Sample>& s = path_.samples;
        double stretch_s = 0, upright_s = 0, most_s = 0;
        std::size_t at = 0;
        for (std::size_t i = 1; i < s.size(); ++i) {
            const double dt = s[i].time_s - s[i - 1].time_s;
            if (loadFactors(s[i].specific_force_B_mps2).normal_g >= 0) {
                upright_s += dt;
                if (upright_s >= kOilBack_s) stretch_s = 0;
                continue;
            }
            upright_s = 0;
            stretch_s += dt;
            if (stretch_s <= most_s) continue;
            most_s = stretch_s;
            at = i;
        }
        const double limit_s = aircraft_.limits.inverted_s;
        if (!(limit_s > 0) || !(most_s > 0)) return;
        const bool over = most_s > limit_s, tight = most_s > limit_s - kTightInverted_s;
        add(over    ? Grade::Unsafe
            : tight ? Grade::Tight
                    : Grade::Note,
            "inverted", at, "longest stretch at negative load", clock(most_s), clock(limit_s),
            "aircraft file", over || tight ? "fly upright in between, for oil and fuel" : "");
    }

    void solverNotes(const std::vector<fly::SolveNote>& notes) {
        for (const fly::SolveNote& n : notes) {
            Finding f;
            f.kind = "not flyable";
            switch (n.kind) {
                case fly::SolveNote::Kind::NotFlyable:
                case fly::SolveNote::Kind::NeverMet:
                    f.grade = Grade::Cannot;
                    break;
                case fly::SolveNote::Kind::Unexpected:
                    f.grade = Grade::Cannot;
                    f.kind = "not as expected";
                    break;
                case fly::SolveNote::Kind::Ground:
                    f.grade = Grade::Cannot;
                    f.kind = "ground";
                    break;
                case fly::SolveNote::Kind::LoadShort:
                    f.grade = n.short_g > fly::kLoadShortFinding_g ? Grade::Cannot : Grade::Note;
                    f.kind = "load";
                    break;
                case fly::SolveNote::Kind::Information:
                    f.grade = Grade::Note;
                    f.kind = n.subject;
                    break;
            }
            f.time_s = n.time_s;
            f.what = n.what;
            f.value = n.value;
            f.limit = n.limit;
            f.source = "flight model, line " + std::to_string(n.source_line);
            f.remedy = n.remedy;
            if (n.element >= 0 && n.element < static_cast<std::int32_t>(path_.elements.size())) {
                const path::Element& e = path_.elements[static_cast<std::size_t>(n.element)];
                f.element = e.label;
                if (e.figure >= 0 && e.figure < static_cast<std::int32_t>(path_.figures.size()))
                    f.figure = path_.figures[static_cast<std::size_t>(e.figure)].name;
            }
            findings.push_back(std::move(f));
        }
    }

private:
    std::int32_t figureOf(const path::Sample& s) const {
        return s.element < 0 ? 0 : path_.elements[static_cast<std::size_t>(s.element)].figure;
    }

    void add(Grade grade, const char* kind, std::size_t sample, std::string what, std::string value,
             std::string limit, std::string source, std::string remedy) {
        Finding f;
        f.grade = grade;
        f.kind = kind;
        const path::Sample& s = path_.samples[sample];
        f.time_s = s.time_s;
        if (s.element >= 0) {
            const path::Element& e = path_.elements[static_cast<std::size_t>(s.element)];
            f.element = e.label;
            if (e.figure >= 0) f.figure = path_.figures[static_cast<std::size_t>(e.figure)].name;
        }
        f.what = std::move(what);
        f.value = std::move(value);
        f.limit = std::move(limit);
        f.source = std::move(source);
        f.remedy = std::move(remedy);
        findings.push_back(std::move(f));
    }

    static std::string clock(double seconds) {
        const auto whole = static_cast<std::int64_t>(std::llround(seconds));
        const std::int64_t rest = whole % 60;
        return std::to_string(whole / 60) + (rest < 10 ? ":0" : ":") + std::to_string(rest);
    }

    // A margin that is negative is unsafe, one smaller than `tight` is tight.
    bool grade(const Worst& w, double tight, Grade& out) const {
        if (w.margin >= tight) return false;
        out = w.margin < -1e-6 ? Grade::Unsafe : Grade::Tight;
        return true;
    }

    void figure(std::size_t first, std::size_t last) {
        Worst floor, line, box, most, least, fast, back;
        const data::AircraftLimits& limits = aircraft_.limits;
        for (std::size_t i = first; i < last; ++i) {
            const path::Sample& s = path_.samples[i];
            const Vec3& p = s.position_S_m;
            floor.offer(p.z - site_.floor_m, i);
            line.offer(p.y - site_.crowd_line_y_m - site_.show_line_offset_m, i);
            if (site_.box)
                box.offer(std::min({p.x - site_.box->x_min_m, site_.box->x_max_m - p.x,
                                    p.y - site_.box->y_min_m, site_.box->y_max_m - p.y,
                                    site_.box->top_m - p.z}),
                          i);
            const double load = loadFactors(s.specific_force_B_mps2).normal_g;
            most.offer(limits.load_max_g - load, i);
            least.offer(load - limits.load_min_g, i);
            // Calibrated from true airspeed by density alone: compressibility is under 1 kt at
            // these speeds.
            const double cas = s.airspeed_mps * std::sqrt(air_.at(p.z).density_kgpm3 /
                                                          earth::kSeaLevelDensity_kgpm3);
            const bool tail_first = std::fabs(s.aoa_rad) > kPi / 2;
            if (tail_first)
                back.offer(limits.tail_first_mps - s.airspeed_mps, i);
            else
                fast.offer(limits.never_exceed_mps - cas, i);
        }
        const auto at = [&](const Worst& w) -> const path::Sample& {
            return path_.samples[w.sample];
        };
        Grade g;
        if (grade(floor, kTightHeight_m, g))
            add(g, "floor", floor.sample, "lowest point against the floor",
                metres(at(floor).position_S_m.z), metres(site_.floor_m), "site file",
                "raise the figure, or end its line earlier");
        if (site_.show_line_offset_m > 0 && grade(line, kTightDistance_m, g))
            add(g, "show line", line.sample, "nearest point to the crowd line",
                metres(at(line).position_S_m.y - site_.crowd_line_y_m),
                metres(site_.show_line_offset_m), "site file", "fly it farther from the crowd");
        if (site_.box && grade(box, kTightDistance_m, g))
            add(g, "box", box.sample, "nearest point to the edge of the box, or beyond it",
                metres(box.margin), "0 m", "site file", "place the figure nearer to show centre");
        if (limits.load_max_g > 0 && grade(most, kTightLoad_g, g))
            add(g, "load", most.sample, "greatest load", loads(limits.load_max_g - most.margin),
                loads(limits.load_max_g), "aircraft file", "ask a lower load or a wider radius");
        if (limits.load_min_g < 0 && grade(least, kTightLoad_g, g))
            add(g, "load", least.sample, "greatest negative load",
                loads(limits.load_min_g + least.margin), loads(limits.load_min_g), "aircraft file",
                "ask a lower load or a wider radius");
        if (limits.never_exceed_mps > 0 && fast.margin < 1e299 && grade(fast, kTightSpeed_mps, g))
            add(g, "speed", fast.sample, "greatest calibrated airspeed",
                knots(limits.never_exceed_mps - fast.margin), knots(limits.never_exceed_mps),
                "aircraft file", "shorten the downline, or close the throttle on it");
        if (limits.tail_first_mps > 0 && back.margin < 1e299 && grade(back, kTightSpeed_mps, g))
            add(g, "tail-first speed", back.sample, "greatest speed tail first",
                knots(limits.tail_first_mps - back.margin), knots(limits.tail_first_mps),
                "aircraft file", "shorten the slide");
    }

    const data::Aircraft& aircraft_;
    const data::Site& site_;
    const routine::Routine& routine_;
    const path::Path& path_;
    earth::SiteAir air_;
};

}  // namespace

const char* gradeWord(Grade grade) {
    switch (grade) {
        case Grade::Note:
            return "note";
        case Grade::Tight:
            return "tight";
        case Grade::Unsafe:
            return "unsafe";
        case Grade::Cannot:
            return "cannot";
    }
    return "note";
}

Grade worstGrade(const std::vector<Finding>& findings) {
    Grade worst = Grade::Note;
    for (const Finding& f : findings) worst = std::max(worst, f.grade);
    return worst;
}

const char* caution() {
    return "A planning and training aid with a simplified model; no approval to fly. Limits come "
           "from the aircraft's "
           "documents, the display authority, the waiver and a licensed evaluator. Try everything "
           "high first.";
}

std::vector<Finding> checkRoutine(const data::Aircraft& aircraft, const data::Site& site,
                                  const data::Weather& weather, const routine::Routine& routine,
                                  const path::Path& path,
                                  const std::vector<fly::SolveNote>& notes) {
    Checker checker(aircraft, site, weather, routine, path);
    checker.figures();
    checker.whole();
    checker.inverted();
    checker.solverNotes(notes);
    std::stable_sort(checker.findings.begin(), checker.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.time_s < b.time_s; });
    return std::move(checker.findings);
}

}  // namespace plumbline::check
