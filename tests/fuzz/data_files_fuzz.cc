// Any bytes as each kind of data file: no crash, and problems that say something.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/data/aircraft_toml.h"
#include "engine/data/metar.h"
#include "engine/data/site_toml.h"
#include "engine/data/weather_toml.h"
#include "engine/routine/routine.h"
#include "tests/fuzz/expect_reasons.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    expectReasons(data::readAircraft(input, "fuzz"));
    expectReasons(data::readSite(input, "fuzz"));
    expectReasons(data::readWeather(input, "fuzz"));
    expectReasons(data::readMetar(input, {"fuzz", 1, 1}));
    for (const Problem& problem : routine::readRoutine(input, "fuzz").problems) {
        PL_EXPECT(!problem.what.empty());
    }
    return 0;
}
