// Any bytes as a METAR: weather of finite numbers, or problems that say something.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/data/metar.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto read = data::readMetar(input, {"fuzz", 1, 1});
    if (!read) {
        PL_EXPECT(!read.error().empty());
        for (const Problem& problem : read.error())
            PL_EXPECT(!problem.what.empty() && !problem.remedy.empty());
    }
    return 0;
}
