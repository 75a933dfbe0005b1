// The site of a recording: named, beside it, built in, or none.

#include "viewer/model/site_of.h"

#include <cmath>
#include <fstream>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;
const fs::path kData = PLUMBLINE_TEST_DATA;

/// A folder of its own with the run, whose first fix is at 37.783292, -122.407225.
fs::path folderWithRun(const std::string& name) {
    const fs::path folder = fs::path(testing::TempDir()) / name;
    fs::remove_all(folder);
    fs::create_directories(folder);
    fs::copy_file(kData / "tracks" / "foot_run.gpx", folder / "foot_run.gpx");
    return folder;
}

void writeSite(const fs::path& file, const std::string& name, const std::string& latitude) {
    std::ofstream(file) << "name = \"" << name
                        << "\"\nfloor = \"30 m\"\n[show_centre]\nlatitude = \"" << latitude
                        << " deg\"\nlongitude = \"-122.407225 deg\"\nelevation = \"0 m\"\n"
                           "[show_line]\nbearing = \"90 deg\"\noffset = \"100 m\"\n[crowd_line]\n"
                           "y = \"-100 m\"\nx_min = \"-300 m\"\nx_max = \"300 m\"\n";
}

OpenResult open(const fs::path& file, std::optional<std::string> site = std::nullopt) {
    OpenWish wish;
    wish.files = {file};
    wish.overrides.site_file = std::move(site);
    return openNow(wish, 1);
}

bool says(const Shown& shown, const std::string& words) {
    return describe(shown.warnings).find(words) != std::string::npos;
}

TEST(SiteOf, TheNearestSiteFileBesideARecordingIsItsSite) {
    const fs::path folder = folderWithRun("site_beside");
    writeSite(folder / "a.site.toml", "Two kilometres off", "37.801292");
    writeSite(folder / "b.site.toml", "One kilometre off", "37.792292");
    writeSite(folder / "c.site.toml", "Far off", "39");
    const OpenResult result = open(folder / "foot_run.gpx");
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    const Shown& shown = *result.shown;
    EXPECT_EQ(shown.place, "One kilometre off");
    EXPECT_TRUE(says(shown, "b.site.toml")) << describe(shown.warnings);
    // 0.009 deg of latitude there are 998.9 m: 111 132.95 - 559.85 cos(2 phi) m a degree, the
    // usual series of the meridian's length (WGS 84). South of an eastward show line is -y.
    const Vec3& start_m = shown.path().samples.front().position_S_m;
    EXPECT_NEAR(start_m.x, 0, 1.5);
    EXPECT_NEAR(start_m.y, -998.9, 1.5);

    Model model;
    model.session.view.view = scene::View::Crowd;
    show(model, result);
    EXPECT_EQ(model.session.view.view, scene::View::Crowd);
}

TEST(SiteOf, AFarOrBrokenSiteIsNotUsed) {
    const fs::path folder = folderWithRun("site_far");
    writeSite(folder / "far.site.toml", "Far off", "38.1");
    std::ofstream(folder / "broken.site.toml") << "name = \"x\"\nfloor = 3\n";
    const OpenResult result = open(folder / "foot_run.gpx");
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_EQ(result.shown->place, "");
    EXPECT_FALSE(result.shown->atSite());
    EXPECT_TRUE(says(*result.shown, "broken.site.toml:2:")) << describe(result.shown->warnings);
    EXPECT_EQ(result.shown->path().samples.front().position_S_m.x, 0);
}

TEST(SiteOf, TheNamedSiteGoesFirst) {
    const fs::path folder = folderWithRun("site_named");
    fs::create_directories(folder / "sites");
    writeSite(folder / "a.site.toml", "Beside", "37.784");
    writeSite(folder / "sites" / "b.site.toml", "Named", "37.9");
    const std::string named = (folder / "sites" / "b.site.toml").string();
    EXPECT_EQ(open(folder / "foot_run.gpx", named).shown->place, "Named");
    writeSite(folder / "sites" / "b.site.toml", "Named", "39");
    const OpenResult far = open(folder / "foot_run.gpx", named);
    EXPECT_EQ(far.shown->place, "");
    EXPECT_TRUE(says(*far.shown, "135 km")) << describe(far.shown->warnings);
}

TEST(SiteOf, TheSiteOfTheDemoIsKnown) {
    const fs::path file = fs::path(testing::TempDir()) / "over_the_demo.csv";
    std::ofstream out(file);
    out << "time (s),latitude (deg),longitude (deg),altitude (m)\n";
    for (int i = 0; i < 30; ++i) out << i << ",52.0" << 500 + 5 * i << ",9.05,400\n";
    out.close();
    const OpenResult result = open(file);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_EQ(result.shown->place, "Vellmoor");
    EXPECT_TRUE(says(*result.shown, "Invented")) << "nobody takes it for a field that exists";
    EXPECT_NEAR(result.shown->path().samples.front().position_S_m.z, 280, 1) << "field at 120 m";
}

}  // namespace
}  // namespace plumbline::model
