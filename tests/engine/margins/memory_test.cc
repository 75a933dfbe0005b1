// What is kept does not grow with the number of flights: live allocations are counted.

#include <atomic>
#include <cstdlib>
#include <new>
#include <vector>

#include <gtest/gtest.h>

#include "engine/margins/margins.h"
#include "tests/engine/variant/trial_workspace.h"

namespace {
std::atomic<long> live{0};
}  // namespace

// All of this program's.
void* operator new(std::size_t bytes, const std::nothrow_t&) noexcept {
    void* const p = std::malloc(bytes > 0 ? bytes : 1);
    if (p) ++live;
    return p;
}
void* operator new(std::size_t bytes) {
    if (void* const p = operator new(bytes, std::nothrow)) return p;
    throw std::bad_alloc();
}
void operator delete(void* p) noexcept {
    if (p) --live;
    std::free(p);
}
void operator delete(void* p, std::size_t) noexcept { operator delete(p); }
void operator delete(void* p, const std::nothrow_t&) noexcept { operator delete(p); }

namespace plumbline::margins {
namespace {

TEST(Memory, DoesNotGrowWithTheFlights) {
    load::Workspace workspace = variant::test::trialWorkspace("75 m/s", R"(
[[figure]]
name = "One"
text = "line level 300 m"
[[figure]]
name = "Two"
text = """
cue "second"
line level 300 m
"""
)");
    workspace.site.floor_m = 90;
    auto flown = variant::fly(std::move(workspace), {});
    ASSERT_TRUE(flown);
    std::vector<long> at;
    at.reserve(100);
    Wishes wishes;
    wishes.flights = 6000;
    wishes.kept_ways = 5;
    wishes.progress = [&](std::uint64_t) {
        at.push_back(live);
        return true;
    };
    fly(*flown, wishes);
    ASSERT_GT(at.size(), 20U);
    // From the first thousand on only a finding of a new kind adds anything.
    EXPECT_LT(at.back() - at[at.size() / 6], 100);
}

}  // namespace
}  // namespace plumbline::margins
