// plumbline export as its users run it; XML is held against the published schemas by xmllint.
#include <cmath>
#include <cstdlib>
#include <string>

#include <gtest/gtest.h>

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

using test::Commands;

class Exports : public Commands {
protected:
    /// Messages of the validator; empty: valid.
    std::string invalid(const std::string& file, const std::string& schema) const {
        const std::string log = (folder_ / "xmllint.log").string();
        const std::string command =
            "xmllint --nonet --noout --schema '" PLUMBLINE_TEST_DATA "/xsd/" + schema + "' '" +
            (folder_ / file).string() + "' >'" + log + "' 2>&1";
        return std::system(command.c_str()) == 0 ? "" : read("xmllint.log") + "?";
    }
};

TEST_F(Exports, KmlAndGpxAreValidByTheirSchemas) {
    std::string awkward = routine("line level until x 200 m\n");
    awkward.replace(awkward.find("\"Trial\""), 7, "'A <\"show\"> & \xE5\xAE\x99\xE8\xBF\x94'");
    awkward.replace(awkward.find("\"One\""), 5, "'One & <two> \"three\"'");
    write("awkward.routine.toml", awkward);
    std::string undated = read("sample.site.toml");
    const std::size_t at = undated.find("show_time");
    if (at != std::string::npos) undated.erase(at, undated.find('\n', at) - at);
    write("undated.site.toml", undated);
    const std::vector<std::vector<std::string>> flights = {
        {"demo"},
        {"awkward.routine.toml"},
        {"t.routine.toml", "--site", "undated.site.toml"},
        {"paraglider.igc"},
        {"foot_run.gpx"},
        {"unmanned_aircraft.csv"}};
    for (std::vector<std::string> arguments : flights) {
        const std::string name = arguments.front();
        arguments.insert(arguments.begin(), "export");
        for (const auto& [ending, schema] :
             {std::pair("kml", "ogckml22.xsd"), std::pair("gpx", "gpx-1.1.xsd")}) {
            std::vector<std::string> all = arguments;
            all.insert(all.end(), {"-o", std::string("a.") + ending});
            const ProgramRun ran = run(all);
            ASSERT_EQ(ran.exit_code, 0) << name << ran.err;
            EXPECT_EQ(invalid(std::string("a.") + ending, schema), "") << name;
        }
    }
    // The check itself finds what is wrong.
    write("wrong.gpx", "<gpx xmlns=\"http://www.topografix.com/GPX/1/1\"><track/></gpx>");
    EXPECT_NE(invalid("wrong.gpx", "gpx-1.1.xsd"), "");
}

TEST_F(Exports, CsvIsWhatSolveAndImportWrite) {
    ASSERT_EQ(run({"export", "t.routine.toml", "-o", "a.csv"}).exit_code, 0);
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "b.csv"}).exit_code, 0);
    EXPECT_EQ(read("a.csv"), read("b.csv"));
    ASSERT_EQ(run({"export", "t.routine.toml", "-o", "a.csv", "--rate", "7"}).exit_code, 0);
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "b.csv", "--rate", "7"}).exit_code, 0);
    EXPECT_EQ(read("a.csv"), read("b.csv"));
    ASSERT_EQ(run({"export", "paraglider.igc", "-o", "a.csv"}).exit_code, 0);
    ASSERT_EQ(run({"import", "paraglider.igc", "-o", "b.csv"}).exit_code, 0);
    EXPECT_EQ(read("a.csv"), read("b.csv"));
}

TEST_F(Exports, ARoutineIsExportedAsItIsFlown) {
    const ProgramRun ran =
        run({"export", "t.routine.toml", "--mirror", "-o", "a.kml", "--units", "feet"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const std::string kml = read("a.kml");
    EXPECT_NE(kml.find("Trial (mirrored)"), std::string::npos);
    EXPECT_NE(kml.find("656 ft to 656 ft"), std::string::npos);  // 200 m
}

TEST_F(Exports, ARecordingWithoutAttitudeSaysSo) {
    const ProgramRun ran = run({"export", "paraglider.igc", "-o", "a.glb"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.err.find("a.glb: the attitude is not known"), std::string::npos) << ran.err;
    const std::string glb = read("a.glb");
    EXPECT_EQ(glb.substr(0, 4), "glTF");
    EXPECT_EQ(glb.find("rotation"), std::string::npos);
}

TEST_F(Exports, AGpxOfAGpxHasTheSameFixes) {
    ASSERT_EQ(run({"export", "foot_run.gpx", "-o", "a.gpx"}).exit_code, 0);
    ASSERT_EQ(run({"export", "a.gpx", "-o", "b.gpx"}).exit_code, 0);
    const auto points = [this](const std::string& name) {
        const std::string text = read(name);
        return text.substr(text.find("<trkseg>"));
    };
    EXPECT_EQ(points("a.gpx"), points("b.gpx"));
}

TEST_F(Exports, BadInputIsRefusedWithNothingWritten) {
    expectRefused({"export", "t.routine.toml", "-o", "a.obj"}, "a.obj: ");
    expectRefused({"export", "t.routine.toml", "-o", "a"}, "a: ");
    expectRefused({"export", "t.routine.toml", "t.routine.toml", "-o", "a.glb"},
                  "t.routine.toml: one routine at a time");
    expectRefused({"export", "paraglider.igc", "--mirror", "-o", "a.glb"},
                  "paraglider.igc: a recording stays as it was flown");
    expectRefused({"export", "paraglider.igc", "--site", "none.site.toml", "-o", "a.glb"},
                  "none.site.toml: ");
    expectRefused({"export", "paraglider.igc", "--site", "sample.site.toml", "-o", "a.glb"},
                  "sample.site.toml: this site is ");
    expectRefused({"export", "missing.igc", "-o", "a.glb"}, "missing.igc: ");
    expectRefused({"export", "foot_run.gpx", "-o", "foot_run.gpx"},
                  "foot_run.gpx: this is the input");
    expectRefused({"export", "t.routine.toml", "-o", "none/a.glb"},
                  "none/a.glb: cannot be written");
    expectRefused({"export", "t.routine.toml", "--rate", "0", "-o", "a.gpx"}, "--rate: ");
    expectRefused({"export", "t.routine.toml"}, "plumbline export: ");
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "path.csv"}).exit_code, 0);
    expectRefused({"export", "path.csv", "-o", "a.gpx"}, "a.gpx: this recording is in metres");
    EXPECT_EQ(run({"export", "path.csv", "--site", "sample.site.toml", "-o", "a.gpx"}).exit_code,
              0);
    write("bad.aircraft.toml", "model = \"none.glb\"\n" + read("sample.aircraft.toml"));
    std::string model = read("t.routine.toml");
    model.replace(model.find("sample.aircraft"), 15, "bad.aircraft");
    write("model.routine.toml", model);
    expectRefused({"export", "model.routine.toml", "-o", "a.glb"},
                  "none.glb: this aircraft model cannot be used: ");
}

TEST_F(Exports, HelpHasAnExample) {
    const ProgramRun ran = run({"export", "--help"});
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_NE(ran.out.find("plumbline export evening.routine.toml -o evening.glb"),
              std::string::npos);
    EXPECT_NE(run({"--help"}).out.find("export "), std::string::npos);
}

}  // namespace
}  // namespace plumbline
