#include "engine/load/load.h"

#include <filesystem>
#include <fstream>
#include <map>
#include <random>

#include <gtest/gtest.h>

#include "engine/load/demo_name.h"

namespace plumbline::load {
namespace {

constexpr const char* kRoutine = R"(name = "Trial"
aircraft = "a/sample.aircraft.toml"
site = "sample.site.toml"

[start]
x = "-900 m"
height = "120 m"
heading = "crowd-right"
speed = "80 m/s"
fuel = "40 l"

[[figure]]
name = "Level"
text = """
line level until x 0 m
"""
)";

std::string sample(const std::string& name) {
    const system::ReadFile file =
        system::readWholeFile(std::string(PLUMBLINE_TEST_DATA) + "/files/" + name);
    EXPECT_TRUE(file.bytes) << name;
    return file.bytes.value_or("");
}

/// Files of a made-up folder.
class Files {
public:
    Files() {
        files_["show/t.routine.toml"] = kRoutine;
        files_["show/a/sample.aircraft.toml"] = sample("sample.aircraft.toml");
        files_["show/sample.site.toml"] = sample("sample.site.toml");
        files_["show/sample.weather.toml"] = sample("sample.weather.toml");
    }
    std::string& operator[](const std::string& name) { return files_[name]; }
    void remove(const std::string& name) { files_.erase(name); }

    FileSource source() const {
        return [this](const std::filesystem::path& path) {
            const auto found = files_.find(path.generic_string());
            return found == files_.end() ? system::ReadFile{std::nullopt, "no such file"}
                                         : system::ReadFile{found->second, ""};
        };
    }
    Expected<Workspace, Problems> load(const Overrides& overrides = {}) const {
        return loadWorkspace("show/t.routine.toml", overrides, source());
    }

private:
    std::map<std::string, std::string> files_;
};

TEST(Load, ReadsTheFilesBesideTheRoutine) {
    const auto workspace = Files().load();
    ASSERT_TRUE(workspace) << describe(workspace.error());
    EXPECT_EQ(workspace->routine.name, "Trial");
    EXPECT_EQ(workspace->routine_text, kRoutine);
    EXPECT_GT(workspace->aircraft.geometry.wing_area_m2, 0);
    EXPECT_LT(workspace->site.crowd_line_y_m, 0);
    EXPECT_EQ(workspace->weather.temperature_k, 288.15);  // ISO 2533: 15 degC at sea level
    EXPECT_TRUE(workspace->weather.wind.empty());
}

TEST(Load, TakesAMetarInPlaceOfAFile) {
    Files files;
    files["show/t.routine.toml"].insert(
        0, "weather = \"METAR XXXX 271620Z 24012KT CAVOK 24/11 Q1016\"\n");
    const auto workspace = files.load();
    ASSERT_TRUE(workspace) << describe(workspace.error());
    EXPECT_DOUBLE_EQ(workspace->weather.temperature_k, 273.15 + 24);
    EXPECT_DOUBLE_EQ(workspace->weather.qnh_pa, 101600);
    Overrides overrides;
    overrides.weather = "METAR XXXX 271620Z 24012KT CAVOK 05/M02 Q1030";
    const auto other = files.load(overrides);
    ASSERT_TRUE(other) << describe(other.error());
    EXPECT_DOUBLE_EQ(other->weather.temperature_k, 273.15 + 5);
}

TEST(Load, ReadsOnlyTheRoutineAgainWhileItNamesTheSameFiles) {
    Files files;
    const auto before = files.load();
    ASSERT_TRUE(before.has_value());
    files["show/t.routine.toml"] =
        std::string(kRoutine) + "[[figure]]\nname = \"Loop\"\nfigure = \"loop\"\n";
    files.remove("show/sample.site.toml");  // what is not looked at cannot be missed
    const auto again = loadAgain(*before, files.source());
    ASSERT_TRUE(again && again->has_value());
    EXPECT_EQ((*again)->routine.figures.size(), 2U);
    EXPECT_FALSE((*again)->routine.figures[1].elements.empty());
    EXPECT_EQ((*again)->site.name, before->site.name);
    files["show/t.routine.toml"] = "name = ";
    EXPECT_FALSE(loadAgain(*before, files.source()));  // names nothing: all is read, and told, anew
    files["show/t.routine.toml"] = std::string(kRoutine) + "weather = \"sample.weather.toml\"\n";
    const auto wrong = loadAgain(*before, files.source());
    ASSERT_TRUE(wrong &&
                !wrong->has_value());  // a key of a figure, there: the routine's own mistake
}

TEST(Load, ARevisionTellsEveryChange) {
    Files files;
    const std::string first = files.load()->revision();
    EXPECT_EQ(files.load()->revision(), first);
    files["show/sample.site.toml"] += "\n# later\n";
    const auto changed = files.load();
    EXPECT_NE(changed->revision(), first);
    Overrides overrides;
    overrides.weather = "METAR XXXX 271620Z 25008KT CAVOK 21/12 Q1013";
    const std::string windy = files.load(overrides)->revision();
    EXPECT_NE(windy, changed->revision());
    // What is read again by itself has the mark of what is read whole.
    files["show/t.routine.toml"] += "# a remark\n";
    const auto again = loadAgain(*changed, files.source());
    ASSERT_TRUE(again && *again);
    EXPECT_EQ((*again)->revision(), files.load()->revision());
    EXPECT_NE((*again)->revision(), changed->revision());
}

TEST(Load, BuiltInRuleSetsAreThoseOfTheFolderAndAllCanBeRead) {
    EXPECT_EQ(builtInRules().size(), 4U);
    for (const std::string_view name : builtInRules()) {
        Files files;
        std::string& site = files["show/sample.site.toml"];
        site.insert(site.find("floor = "), "rules = [\"" + std::string(name) + "\"]\n");
        const auto workspace = files.load();
        ASSERT_TRUE(workspace.has_value()) << describe(workspace.error());
        ASSERT_EQ(workspace->rules.size(), 1U) << name;
        EXPECT_FALSE(workspace->rules[0].remark.empty());
    }
    Files files;
    std::string& site = files["show/sample.site.toml"];
    site.insert(site.find("floor = "), "rules = [\"performance-zones\"]\n");
    const auto unknown = files.load();
    ASSERT_FALSE(unknown.has_value());
    EXPECT_NE(describe(unknown.error()).find("did you mean performance-zone?"), std::string::npos);
}

TEST(Load, PointsAtTheLineThatNamesAMissingFile) {
    Files files;
    files.remove("show/a/sample.aircraft.toml");
    files.remove("show/sample.site.toml");
    const auto workspace = files.load();
    ASSERT_FALSE(workspace);
    ASSERT_EQ(workspace.error().size(), 2u);
    EXPECT_EQ(workspace.error()[0].where.file, "show/t.routine.toml");
    EXPECT_EQ(workspace.error()[0].where.line, 2);
    EXPECT_NE(workspace.error()[0].what.find("show/a/sample.aircraft.toml"), std::string::npos);
    EXPECT_EQ(workspace.error()[1].where.line, 3);
}

TEST(Load, CollectsTheProblemsOfAllFiles) {
    Files files;
    files["show/a/sample.aircraft.toml"] += "\n[nonsense]\n";
    files["show/sample.site.toml"] = "name = ";
    files["show/t.routine.toml"] += "\n[[figure]]\nname = \"Bad\"\ntext = \"lime level 20 m\"\n";
    const auto workspace = files.load();
    ASSERT_FALSE(workspace);
    std::map<std::string, int> by_file;
    for (const Problem& problem : workspace.error()) ++by_file[problem.where.file];
    EXPECT_EQ(by_file.size(), 3u);
}

TEST(Load, FindsFiguresBesideTheRoutineAndOnTheShelf) {
    Files files;
    files["show/own/dive.figure.toml"] =
        "name = 'Dive'\nabout = 'Down.'\nskill = 'simple'\n"
        "entry = { speed = '60 m/s', height = '300 m', attitude = 'upright' }\n"
        "text = 'line {far}'\n[[parameter]]\nname = 'far'\nvalue = '50 m'\nfrom = '40 m'\n"
        "to = '60 m'\nabout = 'length'\n";
    files["show/t.routine.toml"] +=
        "[[figure]]\nname = 'Own'\nfigure = 'own/dive.figure.toml'\nvalues = { far = '55 m' }\n"
        "[[figure]]\nname = 'Shelf'\nfigure = 'loop'\n";
    const auto workspace = files.load();
    ASSERT_TRUE(workspace) << describe(workspace.error());
    ASSERT_EQ(workspace->routine.figures.size(), 3u);
    EXPECT_EQ(workspace->routine.figures[1].elements.at(0).words, "line 55 m");
    EXPECT_GE(workspace->routine.figures[2].elements.size(), 1u);
}

TEST(Load, SaysWhichFigureIsMissing) {
    Files files;
    files["show/t.routine.toml"] +=
        "[[figure]]\nname = 'Own'\nfigure = 'own/dive.figure.toml'\n"
        "[[figure]]\nname = 'Shelf'\nfigure = 'lop'\n";
    const auto workspace = files.load();
    ASSERT_FALSE(workspace);
    ASSERT_EQ(workspace.error().size(), 2u);
    EXPECT_EQ(
        describe(workspace.error()[0])
            .find("show/t.routine.toml:19:10: figure file \"show/own/dive.figure.toml\" cannot "
                  "be read: no such file"),
        0u)
        << describe(workspace.error()[0]);
    EXPECT_EQ(describe(workspace.error()[1])
                  .find("show/t.routine.toml:22:10: there is no figure \"lop\" on the shelf: did "
                        "you mean loop? the shelf has "),
              0u)
        << describe(workspace.error()[1]);
}

TEST(Load, TheShelfsFiguresAreFreeOfProblems) {
    const std::vector<std::string_view> names = shelfNames();
    ASSERT_FALSE(names.empty());
    for (const std::string_view name : names) {
        const auto text = shelfFigure(name);
        ASSERT_TRUE(text) << name;
        const routine::ReadFigure read = routine::readFigureFile(*text, std::string(name));
        EXPECT_EQ(describe(read.problems), "");
    }
    EXPECT_FALSE(shelfFigure("../demo/demo.routine.toml"));
}

TEST(Load, TellsWhichFilesAreNamedOutsideTheirFolder) {
    Files files;
    ASSERT_TRUE(files.load());
    EXPECT_TRUE(files.load()->outside.empty());
    std::string& routine = files["show/t.routine.toml"];
    routine.replace(routine.find("a/sample"), 8, "../fleet/sample");
    routine.insert(routine.find("[start]"), "music = \"/srv/tunes/waltz.ogg\"\n");
    files["show/../fleet/sample.aircraft.toml"] = sample("sample.aircraft.toml");
    const auto workspace = files.load();
    ASSERT_TRUE(workspace) << describe(workspace.error());
    EXPECT_EQ(workspace->outside,
              (std::vector<std::string>{"/srv/tunes/waltz.ogg", "../fleet/sample.aircraft.toml"}));
    const auto again = loadAgain(*workspace, files.source());
    ASSERT_TRUE(again && *again);
    EXPECT_EQ((*again)->outside, workspace->outside);
}

TEST(Load, SaysThatTheRoutineIsMissing) {
    const auto workspace = loadWorkspace("no/such.routine.toml");
    ASSERT_FALSE(workspace);
    ASSERT_EQ(workspace.error().size(), 1u);
    EXPECT_EQ(workspace.error()[0].where.file, "no/such.routine.toml");
}

}  // namespace
/// In a folder of its own, of which the command line speaks.
struct DemoName : testing::Test {
    const std::filesystem::path before = std::filesystem::current_path();
    const std::filesystem::path folder =
        std::filesystem::temp_directory_path() /
        ("plumbline_demo_name_" + std::to_string(std::random_device{}()));
    DemoName() {
        std::filesystem::create_directory(folder);
        std::filesystem::current_path(folder);
    }
    ~DemoName() override {
        std::filesystem::current_path(before);
        std::filesystem::remove_all(folder);
    }
};

TEST_F(DemoName, MeansTheBuiltInRoutineUnlessAFileHasIt) {
    EXPECT_TRUE(meansDemo("demo"));
    EXPECT_FALSE(meansDemo("demo.routine.toml"));
    std::filesystem::create_directory("demo");
    EXPECT_TRUE(meansDemo("demo")) << "a folder of that name is no routine";
    std::filesystem::remove("demo");
    std::ofstream("demo") << "name = \"x\"";
    EXPECT_FALSE(meansDemo("demo"));
}

}  // namespace plumbline::load
