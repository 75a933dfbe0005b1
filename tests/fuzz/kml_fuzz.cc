// Any bytes as KML: a log or problems that say something.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/record/kml.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto read = record::readKml({"fuzz", input});
    if (!read) PL_EXPECT(!read.error().empty());
    return 0;
}
