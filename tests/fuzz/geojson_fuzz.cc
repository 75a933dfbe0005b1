// Any bytes as a site's outlines: added whole, or problems that say something and the site as it
// was.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "engine/base/check.h"
#include "engine/data/site_geojson.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string_view input(reinterpret_cast<const char*>(bytes), size);
    data::Site site;  // where the seeds lie
    site.show_centre.latitude_rad = 0.87;
    site.show_centre.longitude_rad = 0.14;
    const std::size_t before = site.obstacles.size();
    const Problems problems = data::readSiteOutlines(input, "fuzz", site);
    for (const Problem& problem : problems)
        PL_EXPECT(!problem.what.empty() && !problem.remedy.empty());
    if (!problems.empty()) PL_EXPECT(site.obstacles.size() == before);
    PL_EXPECT(std::isfinite(site.crowd_line_y_m));
    return 0;
}
