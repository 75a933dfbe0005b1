#include "engine/variant/wish_words.h"

#include <gtest/gtest.h>

namespace plumbline::variant {
namespace {

TEST(WishWords, ReadBackWhatTheySay) {
    Wish wish;
    wish.show = "--mirror";  // a show may be called anything
    wish.ceiling_m = 450.25;
    wish.floor_m = 60;
    wish.mirror = true;
    std::vector<std::string> words = wishWords(wish);
    words.insert(words.end(), {"--site", "a b.site.toml", "--weather", "METAR XXXX", "x.toml"});
    const WishRead read = readWishWords(words);
    EXPECT_TRUE(read.wish == wish);
    EXPECT_EQ(read.overrides.site_file, "a b.site.toml");
    EXPECT_EQ(read.overrides.weather, "METAR XXXX");
    EXPECT_EQ(read.rest, std::vector<std::string>{"x.toml"});
}

TEST(WishWords, SayNothingOfARoutineAsWritten) { EXPECT_TRUE(wishWords({}).empty()); }

TEST(WishWords, MakeNoSenseOfNonsense) {
    const WishRead read = readWishWords({"--ceiling", "-3 m", "--floor", "high", "--show"});
    EXPECT_TRUE(read.wish.asWritten());
    EXPECT_TRUE(read.rest.empty());
}

}  // namespace
}  // namespace plumbline::variant
