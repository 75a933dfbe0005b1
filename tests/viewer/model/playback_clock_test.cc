#include "viewer/model/playback_clock.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

PlaybackClock clockOf(double duration_s) {
    PlaybackClock clock;
    clock.setDuration(duration_s);
    return clock;
}

TEST(PlaybackClock, RunsByItsSpeedAndStopsAtTheEnd) {
    PlaybackClock clock = clockOf(10);
    clock.advance(1);
    EXPECT_EQ(clock.time_s(), 0) << "does not run before play";
    clock.play();
    clock.advance(0.5);
    EXPECT_DOUBLE_EQ(clock.time_s(), 0.5);
    clock.setSpeedIndex(kNormalSpeed + 1);
    clock.advance(0.5);
    EXPECT_DOUBLE_EQ(clock.time_s(), 1.5);
    clock.setSpeedIndex(0);
    clock.advance(0.8);
    EXPECT_DOUBLE_EQ(clock.time_s(), 1.6);
    clock.setSpeedIndex(99);
    EXPECT_DOUBLE_EQ(clock.speed(), 8);
    clock.advance(100);
    EXPECT_EQ(clock.time_s(), 10);
    EXPECT_FALSE(clock.playing());
    clock.play();
    EXPECT_EQ(clock.time_s(), 0) << "play at the end starts again";
}

TEST(PlaybackClock, LoopKeepsWhatIsLeftOver) {
    PlaybackClock clock = clockOf(100);
    Loop loop;
    loop.start_s = 20;
    loop.stop_s = 30;
    clock.setLoop(loop);
    clock.seek(29);
    clock.play();
    clock.advance(3);
    EXPECT_DOUBLE_EQ(clock.time_s(), 22);
    clock.seek(29);
    clock.advance(23);  // more than twice round
    EXPECT_DOUBLE_EQ(clock.time_s(), 22);
    clock.seek(50);  // past the loop on purpose
    clock.advance(1);
    EXPECT_DOUBLE_EQ(clock.time_s(), 51);
}

TEST(PlaybackClock, TakesNoNonsense) {
    PlaybackClock clock = clockOf(10);
    clock.seek(-5);
    EXPECT_EQ(clock.time_s(), 0);
    clock.seek(std::nan(""));
    EXPECT_EQ(clock.time_s(), 0);
    clock.seek(1e300);
    EXPECT_EQ(clock.time_s(), 10);
    Loop backwards;
    backwards.start_s = 5;
    backwards.stop_s = 5;
    clock.setLoop(backwards);
    EXPECT_FALSE(clock.loop().has_value());
    PlaybackClock empty = clockOf(0);
    empty.play();
    EXPECT_FALSE(empty.playing());
}

}  // namespace
}  // namespace plumbline::model
