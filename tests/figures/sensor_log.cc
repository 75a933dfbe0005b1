// What a logger would have written while a routine was flown: rates, forces, fixes and pressure
// heights of the simulated sensors as a CSV, for the window's scripts and for trying things out.
// usage: sensor_log ROUTINE LOG.csv [SEED]

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>

#include "engine/base/problem.h"
#include "engine/earth/local_projection.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/units/units.h"
#include "tests/figures/sensor_simulator.h"

using namespace plumbline;

int main(int argc, char** argv) {
    if (argc < 3) {
        std::fprintf(stderr, "usage: sensor_log ROUTINE LOG.csv [SEED]\n");
        return 2;
    }
    const auto loaded = load::loadWorkspace(argv[1]);
    if (!loaded) {
        std::fprintf(stderr, "%s\n", describe(loaded.error()).c_str());
        return 2;
    }
    const fly::Solution solution =
        fly::solve(loaded->aircraft, loaded->site, loaded->weather, loaded->routine);
    constexpr double kFine_hz = 2000;  // ten to each sample of the sensors
    const estimate::Streams streams =
        figures::simulateSensors(solution.samplePath(kFine_hz), {},
                                 argc > 3 ? static_cast<std::uint64_t>(std::atoll(argv[3])) : 1);
    std::FILE* out = std::fopen(argv[2], "wb");
    if (out == nullptr) {
        std::fprintf(stderr, "%s: cannot be written\n", argv[2]);
        return 2;
    }
    const earth::LocalProjection site(loaded->site.show_centre, loaded->site.show_line_bearing_rad);
    const double bearing_rad = loaded->site.show_line_bearing_rad;
    std::fprintf(
        out,
        "time_s,gyro_x_dps,gyro_y_dps,gyro_z_dps,acc_x_mps2,acc_y_mps2,acc_z_mps2,latitude_"
        "deg,longitude_deg,altitude_m,vel_north_mps,vel_east_mps,vel_down_mps,baro_"
        "altitude_m\n");
    std::size_t fix = 0, height = 0;
    for (std::size_t i = 0; i < streams.inertial.size(); ++i) {
        const double now_s = streams.inertial.time_s[i];
        const Vec3 rate = streams.inertial.rate_I_radps[i] / units::kDegree_rad;
        const Vec3& force = streams.inertial.force_I_mps2[i];
        std::fprintf(out, "%.4f,%.4f,%.4f,%.4f,%.4f,%.4f,%.4f", now_s, rate.x, rate.y, rate.z,
                     force.x, force.y, force.z);
        if (fix < streams.gnss.size() && streams.gnss[fix].time_s <= now_s) {
            const estimate::GnssFix& g = streams.gnss[fix++];
            const earth::GeoPoint place = site.toGeodetic(g.position_S_m);
            // Along the bearing and to its left.
            const double s = std::sin(bearing_rad), c = std::cos(bearing_rad);
            const Vec3& v = g.velocity_S_mps;
            std::fprintf(out, ",%.8f,%.8f,%.2f,%.3f,%.3f,%.3f",
                         place.latitude_rad / units::kDegree_rad,
                         place.longitude_rad / units::kDegree_rad, place.elevation_m,
                         v.x * c + v.y * s, v.x * s - v.y * c, -v.z);
        } else {
            std::fprintf(out, ",,,,,,");
        }
        if (height < streams.pressure_height_m.size() &&
            streams.pressure_height_m[height].time_s <= now_s) {
            std::fprintf(out, ",%.2f\n", streams.pressure_height_m[height++].value);
        } else {
            std::fprintf(out, ",\n");
        }
    }
    return std::fclose(out) == 0 ? 0 : 2;
}
