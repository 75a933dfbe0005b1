#include "engine/base/nearest_word.h"

#include <string>

#include <gtest/gtest.h>

namespace plumbline {
namespace {

TEST(EditDistance, CountsSingleSlips) {
    EXPECT_EQ(editDistance("line", "line"), 0);
    EXPECT_EQ(editDistance("lien", "line"), 1);   // neighbours swapped
    EXPECT_EQ(editDistance("lin", "line"), 1);    // letter left out
    EXPECT_EQ(editDistance("liine", "line"), 1);  // letter doubled
    EXPECT_EQ(editDistance("lime", "line"), 1);   // letter replaced
    EXPECT_EQ(editDistance("", "line"), 4);
    EXPECT_EQ(editDistance("line", ""), 4);
    EXPECT_EQ(editDistance("kitten", "sitting"),
              3);  // the textbook example of Levenshtein distance
}

TEST(EditDistance, IsSymmetric) {
    const char* words[] = {"pull", "push", "pivot", "crowd-left", "crowd-right", "x"};
    for (const char* a : words) {
        for (const char* b : words) EXPECT_EQ(editDistance(a, b), editDistance(b, a)) << a << b;
    }
}

TEST(NearestWord, FindsWhatWasMeant) {
    EXPECT_EQ(nearestWord("pivto", {"pull", "push", "pivot"}), "pivot");
    EXPECT_EQ(nearestWord("crowdright", {"crowd-left", "crowd-right"}), "crowd-right");
}

TEST(NearestWord, OffersNothingForAnotherWord) {
    EXPECT_EQ(nearestWord("hello", {"pull", "push", "pivot"}), "");
    EXPECT_EQ(nearestWord("", {"pull"}), "");
    EXPECT_EQ(nearestWord("k", {"m"}), "");
    EXPECT_EQ(nearestWord(std::string(100000, 'l'), {"pull"}), "");
}

}  // namespace
}  // namespace plumbline
