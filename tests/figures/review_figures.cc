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
#include "engine/margins/plan.h"
#include "engine/record/sensor_streams.h"
#include "engine/review/review.h"
#include "engine/units/units.h"
#include "tests/figures/review_doubts.h"
#include "tests/figures/sensor_simulator.h"

using namespace plumbline;

namespace {

path::Path throughSensors(const path::Path& fine, std::uint64_t seed,
                          const figures::SensorErrors& errors = {}) {
    const estimate::Solution found = estimate::smooth(figures::simulateSensors(fine, errors, seed));
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

constexpr double kFine_hz = 2000;

/// A flight whose roll on a 45 deg downline stops short by an angle and is put right in the pull
/// behind it; the way of flight stays as it was.
path::Path rolledShort(path::Path fine, double short_rad) {
    const std::vector<review::Piece> pieces = review::piecesOf(fine);
    const auto line = std::find_if(pieces.begin(), pieces.end(), [](const review::Piece& p) {
        return p.motion == review::Motion::Line && p.way_S.z < -0.6 && p.way_S.z > -0.8 &&
               !p.rolls.empty();
    });
    if (line == pieces.end()) std::exit(2);
    const review::Roll roll = line->rolls.front();
    const double extra_rad = -std::copysign(short_rad, roll.angle_rad);
    const auto smooth = [](double x) {
        const double c = std::clamp(x, 0.0, 1.0);
        return c * c * (3 - 2 * c);
    };
    const auto extraAt = [&](double time_s) {
        return extra_rad * (smooth((time_s - roll.start_s) / (roll.stop_s - roll.start_s)) -
                            smooth((time_s - line->stop_s) / 0.8));
    };
    for (path::Sample& s : fine.samples) {
        const double extra = extraAt(s.time_s);
        const Quat turn(std::cos(0.5 * extra), std::sin(0.5 * extra), 0, 0);
        s.q_SB = s.q_SB * turn;
        s.rate_B_radps = unrotate(turn, s.rate_B_radps);
        s.rate_B_radps.x += (extraAt(s.time_s + 1e-4) - extraAt(s.time_s - 1e-4)) / 2e-4;
        s.specific_force_B_mps2 = unrotate(turn, s.specific_force_B_mps2);
    }
    return fine;
}

fly::Solution flownFrom(const load::Workspace& demo, const data::Weather& weather,
                        const std::vector<std::string>& figures) {
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
    return fly::solve(demo.aircraft, demo.site, weather, read.routine);
}

/// A plain sensor in a shaking cockpit, and a receiver that loses most of what is steep.
figures::SensorErrors poorSensors() {
    figures::SensorErrors e;
    e.rate_bias_radps *= 3;
    e.rate_gain *= 3;
    e.rate_noise_radps *= 4;
    e.force_bias_mps2 *= 3;
    e.force_noise_mps2 *= 4;
    e.vibration_mps2 *= 3;
    e.gnss_horizontal_m *= 2.5;
    e.gnss_vertical_m *= 2.5;
    e.gnss_slow_m *= 2.5;
    e.gnss_velocity_mps *= 2.5;
    e.steep_lost = 0.8;
    return e;
}

/// Figures found where the solver's labels have them, at least half of the shorter one.
std::size_t rightOnes(const review::Review& review, const path::Path& truth) {
    return static_cast<std::size_t>(std::count_if(
        review.figures.begin(), review.figures.end(), [&](const review::FigureReview& f) {
            for (const path::Figure& t : truth.figures) {
                if (t.name != f.name) continue;
                const double both = std::min(t.stop_s, f.stop_s) - std::max(t.start_s, f.start_s);
                return both >= 0.5 * std::min(t.stop_s - t.start_s, f.stop_s - f.start_s);
            }
            return false;
        }));
}

/// The demo with a pilot's slips, each flight another, through poor sensors.
void printNoisy(const load::Workspace& demo, const path::Path& plan, int draws) {
    const auto flown = variant::fly(demo, {});
    if (!flown) std::exit(2);
    const margins::Plan slipping = margins::planOf(*flown, 1e-6, 10);
    std::size_t found = 0, right = 0, there = 0;
    figures::Doubts doubts;
    for (int draw = 1; draw <= draws; ++draw) {
        const auto number = static_cast<std::uint64_t>(draw);
        const margins::Draw errors =
            margins::drawFlight(7, number, slipping.workspace.routine.figures.size());
        margins::Slips slips = margins::slipsOf(slipping, errors);
        slips.options.before_figure = nullptr;  // a real path has no jumps
        const fly::Solution solution =
            fly::solve(slips.aircraft, demo.site, slips.weather, slips.routine, slips.options);
        const path::Path fine = solution.samplePath(kFine_hz);
        const review::Review r = review::reviewFlight(throughSensors(fine, number, poorSensors()),
                                                      plan, demo.aircraft, demo.site);
        path::Path truth = solution.samplePath(50);
        truth.known.airspeed = false;  // as the sensors
        doubts.add(r, review::reviewFlight(truth, plan, demo.aircraft, demo.site));
        found += r.figures.size();
        right += rightOnes(r, fine);
        there += fine.figures.size();
    }
    std::printf(
        "the demo with a pilot's slips through poor sensors, %d flights: of the figures found %.3f "
        "are right, of those flown %.3f are found\n",
        draws, static_cast<double>(right) / static_cast<double>(found),
        static_cast<double>(right) / static_cast<double>(there));
    doubts.print();
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
    const path::Path plan = solution.samplePath(50), fine_demo = solution.samplePath(kFine_hz);
    path::Path over_ground = plan;  // as the sensors tell it
    over_ground.known.airspeed = false;
    const review::Review own = reviewed(plan, plan), own_ground = reviewed(over_ground, plan);
    figures::Doubts doubts;
    double rolls = 0, rolls_held = 0, rolls_square = 0, rolls_sigma = 0;
    double found = 0, heavies = 0, light = 0, lines = 0, held = 0, square = 0, sigma = 0;
    for (int draw = 1; draw <= draws; ++draw) {
        const review::Review r =
            reviewed(throughSensors(fine_demo, static_cast<std::uint64_t>(draw)), plan);
        doubts.add(r, own_ground);
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
        for (const review::Review::RolledLine& roll : r.rolls)
            for (const review::Review::RolledLine& truth : own.rolls) {
                if (roll.figure != truth.figure ||
                    std::fabs(roll.measure.start_s - truth.measure.start_s) > 0.3)
                    continue;
                const double miss = roll.measure.angle_rad - truth.measure.angle_rad;
                rolls += 1;
                rolls_square += miss * miss;
                rolls_sigma += roll.measure.sigma_rad;
                rolls_held += std::fabs(miss) <= 2 * roll.measure.sigma_rad;
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
        std::sqrt(square / lines) / units::kDegree_rad, lines / draws,
        sigma / lines / units::kDegree_rad, 100 * held / lines);
    std::printf(
        "rolls: error %.2f deg rms (%.0f rolls), stated %.2f deg (1 sigma), within twice that %.0f "
        "%%\n",
        std::sqrt(rolls_square / rolls) / units::kDegree_rad, rolls / draws,
        rolls_sigma / rolls / units::kDegree_rad, 100 * rolls_held / rolls);

    doubts.print();
    printNoisy(*demo, plan, draws);

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
    data::Weather calm = demo->weather, windy = demo->weather;
    calm.wind.clear();
    // From the right of the show line and from ahead, 15 kt.
    const double bearing_rad = demo->site.show_line_bearing_rad;
    windy.wind = {{0, bearing_rad + 45 * units::kDegree_rad, 15 * units::kKnot_mps}};
    const auto fine = [&](const std::vector<std::string>& figures) {
        return flownFrom(*demo, calm, figures).samplePath(kFine_hz);
    };
    const path::Path right = flownFrom(*demo, calm, show).samplePath(50);
    struct Fault {
        const char* name;
        path::Path flown;
        double off_deg = 0, short_deg = 0, short_m = 0;  ///< what there is to be found
    };
    const std::vector<std::string> turning = {
        "Up:climb to height 900 m\nline level 200 m",
        "Spin:line level 100 m\npower idle\nspin left 2 turns\nline down 80 m\npower full\n"
        "pull to level at 5 g\nline level 300 m",
        "Tumble:line level 100 m\npull to 45 deg up at 5 g\nline 45 deg up 150 m\n"
        "tumble forward 2 turns\nfall wheels-down\nline down 100 m\npull to level at 4 g\n"
        "line level 200 m"};
    const fly::Solution turned = flownFrom(*demo, calm, turning);
    path::Path turned_plan = turned.samplePath(50);
    const path::Path turned_fine = turned.samplePath(kFine_hz), as_planned = turned_plan;
    turned_plan.known.airspeed = false;
    figures::Doubts of_turns;
    for (int draw = 1; draw <= draws; ++draw)
        of_turns.add(
            reviewed(throughSensors(turned_fine, static_cast<std::uint64_t>(draw)), as_planned),
            reviewed(turned_plan, as_planned));
    std::printf("a spin and a tumble:\n");
    of_turns.print();
    const Fault faults[] = {
        {"as planned", fine(show)},
        {"line 3 deg off", fine({leaning, loop, cuban, slide("90 m")}), 3},
        {"roll 10 deg short", rolledShort(fine(show), 10 * units::kDegree_rad), 0, 10},
        {"figure left out", fine({line, cuban, slide("90 m")})},
        {"two swapped", fine({line, cuban, loop, slide("90 m")})},
        {"slide 15 m shorter", fine({line, loop, cuban, slide("75 m")}), 0, 0, 15},
        {"15 kt of wind", flownFrom(*demo, windy, show).samplePath(kFine_hz)}};
    for (const Fault& fault : faults) {
        double figures = 0, missing = 0, swapped = 0, off = 0, short_m = 0, words = 0,
               short_rad = 0, measured = 0, within = 0;
        const auto hold = [&](double miss, double stated) {
            measured += 1;
            within += std::fabs(miss) <= 2 * stated;
        };
        for (int draw = 1; draw <= draws; ++draw) {
            const review::Review r =
                reviewed(throughSensors(fault.flown, static_cast<std::uint64_t>(draw)), right);
            figures += static_cast<double>(r.figures.size());
            missing += static_cast<double>(r.missing.size());
            words += static_cast<double>(r.remarks.size());
            for (const review::FigureReview& f : r.figures) swapped += f.out_of_order;
            for (const review::Review::Line& l : r.lines) {
                if (l.figure != "Upline") continue;
                off += l.measure.off_rad / units::kDegree_rad;
                hold(l.measure.off_rad - fault.off_deg * units::kDegree_rad, l.measure.sigma_rad);
            }
            for (const review::Review::RolledLine& roll : r.rolls) {
                const double by =
                    std::fabs(roll.measure.planned_rad) - std::fabs(roll.measure.angle_rad);
                short_rad += by;
                hold(by - fault.short_deg * units::kDegree_rad, roll.measure.sigma_rad);
            }
            for (const review::SlideReview& s : r.slides) {
                const double by_m = s.way_m.planned - s.way_m.flown;
                short_m += by_m;
                hold(by_m - fault.short_m, s.way_sigma_m);
            }
        }
        std::printf(
            "%-20s figures %.2f, missing %.2f, out of order %.2f, upline off %.2f deg, roll short "
            "%.1f deg, slide short %.1f m, within twice what is stated %.0f %%, remarks %.2f\n",
            fault.name, figures / draws, missing / draws, swapped / draws, off / draws,
            short_rad / units::kDegree_rad / draws, short_m / draws, 100 * within / measured,
            words / draws);
    }
    return 0;
}
