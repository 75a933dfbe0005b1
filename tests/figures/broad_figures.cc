// Our attitude beside the published errors on the BROAD trials.
// usage: broad_figures FOLDER     with broad_<trial>.imu.csv and broad_<trial>.truth.csv, and the
//                                 tables of other methods' errors, as published

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <string_view>

#include "engine/estimate/smoother.h"
#include "engine/units/units.h"
#include "tests/figures/number_file.h"
#include "tests/figures/scores.h"

using namespace plumbline;

namespace {

estimate::Streams streamsOf(const figures::NumberTable& t, bool with_field) {
    estimate::Streams s;
    s.inertial.time_s = t.column("t_s");
    const auto& gx = t.column("gx_radps");
    const auto& gy = t.column("gy_radps");
    const auto& gz = t.column("gz_radps");
    const auto& ax = t.column("ax_mps2");
    const auto& ay = t.column("ay_mps2");
    const auto& az = t.column("az_mps2");
    for (std::size_t i = 0; i < t.rows(); ++i) {
        s.inertial.rate_I_radps.push_back({gx[i], gy[i], gz[i]});
        s.inertial.force_I_mps2.push_back({ax[i], ay[i], az[i]});
    }
    if (!with_field) return s;
    const auto& mx = t.column("mx_uT");
    const auto& my = t.column("my_uT");
    const auto& mz = t.column("mz_uT");
    for (std::size_t i = 0; i < t.rows(); ++i)
        if (std::isfinite(mx[i] + my[i] + mz[i]))
            s.field.push_back({s.inertial.time_s[i], {mx[i], my[i], mz[i]}});
    return s;
}

// What moves the mean inclination of all trials least: the reference lags that much more.
constexpr double kClockShift_s = 0.0018;

/// Errors of one method, or the sums of several trials', in degrees.
struct Row {
    double total = 0, heading = 0, inclination = 0;
    int trials = 0;
    void add(const Row& row) {
        total += row.total;
        heading += row.heading;
        inclination += row.inclination;
        ++trials;
    }
    void print(const char* name) const {
        if (std::string_view(name).starts_with("ours, no"))
            std::printf("  %-27s %6s %7s %11.3f\n", name, "-", "-", inclination / trials);
        else
            std::printf("  %-27s %6.2f %7.2f %11.3f\n", name, total / trials, heading / trials,
                        inclination / trials);
    }
};
std::map<std::string, Row> sums;  // over the trials, by method

/// The rows of a table of published or measured errors that are about a trial.
void printRows(const std::string& file, const std::string& trial) {
    std::ifstream in(file);
    std::string line;
    while (std::getline(in, line)) {
        const std::size_t at = line.find(trial + ",");
        if (at == std::string::npos) continue;
        std::vector<std::string> cells;
        std::stringstream rest(line.substr(at + trial.size() + 1));
        for (std::string cell; std::getline(rest, cell, ',');) cells.push_back(cell);
        if (cells.size() < 4) continue;
        const std::size_t n = cells.size();
        const std::string name = n > 4 ? cells[0] + " " + cells[1] : cells[0];
        const Row row{std::atof(cells[n - 3].c_str()), std::atof(cells[n - 2].c_str()),
                      std::atof(cells[n - 1].c_str()), 1};
        row.print(name.substr(0, 27).c_str());
        sums[name].add(row);
    }
}

void trial(const std::string& imu_file) {
    const std::string truth_file =
        imu_file.substr(0, imu_file.size() - std::string(".imu.csv").size()) + ".truth.csv";
    const figures::NumberTable imu = figures::readNumbers(imu_file);
    const figures::NumberTable truth = figures::readNumbers(truth_file);
    const std::filesystem::path path(imu_file);
    std::string name = path.stem().stem().string();
    if (name.starts_with("broad_")) name = name.substr(6);
    std::printf("%s\n", name.c_str());
    printRows((path.parent_path() / "broad_published_rmse.csv").string(), name);
    printRows((path.parent_path() / "broad_vqf_measured_rmse.csv").string(), name);
    for (const bool with_field : {true, false}) {
        const estimate::Streams streams = streamsOf(imu, with_field);
        const auto start = std::chrono::steady_clock::now();
        const estimate::Solution solution = estimate::smooth(streams);
        const double took =
            std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
        if (solution.states.empty()) {
            std::printf("no solution\n");
            continue;
        }
        figures::Mean total, heading, inclination, in_time;
        std::size_t tilt_in = 0, total_in = 0;
        const auto& w = truth.column("qw");
        for (std::size_t r = 0; r < truth.rows(); ++r) {
            if (truth.column("movement")[r] != 1 || !std::isfinite(w[r])) continue;
            const std::size_t i = 4 * r;
            if (i >= solution.states.size()) break;
            const Quat q(w[r], truth.column("qx")[r], truth.column("qy")[r], truth.column("qz")[r]);
            const estimate::State& s = solution.states[i];
            // The reference's clock against the sensors' is not in the data: with what fits all.
            const double later_s = kClockShift_s - solution.calibration.force_lag_s;
            in_time.add(
                figures::attitudeError(s.q_SI * rotationFromVector(later_s * s.rate_I_radps), q)
                    .inclination_rad);
            const figures::AttitudeError e = figures::attitudeError(s.q_SI, q);
            total.add(e.total_rad);
            heading.add(e.heading_rad);
            inclination.add(e.inclination_rad);
            tilt_in += e.inclination_rad <= 2 * s.tilt_sigma_rad;
            total_in += e.total_rad <= 2 * s.attitude_sigma_rad;
        }
        sums[with_field ? "ours" : "ours, no magnetometer"].add(
            {total.rms() * units::kDegree_rad, heading.rms() * units::kDegree_rad,
             inclination.rms() * units::kDegree_rad, 1});
        const double n = static_cast<double>(total.count) / 100;
        // without a field the heading starts anywhere: only the inclination compares
        if (with_field)
            std::printf("  %-27s %6.2f %7.2f", "ours", total.rms() * units::kDegree_rad,
                        heading.rms() * units::kDegree_rad);
        else
            std::printf("  %-27s %6s %7s", "ours, no magnetometer", "-", "-");
        std::printf(" %11.3f   in 2 sigma: tilt %3.0f %%", inclination.rms() * units::kDegree_rad,
                    static_cast<double>(tilt_in) / n);
        if (with_field) std::printf(", all %3.0f %%", static_cast<double>(total_in) / n);
        std::printf("; %.2f s; clock shifted %.3f\n", took, in_time.rms() * units::kDegree_rad);
    }
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 2) {
        std::fprintf(stderr, "usage: broad_figures FOLDER\n");
        return 2;
    }
    std::vector<std::string> files;
    for (const auto& entry : std::filesystem::directory_iterator(argv[1]))
        if (entry.path().string().ends_with(".imu.csv")) files.push_back(entry.path().string());
    std::sort(files.begin(), files.end());
    std::printf("%-29s %6s %7s %11s   rms errors in degrees, while it moves\n", "", "total",
                "heading", "inclination");
    for (const std::string& file : files) trial(file);
    if (sums.empty()) return 0;
    std::printf("mean of %zu trials (6D and no magnetometer: headings count from the start)\n",
                files.size());
    for (const auto& [name, sum] : sums) sum.print(name.c_str());
    return 0;
}
