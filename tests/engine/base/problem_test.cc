#include "engine/base/problem.h"

#include <gtest/gtest.h>

#include "engine/base/check.h"
#include "engine/base/expected.h"

namespace plumbline {
namespace {

TEST(Problem, IsOneLineWithThePartsThatAreThere) {
    EXPECT_EQ(describe(Problem{{"a.toml", 3, 7}, "no unit", "write 5 m"}),
              "a.toml:3:7: no unit: write 5 m");
    EXPECT_EQ(describe(Problem{{"a.toml", 3, 0}, "no unit", ""}), "a.toml:3: no unit");
    EXPECT_EQ(describe(Problem{{"a.toml", 0, 0}, "file is empty", "fill it"}),
              "a.toml: file is empty: fill it");
    EXPECT_EQ(describe(Problem{{"", 2, 1}, "what", "remedy"}), "2:1: what: remedy");
    EXPECT_EQ(describe(Problems{{{"a", 1, 1}, "x", ""}, {{"b", 2, 2}, "y", "z"}}),
              "a:1:1: x\nb:2:2: y: z\n");
}

TEST(Expected, HoldsOneOrTheOther) {
    const Expected<int, Problems> good = 3;
    const Expected<int, Problems> bad = Unexpected<Problems>({{{"f", 1, 1}, "w", "r"}});
    EXPECT_TRUE(good.has_value());
    EXPECT_EQ(good.value_or(4), 3);
    EXPECT_FALSE(bad.has_value());
    EXPECT_EQ(bad.value_or(4), 4);
    EXPECT_EQ(bad.error().size(), 1u);
}

TEST(ExpectedDeathTest, StopsWhenMisused) {
    const Expected<int, Problems> good = 3;
    EXPECT_DEATH((void)good.error(), "holds no error");
}

TEST(CheckDeathTest, NamesTheConditionAndThePlace) {
    EXPECT_DEATH(PL_EXPECT(1 + 1 == 3), "problem_test.cc:.+: expected 1 \\+ 1 == 3");
}

}  // namespace
}  // namespace plumbline
