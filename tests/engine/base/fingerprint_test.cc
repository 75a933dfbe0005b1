#include "engine/base/fingerprint.h"

#include <gtest/gtest.h>

namespace plumbline {
namespace {

std::uint64_t of(std::string_view bytes) {
    Fingerprint mark;
    mark.add(bytes);
    return mark.value();
}

// Values of the authors' test vectors for FNV-1a, 64 bits (draft-eastlake-fnv; from memory).
TEST(Fingerprint, IsThePublishedOne) {
    EXPECT_EQ(of(""), 0xcbf29ce484222325U);
    EXPECT_EQ(of("a"), 0xaf63dc4c8601ec8cU);
    EXPECT_EQ(of("foobar"), 0x85944171f73967e8U);
}

TEST(Fingerprint, PiecesAreTheWhole) {
    Fingerprint mark;
    mark.add("foo");
    mark.add("bar");
    EXPECT_EQ(mark.value(), of("foobar"));
    EXPECT_EQ(mark.words().size(), 9U);
    EXPECT_EQ(mark.words()[4], ' ');
    Fingerprint other;
    other.add("foobas");
    EXPECT_NE(mark.words(), other.words());
}

}  // namespace
}  // namespace plumbline
