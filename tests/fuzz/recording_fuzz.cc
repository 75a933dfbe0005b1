// Any bytes as a recording: no crash, and what comes back is a path of finite numbers at rising
// times or problems that say something.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/record/read_recording.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    const auto track = record::readRecording(input, "fuzz");
    if (!track) {
        PL_EXPECT(!track.error().empty());
        for (const Problem& problem : track.error()) PL_EXPECT(!problem.what.empty());
        return 0;
    }
    const auto& samples = track->path.samples;
    PL_EXPECT(samples.size() >= 2);
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const Vec3& position = samples[i].position_S_m;
        PL_EXPECT(std::isfinite(position.x + position.y + position.z));
        if (i > 0) PL_EXPECT(samples[i - 1].time_s < samples[i].time_s);
    }
    return 0;
}
