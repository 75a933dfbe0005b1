// Two hours of a 200 Hz logger as CSV: bytes to streams. For a comparison on the same bytes set
// PLUMBLINE_BENCH_CSV to a file name: it is written there for another reader.

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <string>

#include <benchmark/benchmark.h>

#include "engine/base/number_text.h"
#include "engine/record/csv_log.h"

namespace {

using namespace plumbline;

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

}  // namespace
