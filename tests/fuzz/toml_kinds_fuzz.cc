// Any bytes as the kinds of TOML files that data_files_fuzz does not read.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/data/pilot_toml.h"
#include "engine/data/rules_toml.h"
#include "engine/score/score.h"

namespace {

template <class T>
void expectReasons(const plumbline::Expected<T, plumbline::Problems>& read) {
    if (!read) PL_EXPECT(!read.error().empty());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    expectReasons(data::readPilot(input, "fuzz"));
    expectReasons(data::readRules(input, "fuzz"));
    expectReasons(score::readScore(input, "fuzz"));
    return 0;
}
