#include "viewer/model/document.h"

#include <algorithm>
#include <chrono>
#include <fstream>
#include <thread>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

const std::filesystem::path kData = PLUMBLINE_TEST_DATA;

OpenWish wishOf(std::vector<std::filesystem::path> files) {
    OpenWish wish;
    wish.files = std::move(files);
    return wish;
}

TEST(Document, TheDemoOpensWithItsFigures) {
    const OpenResult result = openNow(OpenWish(), 7);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_TRUE(result.shown->demo);
    EXPECT_FALSE(result.shown->recording());
    EXPECT_EQ(result.shown->revision, 7U);
    const auto& rows = result.shown->outline;
    ASSERT_EQ(rows.size(), result.shown->workspace->routine.figures.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        EXPECT_EQ(rows[i].name, result.shown->workspace->routine.figures[i].name);
        EXPECT_FALSE(rows[i].text.empty()) << rows[i].name;
        if (i > 0) {
            EXPECT_GE(rows[i].start_s, rows[i - 1].stop_s - 1e-9);
        }
    }
    EXPECT_EQ(result.shown->lanes.time_s.size(), result.shown->path().samples.size());
}

TEST(Document, ASecondRoutineIsOpenedBesideTheFirst) {
    const std::filesystem::path folder = std::filesystem::path(testing::TempDir()) / "beside";
    std::filesystem::create_directories(folder);
    for (const char* name : {"sample.aircraft.toml", "sample.site.toml", "sample.weather.toml"}) {
        std::filesystem::copy_file(kData / "files" / name, folder / name,
                                   std::filesystem::copy_options::overwrite_existing);
    }
    const auto write = [&](const char* name, const char* start_y) {
        std::ofstream(folder / name) << "name = \"" << name << R"("
aircraft = "sample.aircraft.toml"
site = "sample.site.toml"
weather = "sample.weather.toml"
[start]
x = "-600 m"
y = ")" << start_y << R"("
height = "200 m"
heading = "crowd-right"
speed = "75 m/s"
fuel = "40 l"
[[figure]]
name = "One"
text = "line level until x 600 m"
)";
        return folder / name;
    };
    const auto a = write("a.routine.toml", "50 m"), b = write("b.routine.toml", "68 m");
    const OpenResult result = openNow(wishOf({a, b}), 3);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_EQ(result.shown->title, "a.routine.toml");
    EXPECT_EQ(result.shown->beside, "b.routine.toml");
    ASSERT_NE(result.shown->source.ghost, nullptr);
    EXPECT_NEAR(scene::apartAt(result.shown->path(), *result.shown->source.ghost, 5).distance_m, 18,
                0.1);
    EXPECT_EQ(result.shown->lanes.apart_m.values.size(), result.shown->lanes.time_s.size());
    EXPECT_EQ(openNow(wishOf({a, b, a}), 3).shown, nullptr);
    EXPECT_EQ(openNow(wishOf({a, folder / "not there.igc"}), 3).shown, nullptr);
    std::filesystem::remove_all(folder);
}

TEST(Document, AVariantIsOpenedAndSaid) {
    OpenWish wish;
    wish.variant.mirror = true;
    wish.variant.floor_m = 500;
    const OpenResult plain = openNow(OpenWish(), 1);
    const OpenResult result = openNow(wish, 2);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_EQ(result.shown->title, plain.shown->title);
    EXPECT_EQ(plain.shown->variant, "");
    EXPECT_EQ(result.shown->variant.find("mirrored, raised "), 0U) << result.shown->variant;
    EXPECT_FALSE(result.shown->remarks.empty());
    const Vec3 start_m = result.shown->path().samples.front().position_S_m;
    EXPECT_EQ(start_m.x, -plain.shown->path().samples.front().position_S_m.x);
    EXPECT_GT(start_m.z, 500);
    Model model;
    show(model, result);
    EXPECT_NE(model.message.text.find(result.shown->variant), std::string::npos);
}

TEST(Document, AVariantThatCannotBeFlownIsAProblem) {
    OpenWish wish;
    wish.variant.ceiling_m = 20;
    const OpenResult result = openNow(wish, 1);
    EXPECT_EQ(result.shown, nullptr);
    ASSERT_EQ(result.problems.size(), 1U);
    EXPECT_EQ(result.problems[0].where.file, "--ceiling");
    OpenWish recording = wishOf({kData / "tracks" / "unmanned_aircraft.csv"});
    recording.variant.mirror = true;
    EXPECT_EQ(openNow(recording, 1).shown, nullptr);
    EXPECT_EQ(openNow(recording, 1).problems.size(), 1U);
}

TEST(Document, ARecordingSaysWhatItDoesNotKnow) {
    const OpenResult result = openNow(wishOf({kData / "tracks" / "unmanned_aircraft.csv"}), 1);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    EXPECT_TRUE(result.shown->recording());
    // 20 m/s in an unknown wind: what the curve tells is not sure enough to be drawn
    for (const path::Sample& sample : result.shown->path().samples)
        ASSERT_FALSE(path::attitudeShown(result.shown->path(), sample));
    EXPECT_EQ(result.shown->outline.size(), 1U);
    EXPECT_LT(result.shown->source.aircraft->geometry.eye_B_m.z, -0.3)
        << "the pilot looks over the fuselage, not out of its middle";
    Model model;
    model.session.view.view = scene::View::Crowd;
    show(model, result);
    EXPECT_EQ(model.session.view.view, scene::View::Chase) << "there is no crowd line";
    Action judge;
    judge.kind = ActionKind::SetView;
    judge.index = static_cast<int>(scene::View::Judge);
    apply(model, judge);
    EXPECT_EQ(model.session.view.view, scene::View::Judge) << "but anybody may look from there";
    EXPECT_NE(model.message.text.find("Attitude"), std::string::npos);
}

TEST(Document, ARecordingThatGoesBelowItsStartIsRaised) {
    const OpenResult result = openNow(wishOf({kData / "tracks" / "paraglider.igc"}), 1);
    ASSERT_NE(result.shown, nullptr) << describe(result.problems);
    double lowest_m = 1e9;
    for (const path::Sample& sample : result.shown->path().samples) {
        lowest_m = std::min(lowest_m, sample.position_S_m.z);
    }
    EXPECT_NEAR(lowest_m, 0, 1e-9) << "nothing of it lies under the ground";
    ASSERT_FALSE(result.shown->warnings.empty());
    EXPECT_NE(result.shown->warnings.back().what.find("raised"), std::string::npos);
    EXPECT_EQ(result.shown->outline[0].name, "paraglider");
}

TEST(Document, WhatCannotBeOpenedSaysWhy) {
    const OpenResult missing = openNow(wishOf({kData / "no_such.routine.toml"}), 1);
    EXPECT_EQ(missing.shown, nullptr);
    ASSERT_FALSE(missing.problems.empty());
    EXPECT_FALSE(missing.problems[0].remedy.empty());

    const OpenResult gone = openNow(wishOf({kData / "no_such.igc"}), 1);
    EXPECT_EQ(gone.shown, nullptr);
    ASSERT_EQ(gone.problems.size(), 1U);
    EXPECT_NE(gone.problems[0].where.file.find("no_such.igc"), std::string::npos);

    const std::filesystem::path junk = std::filesystem::path(testing::TempDir()) / "junk.csv";
    std::ofstream(junk, std::ios::binary) << "\x89PNG\r\n\x1a\n" << std::string(300, '\0');
    EXPECT_EQ(openNow(wishOf({junk}), 1).shown, nullptr);
    EXPECT_FALSE(openNow(wishOf({junk}), 1).problems.empty());

    const OpenResult mixed = openNow(wishOf({"a.routine.toml", "b.igc"}), 1);
    EXPECT_EQ(mixed.shown, nullptr);
    EXPECT_EQ(mixed.problems.size(), 1U);
}

/// What the window's frames do, without the window.
OpenResult taken(Opener& opener) {
    for (;;) {
        if (auto result = opener.take()) return std::move(*result);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
}

TEST(Document, TheNewestWishWins) {
    Opener opener;
    EXPECT_FALSE(opener.busy());
    opener.open(wishOf({kData / "no_such.igc"}));
    opener.open(wishOf({kData / "tracks" / "foot_run.gpx"}));
    EXPECT_TRUE(opener.busy());
    const OpenResult result = taken(opener);
    ASSERT_NE(result.shown, nullptr);
    EXPECT_EQ(result.shown->title, "foot_run");
    EXPECT_EQ(result.shown->revision, 2U);
    EXPECT_FALSE(opener.busy());
    EXPECT_FALSE(opener.take().has_value()) << "a result is taken once";
}

TEST(Document, AnImportTellsHowFarItIs) {
    std::vector<double> shares;
    std::string last;
    openNow(wishOf({kData / "tracks" / "foot_run.gpx"}), 1,
            [&](double share, std::string_view doing) {
                shares.push_back(share);
                last = doing;
            });
    ASSERT_GE(shares.size(), 2U);
    EXPECT_TRUE(std::is_sorted(shares.begin(), shares.end()));
    EXPECT_EQ(shares.back(), 1);

    Opener opener;
    opener.open(wishOf({kData / "tracks" / "foot_run.gpx"}));
    taken(opener);
    EXPECT_EQ(opener.progress().doing, last);
    opener.open(OpenWish());
    taken(opener);
    EXPECT_EQ(opener.progress().share, 0) << "a routine tells nothing, and the last file is past";
}

TEST(Document, AFailureKeepsWhatIsOpen) {
    Model model;
    show(model, openNow(wishOf({kData / "tracks" / "foot_run.gpx"}), 1));
    const auto before = model.shown;
    ASSERT_NE(before, nullptr);
    show(model, openNow(wishOf({kData / "no_such.igc"}), 2));
    EXPECT_EQ(model.shown, before);
    EXPECT_FALSE(model.problems.empty());
    Action dismiss;
    dismiss.kind = ActionKind::DismissMessage;
    apply(model, dismiss);
    EXPECT_TRUE(model.problems.empty());
}

}  // namespace
}  // namespace plumbline::model
