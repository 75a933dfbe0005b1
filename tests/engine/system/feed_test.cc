#include "engine/system/feed.h"

#include <filesystem>
#include <fstream>
#include <iterator>

#include <gtest/gtest.h>

#include "engine/system/safe_write.h"

namespace plumbline::system {
namespace {

// The browser build starts no programs; Windows has no dd.
#if !defined(__EMSCRIPTEN__) && !defined(_WIN32)

namespace fs = std::filesystem;

TEST(Feed, GivesAProgramAllThatIsWrittenToItAndItsExitCode) {
    // A name that a shell would take apart.
    const fs::path file = fs::path(testing::TempDir()) / "fed; it's \"here\" $HOME";
    std::string reason;
    auto feed = Feed::start({"dd", "status=none", "of=" + file.string()}, reason);
    ASSERT_TRUE(feed) << reason;
    std::vector<std::uint8_t> bytes(300000);
    for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<std::uint8_t>(i % 251);
    EXPECT_TRUE(feed->write(bytes));
    EXPECT_TRUE(feed->write(bytes));
    EXPECT_EQ(feed->finish(), 0);
    EXPECT_FALSE(flushFile(file));
    std::ifstream in(file, std::ios::binary);
    const std::string read{std::istreambuf_iterator<char>(in), {}};
    ASSERT_EQ(read.size(), 600000U);
    EXPECT_EQ(static_cast<std::uint8_t>(read[300000 + 1000]), 1000 % 251);
    fs::remove(file);
}

TEST(Feed, SaysWhenAProgramIsNotThereOrStopsReading) {
    std::string reason;
    EXPECT_FALSE(Feed::start({"no such program anywhere"}, reason));
    EXPECT_FALSE(reason.empty());
    auto feed = Feed::start({"false"}, reason);
    ASSERT_TRUE(feed);
    const std::vector<std::uint8_t> much(4000000);
    EXPECT_FALSE(feed->write(much));  // more than any pipe holds
    EXPECT_EQ(feed->finish(), 1);
}

#endif

}  // namespace
}  // namespace plumbline::system
