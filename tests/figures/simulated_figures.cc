// How well made-up flights come back from made-up sensors: the demo and two other routines, mean
// and worst over many draws of the errors.
// usage: simulated_figures [DRAWS]

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "engine/estimate/smoother.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/units/units.h"
#include "tests/figures/scores.h"
#include "tests/figures/sensor_simulator.h"

using namespace plumbline;

namespace {

/// An invented routine of shelf figures, in the demo's aircraft.
std::string routineOf(const std::vector<std::string>& figures) {
    std::string text =
        "name = \"Invented\"\naircraft = \"marrel.aircraft.toml\"\nsite = \"vellmoor.site.toml\"\n"
        "weather = \"vellmoor.weather.toml\"\n[start]\nx = \"-900 m\"\ny = \"30 m\"\n"
        "height = \"250 m\"\nheading = \"crowd-right\"\nspeed = \"80 m/s\"\nfuel = \"60 l\"\n";
    bool right = true;
    int number = 0;
    for (const std::string& figure : figures) {
        const std::string name = std::to_string(++number) + " " + figure;
        text += "[[figure]]\nname = \"" + name + "\"\nfigure = \"" + figure +
                "\"\n[[figure]]\nname = \"" + name + ", back\"\ntext = \"\"\"\nreposition to x " +
                (right ? "900" : "-900") + " m y 30 m height 250 m heading " +
                (right ? "crowd-left" : "crowd-right") + " speed 78 m/s\n\"\"\"\n";
        right = !right;
    }
    return text;
}

Expected<load::Workspace, Problems> workspaceOf(const std::string& routine) {
    return load::loadWorkspace(
        "routine.toml", {}, [&](const std::filesystem::path& file) -> system::ReadFile {
            if (file.filename() == "routine.toml") return {routine, ""};
            const auto asset = load::embeddedAsset("demo/" + file.filename().string());
            if (asset) return {std::string(*asset), ""};
            return {std::nullopt, "no such file"};
        });
}

struct Scores {
    figures::Mean total, tilt, vertical_tilt, height, height_tail, across;
    figures::Mean total_share, tilt_share, position_share;  // of the sigma
    std::size_t tilt_in = 0, total_in = 0, position_in = 0;
};

Scores score(const path::Path& fine, const estimate::Solution& solution) {
    Scores scores;
    for (std::size_t i = 0; i < solution.states.size(); ++i) {
        const path::Sample& truth = fine.samples[10 * (i + 1)];
        const estimate::State& state = solution.states[i];
        const figures::AttitudeError e = figures::attitudeError(state.q_SI, truth.q_SB);
        scores.total.add(e.total_rad / units::kDegree_rad);
        scores.tilt.add(e.inclination_rad / units::kDegree_rad);
        const bool vertical =
            std::abs(rotate(truth.q_SB, Vec3(1, 0, 0)).z) > std::cos(8 * units::kDegree_rad) &&
            std::hypot(truth.rate_B_radps.y, truth.rate_B_radps.z) < 10 * units::kDegree_rad;
        if (vertical) scores.vertical_tilt.add(e.inclination_rad / units::kDegree_rad);
        const Vec3 d = state.position_S_m - truth.position_S_m;
        (std::abs(truth.aoa_rad) > kPi / 2 ? scores.height_tail : scores.height).add(d.z);
        scores.across.add(std::hypot(d.x, d.y));
        scores.total_share.add(e.total_rad / state.attitude_sigma_rad);
        scores.tilt_share.add(e.inclination_rad / state.tilt_sigma_rad);
        scores.position_share.add(glm::length(d) / state.position_sigma_m);
        scores.tilt_in += e.inclination_rad <= 2 * state.tilt_sigma_rad;
        scores.total_in += e.total_rad <= 2 * state.attitude_sigma_rad;
        scores.position_in += glm::length(d) <= 2 * state.position_sigma_m;
    }
    return scores;
}

void flight(const char* name, const Expected<load::Workspace, Problems>& work, int draws,
            bool blind = false) {
    if (!work) {
        std::fprintf(stderr, "%s: %s\n", name, describe(work.error()).c_str());
        std::exit(2);
    }
    const path::Path fine =
        fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(2000);
    struct Column {
        const char* name;
        double sum = 0, worst = 0, least = 1e9;
        void add(double v) {
            if (!std::isfinite(v)) return;
            sum += v;
            worst = std::max(worst, v);
            least = std::min(least, v);
        }
    };
    Column c[] = {{"attitude deg rms"},
                  {"tilt deg rms"},
                  {"tilt on verticals deg rms"},
                  {"height m rms"},
                  {"height tail first m rms"},
                  {"across m rms"},
                  {"in 2 sigma attitude %"},
                  {"in 2 sigma tilt %"},
                  {"in 2 sigma position %"},
                  {"rms of error/sigma: attitude"},
                  {"  tilt"},
                  {"  position"},
                  {"seconds"}};
    for (int draw = 1; draw <= draws; ++draw) {
        // the path's joints make a few samples more than the even ones: by time
        estimate::Streams streams =
            figures::simulateSensors(fine, {}, static_cast<std::uint64_t>(draw));
        if (blind) streams.gnss.clear();
        const auto start = std::chrono::steady_clock::now();
        const estimate::Solution solution = estimate::smooth(streams);
        const double took =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
        const Scores s = score(fine, solution);
        const double n = static_cast<double>(solution.states.size()) / 100;
        const double values[] = {s.total.rms(),
                                 s.tilt.rms(),
                                 s.vertical_tilt.rms(),
                                 s.height.rms(),
                                 s.height_tail.rms(),
                                 s.across.rms(),
                                 static_cast<double>(s.total_in) / n,
                                 static_cast<double>(s.tilt_in) / n,
                                 static_cast<double>(s.position_in) / n,
                                 s.total_share.rms(),
                                 s.tilt_share.rms(),
                                 s.position_share.rms(),
                                 took};
        for (std::size_t i = 0; i < std::size(c); ++i) c[i].add(values[i]);
    }
    std::printf("%s, %.0f s, %d draws: mean (least to most)\n", name, fine.duration_s(), draws);
    for (const Column& column : c) {
        if (!(column.least < 1e9)) continue;  // none of it in this flight
        const std::string_view about =
            column.name;  // without fixes only what leans means something
        if (blind && about.find("tilt") == about.npos && about != "seconds") continue;
        std::printf("  %-29s %7.3f (%.3f to %.3f)\n", column.name, column.sum / draws, column.least,
                    column.worst);
    }
}

}  // namespace

int main(int argc, char** argv) {
    const int draws = argc > 1 ? std::max(1, std::atoi(argv[1])) : 20;
    flight("demo", load::loadDemo(), draws);
    flight("demo, inertial sensors alone (headings count from anywhere)", load::loadDemo(), draws,
           true);
    flight("verticals",
           workspaceOf(routineOf({"hammerhead", "tailslide", "humpty", "vertical-roll",
                                  "square-loop", "hammerhead-quarter-rolls", "split-s"})),
           draws);
    flight("rolls and turns",
           workspaceOf(routineOf({"slow-roll", "rolling-turn", "loop", "barrel-roll", "level-turn",
                                  "knife-edge-pass", "outside-loop", "cuban-eight"})),
           draws);
    return 0;
}
