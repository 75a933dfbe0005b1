// Any bytes as a column map: a map or problems that say something.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/record/csv_layout.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto read = record::readColumnMap(input, "fuzz");
    if (!read) PL_EXPECT(!read.error().empty());
    return 0;
}
