#include "engine/system/whole_file.h"

#include <chrono>
#include <fstream>

#include <gtest/gtest.h>
#if !defined(_WIN32)
#include <sys/stat.h>
#endif

#include "engine/system/cut_off_note.h"

namespace plumbline::system {
namespace {

namespace fs = std::filesystem;

class WholeFile : public testing::Test {
protected:
    void SetUp() override {
        folder_ = fs::path(testing::TempDir()) /
                  ("whole_file_" +
                   std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
        fs::remove_all(folder_);
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }

    std::size_t filesInFolder() const {
        return static_cast<std::size_t>(
            std::distance(fs::directory_iterator(folder_), fs::directory_iterator()));
    }

    fs::path folder_;
};

TEST_F(WholeFile, ReadsBackWhatItWrote) {
    const std::string bytes("a\0b\r\n\xFF", 6);
    EXPECT_EQ(writeWholeFile(folder_ / "a.bin", "older and longer than what follows"), "");
    EXPECT_EQ(writeWholeFile(folder_ / "a.bin", bytes), "");
    EXPECT_EQ(readWholeFile(folder_ / "a.bin").bytes, bytes);
    EXPECT_EQ(filesInFolder(), 1u);
}

TEST_F(WholeFile, TellsWhichNamesLeaveTheirFolder) {
    for (const char* inside : {"a.toml", "below/a.toml", "below/../a.toml", "./a.toml", "..a.toml"})
        EXPECT_TRUE(staysInside(inside)) << inside;
    for (const char* outside : {"../a.toml", "below/../../a.toml", "/etc/hostname", ".."})
        EXPECT_FALSE(staysInside(outside)) << outside;
}

TEST_F(WholeFile, SaysWhyItCannotRead) {
    const ReadFile missing = readWholeFile(folder_ / "missing");
    EXPECT_FALSE(missing.bytes);
    EXPECT_FALSE(missing.reason.empty());
    EXPECT_EQ(readWholeFile(folder_).reason, "it is a folder");
}

TEST_F(WholeFile, PiecesBecomeOneFile) {
    int left = 3;
    const auto next = [&left]() -> std::string_view {
        return left-- > 0 ? std::string_view("abc").substr(0, static_cast<std::size_t>(left) + 1)
                          : std::string_view();
    };
    EXPECT_EQ(writeWholeFile(folder_ / "pieces", next), "");
    EXPECT_EQ(readWholeFile(folder_ / "pieces").bytes, "abcaba");
}

TEST_F(WholeFile, LeavesNothingWhereItCannotWrite) {
    EXPECT_NE(writeWholeFile(folder_ / "no" / "such" / "folder", "x"), "");
    EXPECT_EQ(writeWholeFile(folder_, "x"), "it is a folder");
    EXPECT_EQ(filesInFolder(), 0u);
}

TEST_F(WholeFile, SeveralFilesAreWrittenAllOrNone) {
    const fs::path into = folder_ / "new" / "folder";
    EXPECT_EQ(writeWholeFiles(into, {{"a", "one"}, {"b", "two"}}), "");
    EXPECT_EQ(readWholeFile(into / "a").bytes, "one");
    EXPECT_EQ(readWholeFile(into / "b").bytes, "two");
    // A folder stands where the second file wants to: the first stays as it was.
    fs::create_directory(into / "c");
    EXPECT_NE(writeWholeFiles(into, {{"a", "other"}, {"c", "two"}}), "");
    EXPECT_EQ(readWholeFile(into / "a").bytes, "one");
    EXPECT_EQ(std::distance(fs::directory_iterator(into), fs::directory_iterator()), 3);
    // No folder can be made within a file.
    EXPECT_NE(writeWholeFiles(into / "a", {{"x", "y"}}), "");
    EXPECT_NE(writeWholeFiles(folder_ / "none", {{"no/such/name", "y"}}), "");
    EXPECT_FALSE(fs::exists(folder_ / "none"));
}

TEST_F(WholeFile, WhatAKilledRunLeftGoesWithTheNextWrite) {
    const auto leave = [&](const char* name, int minutes_ago) {
        std::ofstream(folder_ / name) << "half";
        fs::last_write_time(folder_ / name,
                            fs::file_time_type::clock::now() - std::chrono::minutes(minutes_ago));
    };
    leave("a.csv.part1234", 60);
    leave("a.csv.part99", 0);       // of a run that may still write
    leave("a.csv.part", 60);        // somebody's own
    leave("a.csv.part12.bak", 60);  // likewise
    leave("other.csv.part12", 60);  // of a file that is not written here
    EXPECT_EQ(writeWholeFile(folder_ / "a.csv", "new"), "");
    EXPECT_FALSE(fs::exists(folder_ / "a.csv.part1234"));
    EXPECT_EQ(filesInFolder(), 5u);
    EXPECT_EQ(writeWholeFiles(folder_, {{"a.csv", "newer"}, {"other.csv", "too"}}), "");
    EXPECT_FALSE(fs::exists(folder_ / "other.csv.part12"));
    EXPECT_EQ(filesInFolder(), 5u);
}

TEST_F(WholeFile, TheNoteOfARunThatWasCutOffGoesOnceAllIsWritten) {
    std::ofstream(folder_ / kCutOffNote) << "cut off";
    fs::create_directory(folder_ / "b");
    EXPECT_NE(writeWholeFiles(folder_, {{"a", "1"}, {"b", "2"}}), "");
    EXPECT_TRUE(fs::exists(folder_ / kCutOffNote));  // the files of before are as they were
    EXPECT_EQ(writeWholeFiles(folder_, {{"a", "1"}, {"c", "2"}}), "");
    EXPECT_FALSE(fs::exists(folder_ / kCutOffNote));
}

#if !defined(_WIN32)  // where permissions are lists and links are for administrators

TEST_F(WholeFile, KeepsPermissions) {
    ASSERT_EQ(writeWholeFile(folder_ / "a", "old"), "");
    fs::permissions(folder_ / "a", fs::perms::owner_read | fs::perms::owner_write);
    ASSERT_EQ(writeWholeFile(folder_ / "a", "new"), "");
    EXPECT_EQ(fs::status(folder_ / "a").permissions(),
              fs::perms::owner_read | fs::perms::owner_write);
}

TEST_F(WholeFile, NewFilesHaveTheRightsThatThePersonWants) {
    const mode_t before = ::umask(027);
    const std::string failure = writeWholeFile(folder_ / "a", "new");
    const std::string failures = writeWholeFiles(folder_ / "made", {{"b", "1"}, {"c", "2"}});
    ::umask(before);
    ASSERT_EQ(failure + failures, "");
    const auto rights = [](const fs::path& path) {
        return static_cast<unsigned>(fs::status(path).permissions());
    };
    EXPECT_EQ(rights(folder_ / "a"), 0640U);
    EXPECT_EQ(rights(folder_ / "made"), 0750U);
    EXPECT_EQ(rights(folder_ / "made" / "b"), 0640U);
}

TEST_F(WholeFile, KeepsALink) {
    ASSERT_EQ(writeWholeFile(folder_ / "target", "old"), "");
    fs::create_symlink("target", folder_ / "link");
    ASSERT_EQ(writeWholeFile(folder_ / "link", "new"), "");
    EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
    EXPECT_EQ(readWholeFile(folder_ / "target").bytes, "new");
}

TEST_F(WholeFile, ReportsAFullDrive) { EXPECT_NE(writeWholeFile("/dev/full", "x"), ""); }

#endif

}  // namespace
}  // namespace plumbline::system
