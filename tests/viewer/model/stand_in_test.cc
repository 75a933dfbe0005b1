#include "viewer/model/stand_in.h"

#include <gtest/gtest.h>

#include "engine/system/whole_file.h"
#include "viewer/model/keeper.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

/// The demo beside its files, with one text put in place of another.
fs::path demoOnDisk(const char* name, const std::string& from, const std::string& to) {
    const fs::path folder = fs::path(testing::TempDir()) / name;
    fs::remove_all(folder);
    fs::create_directories(folder);
    Model model;
    Keeper keeper("");
    keeper.opened(model, "demo/demo.routine.toml",
                  std::string(load::embeddedAsset("demo/demo.routine.toml").value()), true);
    fs::path file = folder / "demo.routine.toml";
    EXPECT_TRUE(keeper.saveAs(model, file));
    std::string text = model.editor.routineText();
    text.replace(text.find(from), from.size(), to);
    EXPECT_EQ(system::writeWholeFile(file, text), "");
    return file;
}

TEST(StandIn, IsTheRoutineWithoutTheFigureThatIsWrong) {
    const fs::path file =
        demoOnDisk("stand_in_figure", "pull to level at 4 g", "pul to level at 4 g");
    OpenWish wish;
    wish.files = {file};
    const OpenResult result = openNow(wish, 1);
    EXPECT_EQ(result.shown, nullptr);
    ASSERT_EQ(result.problems.size(), 1U);
    ASSERT_TRUE(result.stand_in.shown);
    const std::size_t all = openNow({}, 2).shown->outline.size();
    EXPECT_EQ(result.stand_in.shown->outline.size(), all - 1);
    EXPECT_NE(result.stand_in.words.find("Shown without what is wrong in it: "), std::string::npos);
}

TEST(StandIn, IsTheDemoWhereNothingCanBeFlown) {
    const fs::path file = demoOnDisk("stand_in_all", "vellmoor.site.toml", "nowhere.site.toml");
    OpenWish wish;
    wish.files = {file};
    const OpenResult result = openNow(wish, 1);
    ASSERT_TRUE(result.stand_in.shown);
    EXPECT_NE(result.stand_in.words.find("demo"), std::string::npos);
}

TEST(StandIn, IsNothingWhereThereIsNoText) {
    OpenWish wish;
    wish.files = {fs::path(testing::TempDir()) / "not there.routine.toml"};
    const OpenResult result = openNow(wish, 1);
    EXPECT_FALSE(result.problems.empty());
    EXPECT_EQ(result.stand_in.shown, nullptr);
}

}  // namespace
}  // namespace plumbline::model
