// A recorded fixed-wing flight from its raw sensors, beside the solution made on board.
// usage: thor_figures FOLDER     with imu.csv, gnss.csv, airdata.csv, nav_reference.csv

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>

#include "engine/earth/local_projection.h"
#include "engine/estimate/smoother.h"
#include "engine/units/units.h"
#include "tests/figures/number_file.h"
#include "tests/figures/scores.h"

using namespace plumbline;

namespace {

double wrapped(double angle) { return std::remainder(angle, 2 * kPi); }

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) {
        std::fprintf(stderr, "usage: thor_figures FOLDER\n");
        return 2;
    }
    const std::string folder = argv[1];
    const figures::NumberTable imu = figures::readNumbers(folder + "/imu.csv");
    const figures::NumberTable gnss = figures::readNumbers(folder + "/gnss.csv");
    const figures::NumberTable air = figures::readNumbers(folder + "/airdata.csv");
    const figures::NumberTable nav = figures::readNumbers(folder + "/nav_reference.csv");
    estimate::Streams s;
    for (std::size_t i = 1; i < imu.rows(); ++i) {
        s.inertial.time_s.push_back(imu.column("t_s")[i]);
        s.inertial.rate_I_radps.push_back(
            {imu.column("gx_radps")[i], imu.column("gy_radps")[i], imu.column("gz_radps")[i]});
        s.inertial.force_I_mps2.push_back(
            {imu.column("ax_mps2")[i], imu.column("ay_mps2")[i], imu.column("az_mps2")[i]});
        if (argc > 2)
            s.field.push_back({imu.column("t_s")[i],
                               {imu.column("mx_gauss")[i], -imu.column("my_gauss")[i],
                                -imu.column("mz_gauss")[i]}});
    }
    const auto place = [&](const figures::NumberTable& t, std::size_t i) {
        return earth::GeoPoint{t.column("lat_deg")[i] * units::kDegree_rad,
                               t.column("lon_deg")[i] * units::kDegree_rad, t.column("alt_m")[i]};
    };
    const earth::LocalProjection projection(place(gnss, 0), kPi / 2);
    for (std::size_t i = 0; i < gnss.rows(); ++i) {
        estimate::GnssFix fix;
        fix.time_s = gnss.column("t_s")[i];
        fix.position_S_m = projection.toSite(place(gnss, i));
        fix.velocity_S_mps = {gnss.column("ve_mps")[i], gnss.column("vn_mps")[i],
                              -gnss.column("vd_mps")[i]};
        fix.has_velocity = true;
        s.gnss.push_back(fix);
    }
    for (std::size_t i = 0; i < air.rows(); ++i)
        s.pressure_height_m.push_back({air.column("t_s")[i], air.column("h_baro_agl_m")[i]});
    for (std::size_t i = 0; i < air.rows(); ++i)  // as low as it flies indicated is nearly true
        s.airspeed_mps.push_back({air.column("t_s")[i], air.column("ias_mps")[i]});
    const auto start = std::chrono::steady_clock::now();
    const estimate::Solution solution = estimate::smooth(s);
    const double took =
        std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
    double roll_mean = 0, pitch_mean = 0, up_mean = 0;
    figures::Mean position_sigma;
    std::size_t position_in = 0;
    figures::Mean sigma, roll, pitch, yaw, position[3], velocity[3];
    std::size_t at = 0, covered = 0;
    for (std::size_t i = 0; i < nav.rows(); ++i) {
        const double t = nav.column("t_s")[i];
        if (t < 211 || t > 577) continue;  // airborne, as the data's notes say
        while (at + 1 < solution.time_s.size() && solution.time_s[at + 1] <= t + 1e-6) ++at;
        const estimate::State& state = solution.states[at];
        const AttitudeAngles angles = attitudeAngles(state.q_SI, kPi / 2, 0);
        const double dr = wrapped(angles.roll_rad - nav.column("roll_deg")[i] * units::kDegree_rad);
        const double dp = angles.pitch_rad - nav.column("pitch_deg")[i] * units::kDegree_rad;
        sigma.add(state.tilt_sigma_rad / units::kDegree_rad);
        roll_mean += dr / units::kDegree_rad;
        pitch_mean += dp / units::kDegree_rad;
        roll.add(dr / units::kDegree_rad);
        pitch.add(dp / units::kDegree_rad);
        covered += std::hypot(dr, dp) <= 2 * state.tilt_sigma_rad;
        yaw.add(wrapped(angles.heading_rad - nav.column("yaw_deg")[i] * units::kDegree_rad) /
                units::kDegree_rad);
        const Vec3 d = state.position_S_m - projection.toSite(place(nav, i));
        const Vec3 v = state.velocity_S_mps - Vec3(nav.column("ve_mps")[i], nav.column("vn_mps")[i],
                                                   -nav.column("vd_mps")[i]);
        position_sigma.add(state.position_sigma_m);
        position_in += glm::length(d) <= 2 * state.position_sigma_m;
        up_mean += d.z;
        for (int a = 0; a < 3; ++a) {
            position[a].add(d[a]);
            velocity[a].add(v[a]);
        }
    }
    const double n = static_cast<double>(roll.count);
    std::printf("on average roll %.2f deg, pitch %.2f deg; our tilt sigma %.2f deg\n",
                roll_mean / n, pitch_mean / n, sigma.rms());
    const auto& c = solution.calibration;
    std::printf(
        "wind from %.0f deg, %.1f m/s, sigma %.2f m/s; airspeed gain %.3f, offset %.2f m/s\n",
        headingOf(-solution.wind_S_mps, kPi / 2) / units::kDegree_rad,
        glm::length(solution.wind_S_mps), solution.wind_sigma_mps, c.airspeed_gain,
        c.airspeed_offset_mps);
    std::printf(
        "rms difference (most) to the on-board solution, airborne:\n"
        "roll %.2f (%.1f) deg  pitch %.2f (%.1f) deg  heading %.2f (%.1f) deg\n",
        roll.rms(), roll.most, pitch.rms(), pitch.most, yaw.rms(), yaw.most);
    std::printf("position east %.2f north %.2f up %.2f m  velocity %.2f %.2f %.2f m/s\n",
                position[0].rms(), position[1].rms(), position[2].rms(), velocity[0].rms(),
                velocity[1].rms(), velocity[2].rms());
    std::printf("on average up %.2f m; our position sigma %.2f m, inside two of it %.0f %%\n",
                up_mean / n, position_sigma.rms(), 100.0 * static_cast<double>(position_in) / n);
    // the fixes' own scatter about ours, at their times less the latency found
    figures::Mean scatter[3];
    for (const estimate::GnssFix& fix : s.gnss) {
        const double t = fix.time_s - solution.calibration.gnss_latency_s;
        if (t < 211 || t > 577) continue;
        const auto& times = solution.time_s;
        const auto i = static_cast<std::size_t>(std::lower_bound(times.begin(), times.end(), t) -
                                                times.begin());
        if (i >= times.size()) break;
        const Vec3 d = fix.position_S_m - solution.states[i].position_S_m;
        for (int a = 0; a < 3; ++a) scatter[a].add(d[a]);
    }
    std::printf("the fixes about ours: east %.2f north %.2f up %.2f m\n", scatter[0].rms(),
                scatter[1].rms(), scatter[2].rms());
    std::printf("inside two sigma of tilt %.0f %%; %.2f s for %.0f s of flight\n",
                100.0 * static_cast<double>(covered) / static_cast<double>(roll.count), took,
                solution.time_s.back() - solution.time_s.front());
    std::printf(
        "latency %.3f s, lag %.2f ms, antenna %.2f %.2f %.2f m, bias %.3f %.3f %.3f deg/s, "
        "force bias %.3f %.3f %.3f, rejected fixes %zu heights %zu field %d\n",
        c.gnss_latency_s, c.force_lag_s * 1e3, c.antenna_I_m.x, c.antenna_I_m.y, c.antenna_I_m.z,
        c.rate_bias_start_radps.x / units::kDegree_rad,
        c.rate_bias_start_radps.y / units::kDegree_rad,
        c.rate_bias_start_radps.z / units::kDegree_rad, c.force_bias_mps2.x, c.force_bias_mps2.y,
        c.force_bias_mps2.z, solution.gnss_rejected, solution.heights_rejected,
        solution.field_used);
    return 0;
}
