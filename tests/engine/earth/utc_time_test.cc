#include "engine/earth/utc_time.h"

#include <gtest/gtest.h>

namespace plumbline::earth {
namespace {

TEST(ParseUtc, ReadsIso8601) {
    EXPECT_EQ(parseUtc("1970-01-01T00:00:00Z"), 0.0);
    EXPECT_EQ(parseUtc("1969-12-31T23:59:59Z"), -1.0);
    EXPECT_EQ(parseUtc("2001-09-09T01:46:40Z"), 1e9);
    EXPECT_EQ(parseUtc("2001-09-09T03:46:40+02:00"), 1e9);
    EXPECT_EQ(parseUtc("2001-09-08T18:46:40.5-07:00"), 1e9 + 0.5);
    EXPECT_EQ(parseUtc("2000-02-29T12:00Z"), 951825600.0);
}

TEST(ParseUtc, RefusesWhatIsNone) {
    for (const char* bad :
         {"", "2026", "2026-06-27", "2026-06-27T17:40:00", "2026-02-29T00:00:00Z",
          "2026-13-01T00:00:00Z", "2026-06-27T24:00:00Z", "2026-06-27T17:60:00Z",
          "2026-06-27T17:40:60Z", "2026-06-27T17:40:5Z", "2026-06-27T17:40:05.Z5",
          "2026-06-27T17:40:00+2", "2026-06-27T17:40:00Z ", "20x6-06-27T17:40:00Z"})
        EXPECT_FALSE(parseUtc(bad).has_value()) << bad;
}

}  // namespace
}  // namespace plumbline::earth
