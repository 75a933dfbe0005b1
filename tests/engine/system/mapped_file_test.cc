#include "engine/system/mapped_file.h"

#include <filesystem>
#include <fstream>
#include <utility>

#include <gtest/gtest.h>

namespace plumbline::system {
namespace {

namespace fs = std::filesystem;

class MappedFiles : public testing::Test {
protected:
    void SetUp() override {
        const auto* test = testing::UnitTest::GetInstance()->current_test_info();
        folder_ = fs::temp_directory_path() / (std::string("plumbline_mapped_") + test->name());
        fs::create_directories(folder_);
    }
    void TearDown() override { fs::remove_all(folder_); }
    fs::path write(const std::string& name, const std::string& bytes) const {
        std::ofstream(folder_ / name, std::ios::binary) << bytes;
        return folder_ / name;
    }
    fs::path folder_;
};

TEST_F(MappedFiles, HoldTheBytes) {
    const std::string bytes = "a\0b\r\n" + std::string(100000, 'x');
    MappedFile file;
    EXPECT_EQ(file.open(write("some", bytes)), "");
    EXPECT_EQ(file.bytes(), bytes);
    MappedFile other = std::move(file);
    EXPECT_EQ(other.bytes(), bytes);
    EXPECT_EQ(other.open(write("none", "")), "");
    EXPECT_EQ(other.bytes(), "");
}

TEST_F(MappedFiles, SayWhyNot) {
    MappedFile file;
    EXPECT_NE(file.open(folder_ / "missing"), "");
    EXPECT_NE(file.open(folder_), "");
}

}  // namespace
}  // namespace plumbline::system
