#include "engine/data/aircraft_toml.h"

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/engine/data/file_text.h"

namespace plumbline::data {
namespace {

const std::string& sample() {
    static const std::string text = sampleText("sample.aircraft.toml");
    return text;
}

/// The problems of the sample's aircraft after one change.
std::string problemsWith(const std::string& from, const std::string& to) {
    const auto aircraft = readAircraft(with(sample(), from, to), "a");
    return aircraft.has_value() ? "none" : describe(aircraft.error());
}

TEST(AircraftToml, ReadsTheSample) {
    const auto aircraft = readAircraft(sample(), "s");
    ASSERT_TRUE(aircraft.has_value()) << describe(aircraft.error());
    EXPECT_EQ(aircraft->name, "Marrel 250");
    EXPECT_EQ(aircraft->mass.empty_kg, 500);
    EXPECT_EQ(aircraft->mass.pilot_kg, 85);
    EXPECT_NEAR(aircraft->mass.fuel_capacity_kg, 108, 1e-9);  // 150 l of 0.72 kg/l
    EXPECT_NEAR(aircraft->geometry.eye_B_m.x, -0.55, 1e-15);
    EXPECT_NEAR(aircraft->geometry.eye_B_m.z, -0.62, 1e-15);  // body z is down
    EXPECT_EQ(aircraft->aero.cl_min, -1.2);
    EXPECT_EQ(aircraft->power.max_power_w, 250000);
    EXPECT_EQ(aircraft->power.rated_rpm, 2700);
    EXPECT_NEAR(aircraft->power.bsfc_full_kgpj, 0.33 / 3.6e6, 1e-20);
    EXPECT_NEAR(aircraft->power.idle_fuel_kgps, 6 * 0.72 / 3600, 1e-15);
    EXPECT_NEAR(aircraft->power.idle_power_frac, 0.03, 1e-15);
    EXPECT_TRUE(aircraft->power.clockwise_from_cockpit);
    EXPECT_NEAR(aircraft->power.head_limit_k, 513.15, 1e-9);
    EXPECT_EQ(aircraft->limits.load_min_g, -8);
    EXPECT_NEAR(aircraft->limits.never_exceed_mps, 113.17777777777778, 1e-10);
    EXPECT_NEAR(aircraft->limits.roll_rate_radps, 400 * units::kDegree_rad, 1e-12);
    EXPECT_EQ(aircraft->limits.nose_capture_s, 0.25);  // not in the file
}

TEST(AircraftToml, ReadsTheSightingFrame) {
    const auto plain = readAircraft(sample(), "s");
    ASSERT_TRUE(plain.has_value());
    EXPECT_FALSE(plain->sighting.up_m.has_value());
    const auto fitted =
        readAircraft(with(sample(), "[aero]",
                          "[sighting]\nout = \"3.4 m\"\nup = \"65 cm\"\nbar = \"1 m\"\n[aero]"),
                     "s");
    ASSERT_TRUE(fitted.has_value()) << describe(fitted.error());
    EXPECT_NEAR(fitted->sighting.out_m, 3.4, 1e-12);
    EXPECT_NEAR(fitted->sighting.up_m.value_or(0), 0.65, 1e-12);
    EXPECT_FALSE(fitted->sighting.forward_m.has_value());
    EXPECT_NE(problemsWith("[aero]", "[sighting]\nbar = \"9 m\"\n[aero]"), "none");
}

TEST(AircraftToml, EveryCoefficientMayBeZero) {
    std::string text = sample();
    for (const auto& [from, to] : {std::pair<const char*, const char*>{"cd0 = 0.045", "cd0 = 0"},
                                   {"induced_k = 0.075", "induced_k = 0"},
                                   {"\"1.1 /rad\"", "\"0 /rad\""},
                                   {"cy_max = 0.6", "cy_max = 0"},
                                   {"sideslip_drag = 0.3", "sideslip_drag = 0"},
                                   {"cn_plate = 1.2", "cn_plate = 0"},
                                   {"cd_tail_first = 0.3", "cd_tail_first = 0"},
                                   {"\"250 kW\"", "\"0 kW\""},
                                   {"\"12 g/s\"", "\"0 g/s\""},
                                   {"roll_helix = 0.13", "roll_helix = 0"},
                                   {"\"30 rad/s2\"", "\"0 rad/s2\""},
                                   {"\"0.22 m2\"", "\"0 m2\""}}) {
        const std::string changed = with(text, from, to);
        ASSERT_NE(changed, text) << from;
        text = changed;
    }
    const auto aircraft = readAircraft(text, "zero");
    ASSERT_TRUE(aircraft.has_value()) << describe(aircraft.error());
    EXPECT_EQ(aircraft->power.max_power_w, 0);
}

TEST(AircraftToml, SaysWhereWhatAndHow) {
    // wing_area stands in line 15 of the sample, its value from column 13.
    EXPECT_EQ(problemsWith("\"10.0 m2\"", "\"10.0 m\""),
              "a:15:19: wing_area: 10.0 m is a length, not an area: write an area in m2 or ft2, "
              "such as 10.0 m2\n");
    EXPECT_EQ(
        problemsWith("\"10.0 m2\"", "\"10.0\""),
        "a:15:18: wing_area: 10.0 has no unit: write an area in m2 or ft2, such as 10.0 m2\n");
    EXPECT_EQ(problemsWith("\"10.0 m2\"", "10.0"),
              "a:15:13: wing_area has no unit: write it in quotes with its unit, such as "
              "\"100 m2\"; units: m2 or ft2\n");
    EXPECT_EQ(problemsWith("\"10.0 m2\"", "\"1000 m2\""),
              "a:15:13: wing_area is 1000 m2, which is out of range: give 0.5 m2 to 100 m2\n");
    EXPECT_EQ(problemsWith("wing_area =", "wing_aera ="),
              "a:14:1: wing_area is missing in [geometry]: add it\n"
              "a:15:1: wing_aera is not known in [geometry]: did you mean wing_area?\n");
    EXPECT_EQ(problemsWith("cl_max = 1.3", "cl_max = 13"),
              "a:24:10: cl_max is 13, which is out of range: give a plain number from 0.1 to 5\n");
    EXPECT_EQ(problemsWith("cl_max = 1.3", "cl_max = nan"),
              "a:24:10: cl_max is nan, which is out of range: give a plain number from 0.1 to 5\n");
    EXPECT_EQ(problemsWith("cl_max = 1.3", "cl_max = \"1.3\""),
              "a:24:10: cl_max is a text, not a number: give a plain number from 0.1 to 5\n");
    EXPECT_EQ(problemsWith("\"clockwise\"", "\"clokwise\""),
              "a:53:9: turns: \"clokwise\" is not known: did you mean clockwise?\n");
    EXPECT_EQ(problemsWith("\"160 kt\"", "\"260 kt\""),
              "a:65:1: manoeuvre is above never_exceed: check both against the aircraft's "
              "documents\n");
    EXPECT_EQ(problemsWith("[inertia]", "[inertial]"),
              "a:1:1: [inertia] is missing: add it\n"
              "a:34:2: inertial is not known in the file: did you mean inertia?\n");
    EXPECT_EQ(problemsWith("name = \"Marrel 250\"", "name = \" \""),
              "a:5:8: name is empty: fill it\n");
}

constexpr auto kTurning = R"(
[autorotation]
snap_incidence = "24 deg"
negative_snap_incidence = "-23 deg"
snap_helix = 0.42
snap_rate = "420 deg/s"
snap_speed = "140 kt"
spin_incidence = "45 deg"
inverted_spin_incidence = "-42 deg"
spin_rate = "220 deg/s"
spin_onset = "1.2 s"
[rotation]
roll_inertia = "520 kg m2"
roll_damping = 0.4
net_torque = "60 %"
propeller_inertia = "2 kg m2"
fin_area = "1.1 m2"
control_moment = "5500 N m"
tumble_speed = "90 kt"
)";

TEST(AircraftToml, ReadsWhatSnapsSpinsAndTumblesNeed) {
    EXPECT_FALSE(readAircraft(sample(), "s")->autorotation.known());
    EXPECT_FALSE(readAircraft(sample(), "s")->rotation.known());
    const auto aircraft = readAircraft(sample() + kTurning, "s");
    ASSERT_TRUE(aircraft.has_value()) << describe(aircraft.error());
    const AircraftAutorotation& a = aircraft->autorotation;
    EXPECT_TRUE(a.known());
    EXPECT_NEAR(a.snap_incidence_rad, 24 * units::kDegree_rad, 1e-15);
    EXPECT_NEAR(a.negative_snap_incidence_rad, -23 * units::kDegree_rad, 1e-15);
    EXPECT_EQ(a.snap_helix, 0.42);
    EXPECT_NEAR(a.snap_rate_radps, 420 * units::kDegree_rad, 1e-14);
    EXPECT_NEAR(a.snap_speed_mps, 72.0222222, 1e-6);
    EXPECT_NEAR(a.spin_incidence_rad, 45 * units::kDegree_rad, 1e-15);
    EXPECT_NEAR(a.inverted_spin_incidence_rad, -42 * units::kDegree_rad, 1e-15);
    EXPECT_NEAR(a.spin_rate_radps, 220 * units::kDegree_rad, 1e-14);
    EXPECT_EQ(a.spin_onset_s, 1.2);
    const AircraftRotation& r = aircraft->rotation;
    EXPECT_TRUE(r.known());
    EXPECT_EQ(r.roll_inertia_kgm2, 520);
    EXPECT_EQ(r.roll_damping, 0.4);
    EXPECT_NEAR(r.net_torque_frac, 0.6, 1e-15);
    EXPECT_EQ(r.propeller_inertia_kgm2, 2);
    EXPECT_EQ(r.fin_area_m2, 1.1);
    EXPECT_EQ(r.control_moment_nm, 5500);
    EXPECT_NEAR(r.tumble_speed_mps, 46.3, 1e-9);
}

TEST(AircraftToml, ASnapOrTumbleAboveManoeuvringSpeedIsRefused) {
    const auto problems = [](const char* from, const char* to) {
        const auto aircraft = readAircraft(sample() + with(kTurning, from, to), "a");
        return aircraft.has_value() ? "none" : describe(aircraft.error());
    };
    EXPECT_NE(problems("\"140 kt\"", "\"170 kt\"").find("snap_speed is above manoeuvre"),
              std::string::npos);
    EXPECT_NE(problems("\"90 kt\"", "\"161 kt\"").find("tumble_speed is above manoeuvre"),
              std::string::npos);
    EXPECT_NE(problems("\"5500 N m\"", "\"5500 kg m2\"").find("not a moment"), std::string::npos);
    EXPECT_NE(problems("snap_helix = 0.42\n", "").find("snap_helix is missing"), std::string::npos);
}

TEST(AircraftToml, InvertedTimeMayBeLeftOut) {
    EXPECT_EQ(readAircraft(sample(), "s")->limits.inverted_s, 0);
    const auto given = readAircraft(
        with(sample(), "roll_helix = 0.13\n", "roll_helix = 0.13\ninverted_time = \"2 min\"\n"),
        "s");
    ASSERT_TRUE(given.has_value()) << describe(given.error());
    EXPECT_EQ(given->limits.inverted_s, 120);
}

TEST(AircraftToml, CollectsAllProblems) {
    std::string text = with(sample(), "\"10.0 m2\"", "\"10.0 kt\"");
    text = with(text, "\"2.0 m\"", "\"20 m\"");
    text = with(text, "roll_helix = 0.13\n", "");
    const auto aircraft = readAircraft(text, "a");
    ASSERT_FALSE(aircraft.has_value());
    EXPECT_EQ(aircraft.error().size(), 3u);
}

TEST(AircraftToml, RefusesWhatIsNoTomlFile) {
    for (const std::string& text : {std::string(), std::string("  \n\n"), std::string("name = "),
                                    std::string("\xff\xfe\x00\x01", 4), std::string(100000, '['),
                                    sample().substr(0, sample().size() / 2) + "\""}) {
        const auto aircraft = readAircraft(text, "a");
        ASSERT_FALSE(aircraft.has_value());
        EXPECT_EQ(aircraft.error().size(), 1u);
        EXPECT_EQ(aircraft.error()[0].where.file, "a");
        EXPECT_GT(aircraft.error()[0].where.line, 0);
        EXPECT_GT(aircraft.error()[0].where.column, 0);
    }
    const auto no_key = readAircraft("[=mass]\n", "a");
    ASSERT_FALSE(no_key.has_value());
    EXPECT_EQ(describe(no_key.error()).substr(0, 24), "a:1:2: this is not TOML:");
    // Half a file is TOML still: what is missing is named.
    const auto half = readAircraft(sample().substr(0, sample().find("[inertia]")), "a");
    ASSERT_FALSE(half.has_value());
    EXPECT_EQ(describe(half.error()),
              "a:1:1: [inertia] is missing: add it\na:1:1: [power] is missing: add it\n"
              "a:1:1: [limits] is missing: add it\n");
}

TEST(AircraftToml, RefusesAnyByteChangedToJunkOrStillReads) {
    // No input may do anything but be read or be refused with a place.
    const std::string& text = sample();
    for (std::size_t i = 0; i < text.size(); i += 7)
        for (const char junk : {'\0', '"', '[', '\xff', '='}) {
            std::string changed = text;
            changed[i] = junk;
            const auto aircraft = readAircraft(changed, "a");
            if (aircraft.has_value()) continue;
            for (const Problem& problem : aircraft.error()) EXPECT_GT(problem.where.line, 0);
        }
}

}  // namespace
}  // namespace plumbline::data
