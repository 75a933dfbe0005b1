#pragma once
// Routines flown for the reviewer: the demo's aircraft, calm air, and what the text says.

#include <string>

#include <gtest/gtest.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/review/review.h"

namespace plumbline::review::test {

inline constexpr double kDegree = kPi / 180;

inline const load::Workspace& demo() {
    static const load::Workspace kDemo = load::loadDemo().value();
    return kDemo;
}

/// A routine of the demo's aircraft: figures by name and text.
struct Written {
    std::string name, text;
};
inline path::Path fly(const std::vector<Written>& figures, const data::Weather& weather = {},
                      double height_m = 300) {
    std::string toml =
        "name = 'Test'\naircraft = 'a'\nsite = 's'\n[start]\nx = '-600 m'\ny = '200 m'\nheight = "
        "'" +
        std::to_string(static_cast<int>(height_m)) +
        " m'\nheading = 'crowd-right'\nspeed = '150 kt'\nfuel = '60 l'\n";
    for (const Written& figure : figures)
        toml += "[[figure]]\nname = '" + figure.name + "'\ntext = '''\n" + figure.text + "\n'''\n";
    const auto read = routine::readRoutine(toml, "test.routine.toml");
    EXPECT_TRUE(read.problems.empty());
    const fly::Solution solution = fly::solve(demo().aircraft, demo().site, weather, read.routine);
    for (const fly::SolveNote& note : solution.notes())
        EXPECT_NE(note.kind, fly::SolveNote::Kind::NotFlyable) << note.what;
    return solution.samplePath(50);
}

inline Review reviewOf(const path::Path& flight, const path::Path& plan) {
    return reviewFlight(flight, plan, demo().aircraft, demo().site);
}

}  // namespace plumbline::review::test
