#include "engine/check/gates.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/text/figure_text.h"

namespace plumbline::check {
namespace {

constexpr double kLeastLoss_m = 40;   // chosen: less of a way down is no commitment
constexpr double kSteep = 0.7;        // chosen: sine of 45 deg
constexpr double kVertical_mps = 20;  // chosen: slower than this at the top, it falls away
constexpr double kDown = 0.95;        // chosen: sine of a nose some 70 deg down
constexpr double kSlowest_mps = 8;    // chosen: what it has once it points down
constexpr double kSampled_hz = 20;

// After the pull the path still sinks where the wing carries too little.
constexpr const char* kOn = "\nline level 200 m";

routine::RoutineFigure figureOf(const std::string& text) {
    routine::RoutineFigure figure;
    figure.name = "way down";
    figure.text = text;
    figure.elements = text::parseFigureText(text, "", 1, {}).elements;
    return figure;
}

/// How far below its start the lowest point of a flight lies.
double lossOf(const fly::Solution& like, fly::Standing standing, const std::string& text) {
    const routine::RoutineFigure figure = figureOf(text);
    // Where it would meet the ground it is flown higher, in air that is a little thinner.
    constexpr double kRoom_m = 300;
    double loss_m = 0;
    for (int attempt = 0; attempt < 5; ++attempt) {
        double lowest_m = standing.position_S_m.z;
        for (const path::Sample& s :
             fly::flyFrom(like, standing, figure).samplePath(kSampled_hz).samples)
            lowest_m = std::min(lowest_m, s.position_S_m.z);
        loss_m = standing.position_S_m.z - lowest_m;
        if (lowest_m > 1) break;
        standing.position_S_m.z += kRoom_m;
    }
    return loss_m;
}

void work(Gate& gate, const fly::Solution& solution, const path::Path& path) {
    const path::Sample& s = path.samples[gate.vertical ? gate.down : gate.sample];
    const std::string load = formatFixed(gate.load_g, 1) + " g";
    fly::Standing standing;
    standing.position_S_m = s.position_S_m;
    standing.mass_kg = s.mass_kg;
    standing.fuel_kg = s.fuel_kg;
    standing.head_temperature_k = s.head_temperature_k;
    standing.power_frac = s.power_frac;
    const Vec3 nose = rotate(s.q_SB, Vec3(1, 0, 0));
    const Vec3& v = s.velocity_S_mps;
    const double way = std::atan2(v.y, v.x);
    if (gate.vertical) {
        // Nose down, canopy to where it will fly away.
        const double canopy = std::atan2(-nose.y, -nose.x);
        standing.q_SL =
            rotationZ(canopy) * quatFromAxes(Vec3(0, 0, -1), Vec3(0, -1, 0), Vec3(-1, 0, 0));
        standing.airspeed_mps = std::max(s.airspeed_mps, kSlowest_mps);
        const double until_down_m = gate.position_S_m.z - s.position_S_m.z;
        gate.complete_m = gate.escape_m =
            gate.floor_m + until_down_m +
            lossOf(solution, standing, "pull to level at " + load + kOn);
        return;
    }
    const Quat level = rotationZ(way) * Quat(0, 1, 0, 0);
    standing.q_SL = gate.inverted ? level * rotationX(kPi) : level;
    standing.airspeed_mps = gate.airspeed_mps;
    const char* const kWayDown = gate.inverted ? "pull 180 deg at " : "push 180 deg at ";
    gate.complete_m = gate.floor_m + lossOf(solution, standing, kWayDown + load + kOn);
    const char* const kAway =
        gate.inverted ? "line level 150 m with 1/2 roll right at start" : "line level 150 m";
    gate.escape_m = gate.floor_m + lossOf(solution, standing, kAway);
}

}  // namespace

std::vector<Gate> gatesOf(const data::Aircraft& aircraft, const data::Site& site,
                          const data::Pilot& pilot, const fly::Solution& solution,
                          const path::Path& path) {
    std::vector<Gate> gates;
    const std::vector<path::Sample>& s = path.samples;
    for (std::size_t i = 1; i + 1 < s.size(); ++i) {
        const double height = s[i].position_S_m.z;
        if (!(height > s[i - 1].position_S_m.z) || height < s[i + 1].position_S_m.z) continue;
        // Down to the next low.
        std::size_t low = i;
        double steepest = 0;
        for (std::size_t j = i + 1; j < s.size(); ++j) {
            if (s[j].position_S_m.z > s[low].position_S_m.z + kLeastLoss_m / 4) break;
            if (s[j].position_S_m.z < s[low].position_S_m.z) low = j;
            const double speed = glm::length(s[j].velocity_S_mps);
            if (speed > kVertical_mps)
                steepest = std::max(steepest, -s[j].velocity_S_mps.z / speed);
        }
        Gate gate;
        gate.planned_loss_m = height - s[low].position_S_m.z;
        if (gate.planned_loss_m < kLeastLoss_m || steepest < kSteep) continue;
        gate.sample = i;
        gate.time_s = s[i].time_s;
        gate.position_S_m = s[i].position_S_m;
        gate.airspeed_mps = s[i].airspeed_mps;
        if (s[i].element >= 0 && !path.figures.empty())
            gate.figure = path.figures[static_cast<std::size_t>(path::figureOf(path, s[i]))].name;
        gate.vertical = gate.airspeed_mps < kVertical_mps;
        gate.down = i;
        while (gate.down < low && rotate(s[gate.down].q_SB, Vec3(1, 0, 0)).z > -kDown) ++gate.down;
        gate.inverted = rotate(s[i].q_SB, Vec3(0, 0, 1)).z > 0;
        gate.floor_m = std::max(site.floor_m, pilot.lowest_m);
        const data::LoadLimit limit = data::loadLimitAt(aircraft, s[i].mass_kg);
        double load = pilot.gate_load_g > 0  ? pilot.gate_load_g
                      : pilot.load_max_g > 0 ? pilot.load_max_g
                                             : limit.max_g;
        if (!gate.vertical && !gate.inverted) load = std::min(load, -limit.min_g);
        gate.load_g = std::min(load, limit.max_g);
        work(gate, solution, path);
        gates.push_back(gate);
        i = low;
    }
    return gates;
}

double shownLeast_m(double height_m) {
    constexpr double kFinest_m = 5;
    return std::ceil(height_m / kFinest_m) * kFinest_m;
}

Gate gateAt(const Gate& gate, double airspeed_mps, const fly::Solution& solution,
            const path::Path& path) {
    Gate other = gate;
    other.airspeed_mps = airspeed_mps;
    work(other, solution, path);
    return other;
}

}  // namespace plumbline::check
