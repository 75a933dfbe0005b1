#include "engine/system/whole_file.h"

#include <fstream>

#include <gtest/gtest.h>

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

#if !defined(_WIN32)  // where permissions are lists and links are for administrators

TEST_F(WholeFile, KeepsPermissions) {
    ASSERT_EQ(writeWholeFile(folder_ / "a", "old"), "");
    fs::permissions(folder_ / "a", fs::perms::owner_read | fs::perms::owner_write);
    ASSERT_EQ(writeWholeFile(folder_ / "a", "new"), "");
    EXPECT_EQ(fs::status(folder_ / "a").permissions(),
              fs::perms::owner_read | fs::perms::owner_write);
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
