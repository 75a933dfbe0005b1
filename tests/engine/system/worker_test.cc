#include "engine/system/worker.h"

#include <atomic>
#include <chrono>
#include <future>
#include <string>
#include <thread>

#include <gtest/gtest.h>

namespace plumbline::system {
namespace {

using std::chrono::milliseconds;

/// Until it holds or ten seconds have passed.
bool comesTrue(const std::function<bool()>& what) {
    for (int i = 0; i < 10000 && !what(); ++i) std::this_thread::sleep_for(milliseconds(1));
    return what();
}

TEST(Worker, SleepsUntilWoken) {
    std::atomic<int> steps{0};
    Worker worker([&]() -> std::optional<double> {
        ++steps;
        return std::nullopt;
    });
    std::this_thread::sleep_for(milliseconds(20));
    EXPECT_EQ(steps, 0);
    worker.wake();
    EXPECT_TRUE(comesTrue([&] { return steps == 1; }));
    std::this_thread::sleep_for(milliseconds(20));
    EXPECT_EQ(steps, 1);
}

TEST(Worker, GoesOnByItselfUntilItSleeps) {
    std::atomic<int> steps{0};
    Worker worker([&]() -> std::optional<double> {
        return ++steps < 5 ? std::optional<double>(0.001) : std::nullopt;
    });
    worker.wake();
    EXPECT_TRUE(comesTrue([&] { return steps == 5; }));
}

TEST(Worker, IsNeverWokenInVain) {
    // Woken while it works, it works once more: what came meanwhile may not have been seen.
    std::atomic<int> steps{0};
    std::promise<void> go_on;
    std::shared_future<void> may_go_on = go_on.get_future().share();
    Worker worker([&]() -> std::optional<double> {
        if (++steps == 1) may_go_on.wait();
        return std::nullopt;
    });
    worker.wake();
    ASSERT_TRUE(comesTrue([&] { return steps == 1; }));
    worker.wake();
    go_on.set_value();
    EXPECT_TRUE(comesTrue([&] { return steps == 2; }));
}

TEST(Worker, EndsItsPieceBeforeItGoes) {
    std::atomic<bool> begun{false}, ended{false};
    {
        Worker worker([&]() -> std::optional<double> {
            begun = true;
            std::this_thread::sleep_for(milliseconds(20));
            ended = true;
            return std::nullopt;
        });
        worker.wake();
        ASSERT_TRUE(comesTrue([&] { return begun.load(); }));
    }
    EXPECT_TRUE(ended);
}

TEST(Later, GivesItsResultOnce) {
    Later<std::string> later;
    EXPECT_FALSE(later.busy());
    EXPECT_FALSE(later.done());
    later = Later<std::string>::begin([] { return std::string("there"); });
    EXPECT_TRUE(later.busy());
    ASSERT_TRUE(comesTrue([&] { return later.done(); }));
    EXPECT_EQ(later.take(), "there");
    EXPECT_FALSE(later.busy());
}

TEST(Later, IsWaitedForAtTheEnd) {
    std::atomic<bool> ended{false};
    {
        const auto later = Later<int>::begin([&] {
            std::this_thread::sleep_for(milliseconds(20));
            ended = true;
            return 1;
        });
    }
    EXPECT_TRUE(ended);
}

}  // namespace
}  // namespace plumbline::system
