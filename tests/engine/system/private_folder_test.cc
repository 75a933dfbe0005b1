#include "engine/system/private_folder.h"

#include <fstream>
#include <utility>

#include <gtest/gtest.h>

namespace plumbline::system {
namespace {

namespace fs = std::filesystem;

TEST(PrivateFolder, IsThisPersonsAloneAndGoesWithWhatIsInIt) {
    fs::path path;
    {
        const std::optional<PrivateFolder> folder = PrivateFolder::make();
        ASSERT_TRUE(folder);
        path = folder->path();
        EXPECT_TRUE(fs::is_directory(path));
#if !defined(_WIN32)
        EXPECT_EQ(fs::status(path).permissions(), fs::perms::owner_all);
#endif
        std::ofstream(path / "words") << "some";
        ASSERT_TRUE(fs::exists(path / "words"));
    }
    EXPECT_FALSE(fs::exists(path));
}

TEST(PrivateFolder, TwoAreNeverTheSame) {
    const std::optional<PrivateFolder> one = PrivateFolder::make(), two = PrivateFolder::make();
    ASSERT_TRUE(one && two);
    EXPECT_NE(one->path(), two->path());
}

TEST(PrivateFolder, MovesWithItsOwner) {
    std::optional<PrivateFolder> made = PrivateFolder::make();
    ASSERT_TRUE(made);
    const fs::path path = made->path();
    const PrivateFolder kept = std::move(*made);
    made.reset();
    EXPECT_TRUE(fs::is_directory(path));
    EXPECT_EQ(kept.path(), path);
}

}  // namespace
}  // namespace plumbline::system
