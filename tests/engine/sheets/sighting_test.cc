// The workshop's sheet: a bar that is as long as it says, angles that follow from the axis.

#include "engine/sheets/sighting.h"

#include <algorithm>
#include <cmath>

#include "engine/data/sighting_frame.h"
#include "engine/units/units.h"
#include "tests/engine/page/read_back.h"

namespace plumbline::sheets {
namespace {

using test::ReadBack;

std::string sheetOf(const std::optional<review::ZeroLift>& told, page::Paper paper) {
    const data::Aircraft aircraft = load::loadDemo().value().aircraft;
    const page::Fonts fonts;
    return sightingPdf(aircraft, told, "plan 0123 abcd", {paper, &fonts}).value();
}

TEST(Sighting, TheScaleBarIsAHundredMillimetresLong) {
    for (const page::Paper paper : {page::Paper::A4, page::Paper::Letter}) {
        const std::string bytes = sheetOf(std::nullopt, paper);
        EXPECT_TRUE(ReadBack::sound(bytes, "plumbline_sighting.pdf"));
        const ReadBack read(bytes);
        ASSERT_EQ(read.pages(), 1);
        constexpr double kDpi = 300, kPixel_mm = 25.4 / kDpi;
        const ReadBack::Grey grey = read.drawn(0, kDpi);
        // Rows with a dark stretch of that length: as many as the bar is high, and no others.
        int rows = 0;
        for (int y = 0; y < grey.height; ++y) {
            int best = 0, run = 0;
            for (int x = 0; x < grey.width; ++x) {
                run = grey.at(x, y) < 60 ? run + 1 : 0;
                best = std::max(best, run);
            }
            rows += std::fabs(best * kPixel_mm - 100) < 0.2;
        }
        EXPECT_NEAR(rows * kPixel_mm, 1.2, 0.3);
        EXPECT_TRUE(read.says(0, "print at 100 %"));
        EXPECT_TRUE(read.says(0, "no approval to fly"));
    }
}

TEST(Sighting, BarsLieOnTheHorizonWhenTheirLineStandsRight) {
    // By hand: with the axis 2 deg below the datum, level flight of the axis lifts the datum's nose
    // 2 deg, so a level bar points 2 deg down in the aircraft, one for 45 deg up 47 deg.
    const double axis = 2 * units::kDegree_rad;
    EXPECT_NEAR(data::barAngle_rad(0, axis), -2 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(data::barAngle_rad(kPi / 4, axis), -47 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(data::barAngle_rad(-kPi / 4, axis), 43 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(data::barAngle_rad(kPi / 2, axis), 88 * units::kDegree_rad, 1e-12);
    EXPECT_NEAR(data::barAngle_rad(kPi / 2, 0), kPi / 2, 1e-12);
}

TEST(Sighting, AFlightsAxisIsSaidWithItsDoubt) {
    const ReadBack file(sheetOf(std::nullopt, page::Paper::A4));
    EXPECT_TRUE(file.says(0, "as the aircraft file has it")) << file.text(0);
    review::ZeroLift told;
    told.aoa_rad = -1.63 * units::kDegree_rad;
    told.sigma_rad = 0.2 * units::kDegree_rad;
    told.verticals = 11;
    const ReadBack read(sheetOf(told, page::Paper::A4));
    EXPECT_TRUE(read.says(0, "Zero-lift axis 1.6 \u00b10.4\u00b0 above the datum")) << read.text(0);
    EXPECT_TRUE(read.says(0, "11 verticals"));
    EXPECT_TRUE(read.says(0, "+1.6 \u00b10.4\u00b0"));        // level
    EXPECT_TRUE(read.says(0, "\u221288.4 \u00b10.4\u00b0"));  // vertical
    for (const char* words :
         {"2\u00b0 too far towards the wheels", "2\u00b0 too far towards the canopy"})
        EXPECT_TRUE(read.says(0, words)) << words;
}

}  // namespace
}  // namespace plumbline::sheets
