// Any bytes as gzip: unpacked or problems that say something.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/record/gzip.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto read = record::unpackGzip({"fuzz", input});
    if (!read) PL_EXPECT(!read.error().empty());
    return 0;
}
