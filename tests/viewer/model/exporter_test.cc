#include "viewer/model/exporter.h"

#include <chrono>
#include <fstream>
#include <thread>

#include <gtest/gtest.h>

#include "engine/system/whole_file.h"
#include "viewer/model/list.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

class ExporterTest : public testing::Test {
protected:
    void SetUp() override {
        folder_ = fs::path(testing::TempDir()) /
                  ("plumbline_exporter_" +
                   std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    void open(const std::string& track) {
        OpenWish wish;
        if (!track.empty()) wish.files = {fs::path(PLUMBLINE_TEST_DATA) / "tracks" / track};
        model_.shown = openNow(wish, 1).shown;
        ASSERT_TRUE(model_.shown);
    }
    void ask(const std::string& words) {
        model_.list = List();
        model_.list.kind = ListKind::ExportFile;
        model_.list.folder = folder_;
        model_.list.words = words;
    }
    /// What the message says in the end.
    std::string exportAs(const std::string& name) {
        Exporter exporter;
        exporter.begin(model_, folder_ / name);
        while (exporter.busy()) {
            exporter.look(model_);
            std::this_thread::sleep_for(std::chrono::milliseconds(1));
        }
        return model_.message.text;
    }
    std::string read(const std::string& name) {
        return system::readWholeFile(folder_ / name).bytes.value_or("");
    }

    fs::path folder_;
    Model model_;
};

TEST_F(ExporterTest, WithoutAWordEveryFormatIsOffered) {
    open("");
    ask("");
    const std::vector<ListRow> rows = listRows(model_);
    ASSERT_GE(rows.size(), 4u);
    EXPECT_EQ(rows[0].title, "Export as " + model_.shown->title + ".glb");
    EXPECT_EQ(rows[0].action.kind, ActionKind::Export);
    EXPECT_EQ(rows[3].action.files.front().extension(), ".csv");
}

TEST_F(ExporterTest, TheEndingTypedIsTheFormat) {
    open("");
    std::ofstream(folder_ / "show.kml") << "old";
    ask("show.kml");
    const std::vector<ListRow> rows = listRows(model_);
    ASSERT_FALSE(rows.empty());
    EXPECT_EQ(rows[0].title, "Export as show.kml");
    EXPECT_NE(rows[0].detail.find("takes its place"), std::string::npos);
    EXPECT_TRUE(rows.size() < 2 || rows[1].action.kind == ActionKind::ShowList);
}

TEST_F(ExporterTest, WritesWhatIsShown) {
    open("");
    EXPECT_EQ(exportAs("a.glb"), "Exported as a.glb");
    EXPECT_FALSE(model_.message.wrong);
    EXPECT_EQ(read("a.glb").substr(0, 4), "glTF");
    exportAs("a.kml");
    EXPECT_NE(read("a.kml").find("<name>" + model_.shown->title + "</name>"), std::string::npos);
}

TEST_F(ExporterTest, ARecordingKeepsItsPlaces) {
    open("foot_run.gpx");
    exportAs("a.gpx");
    const std::string text = read("a.gpx");
    const std::string file =
        system::readWholeFile(fs::path(PLUMBLINE_TEST_DATA) / "tracks" / "foot_run.gpx")
            .bytes.value_or("");
    // The first fix as logged, height and all, though the picture raises low recordings.
    const auto elevation = [](const std::string& in) {
        const std::size_t point = in.find("<trkpt");
        const std::size_t at = in.find("<ele>", point) + 5;
        return std::stod(in.substr(at, in.find('<', at) - at));
    };
    EXPECT_NEAR(elevation(text), elevation(file), 0.02);
    const std::size_t time = file.find("<time>", file.find("<trkpt"));
    EXPECT_NE(text.find(file.substr(time, 25)), std::string::npos) << file.substr(time, 25);
}

TEST_F(ExporterTest, WhatGoesWrongIsSaid) {
    open("");
    EXPECT_NE(exportAs("none/a.glb").find("a.glb cannot be written"), std::string::npos);
    EXPECT_TRUE(model_.message.wrong);
    EXPECT_NE(exportAs("a.obj").find("a.obj: "), std::string::npos);
    EXPECT_FALSE(fs::exists(folder_ / "a.obj"));
}

}  // namespace
}  // namespace plumbline::model
