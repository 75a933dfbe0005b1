#include "engine/check/checker.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include "engine/base/number_text.h"
#include "engine/units/units.h"

namespace plumbline::check {

std::string metres(double m) { return formatFixed(m, 0) + " m"; }
std::string knots(double mps) { return formatFixed(mps / units::kKnot_mps, 0) + " kt"; }
std::string loads(double g) {
    return (g < 0 ? "\u2212" : "+") + formatFixed(std::fabs(g), 1) + " g";
}
std::string litres(double l) { return formatFixed(l, 0) + " l"; }
std::string minutes(double seconds) {
    const auto whole = static_cast<std::int64_t>(std::llround(seconds));
    const std::int64_t rest = whole % 60;
    return std::to_string(whole / 60) + (rest < 10 ? ":0" : ":") + std::to_string(rest);
}
std::string seconds(double s) { return formatFixed(s, 1) + " s"; }

Checker::Checker(const data::Aircraft& a, const data::Site& s, const data::Weather& w,
                 const routine::Routine& r, const path::Path& p, const data::Pilot& who)
    : aircraft(a),
      site(s),
      weather(w),
      routine(r),
      path(p),
      pilot(who),
      air(s.show_centre.elevation_m, w.temperature_k, w.qnh_pa) {
    load_g.reserve(p.samples.size());
    cas_mps.reserve(p.samples.size());
    std::int32_t figure = -1;
    for (std::size_t i = 0; i < p.samples.size(); ++i) {
        const path::Sample& sample = p.samples[i];
        load_g.push_back(loadFactors(sample.specific_force_B_mps2).normal_g);
        // Calibrated from true airspeed by density alone: compressibility is under 1 kt at these
        // speeds.
        cas_mps.push_back(
            sample.airspeed_mps *
            std::sqrt(air.at(sample.position_S_m.z).density_kgpm3 / earth::kSeaLevelDensity_kgpm3));
        const std::int32_t of = path::figureOf(p, sample);
        if (of > figure) {
            figures.push_back({i, i});
            figure = of;
        }
        figures.back().last = i + 1;
    }
}

void placeIn(const path::Path& path, std::int32_t element, Finding& finding) {
    if (element < 0 || element >= static_cast<std::int32_t>(path.elements.size())) return;
    const path::Element& e = path.elements[static_cast<std::size_t>(element)];
    finding.element = e.label;
    if (e.figure >= 0 && e.figure < static_cast<std::int32_t>(path.figures.size()))
        finding.figure = path.figures[static_cast<std::size_t>(e.figure)].name;
}

void Checker::add(Grade grade, const char* kind, std::size_t sample, double margin,
                  std::string what, std::string value, Limit limit, std::string remedy) {
    Finding f;
    f.grade = grade;
    f.kind = kind;
    const path::Sample& s = path.samples[sample];
    f.time_s = s.time_s;
    f.position_S_m = s.position_S_m;
    f.margin = margin;
    placeIn(path, s.element, f);
    f.what = std::move(what);
    f.value = std::move(value);
    f.limit = std::move(limit.text);
    f.source = std::move(limit.source);
    f.verified = limit.verified;
    if (!f.verified) f.source += "; number not verified";
    f.remedy = std::move(remedy);
    findings.push_back(std::move(f));
}

void Checker::addWorst(const Worst& worst, double tight, const char* kind, std::string what,
                       std::string value, Limit limit, std::string remedy) {
    if (worst.margin >= tight) return;
    add(worst.margin < -1e-6 ? Grade::Unsafe : Grade::Tight, kind, worst.sample, worst.margin,
        std::move(what), std::move(value), std::move(limit), std::move(remedy));
}

void Checker::addLoads(Range range, const LoadWords& words,
                       const std::function<data::LoadLimit(std::size_t sample)>& limit) {
    Worst most, least;
    for (std::size_t i = range.first; i < range.last; ++i) {
        const data::LoadLimit at = limit(i);
        most.offer(at.max_g - load_g[i], i);
        least.offer(load_g[i] - at.min_g, i);
    }
    const char* const kEase = "ask a lower load or a wider radius";
    const double max_g = limit(most.sample).max_g, min_g = limit(least.sample).min_g;
    if (max_g > 0)
        addWorst(most, kTightLoad_g, words.kind, std::string("greatest load") + words.against,
                 loads(load_g[most.sample]), {loads(max_g), words.source}, kEase);
    if (min_g < 0)
        addWorst(least, kTightLoad_g, words.kind,
                 std::string("greatest negative load") + words.against, loads(load_g[least.sample]),
                 {loads(min_g), words.source}, kEase);
}

double distanceToOutline(const std::vector<Vec3>& outline, const Vec3& p) {
    bool inside = false;
    double nearest = 1e300;
    for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
        const Vec3 &a = outline[j], &b = outline[i];
        if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
            inside = !inside;
        const double dx = b.x - a.x, dy = b.y - a.y, length2 = dx * dx + dy * dy;
        const double u = length2 > 0
                             ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / length2, 0.0, 1.0)
                             : 0.0;
        nearest = std::min(nearest, std::hypot(a.x + u * dx - p.x, a.y + u * dy - p.y));
    }
    return inside ? 0 : nearest;
}

}  // namespace plumbline::check
