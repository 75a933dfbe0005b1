#pragma once
// A routine of given figures over the sample files of tests/data.

#include <string>

#include <gtest/gtest.h>

#include "engine/load/load.h"
#include "engine/system/whole_file.h"

namespace plumbline::variant::test {

/// A calm standard day at the sample's airfield, 120 m above the sea; begun 100 m up, flying to
/// crowd right.
/// @param speed    "85 m/s"
/// @param figures  the rest of the routine file
inline load::Workspace trialWorkspace(const std::string& speed, const std::string& figures) {
    const std::string routine = R"(name = "Trial"
aircraft = "sample.aircraft.toml"
site = "sample.site.toml"
[start]
x = "-700 m"
y = "50 m"
height = "100 m"
heading = "crowd-right"
fuel = "40 l"
speed = ")" + speed + "\"\n" + figures;
    auto workspace =
        load::loadWorkspace("t.routine.toml", {}, [&](const std::filesystem::path& path) {
            if (path == "t.routine.toml") return system::ReadFile{routine, ""};
            return system::readWholeFile(std::string(PLUMBLINE_TEST_DATA) + "/files/" +
                                         path.generic_string());
        });
    EXPECT_TRUE(workspace) << describe(workspace.error());
    return std::move(workspace).value();
}

}  // namespace plumbline::variant::test
