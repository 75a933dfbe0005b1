// What the engine flies, with all its digits, for second_solution.py to compare with.
//
//     flight_states AIRCRAFT START_HEIGHT START_SPEED [WIND_AT_GROUND WIND_AT_1100M] < figure text
//
// Standard day at sea level, from x = 0 towards crowd right, full power, 60 l of fuel, heights in
// m, speeds in m/s, wind along the show line (positive towards crowd right), even in between from
// 100 m to 1000 m. Writes "element START STOP LABEL" a line for each element, then "sample" and 21
// numbers 500 times a second.

#include <cmath>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "engine/base/number_text.h"
#include "engine/data/aircraft_toml.h"
#include "engine/fly/solve.h"

namespace {

using namespace plumbline;

std::string everything(std::istream& in) {
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

data::WindLayer tailwind(double height_m, double speed_mps) {
    const double from_behind = 1.5 * kPi, from_ahead = 0.5 * kPi;  // the show line points east
    return {height_m, speed_mps < 0 ? from_ahead : from_behind, std::fabs(speed_mps)};
}

void print(const path::Path& path) {
    for (const path::Element& e : path.elements)
        std::printf("element %.17g %.17g %s\n", e.start_s, e.stop_s, e.label.c_str());
    for (const path::Sample& s : path.samples) {
        const double numbers[] = {s.time_s,
                                  s.position_S_m.x,
                                  s.position_S_m.y,
                                  s.position_S_m.z,
                                  s.velocity_S_mps.x,
                                  s.velocity_S_mps.y,
                                  s.velocity_S_mps.z,
                                  s.q_SB.w,
                                  s.q_SB.x,
                                  s.q_SB.y,
                                  s.q_SB.z,
                                  s.rate_B_radps.x,
                                  s.rate_B_radps.y,
                                  s.rate_B_radps.z,
                                  s.specific_force_B_mps2.x,
                                  s.specific_force_B_mps2.y,
                                  s.specific_force_B_mps2.z,
                                  s.airspeed_mps,
                                  s.power_frac,
                                  s.mass_kg,
                                  s.fuel_kg};
        std::printf("sample");
        for (const double number : numbers) std::printf(" %.17g", number);
        std::printf("\n");
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4 && argc != 6) return 2;
    std::ifstream file(argv[1]);
    const auto aircraft = data::readAircraft(everything(file), argv[1]);
    const text::ParsedText parsed = text::parseFigureText(everything(std::cin), "stdin", 1);
    if (!aircraft || !parsed.problems.empty()) {
        std::fprintf(stderr, "%s%s\n", aircraft ? "" : describe(aircraft.error()).c_str(),
                     describe(parsed.problems).c_str());
        return 2;
    }
    const auto number = [argv](int i) { return parseDouble(argv[i]).value_or(0); };
    routine::Routine routine;
    routine.start = {0, 0, number(2), true, number(3), 60, 1};
    routine.figures.resize(1);
    routine.figures[0].name = "figure";
    routine.figures[0].elements = parsed.elements;
    data::Site site;
    site.show_line_bearing_rad = 0.5 * kPi;
    data::Weather weather;
    if (argc == 6)
        for (const double height_m : {0.0, 100.0, 1000.0, 1100.0})
            weather.wind.push_back(
                tailwind(height_m, number(4) + (number(5) - number(4)) * height_m / 1100.0));
    fly::SolveOptions options;
    options.relative_tolerance = 1e-12;
    const fly::Solution solution = fly::solve(*aircraft, site, weather, routine, options);
    for (const fly::SolveNote& note : solution.notes())
        std::fprintf(stderr, "note: %s: %s %s\n", note.subject.c_str(), note.what.c_str(),
                     note.value.c_str());
    print(solution.samplePath(500));
    return 0;
}
