#include "engine/review/load_book.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/check/check.h"
#include "engine/review/doubts.h"

namespace plumbline::review {

std::vector<double> reversals(std::span<const double> history, double least) {
    std::vector<double> out;
    for (const double value : history) {
        if (out.empty()) {
            out.push_back(value);
            continue;
        }
        const bool first = out.size() == 1;
        const double last = out.back();
        const double before = first ? last : out[out.size() - 2];
        const bool rising = last > before;
        if (!first && (value > last) == rising && value != last)
            out.back() = value;  // on in the same sense
        else if (std::fabs(value - last) > least)
            out.push_back(value);
    }
    return out;
}

std::vector<Cycle> rainflow(std::span<const double> history) {
    std::vector<Cycle> cycles;
    std::vector<double> open;
    const auto count = [&](double a, double b, double how_much) {
        cycles.push_back({std::fabs(a - b), 0.5 * (a + b), how_much});
    };
    for (const double peak : reversals(history, 0)) {
        open.push_back(peak);
        while (open.size() >= 3) {
            const std::size_t n = open.size();
            const double last = std::fabs(open[n - 1] - open[n - 2]);
            const double before = std::fabs(open[n - 2] - open[n - 3]);
            if (last < before) break;
            if (n == 3) {  // the range before holds the starting point: half a cycle
                count(open[0], open[1], 0.5);
                open.erase(open.begin());
            } else {
                count(open[n - 3], open[n - 2], 1);
                open.erase(open.end() - 3, open.end() - 1);
            }
        }
    }
    for (std::size_t i = 0; i + 1 < open.size(); ++i) count(open[i], open[i + 1], 0.5);
    return cycles;
}

LoadBook loadBookOf(const path::Path& path) {
    constexpr double kStep_s = 0.02, kOnset_s = 0.5, kRipple_g = 0.25;
    constexpr double kPull_g = 3;
    LoadBook book;
    if (!path.known.load || path.samples.empty()) return book;
    std::vector<double> load;
    for (double t = 0; t <= path.duration_s(); t += kStep_s)
        load.push_back(loadFactors(path::sampleAt(path, t).specific_force_B_mps2).normal_g);
    const auto timeOf = [](std::size_t i) { return static_cast<double>(i) * kStep_s; };
    const auto most = std::max_element(load.begin(), load.end());
    const auto least = std::min_element(load.begin(), load.end());
    book.most_g = *most;
    book.most_s = timeOf(static_cast<std::size_t>(most - load.begin()));
    book.least_g = *least;
    book.least_s = timeOf(static_cast<std::size_t>(least - load.begin()));
    book.most_sigma_g = loadSigma_g(path, book.most_s);
    book.least_sigma_g = loadSigma_g(path, book.least_s);
    constexpr auto kOnset = static_cast<std::size_t>(kOnset_s / kStep_s + 0.5);
    for (std::size_t i = kOnset; i < load.size(); ++i) {
        const double gain = (load[i] - load[i - kOnset]) / kOnset_s;
        if (gain > book.quickest_gps) {
            book.quickest_gps = gain;
            book.quickest_s = timeOf(i);
        }
    }
    book.quickest_sigma_gps = std::sqrt(2.0) * loadSigma_g(path, book.quickest_s) / kOnset_s;
    for (double level = std::floor(book.least_g) + 1; level < book.most_g; level += 1) {
        if (level == 1) continue;
        LoadLevel l;
        l.load_g = level;
        const auto beyond = [level](double g) { return level > 1 ? g > level : g < level; };
        bool back = true;  // by more than a ripple since the last time
        for (const double g : load) {
            if (beyond(g)) {
                l.beyond_s += kStep_s;
                if (back) ++l.times;
                back = false;
            } else if (std::fabs(g - level) > kRipple_g) {
                back = true;
            }
        }
        // The same time with the level as far to either side as the load may be off.
        const double off_g = level > 1 ? book.most_sigma_g : book.least_sigma_g;
        const auto near = std::count_if(load.begin(), load.end(),
                                        [&](double g) { return std::fabs(g - level) < off_g; });
        l.sigma_s = 0.5 * kStep_s * static_cast<double>(near);
        book.levels.push_back(l);
    }
    double negative_s = 0, least_g = 0, ended_s = -1e9;
    for (std::size_t i = 1; i < load.size(); ++i) {
        if (load[i] < check::kNegative_g) {
            least_g = negative_s > 0 ? std::min(least_g, load[i]) : load[i];
            negative_s += kStep_s;
            if (negative_s >= check::kNegative_s) ended_s = timeOf(i);
            continue;
        }
        negative_s = 0;
        if (load[i] <= kPull_g || timeOf(i) - ended_s > check::kAfterNegative_s) continue;
        const bool same_pull = load[i - 1] > kPull_g && !book.push_pulls.empty();
        if (same_pull)
            book.push_pulls.back().most_g = std::max(book.push_pulls.back().most_g, load[i]);
        else
            book.push_pulls.push_back({timeOf(i), least_g, load[i]});
    }
    std::map<int, Cycle> by_range;
    for (const Cycle& cycle : rainflow(reversals(load, kRipple_g))) {
        Cycle& bin = by_range[static_cast<int>(std::ceil(cycle.range))];
        bin.mean = (bin.mean * bin.count + cycle.mean * cycle.count) / (bin.count + cycle.count);
        bin.count += cycle.count;
    }
    for (auto& [range, cycle] : by_range) {
        cycle.range = range;
        book.cycles.push_back(cycle);
    }
    return book;
}

CrewSheet crewSheetOf(const path::Path& path, const data::AircraftLimits& limits,
                      const earth::SiteAir& air) {
    constexpr double kFull = 0.98;
    CrewSheet sheet;
    const bool told = path.origin == path::Origin::Recording && tellsErrors(path);
    double fastest_back_s = 0;
    sheet.flown_s = path.duration_s();
    for (std::size_t i = 0; i < path.samples.size(); ++i) {
        const path::Sample& s = path.samples[i];
        const double step_s = i > 0 ? s.time_s - path.samples[i - 1].time_s : 0;
        if (s.power_frac >= kFull) sheet.full_power_s += step_s;
        const double along = glm::dot(rotate(s.q_SB, Vec3(1, 0, 0)), s.velocity_S_mps);
        const double calibrated_mps =
            s.airspeed_mps *
            std::sqrt(air.at(s.position_S_m.z).density_kgpm3 / earth::kSeaLevelDensity_kgpm3);
        if (calibrated_mps > sheet.fastest_mps) {
            sheet.fastest_mps = calibrated_mps;
            sheet.fastest_s = s.time_s;
        }
        const double off_mps = told ? airspeedSigma_mps(calibrated_mps) : 0;
        const auto unsure = [&](double limit_mps) {
            return limit_mps > 0 && std::fabs(calibrated_mps - limit_mps) < off_mps;
        };
        if (unsure(limits.never_exceed_mps)) sheet.beyond_never_exceed_sigma_s += 0.5 * step_s;
        if (unsure(limits.overspeed_mps)) sheet.overspeed_sigma_s += 0.5 * step_s;
        if (limits.never_exceed_mps > 0 && calibrated_mps > limits.never_exceed_mps)
            sheet.beyond_never_exceed_s += step_s;
        if (limits.overspeed_mps > 0 && calibrated_mps > limits.overspeed_mps)
            sheet.overspeed_s += step_s;
        if (-along > sheet.fastest_back_mps) {
            sheet.fastest_back_mps = -along;
            fastest_back_s = s.time_s;
        }
        sheet.hottest_head_k = std::max(sheet.hottest_head_k, s.head_temperature_k);
    }
    if (told && path.known.airspeed) sheet.fastest_sigma_mps = airspeedSigma_mps(sheet.fastest_mps);
    if (sheet.fastest_back_mps > 0)
        sheet.fastest_back_sigma_mps = groundSpeedSigma_mps(path, fastest_back_s);
    if (!path.samples.empty())
        sheet.fuel_kg = path.samples.front().fuel_kg - path.samples.back().fuel_kg;
    return sheet;
}

}  // namespace plumbline::review
