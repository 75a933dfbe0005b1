#include "engine/out/path_csv.h"

#include <chrono>
#include <cmath>
#include <map>
#include <vector>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "engine/record/csv_table.h"
#include "engine/record/read_recording.h"

namespace plumbline::out {
namespace {

// The columns that every reader may rely on, in their order.
constexpr std::string_view kFirstColumns =
    "time_s,x_m,y_m,height_m,qw,qx,qy,qz,airspeed_mps,groundspeed_mps,pitch_deg,roll_deg,"
    "heading_deg,aoa_deg,sideslip_deg,normal_g,lateral_g,axial_g,power_frac,mass_kg,figure,"
    "element,";

struct Table {
    std::vector<std::string> names;
    std::vector<std::vector<std::string>> rows;

    const std::string& text(std::size_t row, const std::string& name) const {
        for (std::size_t i = 0; i < names.size(); ++i)
            if (names[i] == name) return rows.at(row).at(i);
        ADD_FAILURE() << name;
        return names.front();
    }
    double number(std::size_t row, const std::string& name) const {
        const std::optional<double> value = parseDouble(text(row, name));
        EXPECT_TRUE(value) << name << " in row " << row << ": " << text(row, name);
        return value.value_or(std::nan(""));
    }
};

Table tableOf(const std::string& csv) {
    Table table;
    record::LineReader lines(csv);
    record::CsvRow row;
    while (lines.next()) {
        row.split(lines.line(), ',');
        std::vector<std::string> cells;
        for (std::size_t i = 0; i < row.size(); ++i) cells.emplace_back(row.cell(i));
        if (table.names.empty())
            table.names = cells;
        else
            table.rows.push_back(cells);
    }
    return table;
}

/// A vertical circle of 100 m radius at 50 m/s towards crowd right, then level: attitude, rates and
/// load in closed form. Show line towards east.
path::Path loopPath(double rate_hz, double duration_s) {
    constexpr double kRadius_m = 100, kSpeed_mps = 50;
    path::Path path;
    path.name = "loop";
    path.show_line_bearing_rad = kPi / 2;
    path.figures = {{"first loop", 0, duration_s / 2},
                    {"loop, \"again\"", duration_s / 2, duration_s}};
    path.elements = {{0, "pull 360 deg", 3, 0, duration_s / 2},
                     {1, "pull 360 deg", 9, duration_s / 2, duration_s}};
    path.smoke = {{1, 2}};
    const double omega = kSpeed_mps / kRadius_m;
    for (int i = 0; i <= duration_s * rate_hz; ++i) {
        path::Sample s;
        s.time_s = i / rate_hz;
        const double a = omega * s.time_s;
        s.position_S_m = {kRadius_m * std::sin(a), -200, 300 - kRadius_m * std::cos(a)};
        s.velocity_S_mps = kSpeed_mps * Vec3(std::cos(a), 0, std::sin(a));
        s.q_SB =
            quatFromAxes({std::cos(a), 0, std::sin(a)}, {0, -1, 0}, {std::sin(a), 0, -std::cos(a)});
        s.rate_B_radps = {0, omega, 0};
        s.specific_force_B_mps2 = {kGravity_mps2 * std::sin(a), 0,
                                   -omega * kSpeed_mps - kGravity_mps2 * std::cos(a)};
        s.airspeed_mps = kSpeed_mps;
        s.aoa_rad = 0.05;
        s.sideslip_rad = -0.01;
        s.power_frac = 0.75;
        s.mass_kg = 620 - 0.02 * s.time_s;
        s.fuel_kg = 40 - 0.02 * s.time_s;
        s.element = s.time_s < duration_s / 2 ? 0 : 1;
        path.samples.push_back(s);
    }
    return path;
}

TEST(PathCsv, StartsWithTheColumnsOfTheContract) {
    EXPECT_EQ(pathCsv(loopPath(10, 1)).substr(0, kFirstColumns.size()), kFirstColumns);
}

TEST(PathCsv, WritesSignsAsPeopleReadThem) {
    const Table table = tableOf(pathCsv(loopPath(100, 14)));
    EXPECT_EQ(table.number(0, "time_s"), 0);
    EXPECT_EQ(table.number(0, "height_m"), 200);
    EXPECT_NEAR(table.number(0, "heading_deg"), 90, 1e-6);  // crowd right is east here
    EXPECT_NEAR(table.number(0, "pitch_deg"), 0, 1e-6);
    EXPECT_NEAR(table.number(0, "roll_deg"), 0, 1e-6);
    // Pressed into the seat at the bottom: 1 g and v^2/r.
    EXPECT_NEAR(table.number(0, "normal_g"), 1 + 2500.0 / 100 / 9.80665, 1e-6);
    EXPECT_EQ(table.number(0, "groundspeed_mps"), 50);
    EXPECT_EQ(table.number(0, "aoa_deg"), 2.864789);
    EXPECT_EQ(table.text(0, "figure"), "first loop");
    EXPECT_EQ(table.text(700, "figure"), "loop, \"again\"");
    EXPECT_EQ(table.text(0, "element"), "pull 360 deg");
    EXPECT_EQ(table.number(150, "smoke"), 1);
    EXPECT_EQ(table.number(250, "smoke"), 0);
}

TEST(PathCsv, RoundsAndTrimsNumbers) {
    path::Path path = loopPath(10, 1);
    path.samples[0].position_S_m = {-0.00000004, 10, -1234.56789012};
    path.samples[1].position_S_m = {0.05, -0.00000006, 1e12};
    path.samples[2].position_S_m = {999.99999999, -0.1, 100};
    const Table table = tableOf(pathCsv(path));
    EXPECT_EQ(table.text(0, "x_m"), "0");
    EXPECT_EQ(table.text(0, "y_m"), "10");
    EXPECT_EQ(table.text(0, "height_m"), "-1234.5678901");
    EXPECT_EQ(table.text(1, "x_m"), "0.05");
    EXPECT_EQ(table.text(1, "y_m"), "-0.0000001");
    EXPECT_EQ(table.number(1, "height_m"), 1e12);
    EXPECT_EQ(table.text(2, "x_m"), "1000");
    EXPECT_EQ(table.text(2, "y_m"), "-0.1");
    EXPECT_EQ(table.text(2, "height_m"), "100");
}

TEST(PathCsv, HoldsTheHeadingOnVerticalsAndTheSignOfTheQuaternion) {
    path::Path path = loopPath(100, 14);
    for (std::size_t i = 1; i < path.samples.size(); i += 2) path.samples[i].q_SB *= -1.0;
    // One sample exactly on the vertical, at a quarter of the circle.
    path::Sample& up = path.samples[314];
    up.q_SB = Quat(0.5, -0.5, -0.5, -0.5) * rotationX(-kPi / 2);
    const Table table = tableOf(pathCsv(path));
    for (std::size_t i = 1; i < table.rows.size(); ++i) {
        double dot = 0;
        for (const char* c : {"qw", "qx", "qy", "qz"})
            dot += table.number(i, c) * table.number(i - 1, c);
        ASSERT_GT(dot, 0.9) << i;
    }
    EXPECT_EQ(table.text(314, "heading_deg"), table.text(313, "heading_deg"));
    EXPECT_NEAR(table.number(314, "pitch_deg"), 90, 1e-6);
}

TEST(PathCsv, LeavesEmptyWhatIsNotKnown) {
    path::Path path = loopPath(10, 2);
    path.origin = path::Origin::Recording;
    path.known = {false, false, false, false, false, false, false};
    path.clock_offset_s = 36000;
    const Table table = tableOf(pathCsv(path));
    EXPECT_EQ(table.number(3, "time_s"), 36000.3);
    for (const char* c : {"airspeed_mps", "aoa_deg", "sideslip_deg", "normal_g", "lateral_g",
                          "axial_g", "power_frac", "mass_kg", "fuel_kg"})
        EXPECT_EQ(table.text(3, c), "") << c;
    EXPECT_EQ(table.number(3, "attitude_known"), 0);
    EXPECT_EQ(table.number(3, "bank_known"), 0);
}

TEST(PathCsv, IsReadBackAsThePathThatItWas) {
    path::Path path = loopPath(100, 14);
    path.show_line_bearing_rad = 231.7 * kPi / 180;
    path.clock_offset_s = 12.5;
    const auto read = record::readRecording(pathCsv(path), "loop.csv");
    ASSERT_TRUE(read) << describe(read.error());
    EXPECT_TRUE(read->warnings.empty());
    const path::Path& back = read->path;
    EXPECT_TRUE(back.known.attitude && back.known.bank && back.known.airspeed && back.known.load &&
                back.known.power && back.known.fuel);
    EXPECT_NEAR(back.show_line_bearing_rad, path.show_line_bearing_rad, 1e-7);
    EXPECT_EQ(back.clock_offset_s, 12.5);
    ASSERT_EQ(back.samples.size(), path.samples.size());
    // Half of the last printed digit, carried through the unit it is printed in.
    for (std::size_t i = 0; i < back.samples.size(); ++i) {
        const path::Sample &a = path.samples[i], &b = back.samples[i];
        ASSERT_NEAR(a.time_s, b.time_s, 1e-9);
        ASSERT_LT(glm::length(a.position_S_m - b.position_S_m), 1e-7);
        ASSERT_LT(glm::length(a.velocity_S_mps - b.velocity_S_mps), 1e-6);
        ASSERT_LT(glm::length(vectorFromRotation(glm::conjugate(a.q_SB) * b.q_SB)), 1e-9);
        ASSERT_LT(glm::length(a.rate_B_radps - b.rate_B_radps), 1e-7);
        ASSERT_LT(glm::length(a.specific_force_B_mps2 - b.specific_force_B_mps2), 1e-5);
        ASSERT_NEAR(a.airspeed_mps, b.airspeed_mps, 1e-6);
        ASSERT_NEAR(a.aoa_rad, b.aoa_rad, 1e-8);
        ASSERT_NEAR(a.mass_kg, b.mass_kg, 1e-6);
        ASSERT_EQ(a.element, b.element);
    }
    ASSERT_EQ(back.figures.size(), 2u);
    EXPECT_EQ(back.figures[1].name, path.figures[1].name);
    EXPECT_NEAR(back.figures[1].start_s, 7, 0.011);
    EXPECT_NEAR(back.figures[0].stop_s, 7, 0.011);
    EXPECT_NEAR(back.figures[1].stop_s, 14, 1e-9);
    ASSERT_EQ(back.elements.size(), 2u);
    EXPECT_EQ(back.elements[1].figure, 1);
    ASSERT_EQ(back.smoke.size(), 1u);
    EXPECT_NEAR(back.smoke[0].start_s, 1, 1e-9);
    EXPECT_NEAR(back.smoke[0].stop_s, 2, 1e-9);
}

TEST(PathCsv, DoesWithTheFirstColumnsOnly) {
    // What a person with a spreadsheet hands in: no velocity, no rates, no further columns.
    const path::Path path = loopPath(20, 10);
    std::string csv;
    const std::string text = pathCsv(path);
    record::LineReader lines(text);
    record::CsvRow row;
    while (lines.next()) {
        row.split(lines.line(), ',');
        for (std::size_t i = 0; i < 20; ++i) csv += (i > 0 ? "," : "") + std::string(row.cell(i));
        csv += "\n";
    }
    const auto read = record::readRecording(csv, "loop.csv");
    ASSERT_TRUE(read) << describe(read.error());
    EXPECT_TRUE(read->path.elements.empty());
    for (std::size_t i = 2; i + 2 < path.samples.size(); ++i) {
        const path::Sample &a = path.samples[i], &b = read->path.samples[i];
        ASSERT_LT(glm::length(a.velocity_S_mps - b.velocity_S_mps), 0.02) << i;
        ASSERT_LT(glm::length(a.rate_B_radps - b.rate_B_radps), 1e-4) << i;
    }
}

TEST(PathCsv, RefusesADamagedFileWithLineAndColumn) {
    const std::string whole = pathCsv(loopPath(10, 1));
    const auto cut = record::readRecording(whole.substr(0, whole.size() - 100), "cut.csv");
    ASSERT_FALSE(cut);
    EXPECT_EQ(cut.error().front().where.line, 12);
    std::string wrong = whole;
    const std::size_t second_row = whole.find('\n', whole.find('\n') + 1) + 1;
    wrong.replace(wrong.find(',', second_row) + 1, 1, "x");
    const auto bad = record::readRecording(wrong, "wrong.csv");
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().front().where.line, 3);
    EXPECT_EQ(bad.error().front().where.column, 5);
}

TEST(PathCsv, TwelveMinutesTakeWellUnderASecond) {
    const path::Path path = loopPath(100, 720);
    const auto start = std::chrono::steady_clock::now();
    const std::string csv = pathCsv(path);
    const std::chrono::duration<double> wrote = std::chrono::steady_clock::now() - start;
    const auto read = record::readRecording(csv, "long.csv");
    const std::chrono::duration<double> both = std::chrono::steady_clock::now() - start;
    ASSERT_TRUE(read);
    EXPECT_EQ(read->path.samples.size(), 72001u);
    RecordProperty("write_ms", static_cast<int>(wrote.count() * 1000));
    RecordProperty("read_ms", static_cast<int>((both - wrote).count() * 1000));
    EXPECT_LT(wrote.count(), 5);  // loose: a sanitizer build on a busy machine passes too
}

}  // namespace
}  // namespace plumbline::out
