// Bank told from places alone, beside attitudes that are known otherwise.
// usage: bank_figures FOLDER     with gnss.csv and nav_reference.csv of a recorded flight; the
// demo's
//                                flight through a made-up receiver needs no file

#include <cmath>
#include <cstdio>
#include <functional>
#include <string>

#include "engine/earth/local_projection.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/record/track_path.h"
#include "engine/units/units.h"
#include "tests/figures/number_file.h"
#include "tests/figures/scores.h"
#include "tests/figures/sensor_simulator.h"

using namespace plumbline;

namespace {

/// Angle about the path between two attitudes: how far the wings are off.
double bankError(const Quat& estimate, const Quat& truth, const Vec3& velocity_S_mps) {
    const Vec3 along = glm::normalize(velocity_S_mps);
    const auto across = [&](const Quat& q) {
        const Vec3 right = rotate(q, Vec3(0, 1, 0));
        return glm::normalize(right - glm::dot(right, along) * along);
    };
    return std::acos(std::clamp(glm::dot(across(estimate), across(truth)), -1.0, 1.0));
}

void score(const char* name, const record::FixLog& log,
           const std::function<Quat(double)>& truthAt) {
    const auto track = record::trackFromLogs({log});
    if (!track) return;
    figures::Mean bank;
    std::size_t flown = 0, shown = 0, in = 0, wrong_side = 0;
    for (const path::Sample& sample : track->path.samples) {
        if (glm::length(sample.velocity_S_mps) < 15) continue;
        ++flown;
        shown += path::attitudeShown(track->path, sample);
        if (!track->path.known.bank || sample.attitude_sigma_rad > 1) continue;
        const Quat truth = truthAt(sample.time_s);
        const double error = bankError(sample.q_SB, truth, sample.velocity_S_mps);
        bank.add(error / units::kDegree_rad);
        wrong_side += error > kPi / 2;
        in += figures::attitudeError(sample.q_SB, truth).total_rad <=
              2 * static_cast<double>(sample.attitude_sigma_rad);
    }
    const double n = static_cast<double>(bank.count) / 100;
    std::printf("%-40s", name);
    if (bank.count == 0) {
        std::printf("not told\n");
        return;
    }
    std::printf(
        "told %.0f %%, sure enough to be shown %.0f %%; bank %.1f deg rms, %.0f most; "
        "wrong side %.1f %%, attitude in 2 sigma %.0f %%\n",
        100 * static_cast<double>(bank.count) / static_cast<double>(flown),
        100 * static_cast<double>(shown) / static_cast<double>(flown), bank.rms(), bank.most,
        static_cast<double>(wrong_side) / n, static_cast<double>(in) / n);
}

void recorded(const std::string& folder) {
    const figures::NumberTable gnss = figures::readNumbers(folder + "/gnss.csv");
    const figures::NumberTable nav = figures::readNumbers(folder + "/nav_reference.csv");
    const auto place = [&](std::size_t i) {
        return earth::GeoPoint{gnss.column("lat_deg")[i] * units::kDegree_rad,
                               gnss.column("lon_deg")[i] * units::kDegree_rad,
                               gnss.column("alt_m")[i]};
    };
    const earth::LocalProjection projection(place(0), kPi / 2);
    for (const bool with_velocity : {false, true}) {
        record::FixLog log;
        log.kind = "CSV";
        log.geodetic = false;
        for (std::size_t i = 0; i < gnss.rows(); ++i) {
            record::Fix fix;
            fix.clock_s = gnss.column("t_s")[i];
            fix.position_S_m = projection.toSite(place(i));
            fix.velocity_E_mps = {gnss.column("ve_mps")[i], gnss.column("vn_mps")[i],
                                  -gnss.column("vd_mps")[i]};
            fix.has_velocity = fix.has_vertical_velocity = with_velocity;
            log.fixes.push_back(fix);
        }
        const double start_s = log.fixes.front().clock_s;
        const auto truthAt = [&](double time_s) {
            const auto& t = nav.column("t_s");
            const auto i = static_cast<std::size_t>(
                std::lower_bound(t.begin(), t.end() - 1, start_s + time_s) - t.begin());
            return attitudeFromAngles({nav.column("pitch_deg")[i] * units::kDegree_rad,
                                       nav.column("roll_deg")[i] * units::kDegree_rad,
                                       nav.column("yaw_deg")[i] * units::kDegree_rad},
                                      kPi / 2);
        };
        score(with_velocity ? "recorded, 1 Hz, places and velocities" : "recorded, 1 Hz, places",
              log, truthAt);
    }
}

void simulated() {
    const auto work = load::loadDemo();
    if (!work) return;
    const path::Path fine =
        fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(2000);
    for (const double hz : {1.0, 5.0, 10.0})
        for (const bool with_velocity : {false, true}) {
            figures::SensorErrors errors;
            errors.gnss_hz = hz;
            record::FixLog log;
            log.kind = "CSV";
            log.geodetic = false;
            for (const estimate::GnssFix& made : figures::simulateSensors(fine, errors, 1).gnss) {
                record::Fix fix;
                fix.clock_s = made.time_s;
                fix.position_S_m = made.position_S_m;
                fix.velocity_E_mps = made.velocity_S_mps;
                fix.has_velocity = fix.has_vertical_velocity = with_velocity;
                log.fixes.push_back(fix);
            }
            const double start_s = log.fixes.front().clock_s;
            char name[80];
            std::snprintf(name, sizeof name, "demo, %.0f Hz, %s", hz,
                          with_velocity ? "places and velocities" : "places");
            score(name, log,
                  [&](double time_s) { return path::sampleAt(fine, start_s + time_s).q_SB; });
        }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc > 1) recorded(argv[1]);
    simulated();
    return 0;
}
