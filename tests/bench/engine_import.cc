// Two hours of a 200 Hz logger as CSV: bytes to streams, and twelve minutes and two hours of a
// flight to a path with attitude (the most memory is that of this program: look at one at a time by
// --benchmark_filter). For a comparison on the same bytes set PLUMBLINE_BENCH_CSV to a file name:
// it is written there for another reader.

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <span>
#include <string>

#include <benchmark/benchmark.h>

#include "engine/base/number_text.h"
#include "engine/record/csv_log.h"
#include "engine/record/read_recording.h"
#include "engine/system/parallel.h"

namespace {

using namespace plumbline;

/// The most that this program has held so far; 0 where the system does not tell.
double mostMemory_MB() {
    std::ifstream status("/proc/self/status");
    for (std::string word; status >> word;)
        if (double kilobytes = 0; word == "VmHWM:" && status >> kilobytes) return kilobytes / 1024;
    return 0;
}

std::string twoHours() {
    std::string text =
        "t_s,gx_radps,gy_radps,gz_radps,ax_mps2,ay_mps2,az_mps2,mx_uT,my_uT,mz_uT,lat_deg,lon_deg,"
        "alt_m,vn_mps,ve_mps,vd_mps\n";
    text.reserve(std::size_t{180} << 20);
    std::string fix;
    for (int i = 0; i < 2 * 3600 * 200; ++i) {
        const double t = i * 0.005;
        const double wave = std::sin(t), other = std::cos(1.7 * t);
        text += formatFixed(t, 3);
        for (int c = 0; c < 9; ++c)
            text += "," + formatFixed(c % 2 == 0 ? wave * (c + 1) : other * (c + 1), 5);
        if (i % 40 == 0)
            fix = "," + formatFixed(48 + 1e-3 * wave, 8) + "," + formatFixed(11 + 1e-3 * other, 8) +
                  "," + formatFixed(500 + 20 * wave, 3) + "," + formatFixed(60 * wave, 3) + "," +
                  formatFixed(60 * other, 3) + ",0.123\n";
        text += i % 40 == 0 ? fix : std::string(",,,,,,\n");
    }
    return text;
}

void readTwoHoursOfCsv(benchmark::State& state) {
    const std::string text = twoHours();
    if (const char* file = std::getenv("PLUMBLINE_BENCH_CSV"))
        std::ofstream(file, std::ios::binary) << text;
    std::size_t samples = 0;
    for (auto _ : state) {
        const auto log = record::readCsvLog({"log.csv", text});
        samples = log ? log->sensors.rate_I_radps.size() : 0;
        benchmark::DoNotOptimize(samples);
    }
    state.counters["samples"] = static_cast<double>(samples);
    state.SetBytesProcessed(static_cast<std::int64_t>(text.size()) * state.iterations());
}
BENCHMARK(readTwoHoursOfCsv)->Unit(benchmark::kMillisecond)->UseRealTime();

/// Turns to both sides at 70 m/s, climbing and sinking; sensors without noise, fixes at 5 Hz.
std::string turns(double duration_s) {
    std::string text =
        "t_s,gx_radps,gy_radps,gz_radps,ax_mps2,ay_mps2,az_mps2,lat_deg,lon_deg,alt_m,vn_mps,"
        "ve_mps,vd_mps\n";
    constexpr double kSpeed_mps = 70, kStep_s = 0.005, kMetresADegree = 111200;
    double heading_rad = 0, north_m = 0, east_m = 0;
    const auto count = static_cast<int>(duration_s / kStep_s);
    for (int i = 0; i < count; ++i) {
        const double t = i * kStep_s;
        const double bank = 0.95 * std::sin(t * 2 * kPi / 23);
        const double roll_rate = 0.95 * 2 * kPi / 23 * std::cos(t * 2 * kPi / 23);
        const double turn = kGravity_mps2 * std::tan(bank) / kSpeed_mps;
        const double row[] = {t, roll_rate, turn * std::sin(bank),          turn * std::cos(bank),
                              0, 0,         -kGravity_mps2 / std::cos(bank)};
        for (const double value : row) text += formatFixed(value, 5) + ",";
        text.pop_back();
        const double north_mps = kSpeed_mps * std::cos(heading_rad);
        const double east_mps = kSpeed_mps * std::sin(heading_rad);
        if (i % 40 == 0)
            text += "," + formatFixed(48 + north_m / kMetresADegree, 8) + "," +
                    formatFixed(11 + east_m / kMetresADegree / std::cos(48 * kPi / 180), 8) +
                    ",500," + formatFixed(north_mps, 3) + "," + formatFixed(east_mps, 3) + ",0\n";
        else
            text += ",,,,,,\n";
        heading_rad += turn * kStep_s;
        north_m += north_mps * kStep_s;
        east_m += east_mps * kStep_s;
    }
    return text;
}

/// The whole import of so many minutes, as the command does it.
void importWithAttitude(benchmark::State& state) {
    const std::string text = turns(60 * static_cast<double>(state.range(0)));
    record::Wishes wishes;
    wishes.run = system::parallel(2);
    wishes.at_once = 2;
    const record::NamedBytes input{"log.csv", text};
    double samples = 0;
    for (auto _ : state) {
        const auto track = record::readRecordings(std::span(&input, 1), wishes);
        samples = track ? static_cast<double>(track->path.samples.size()) : 0;
    }
    state.counters["samples"] = samples;
    state.counters["most_MB"] = mostMemory_MB();
}
BENCHMARK(importWithAttitude)->Arg(12)->Arg(120)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
