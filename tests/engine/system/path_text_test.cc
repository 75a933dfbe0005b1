#include <algorithm>
#include <filesystem>
#include <iterator>
#include <string>

#include <gtest/gtest.h>

#include "engine/system/start.h"
#include "engine/system/whole_file.h"

namespace plumbline::system {
namespace {

namespace fs = std::filesystem;

const std::string kNames[] = {"\xce\xb4\xce\xb5\xce\xbd",              // Greek
                              "\xd0\xba\xd0\xb8\xd1\x80",              // Cyrillic
                              "\xe6\x97\xa5\xe6\x9c\xac\xe8\xaa\x9e",  // Japanese
                              "\xf0\x9f\x9b\xa9"};                     // beyond 16 bits

TEST(PathText, IsUtf8BothWays) {
    for (const std::string& name : kNames) {
        const fs::path path(name);
        EXPECT_TRUE(path.u8string() == std::u8string(name.begin(), name.end()));
        EXPECT_EQ((path / name).filename().string(), name);
        EXPECT_EQ(fs::path(std::u8string(name.begin(), name.end())), path);
    }
}

TEST(PathText, NamesFilesThatAreFoundAgain) {
    const fs::path folder = fs::path(testing::TempDir()) / "path_text";
    fs::remove_all(folder);
    for (const std::string& name : kNames) {
        EXPECT_EQ(writeWholeFiles(folder, {{name, "old"}}), "");
        EXPECT_EQ(writeWholeFile(folder / name, "new"), "");
        EXPECT_EQ(readWholeFile(folder / name).bytes, "new");
    }
    std::size_t files = 0;
    for (const fs::directory_entry& entry : fs::directory_iterator(folder)) {
        EXPECT_NE(std::find(std::begin(kNames), std::end(kNames), entry.path().filename().string()),
                  std::end(kNames));
        ++files;
    }
    EXPECT_EQ(files, std::size(kNames));
    fs::remove_all(folder);
}

TEST(Start, GivesTheWordsOfTheCommandLine) {
    // This test's own: its name at least.
    std::string name = "test";
    char* words[] = {name.data(), nullptr};
    EXPECT_FALSE(startedWith(1, words).empty());
}

}  // namespace
}  // namespace plumbline::system
