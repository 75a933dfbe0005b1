// Pages made and painted in the background.

#include "viewer/model/brief_desk.h"

#include <chrono>
#include <fstream>
#include <functional>
#include <thread>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

fs::path trialFolder(const char* name) {
    const fs::path folder = fs::path(testing::TempDir()) / name;
    fs::remove_all(folder);
    fs::create_directories(folder);
    for (const char* file : {"marrel.aircraft.toml", "vellmoor.site.toml", "vellmoor.pilot.toml",
                             "vellmoor.weather.toml"})
        fs::copy_file(fs::path(PLUMBLINE_ASSETS) / "demo" / file, folder / file);
    return folder;
}

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
narration = "Out of the west."
text = """
line level 500 m
"""
[[figure]]
name = "Loop"
text = """
pull 360 deg at 4 g
"""
)";

struct Trial {
    fs::path file;
    Model model;
    BriefDesk desk;

    explicit Trial(const char* name) {
        file = trialFolder(name) / "short.routine.toml";
        std::ofstream(file) << kText;
        OpenWish wish;
        wish.files = {file};
        show(model, openNow(wish, 1));
        EXPECT_TRUE(model.shown) << describe(model.problems);
        beginEditing(model.editor, file, kText, false);
        refreshRows(model);
    }
    /// Frames until something is so; a bound against hanging only.
    bool until(const std::function<bool()>& so) {
        for (int i = 0; i < 50000 && !so(); ++i) {
            desk.frame(model, 0.01, 300, 420);
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        return so();
    }
};

int inked(const page::Picture& picture) {
    int count = 0;
    for (std::size_t i = 0; i + 3 < picture.rgba.size(); i += 4)
        if (picture.rgba[i] < 128) ++count;
    return count;
}

TEST(BriefDesk, MakesPagesFirstWithoutAndThenWithWindows) {
    Trial t("plumbline_brief_desk");
    for (int i = 0; i < 50; ++i) t.desk.frame(t.model, 0.1, 300, 420);
    EXPECT_FALSE(t.model.brief.made) << "nothing is made unasked";

    t.model.brief.on = true;
    ASSERT_TRUE(t.until([&] { return t.model.brief.made != nullptr; }));
    EXPECT_EQ(t.model.brief.made->content.outline.acts.size(), 2U);
    ASSERT_TRUE(t.until(
        [&] { return t.model.brief.made->content.narration.flights == brief::Wishes().flights; }));
    const brief::Cue& cue = t.model.brief.made->content.narration.cues.front();
    EXPECT_LE(cue.early_s, cue.late_s);
    EXPECT_GE(cueRows(t.model).front().early_s, 0);

    // The whole page in a room of 300 by 420: A5 is narrower than that.
    t.desk.finish(t.model, 300, 420);
    ASSERT_TRUE(t.model.brief.picture);
    EXPECT_NEAR(t.model.brief.picture->picture.width, 420 * 148 / 210, 2);
    EXPECT_NEAR(t.model.brief.picture->picture.height, 420, 2);
    EXPECT_GT(inked(t.model.brief.picture->picture), 500);
}

TEST(BriefDesk, WordsAloneKeepTheWindowsThatWereFlown) {
    Trial t("plumbline_brief_words");
    t.model.brief.on = true;
    t.desk.finish(t.model, 300, 420);
    ASSERT_TRUE(t.model.brief.made);
    const brief::Cue before = t.model.brief.made->content.narration.cues.front();
    auto changed = std::make_shared<Shown>(*t.model.shown);
    auto workspace = std::make_shared<load::Workspace>(*changed->workspace);
    workspace->routine.figures.front().narration = "Quite other words are said now.";
    changed->workspace = workspace;
    changed->revision = 2;
    t.model.shown = changed;
    // The first thing made of it has its windows already.
    ASSERT_TRUE(t.until([&] { return t.model.brief.made->revision == 2; }));
    const brief::Narration& now = t.model.brief.made->content.narration;
    EXPECT_EQ(now.flights, brief::Wishes().flights);
    EXPECT_EQ(now.cues.front().early_s, before.early_s);
    EXPECT_EQ(now.cues.front().script.words, 6);
}

TEST(BriefDesk, PaperAndSheetChangeWhatIsPainted) {
    Trial t("plumbline_brief_paper");
    t.model.brief.on = true;
    t.model.brief.sheet = 2;
    t.desk.finish(t.model, 300, 420);
    ASSERT_TRUE(t.model.brief.picture);
    EXPECT_EQ(t.model.brief.picture->sheet, 2);
    EXPECT_NEAR(t.model.brief.made->sizes[2].width_mm, 210, 0.01);
    Action paper;
    paper.kind = ActionKind::TogglePaper;
    apply(t.model, paper);
    t.desk.finish(t.model, 300, 420);
    EXPECT_NEAR(t.model.brief.made->sizes[2].width_mm, 215.9, 0.01);
    EXPECT_NEAR(t.model.brief.made->sizes[0].width_mm, 139.7, 0.01);
}

TEST(BriefDesk, ShowsNoOtherRoutinesPagesWhileATextCannotBeFlown) {
    Trial t("plumbline_brief_stand_in");
    t.model.brief.on = true;
    t.desk.finish(t.model, 300, 420);
    ASSERT_TRUE(t.model.brief.made);
    EXPECT_EQ(briefFault(t.model), "");
    t.model.editor.stand_in = "Nothing of this routine can be flown yet";
    t.desk.frame(t.model, 0.1, 300, 420);
    EXPECT_FALSE(t.model.brief.made);
    EXPECT_FALSE(t.model.brief.picture);
    EXPECT_NE(briefFault(t.model), "");
    t.desk.write(t.model);
    EXPECT_TRUE(t.model.message.wrong) << "nor are they written";
}

TEST(BriefDesk, WritesAllPagesBesideTheRoutine) {
    Trial t("plumbline_brief_write");
    t.desk.write(t.model);
    const fs::path folder = t.file.parent_path() / "short-brief";
    EXPECT_EQ(briefFolder(t.model), folder);
    ASSERT_TRUE(t.until([&] {
        return t.model.message.text.find("short-brief") != std::string::npos ||
               t.model.message.wrong;
    }));
    EXPECT_FALSE(t.model.message.wrong) << t.model.message.text;
    for (const char* name :
         {"card.pdf", "cues.pdf", "director.pdf", "captions.vtt", "captions.srt"})
        EXPECT_GT(fs::file_size(folder / name), 40U) << name;
    // One that has no file has no place for them.
    t.model.editor.built_in = true;
    t.desk.write(t.model);
    EXPECT_TRUE(t.model.message.wrong);
}

}  // namespace
}  // namespace plumbline::model
