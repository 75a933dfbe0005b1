#include "engine/base/nesting.h"

#include <string>

#include <gtest/gtest.h>

namespace plumbline {
namespace {

constexpr std::size_t kNone = std::string_view::npos;

TEST(Nesting, CountsBracketsOutsideTexts) {
    EXPECT_EQ(nestedDeeper("[[1],[2]]", 2), kNone);
    EXPECT_EQ(nestedDeeper("[[1],[2]]", 1), 1u);
    EXPECT_EQ(nestedDeeper(R"({"a":[{"b":1}]})", 2), 6u);
    EXPECT_EQ(nestedDeeper(R"({"[[[[\"[[":"{{{"})", 1), kNone);
    EXPECT_EQ(nestedDeeper("]]]]{", 1), kNone);
    EXPECT_EQ(nestedDeeper(std::string(100000, '[')), kDeepest);
}

TEST(Nesting, CountsThePartsOfAKey) {
    EXPECT_EQ(dottedDeeper("a.b.c = 1.5\n", 3), kNone);
    EXPECT_EQ(dottedDeeper("a.b.c = 1.5\n", 2), 3u);
    EXPECT_EQ(dottedDeeper("[a.b.c]\n", 2), 4u);
    // Each key for itself; numbers, texts and comments are none.
    EXPECT_EQ(dottedDeeper("a.b = 1\nc.d = 2\ne = {f.g = 1, h.i = 2}", 2), kNone);
    EXPECT_EQ(dottedDeeper("a = [1.5, 2.5, 3.5]", 2), kNone);
    EXPECT_EQ(dottedDeeper("# a.b.c.d\na = \"1.2.3.4\" # ...\nb = '1.2.3'", 2), kNone);
    EXPECT_EQ(dottedDeeper("a = \"\"\"\n1.2.3\"\" ... \\\"\"\" 1.2.3\n\"\"\"\nb = ''''1.2.3'''", 2),
              kNone);
    EXPECT_EQ(dottedDeeper("a = \"\"\nb.c.d = 1", 2), 10u);
    EXPECT_EQ(dottedDeeper("\"a.a\".b.c = 1", 2), 7u);
}

}  // namespace
}  // namespace plumbline
