#include "engine/system/interrupt.h"

#include <csignal>

#include <gtest/gtest.h>

namespace plumbline::system {
namespace {

TEST(InterruptWatch, NoticesTheWishAndGivesBackWhatWasThere) {
    static int elsewhere = 0;
    std::signal(SIGINT, [](int) { elsewhere = 1; });
    {
        const InterruptWatch watch;
        EXPECT_FALSE(watch.asked());
        std::raise(SIGINT);
        EXPECT_TRUE(watch.asked());
        EXPECT_EQ(elsewhere, 0);
    }
    std::raise(SIGINT);
    EXPECT_EQ(elsewhere, 1);
    std::signal(SIGINT, SIG_DFL);
    // The next one starts afresh.
    const InterruptWatch again;
    EXPECT_FALSE(again.asked());
}

}  // namespace
}  // namespace plumbline::system
