#include "engine/system/parallel.h"

#include <atomic>
#include <vector>

#include <gtest/gtest.h>

namespace plumbline::system {
namespace {

TEST(Parallel, DoesEachJobOnce) {
    for (const Executor& executor : {serial(), parallel(), parallel(1), parallel(3), parallel(40)})
        for (const std::size_t count : {0, 1, 2, 1000}) {
            std::vector<std::atomic<int>> done(count);
            executor(count, [&](std::size_t i) { ++done[i]; });
            for (const std::atomic<int>& d : done) EXPECT_EQ(d, 1);
        }
}

}  // namespace
}  // namespace plumbline::system
