#include "viewer/model/kept_text.h"

#include <gtest/gtest.h>

#include "engine/system/file_claim.h"

namespace plumbline::model {
namespace {

TEST(KeptText, ComesBackWhole) {
    const std::vector<KeptText> kept{
        {"/home/\u00fc/a b.routine.toml", "name = \"x\"\n12\n", "no line end"},
        {"/home/\u00fc/a.site.toml", "", "1\n"}};
    EXPECT_EQ(keptFromBytes(keptBytes(kept)), kept);
}

TEST(KeptText, AnyCutIsSeen) {
    const std::string bytes = keptBytes({{"f", "base\n", "text\n"}, {"g", "", "t"}});
    for (std::size_t i = 0; i < bytes.size(); ++i) {
        EXPECT_FALSE(keptFromBytes(bytes.substr(0, i))) << i;
    }
    EXPECT_FALSE(keptFromBytes(bytes + "x"));
}

TEST(KeptText, NamesDifferByFileAndWindow) {
    EXPECT_EQ(keptName("/a", 0), keptName("/a", 0));
    EXPECT_NE(keptName("/a", 0), keptName("/b", 0));
    EXPECT_NE(keptName("/a", 0), keptName("/a", 1));
}

TEST(FileClaim, OneHolderAtATime) {
    const std::filesystem::path file = std::filesystem::path(testing::TempDir()) / "claimed";
    system::FileClaim first, second;
    EXPECT_TRUE(first.take(file));
    EXPECT_FALSE(second.take(file));
    first.letGo();
    EXPECT_TRUE(second.take(file));
}

}  // namespace
}  // namespace plumbline::model
