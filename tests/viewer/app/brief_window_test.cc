// The brief in a window that nobody sees: its columns are drawn, the page is the one asked for.

#include <filesystem>
#include <fstream>

#include <gtest/gtest.h>

#include "viewer/app/stage.h"

namespace plumbline::app {
namespace {

namespace fs = std::filesystem;

constexpr const char* kText = R"(name = "Short"
aircraft = "marrel.aircraft.toml"
site = "vellmoor.site.toml"
weather = "vellmoor.weather.toml"
[start]
x = "-900 m"
y = "30 m"
height = "120 m"
heading = "crowd-right"
speed = "160 kt"
fuel = "45 l"
[[figure]]
name = "Run in"
narration = "Out of the west, and not a word more."
text = "line level 500 m"
[[figure]]
name = "Loop"
text = "pull 360 deg at 4 g"
)";

fs::path trialRoutine() {
    const fs::path folder = fs::path(testing::TempDir()) / "plumbline_brief_window";
    fs::remove_all(folder);
    fs::create_directories(folder);
    for (const char* file : {"marrel.aircraft.toml", "vellmoor.site.toml", "vellmoor.pilot.toml",
                             "vellmoor.weather.toml"})
        fs::copy_file(fs::path(PLUMBLINE_ASSETS) / "demo" / file, folder / file);
    const fs::path file = folder / "short.routine.toml";
    std::ofstream(file) << kText;
    return file;
}

struct Counted {
    int white = 0, dark = 0, all = 0;
};

Counted count(const render::Image& image, const ui::Rect& rect) {
    Counted out;
    for (int y = static_cast<int>(rect.y); y < static_cast<int>(rect.bottom()); ++y)
        for (int x = static_cast<int>(rect.x); x < static_cast<int>(rect.right()); ++x) {
            const std::uint8_t* p =
                image.rgba.data() +
                std::size_t{4} * static_cast<std::size_t>(y * image.width_px + x);
            const int grey = (p[0] + p[1] + p[2]) / 3;
            ++out.all;
            if (grey > 250) ++out.white;
            if (grey < 60) ++out.dark;
        }
    return out;
}

TEST(BriefWindow, DrawsAPageBesideThePicture) {
    auto surface = platform::Offscreen::create();
    ASSERT_TRUE(surface) << surface.error();
    auto made = Stage::create((*surface)->loader());
    ASSERT_TRUE(made) << made.error();
    Stage& stage = **made;
    model::OpenWish wish;
    wish.files = {trialRoutine()};
    ASSERT_TRUE(stage.openAndWait(wish)) << describe(stage.model().problems);
    constexpr int kWidth = 1280, kHeight = 720;
    const render::OffscreenTarget target(kWidth, kHeight);
    target.bind();
    const auto draw = [&] {
        for (int i = 0; i < 2; ++i) stage.frame(kWidth, kHeight, 1, 0);
        return target.read();
    };
    ui::LayoutWish shape;
    shape.brief = true;
    const ui::Layout layout = ui::layoutOf(kWidth, kHeight, shape);
    const ui::Rect room = ui::pageRoom(layout);
    EXPECT_LT(count(draw(), room).white, count(draw(), room).all / 4) << "the picture";

    stage.model().brief.on = true;
    std::vector<std::uint8_t> before;
    for (int sheet = 0; sheet < 3; ++sheet) {
        stage.model().brief.sheet = sheet;
        const render::Image image = draw();
        const Counted page = count(image, room);
        EXPECT_GT(page.white, page.all / 2) << sheet;
        EXPECT_GT(page.dark, page.all / 200) << "letters and lines, sheet " << sheet;
        EXPECT_NE(image.rgba, before);
        before = image.rgba;
    }
    // The script stands in the column of cues: light letters on the dark sheet.
    const render::Image image = draw();
    int bright = 0;
    for (int y = 60; y < 160; ++y)
        for (int x = 0; x < static_cast<int>(layout.sheet.right()) - 8; ++x)
            if (image.rgba[static_cast<std::size_t>(4 * (y * kWidth + x))] > 180) ++bright;
    EXPECT_GT(bright, 200);
}

}  // namespace
}  // namespace plumbline::app
