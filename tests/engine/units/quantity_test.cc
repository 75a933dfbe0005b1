#include "engine/units/quantity.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline::units {
namespace {

TEST(ParseQuantity, ReturnsSi) {
    const struct {
        const char* text;
        Dimension dimension;
        double si;
    } rows[] = {{"95 s", Dimension::Time, 95},
                {"95s", Dimension::Time, 95},
                {" 1.5 min ", Dimension::Time, 90},
                {"450m", Dimension::Length, 450},
                {"1500 ft", Dimension::Length, 457.2},
                {"-150 m", Dimension::Length, -150},
                {"\u2212150 m", Dimension::Length, -150},
                {"1.2 km", Dimension::Length, 1200},
                {"60 kt", Dimension::Speed, 30.866666666666667},
                {"90 km/h", Dimension::Speed, 25},
                {"100 mph", Dimension::Speed, 44.704},
                {"30 deg", Dimension::Angle, 0.52359877559829887},
                {"6 g", Dimension::Load, 6},
                {"6g", Dimension::Load, 6},
                {"12 g/s", Dimension::LoadRate, 12},
                {"70 %", Dimension::Ratio, 0.7},
                {"70%", Dimension::Ratio, 0.7},
                {"100 lb", Dimension::Mass, 45.359237},
                {"60 l", Dimension::Volume, 0.06},
                {"10.0 m2", Dimension::Area, 10},
                {"10 m\u00b2", Dimension::Area, 10},
                {"900  kg   m2", Dimension::Inertia, 900},
                {"0.72 kg/l", Dimension::Density, 720},
                {"19 degC", Dimension::Temperature, 292.15},
                {"-40 degF", Dimension::Temperature, 233.15},
                {"1016 hPa", Dimension::Pressure, 101600},
                {"250 kW", Dimension::Power, 250000},
                {"4.6 /rad", Dimension::PerAngle, 4.6},
                {"0.36 kg/kWh", Dimension::SpecificConsumption, 1e-7},
                {"3.6 l/h", Dimension::VolumeFlow, 1e-6},
                {"2700 rpm", Dimension::RotationSpeed, 2700},
                {"1e3 m", Dimension::Length, 1000}};
    for (const auto& row : rows) {
        const auto result = parseQuantity(row.text, row.dimension);
        ASSERT_TRUE(result.has_value()) << row.text << ": " << result.error().what;
        EXPECT_NEAR(*result, row.si, 1e-13 * std::fabs(row.si)) << row.text;
    }
}

TEST(ParseQuantity, SaysWhatIsWrongAndWhichUnitsFit) {
    const struct {
        const char* text;
        Dimension dimension;
        std::size_t offset;
        const char* what;
        const char* remedy;
    } rows[] = {
        {"450", Dimension::Length, 3, "450 has no unit",
         "write a length in m, ft, km, cm or NM, such as 450 m"},
        {"60 kt", Dimension::Length, 3, "60 kt is a speed, not a length",
         "write a length in m, ft, km, cm or NM, such as 60 m"},
        {"60 kts", Dimension::Speed, 3, "\"kts\" is no unit known here",
         "did you mean kt? write a speed in m/s, kt, km/h, mph or ft/min, such as 60 m/s"},
        {"", Dimension::Time, 0, "there is nothing here",
         "write a time as a number with its unit, such as 10 s"},
        {"fast", Dimension::Speed, 0, "\"fast\" does not start with a number",
         "write a speed as a number with its unit, such as 10 m/s"},
        {"1,5 m", Dimension::Length, 1, "a comma within a number",
         "write the decimals after a point, thousands without mark"},
        {"1e999 m", Dimension::Length, 0, "1e999 is too large a number",
         "write a length as a number with its unit, such as 10 m"},
        {"5 \xff\xfe", Dimension::Load, 2, "\"\xff\xfe\" is no unit known here",
         "write a load in g, such as 5 g"},
    };
    for (const auto& row : rows) {
        const auto result = parseQuantity(row.text, row.dimension);
        ASSERT_FALSE(result.has_value()) << row.text;
        EXPECT_EQ(result.error().offset, row.offset) << row.text;
        EXPECT_EQ(result.error().what, row.what);
        EXPECT_EQ(result.error().remedy, row.remedy);
    }
    for (const char* bad : {"nan m", "inf m", "- m", ". m", "5 m m", "5 6 m", "--5 m", "0x5 m"})
        EXPECT_FALSE(parseQuantity(bad, Dimension::Length).has_value()) << bad;
}

TEST(Units, MatchTheNistTable) {
    // NIST SP 811 (2008), appendix B.8, printed to 7 digits; exact ones in full.
    EXPECT_EQ(kStatuteMile_m, 1609.344);
    EXPECT_NEAR(kKnot_mps, 0.5144444, 5e-8);
    EXPECT_NEAR(kMilePerHour_mps, 0.44704, 1e-16);
    EXPECT_NEAR(kInchOfMercury_pa, 3386.389, 5e-4);
    EXPECT_NEAR(kHorsepower_w, 745.6999, 5e-5);
    EXPECT_NEAR(kMetricHorsepower_w, 735.4988, 5e-5);
    EXPECT_NEAR(kUsGallon_m3, 3.785412e-3, 5e-10);
    EXPECT_NEAR(kFahrenheitZero_k, 255.3722, 5e-5);
}

TEST(Format, ShowsWhatPeopleRead) {
    EXPECT_EQ(formatHeight(341.4, DisplayUnits::Metric), "341 m");
    EXPECT_EQ(formatHeight(304.8, DisplayUnits::Feet), "1000 ft");
    EXPECT_EQ(formatHeight(303.3, DisplayUnits::Feet), "995 ft");
    EXPECT_EQ(formatHeight(353.0, DisplayUnits::Feet), "1160 ft") << "1158 ft, in steps of ten";
    EXPECT_EQ(formatHeight(304.8, DisplayUnits::Aviation), "305 m");
    EXPECT_EQ(formatHeight(-0.4, DisplayUnits::Metric), "0 m");
    EXPECT_EQ(formatDistance(-149.6), "\u2212150 m");
    EXPECT_EQ(formatSpeed(50, DisplayUnits::Metric), "180 km/h");
    EXPECT_EQ(formatSpeed(50, DisplayUnits::Aviation), "97 kt");
    EXPECT_EQ(formatLoad(6.04), "+6.0 g");
    EXPECT_EQ(formatLoad(-2.96), "\u22123.0 g");
    EXPECT_EQ(formatLoad(-0.04), "+0.0 g");
    EXPECT_EQ(formatTime(0), "0:00");
    EXPECT_EQ(formatTime(247.99), "4:07");
    EXPECT_EQ(formatTime(59.9999999), "1:00");
    EXPECT_EQ(formatTime(-75), "\u22121:15");
    EXPECT_EQ(formatAngle(kPi / 4), "45 deg");
    EXPECT_EQ(formatHeading(70 * kDegree_rad), "070");
    EXPECT_EQ(formatHeading(0), "360");
    EXPECT_EQ(formatHeading(359.7 * kDegree_rad), "360");
    EXPECT_EQ(formatHeading(200 * kDegree_rad), "200");
    EXPECT_EQ(formatSpeed(std::nan(""), DisplayUnits::Metric), "not known");
    EXPECT_EQ(formatTime(std::nan("")), "not known");
    EXPECT_EQ(formatLoad(std::nan("")), "not known");
}

}  // namespace
}  // namespace plumbline::units
