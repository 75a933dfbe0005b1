// Any bytes as a table: a log or problems that say something; what is explained can be read back.

#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/record/csv_log.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto read = record::readCsvLog({"fuzz", input});
    if (!read) PL_EXPECT(!read.error().empty());
    if (const auto layout = record::findCsvLayout(input)) record::explainLayout(*layout, "fuzz");
    return 0;
}
