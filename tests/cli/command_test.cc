#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

namespace fs = std::filesystem;
using test::Commands;

/// The columns of a CSV by name, as numbers where they are.
std::map<std::string, std::vector<double>> columnsOf(const std::string& csv) {
    std::map<std::string, std::vector<double>> columns;
    std::vector<std::string> names;
    for (std::size_t at = 0; at < csv.size();) {
        const std::size_t end = std::min(csv.find('\n', at), csv.size());
        std::string line = csv.substr(at, end - at) + ",";
        std::vector<std::string> cells;
        for (std::size_t c = 0; c < line.size();) {
            const std::size_t comma = line.find(',', c);
            cells.push_back(line.substr(c, comma - c));
            c = comma + 1;
        }
        if (names.empty())
            names = cells;
        else
            for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i)
                columns[names[i]].push_back(parseDouble(cells[i]).value_or(std::nan("")));
        at = end + 1;
    }
    return columns;
}

TEST_F(Commands, SolveWritesAPathAtTheRateAsked) {
    const ProgramRun ran = run({"solve", "t.routine.toml", "-o", "t.csv", "--rate", "20"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("One"), std::string::npos);
    EXPECT_NE(ran.out.find(" kt"), std::string::npos);
    auto columns = columnsOf(read("t.csv"));
    const std::vector<double>& x = columns["x_m"];
    ASSERT_GT(x.size(), 100u);
    EXPECT_EQ(x.front(), -600);
    EXPECT_NEAR(x.back(), 200, 1e-6);  // where the text says that the line ends
    EXPECT_NEAR(columns["time_s"][1], 0.05, 1e-12);
    for (std::size_t i = 1; i < x.size(); ++i) {
        ASSERT_GT(columns["time_s"][i], columns["time_s"][i - 1]);
        ASSERT_NEAR(columns["height_m"][i], 200, 0.5);
    }
}

TEST_F(Commands, SolveToStdoutIsOnlyCsv) {
    const ProgramRun ran = run({"solve", "t.routine.toml", "-o", "-"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_EQ(ran.out.substr(0, 15), "time_s,x_m,y_m,");
    EXPECT_NE(ran.err.find("One"), std::string::npos);
}

TEST_F(Commands, SolveTwiceGivesTheSameBytes) {
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "a.csv"}).exit_code, 0);
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "b.csv"}).exit_code, 0);
    EXPECT_EQ(read("a.csv"), read("b.csv"));
}

TEST_F(Commands, SolveSaysWhatCouldNotBeFlownAndWritesTheRest) {
    write("hard.routine.toml",
          routine("pull to up at 6 g\nline up until 300 kt\n"));  // it cannot gain speed there
    const ProgramRun ran = run({"solve", "hard.routine.toml", "-o", "hard.csv"});
    EXPECT_EQ(ran.exit_code, 1) << ran.err;
    EXPECT_NE(ran.out.find("hard.routine.toml:17:1: "), std::string::npos) << ran.out;
    EXPECT_GT(columnsOf(read("hard.csv"))["time_s"].size(), 100u);
}

TEST_F(Commands, UnitsChangeWhatIsPrintedOnly) {
    const ProgramRun feet = run({"solve", "t.routine.toml", "-o", "a.csv", "--units", "feet"});
    const ProgramRun metres = run({"solve", "t.routine.toml", "-o", "b.csv", "--units", "metric"});
    EXPECT_NE(feet.out.find("656 ft"), std::string::npos) << feet.out;  // 200 m
    EXPECT_NE(metres.out.find("200 m"), std::string::npos) << metres.out;
    EXPECT_NE(metres.out.find("270 km/h"), std::string::npos) << metres.out;  // 75 m/s
    EXPECT_EQ(read("a.csv"), read("b.csv"));
}

TEST_F(Commands, SiteAndWeatherCanBeReplaced) {
    std::string site = read("sample.site.toml");
    write("other.site.toml", site);
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "a.csv"}).exit_code, 0);
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "b.csv", "--site", "other.site.toml",
                   "--weather", "METAR XXXX 271620Z 00000KT CAVOK 35/11 Q1000"})
                  .exit_code,
              0);
    auto calm = columnsOf(read("b.csv"));
    // No wind: over the ground as through the air.
    for (std::size_t i = 0; i < calm["time_s"].size(); i += 50)
        ASSERT_NEAR(calm["groundspeed_mps"][i], calm["airspeed_mps"][i], 1e-4);
    EXPECT_NE(read("a.csv"), read("b.csv"));
}

TEST_F(Commands, SolveRefusesBadInput) {
    write("word.routine.toml", routine("lime level 20 m\n"));
    expectRefused({"solve", "word.routine.toml", "-o", "o.csv"}, "word.routine.toml:16:1: ");
    write("unit.routine.toml", routine("line level 20 furlongs\n"));
    expectRefused({"solve", "unit.routine.toml", "-o", "o.csv"}, "unit.routine.toml:16:");
    write("nounit.routine.toml", routine("line level 20\n"));
    expectRefused({"solve", "nounit.routine.toml", "-o", "o.csv"}, "nounit.routine.toml:16:");
    write("half.routine.toml", read("t.routine.toml").substr(0, 200));
    expectRefused({"solve", "half.routine.toml", "-o", "o.csv"}, "half.routine.toml:");
    write("junk.routine.toml", std::string("\x7F"
                                           "ELF\0\1\2\xFF\xFE",
                                           9));
    expectRefused({"solve", "junk.routine.toml", "-o", "o.csv"}, "junk.routine.toml:");
    write("empty.routine.toml", "");
    expectRefused({"solve", "empty.routine.toml", "-o", "o.csv"}, "empty.routine.toml:");
    expectRefused({"solve", "missing.routine.toml", "-o", "o.csv"}, "missing.routine.toml: ");
    fs::remove(folder_ / "sample.site.toml");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv"}, "t.routine.toml:3:1: ");
}

TEST_F(Commands, RefusesWrongOptions) {
    expectRefused({}, "plumbline: ");
    expectRefused({"slove", "t.routine.toml"}, "plumbline: there is no command \"slove\"");
    EXPECT_NE(run({"slove"}).err.find("did you mean solve?"), std::string::npos);
    expectRefused({"solve", "t.routine.toml"}, "plumbline solve: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--colour"}, "plumbline solve: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--rate", "none"}, "--rate: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--rate", "-5"}, "--rate: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--units", "cubits"},
                  "plumbline solve: ");
    expectRefused({"solve", "t.routine.toml", "-o", "no/such/folder/o.csv"},
                  "no/such/folder/o.csv: ");
    expectRefused({"solve", "t.routine.toml", "-o", "."}, ".: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--site", "gone.site.toml"},
                  "gone.site.toml: ");
    expectRefused({"solve", "t.routine.toml", "-o", "o.csv", "--weather", "gone.weather.toml"},
                  "gone.weather.toml: ");
    expectRefused({"check"}, "plumbline check: ");
    expectRefused({"check", "missing.routine.toml", "--json"}, "missing.routine.toml: ");
}

/// Three figures, the first of them in the high show only.
std::string twoShows(std::string routine) {
    const std::size_t figure = routine.find("[[figure]]");
    routine.insert(figure, "[[show]]\nname = \"high\"\n[[show]]\nname = \"flat\"\n");
    return routine +
           "[[figure]]\nname = \"Two\"\nshows = [\"high\"]\nsubstitute = \"Instead\"\n"
           "text = \"pull 360 deg radius 90 m\"\n"
           "[[substitute]]\nname = \"Instead\"\ntext = \"turn left 360 deg bank 60 deg\"\n";
}

TEST_F(Commands, ShowsAreFlownByName) {
    write("s.routine.toml", twoShows(routine("line level until x 200 m\n")));
    const ProgramRun high = run({"solve", "s.routine.toml", "--show", "high", "-o", "high.csv"});
    EXPECT_EQ(high.err, "");
    const ProgramRun flat = run({"solve", "s.routine.toml", "--show", "flat", "-o", "flat.csv"});
    EXPECT_NE(flat.err.find("Instead in place of Two"), std::string::npos) << flat.err;
    EXPECT_NE(flat.out.find("Instead"), std::string::npos);
    const std::vector<double> heights = columnsOf(read("flat.csv"))["height_m"];
    EXPECT_LT(*std::max_element(heights.begin(), heights.end()), 250);
    expectRefused({"solve", "s.routine.toml", "--show", "flatt", "-o", "o.csv"},
                  "--show: the routine has no show \"flatt\"");
    expectRefused({"solve", "t.routine.toml", "--show", "flat", "-o", "o.csv"}, "--show: ");
}

TEST_F(Commands, TheCeilingHoldsInWhatIsWritten) {
    write("s.routine.toml", twoShows(routine("line level until x 200 m\n")));
    const auto highest = [this](const char* ceiling) {
        const ProgramRun ran =
            run({"solve", "s.routine.toml", "--ceiling", ceiling, "-o", "o.csv", "--rate", "500"});
        EXPECT_NE(ran.err.find("stays below"), std::string::npos) << ran.err;
        const std::vector<double> heights = columnsOf(read("o.csv"))["height_m"];
        return *std::max_element(heights.begin(), heights.end());
    };
    EXPECT_GT(highest("400 m"), 370);  // the loop's top: 200 m and two radii
    EXPECT_LE(highest("1150 ft"), 1150 * 0.3048);
    EXPECT_LE(highest("300m"), 300);
    fs::remove(folder_ / "o.csv");
    expectRefused({"solve", "s.routine.toml", "--ceiling", "190 m", "-o", "o.csv"},
                  "--ceiling: no show stays below 190 m, the nearest is flat: ");
    expectRefused({"check", "s.routine.toml", "--show", "high", "--ceiling", "300 m"},
                  "--ceiling: show high does not stay below 300 m: Two reaches ");
}

TEST_F(Commands, TheFloorRaisesWhatIsWritten) {
    const ProgramRun ran = run({"solve", "t.routine.toml", "--floor", "2000 ft", "-o", "high.csv"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.err.find("raised 410 m"), std::string::npos) << ran.err;
    const std::vector<double> heights = columnsOf(read("high.csv"))["height_m"];
    const double lowest_m = *std::min_element(heights.begin(), heights.end());
    EXPECT_GE(lowest_m, 2000 * 0.3048 - 1e-3);
    EXPECT_LE(lowest_m, 2000 * 0.3048 + 0.101);
    EXPECT_NE(run({"check", "t.routine.toml", "--floor", "50 m"}).err.find("not raised"),
              std::string::npos);
}

TEST_F(Commands, MirroredPathsAreMirrored) {
    const std::string calm = "METAR XXXX 271620Z 00000KT CAVOK 15/11 Q1013";
    ASSERT_EQ(run({"solve", "t.routine.toml", "--weather", calm, "-o", "a.csv"}).exit_code, 0);
    ASSERT_EQ(
        run({"solve", "t.routine.toml", "--weather", calm, "--mirror", "-o", "b.csv"}).exit_code,
        0);
    auto plain = columnsOf(read("a.csv"));
    auto mirrored = columnsOf(read("b.csv"));
    ASSERT_EQ(plain["x_m"].size(), mirrored["x_m"].size());
    for (std::size_t i = 0; i < plain["x_m"].size(); ++i) {
        ASSERT_NEAR(mirrored["x_m"][i], -plain["x_m"][i], 1e-9);
        ASSERT_NEAR(mirrored["height_m"][i], plain["height_m"][i], 1e-9);
    }
    const ProgramRun json = run({"check", "t.routine.toml", "--mirror", "--json"});
    EXPECT_NE(json.out.find("\"variant\": \"mirrored\""), std::string::npos);
}

TEST_F(Commands, RefusesWrongVariants) {
    std::vector<std::vector<std::string>> commands = {{"solve", "t.routine.toml", "-o", "o.csv"},
                                                      {"check", "t.routine.toml"}};
#ifdef PLUMBLINE_HAS_VIEWER
    commands.push_back({"picture", "t.routine.toml", "-o", "o.png"});
    commands.push_back({"film", "t.routine.toml", "-o", "o.mp4"});
    commands.push_back({"show", "t.routine.toml"});
#endif
    for (const std::vector<std::string>& command : commands) {
        const auto refused = [&](const std::vector<std::string>& options,
                                 const std::string& start) {
            std::vector<std::string> arguments = command;
            arguments.insert(arguments.end(), options.begin(), options.end());
            expectRefused(arguments, start);
        };
        refused({"--ceiling", "450"}, "--ceiling: ");
        refused({"--ceiling", "low"}, "--ceiling: ");
        refused({"--ceiling", "-5 m"}, "--ceiling: ");
        refused({"--floor", "20 s"}, "--floor: ");
        refused({"--floor", "0 m"}, "--floor: ");
        refused({"--floor", "90000 ft"}, "--floor: ");
        refused({"--floor", "500 m", "--ceiling", "400 m"}, "--ceiling: ");
        refused({"--mirror=left"}, "plumbline " + command.front() + ": ");
    }
}

TEST_F(Commands, NeverWritesOverItsInput) {
    const std::string before = read("t.routine.toml");
    expectRefused({"solve", "t.routine.toml", "-o", "./t.routine.toml"}, "./t.routine.toml: ");
    EXPECT_EQ(read("t.routine.toml"), before);
    expectRefused({"import", "paraglider.igc", "-o", "paraglider.igc"}, "paraglider.igc: ");
}

TEST_F(Commands, CheckExitsByTheWorstFinding) {
    // 200 m high, 50 m beyond the show line, straight on: nothing to find but the fuel left.
    const ProgramRun good = run({"check", "t.routine.toml"});
    EXPECT_EQ(good.exit_code, 0) << good.out << good.err;
    EXPECT_NE(good.out.find("no approval to fly"), std::string::npos);
    write("low.routine.toml", routine("line 10 deg down until height 5 m\npull to level at 3 g\n"));
    const ProgramRun low = run({"check", "low.routine.toml"});
    EXPECT_EQ(low.exit_code, 1) << low.out << low.err;
}

TEST_F(Commands, CheckWritesJson) {
    write("low.routine.toml", routine("line 10 deg down until height 5 m\npull to level at 3 g\n"));
    const ProgramRun ran = run({"check", "low.routine.toml", "--json"});
    EXPECT_EQ(ran.exit_code, 1) << ran.err;
    EXPECT_EQ(ran.out.front(), '{');
    for (const char* key :
         {"\"routine\": \"Trial\"", "\"findings\": [", "\"time_s\": ", "\"caution\""})
        EXPECT_NE(ran.out.find(key), std::string::npos) << key;
}

TEST_F(Commands, ImportWritesRecordingsAsPaths) {
    for (const char* name : {"paraglider.igc", "foot_run.gpx", "unmanned_aircraft.csv"}) {
        const ProgramRun ran = run({"import", name, "-o", "sortie"});
        ASSERT_EQ(ran.exit_code, 0) << name << ran.err;
        auto columns = columnsOf(read("sortie"));
        ASSERT_GT(columns["time_s"].size(), 40u);
        EXPECT_EQ(columns["x_m"].front(), 0);
        EXPECT_TRUE(std::isnan(columns["airspeed_mps"].front()));
        if (std::string_view(name) == "unmanned_aircraft.csv") {  // banks where its path curves
            EXPECT_GT(columns["attitude_sigma_deg"].front(), 90);
            EXPECT_NE(ran.out.find("the bank follows from how the path curves"), std::string::npos);
            continue;
        }
        ASSERT_FALSE(columns["attitude_known"].empty());
        EXPECT_EQ(columns["attitude_known"].front(), 0);
        EXPECT_NE(ran.out.find("not known: attitude"), std::string::npos);
    }
    // The file's own clock, in seconds as logged.
    EXPECT_NEAR(columnsOf(read("sortie"))["time_s"].front(), 195.781, 1e-9);
}

TEST_F(Commands, ImportOpensSensorsWithoutAPlace) {
    std::string csv = "t_s,gx_radps,gy_radps,gz_radps,ax_mps2,ay_mps2,az_mps2\n";
    for (int i = 0; i < 600; ++i) csv += std::to_string(0.01 * i) + ",0,0,0,0,0,-9.80665\n";
    write("still.csv", csv);
    expectRefused({"import", "still.csv", "--mounting", "sideways", "-o", "sortie"}, "--mounting");
    const ProgramRun ran =
        run({"import", "still.csv", "--mounting", "x back, z down", "-o", "sortie"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("not known: place"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("nothing tells north"), std::string::npos) << ran.out;
    auto columns = columnsOf(read("sortie"));
    EXPECT_EQ(columns["place_known"].front(), 0);
    EXPECT_NEAR(columns["normal_g"].back(), 1, 1e-3);
    EXPECT_NEAR(columns["pitch_deg"].back(), 0, 0.5);
}

TEST_F(Commands, ImportExplainsAndTakesAColumnMap) {
    write("shed.csv", "Zeit;A;B;C\n0,5;1;2;3\n1,5;2;2;3\n2,5;3;2;3\n");
    expectRefused({"import", "shed.csv", "-o", "sortie"}, "shed.csv:1");
    write("shed.toml",
          "[columns]\nZeit = \"time in s\"\nA = \"x in m\"\nB = \"y in m\"\nC = \"z in ft\"\n");
    const ProgramRun told =
        run({"import", "shed.csv", "--columns", "shed.toml", "--explain", "-o", "told.toml"});
    ASSERT_EQ(told.exit_code, 0) << told.err;
    EXPECT_NE(read("told.toml").find("\"C\" = \"z in ft\""), std::string::npos);
    const ProgramRun ran = run({"import", "shed.csv", "--columns", "told.toml", "-o", "sortie"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    auto columns = columnsOf(read("sortie"));
    EXPECT_EQ(columns["x_m"].back(), 3);
    EXPECT_NEAR(columns["height_m"].front(), 0.9144, 1e-6);
    EXPECT_EQ(columns["time_s"].front(), 0.5);
    std::filesystem::remove(std::filesystem::path(folder_) / "sortie");
    expectRefused({"import", "shed.csv", "--columns", "missing.toml", "-o", "sortie"},
                  "missing.toml: ");
    write("bad.toml", "[columns]\nZeit = \"time in furlongs\"\n");
    expectRefused({"import", "shed.csv", "--columns", "bad.toml", "-o", "sortie"}, "bad.toml:2:");
}

TEST_F(Commands, ImportReadsWhatSolveWrote) {
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "t.csv"}).exit_code, 0);
    const ProgramRun ran = run({"import", "t.csv", "-o", "again.csv"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_EQ(ran.err, "");
    auto first = columnsOf(read("t.csv"));
    auto again = columnsOf(read("again.csv"));
    for (const auto& [name, values] : first) {
        ASSERT_EQ(again[name].size(), values.size()) << name;
        for (std::size_t i = 0; i < values.size(); ++i)
            if (!std::isnan(values[i])) {
                ASSERT_NEAR(again[name][i], values[i], 2e-6) << name;
            }
    }
}

TEST_F(Commands, ImportRefusesBadInput) {
    expectRefused({"import", "missing.igc", "-o", "sortie"}, "missing.igc: ");
    write("empty.igc", "");
    expectRefused({"import", "empty.igc", "-o", "sortie"}, "empty.igc: ");
    write("junk.gpx", std::string("\x7F"
                                  "ELF\0\1\2\xFF\xFE",
                                  9));
    expectRefused({"import", "junk.gpx", "-o", "sortie"}, "junk.gpx: ");
    write("diary.csv", "dear diary\nnothing today\n");
    expectRefused({"import", "diary.csv", "-o", "sortie"}, "diary.csv: ");
    write("half.gpx", read("foot_run.gpx").substr(0, 5000));
    const ProgramRun half = run({"import", "half.gpx", "-o", "sortie"});
    EXPECT_EQ(half.exit_code, 0) << half.err;  // what stands before the break still counts
    EXPECT_NE(half.err.find("half.gpx:"), std::string::npos);
    std::filesystem::remove(std::filesystem::path(folder_) / "sortie");
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "t.csv"}).exit_code, 0);
    write("half.csv", read("t.csv").substr(0, 10000));
    expectRefused({"import", "half.csv", "-o", "sortie"}, "half.csv:");
    // One bad file of several: nothing is written either.
    expectRefused({"import", "paraglider.igc", "empty.igc", "-o", "sortie"}, "empty.igc: ");
}

TEST_F(Commands, HelpHasAnExample) {
    for (const char* command : {"solve", "check", "import"}) {
        const ProgramRun ran = run({command, "--help"});
        EXPECT_EQ(ran.exit_code, 0);
        EXPECT_NE(ran.out.find(std::string("plumbline ") + command), std::string::npos);
        EXPECT_NE(ran.out.find("Example"), std::string::npos);
        EXPECT_NE(ran.out.find("--units"), std::string::npos);
        EXPECT_EQ(ran.err, "");
        if (std::string(command) == "import") continue;
        for (const char* option :
             {"--show NAME", "--ceiling V", "--floor V", "--mirror", "--site", "--weather"})
            EXPECT_NE(ran.out.find(option), std::string::npos) << option;
    }
    EXPECT_EQ(run({"--help"}).exit_code, 0);
    EXPECT_EQ(run({"--version"}).exit_code, 0);
}

#ifndef PLUMBLINE_HAS_VIEWER
TEST_F(Commands, SaysThatItHasNoViewer) {
    expectRefused({"show", "t.routine.toml"},
                  "plumbline: this program was built without the viewer");
    for (const char* command : {"picture", "film"})
        expectRefused({command, "t.routine.toml"},
                      "plumbline: this program was built without the viewer");
}
#endif

/// Numbers that stand before a unit behind a word: "escape 580 ft" -> 580.
std::vector<double> leastHeights(const std::string& text, const std::string& unit) {
    std::vector<double> heights;
    for (std::size_t at = text.find("complete at"); at != std::string::npos;
         at = text.find("complete at", at + 1)) {
        const std::string line = text.substr(at, text.find('\n', at) - at);
        for (std::size_t u = line.find(unit); u != std::string::npos; u = line.find(unit, u + 1)) {
            const std::size_t from = line.find_last_not_of("0123456789", u - 1) + 1;
            heights.push_back(parseDouble(line.substr(from, u - from)).value_or(std::nan("")));
        }
    }
    return heights;
}

TEST_F(Commands, CheckNeverSaysALeastHeightLowerInFeet) {
    const auto metres = leastHeights(run({"check", "demo"}).out, " m");
    const auto feet = leastHeights(run({"check", "demo", "--units", "feet"}).out, " ft");
    ASSERT_GT(metres.size(), 10U);
    ASSERT_EQ(metres.size(), feet.size());
    for (std::size_t i = 0; i < metres.size(); ++i) {
        EXPECT_EQ(std::fmod(metres[i], 5), 0);
        EXPECT_EQ(std::fmod(feet[i], 10), 0);
        EXPECT_GE(feet[i] * 0.3048, metres[i] - 1e-6);
        EXPECT_LT(feet[i] * 0.3048, metres[i] + 3.05);
    }
}

TEST_F(Commands, MarginsNameTheWorstFlightsAndFlyThemAgain) {
    write("low.routine.toml",
          routine("float to 10 deg down at 0.2 g\nline until height 12 m\npull to "
                  "level at 3 g\nline 200 m\n"));
    const ProgramRun json =
        run({"margins", "low.routine.toml", "--flights", "40", "--seed", "3", "--json"});
    ASSERT_EQ(json.exit_code, 1) << json.err;
    const std::size_t at = json.out.find("\"worst_flights\"");
    ASSERT_NE(at, std::string::npos);
    const std::size_t number = json.out.find("\"flight\": ", at) + 10;
    const std::string flight =
        json.out.substr(number, json.out.find_first_not_of("0123456789", number) - number);
    const ProgramRun again =
        run({"margins", "low.routine.toml", "--seed", "3", "--flight", flight, "-o", "flown.csv"});
    EXPECT_EQ(again.exit_code, 1) << again.err;
    EXPECT_NE(again.out.find("floor"), std::string::npos) << again.out;
    EXPECT_GT(columnsOf(read("flown.csv"))["height_m"].size(), 100U);
    EXPECT_EQ(run({"margins", "low.routine.toml", "--flight", flight}).exit_code, 2);
}

}  // namespace
}  // namespace plumbline
