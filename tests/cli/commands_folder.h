#pragma once
// A folder in which commands are run as a user runs them.

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "tests/cli/run_program.h"

namespace plumbline::test {

/// A folder of its own with a routine that flies, its files and a recording.
class Commands : public testing::Test {
protected:
    void SetUp() override {
        folder_ = std::filesystem::path(testing::TempDir()) /
                  ("plumbline_" +
                   std::string(testing::UnitTest::GetInstance()->current_test_info()->name()));
        std::filesystem::remove_all(folder_);
        std::filesystem::create_directories(folder_);
        const std::filesystem::path data = PLUMBLINE_TEST_DATA;
        for (const char* name : {"sample.aircraft.toml", "sample.site.toml", "sample.weather.toml"})
            std::filesystem::copy_file(data / "files" / name, folder_ / name);
        for (const char* name : {"paraglider.igc", "foot_run.gpx", "unmanned_aircraft.csv"})
            std::filesystem::copy_file(data / "tracks" / name, folder_ / name);
        write("t.routine.toml", routine("line level until x 200 m\n"));
    }
    void TearDown() override { std::filesystem::remove_all(folder_); }

    /// A routine of one figure whose text starts on line 16.
    static std::string routine(const std::string& figure_text) {
        return R"(name = "Trial"
aircraft = "sample.aircraft.toml"
site = "sample.site.toml"
weather = "sample.weather.toml"

[start]
x = "-600 m"
y = "50 m"
height = "200 m"
heading = "crowd-right"
speed = "75 m/s"
fuel = "40 l"
[[figure]]
name = "One"
text = """
)" + figure_text +
               "\"\"\"\n";
    }

    void write(const std::string& name, const std::string& bytes) {
        std::ofstream(folder_ / name, std::ios::binary) << bytes;
    }
    std::string read(const std::string& name) const {
        std::ifstream file(folder_ / name, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(file), {});
    }
    std::size_t fileCount() const {
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(folder_),
                                                      std::filesystem::directory_iterator()));
    }
    ProgramRun run(const std::vector<std::string>& arguments) const {
        return runProgram(folder_.string(), arguments);
    }

    /// Bad input: exit 2, a message that starts so, nothing on stdout and no file more than before.
    void expectRefused(const std::vector<std::string>& arguments, const std::string& start) {
        const std::size_t files = fileCount();
        const ProgramRun ran = run(arguments);
        EXPECT_EQ(ran.exit_code, 2) << start << "\n" << ran.err;
        EXPECT_EQ(ran.err.substr(0, start.size()), start);
        EXPECT_EQ(ran.out, "");
        EXPECT_EQ(fileCount(), files) << start;
        // what: remedy
        EXPECT_NE(ran.err.find(": ", start.size()), std::string::npos) << ran.err;
    }

    std::filesystem::path folder_;
};

}  // namespace plumbline::test
