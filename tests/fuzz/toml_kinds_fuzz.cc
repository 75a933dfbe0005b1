// Any bytes as the kinds of TOML files that data_files_fuzz does not read.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/data/pilot_toml.h"
#include "engine/data/rules_toml.h"
#include "engine/score/score.h"
#include "tests/fuzz/expect_reasons.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    expectReasons(data::readPilot(input, "fuzz"));
    expectReasons(data::readRules(input, "fuzz"));
    expectReasons(score::readScore(input, "fuzz"));
    return 0;
}
