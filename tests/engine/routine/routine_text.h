#pragma once
// Routine files for tests.

#include <string>

#include <gtest/gtest.h>

#include "engine/routine/routine.h"

namespace plumbline::routine {

inline const std::string kShortHead =
    "name = 'Trial'\naircraft = 'a'\nsite = 's'\n[start]\nx = '-900 m'\nheight = '60 m'\n"
    "heading = 'crowd-right'\nspeed = '80 m/s'\nfuel = '40 l'\n";
inline constexpr std::int32_t kShortHeadLines = 9;

/// A routine that must be free of problems.
inline Routine readGood(const std::string& tables) {
    ReadRoutine read = readRoutine(kShortHead + tables, "r");
    EXPECT_EQ(describe(read.problems), "") << tables;
    return std::move(read.routine);
}

/// All that is wrong with it.
inline std::string problemsOf(const std::string& tables) {
    return describe(readRoutine(kShortHead + tables, "r").problems);
}

}  // namespace plumbline::routine
