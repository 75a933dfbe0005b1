// A routine that is saved in another folder still flies with the files that it named.

#include "viewer/model/named_files.h"

#include <gtest/gtest.h>

#include "engine/load/load.h"
#include "engine/system/whole_file.h"
#include "viewer/model/editor.h"
#include "viewer/model/keeper.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

class NamedFiles : public testing::Test {
protected:
    void SetUp() override {
        fs::remove_all(home_);
        fs::create_directories(old_);
        fs::create_directories(new_);
    }
    void TearDown() override { fs::remove_all(home_); }
    static void put(const fs::path& file, const std::string& text) {
        ASSERT_EQ(system::writeWholeFile(file, text), "");
    }

    fs::path home_ =
        fs::path(testing::TempDir()) /
        (std::string("named_") + testing::UnitTest::GetInstance()->current_test_info()->name());
    fs::path old_ = home_ / "old place", new_ = home_ / "shows" / "new";
};

TEST_F(NamedFiles, AFileThatStaysBehindIsNamedFromTheNewFolder) {
    put(old_ / "a.aircraft.toml", "x");
    EXPECT_EQ(namedFrom("aircraft = \"a.aircraft.toml\"  # ours\n", old_, new_),
              "aircraft = \"../../old place/a.aircraft.toml\"  # ours\n");
    EXPECT_EQ(namedFrom("  music='a.aircraft.toml'", old_, new_),
              "  music='../../old place/a.aircraft.toml'");
}

TEST_F(NamedFiles, TheSameFileThereIsTakenAnotherOfItsNameIsNot) {
    put(old_ / "a.site.toml", "x");
    put(new_ / "a.site.toml", "x");
    const std::string text = "site = \"a.site.toml\"\n";
    EXPECT_EQ(namedFrom(text, old_, new_), text);
    put(new_ / "a.site.toml", "y");
    EXPECT_EQ(namedFrom(text, old_, new_), "site = \"../../old place/a.site.toml\"\n");
}

TEST_F(NamedFiles, WhatNamesNoFileStaysAsItIs) {
    put(old_ / "a.site.toml", "x");
    const std::string text =
        "name = \"a.site.toml\"\nfigure = \"hammerhead\"\nweather = \"METAR XXXX\"\nsite = "
        "\"a.site\n"
        "site\naircraft = \"/nowhere/b.toml\"\n# site = \"a.site.toml\"\nline up 40 m";
    EXPECT_EQ(namedFrom(text, old_, new_), text);
    EXPECT_EQ(namedFrom("", old_, new_), "");
}

TEST_F(NamedFiles, ARoutineSavedElsewhereFliesAsBefore) {
    Model model;
    Keeper keeper("");
    keeper.opened(model, "demo/demo.routine.toml",
                  std::string(load::embeddedAsset("demo/demo.routine.toml").value()), true);
    ASSERT_TRUE(keeper.saveAs(model, old_ / "demo.routine.toml"));
    ASSERT_TRUE(keeper.saveAs(model, new_ / "demo.routine.toml"));
    EXPECT_FALSE(model.editor.changed());
    const auto loaded = load::loadWorkspace(new_ / "demo.routine.toml");
    ASSERT_TRUE(loaded.has_value());
    EXPECT_EQ(loaded->site.name, load::loadDemo().value().site.name);
    EXPECT_FALSE(fs::exists(new_ / "vellmoor.site.toml"));
}

}  // namespace
}  // namespace plumbline::model
