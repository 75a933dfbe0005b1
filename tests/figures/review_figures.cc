// How well flights are reviewed through sensors: the demo flown perfectly, and shows with one known
// fault each, over many draws of the sensors' errors.
// usage: review_figures [DRAWS]

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include "engine/estimate/smoother.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/record/sensor_streams.h"
#include "engine/review/review.h"
#include "engine/units/units.h"
#include "tests/figures/sensor_simulator.h"

using namespace plumbline;

namespace {

constexpr double kDeg = units::kDegree_rad;

path::Path throughSensors(const fly::Solution& solution, std::uint64_t seed) {
    const path::Path fine = solution.samplePath(2000);
    const estimate::Solution found = estimate::smooth(figures::simulateSensors(fine, {}, seed));
    path::Path path;
    path.origin = path::Origin::Recording;
    path.show_line_bearing_rad = fine.show_line_bearing_rad;
    path.known.airspeed = path.known.incidence = path.known.power = path.known.fuel = false;
    record::SampleMaker maker(path.samples);
    for (std::size_t i = 0; i < found.states.size(); ++i)
        maker.add(found.time_s[i], found.states[i]);
    maker.turnToBody(Quat(1, 0, 0, 0));
    return path;
}

fly::Solution flownFrom(const load::Workspace& demo, const std::vector<std::string>& figures) {
    std::string text =
        "name = 'Show'\naircraft = 'a'\nsite = 's'\n[start]\nx = '-600 m'\ny = '200 m'\nheight = "
        "'300 m'\nheading = 'crowd-right'\nspeed = '150 kt'\nfuel = '60 l'\n";
    for (const std::string& figure : figures) {
        const std::size_t colon = figure.find(':');
        text += "[[figure]]\nname = '" + figure.substr(0, colon) + "'\ntext = '''\n" +
                figure.substr(colon + 1) + "\n'''\n";
    }
    const routine::ReadRoutine read = routine::readRoutine(text, "show.routine.toml");
    if (!read.problems.empty()) {
        std::fprintf(stderr, "%s\n", describe(read.problems).c_str());
        std::exit(2);
    }
    return fly::solve(demo.aircraft, demo.site, demo.weather, read.routine);
}

std::size_t heavy(const review::Review& review) {
    return static_cast<std::size_t>(
        std::count_if(review.remarks.begin(), review.remarks.end(),
                      [](const review::Remark& r) { return r.weight >= 1; }));
}

}  // namespace

int main(int argc, char** argv) {
    const int draws = argc > 1 ? std::atoi(argv[1]) : 20;
    const auto demo = load::loadDemo();
    if (!demo || draws < 1) return 2;
    const auto reviewed = [&](const path::Path& flight, const path::Path& plan) {
        return review::reviewFlight(flight, plan, demo->aircraft, demo->site);
    };
    const fly::Solution solution =
        fly::solve(demo->aircraft, demo->site, demo->weather, demo->routine);
    const path::Path plan = solution.samplePath(50);
    const review::Review own = reviewed(plan, plan);
    double found = 0, heavies = 0, light = 0, lines = 0, held = 0, square = 0, sigma = 0;
    for (int draw = 1; draw <= draws; ++draw) {
        const review::Review r =
            reviewed(throughSensors(solution, static_cast<std::uint64_t>(draw)), plan);
        found += static_cast<double>(r.figures.size());
        heavies += static_cast<double>(heavy(r));
        light += static_cast<double>(r.remarks.size());
        for (const review::Review::Line& line : r.lines)
            for (const review::Review::Line& truth : own.lines) {
                if (line.figure != truth.figure || line.name != truth.name ||
                    std::fabs(line.measure.start_s - truth.measure.start_s) > 1)
                    continue;
                const double miss = std::hypot(line.measure.along_rad - truth.measure.along_rad,
                                               line.measure.across_rad - truth.measure.across_rad);
                lines += 1;
                square += miss * miss;
                sigma += line.measure.sigma_rad;
                held += miss <= 2 * line.measure.sigma_rad;
            }
        if (draw == 1)
            for (const review::Remark& remark : r.remarks)
                std::printf("  draw 1: %.1f %s: %s\n", remark.weight, remark.figure.c_str(),
                            remark.words.c_str());
    }
    std::printf(
        "the demo flown perfectly, %d draws: figures found %.1f of %zu; remarks invented in a "
        "flight: %.2f of a point and more, %.2f in all\n"
        "lines: error %.2f deg rms (%.0f lines), stated %.2f deg (1 sigma), within twice that %.0f "
        "%%\n",
        draws, found / draws, plan.figures.size(), heavies / draws, light / draws,
        std::sqrt(square / lines) / kDeg, lines / draws, sigma / lines / kDeg, 100 * held / lines);

    const std::string line =
        "Upline:line level 300 m\npull to up at 5 g\nline up 250 m\npush to level at 1 g\nline "
        "level 100 m";
    const std::string leaning =
        "Upline:line level 300 m\npull to 87 deg up at 5 g\nline 87 deg up by nose 250 m\n"
        "push to level at 1 g\nline level 100 m";
    const std::string loop = "Loop:line level 200 m\npull 360 deg at 4 g\nline level 100 m";
    const std::string cuban =
        "Half Cuban:line level 200 m\npull 225 deg at 5 g\nline 45 deg down 150 m with 1/2 roll "
        "left\npull to level at 5 g";
    const auto slide = [](const std::string& way) {
        return "Tailslide:line level 200 m\npull to up at 5 g\nline up until 60 kt\npower idle\n"
               "line up until 15 kt\nslide " +
               way +
               "\nfall wheels-down\nline down 60 m\npower full\n"
               "pull to level at 5 g\nline level 200 m";
    };
    const std::vector<std::string> show = {line, loop, cuban, slide("90 m")};
    const path::Path right = flownFrom(*demo, show).samplePath(50);
    struct Fault {
        const char* name;
        std::vector<std::string> flown;
    };
    const Fault faults[] = {{"as planned", show},
                            {"line 3 deg off", {leaning, loop, cuban, slide("90 m")}},
                            {"figure left out", {line, cuban, slide("90 m")}},
                            {"two swapped", {line, cuban, loop, slide("90 m")}},
                            {"slide 15 m shorter", {line, loop, cuban, slide("75 m")}}};
    for (const Fault& fault : faults) {
        const fly::Solution flown = flownFrom(*demo, fault.flown);
        double figures = 0, missing = 0, swapped = 0, off = 0, short_m = 0, words = 0;
        for (int draw = 1; draw <= draws; ++draw) {
            const review::Review r =
                reviewed(throughSensors(flown, static_cast<std::uint64_t>(draw)), right);
            figures += static_cast<double>(r.figures.size());
            missing += static_cast<double>(r.missing.size());
            words += static_cast<double>(r.remarks.size());
            for (const review::FigureReview& f : r.figures) swapped += f.out_of_order;
            for (const review::Review::Line& l : r.lines)
                if (l.figure == "Upline") off += l.measure.off_rad / kDeg;
            for (const review::SlideReview& s : r.slides)
                short_m += s.way_m.planned - s.way_m.flown;
        }
        std::printf(
            "%-20s figures %.2f, missing %.2f, out of order %.2f, upline off %.2f deg, slide short "
            "%.1f m, remarks %.2f\n",
            fault.name, figures / draws, missing / draws, swapped / draws, off / draws,
            short_m / draws, words / draws);
    }
    return 0;
}
