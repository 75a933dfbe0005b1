// Pictures and films by command. Only a program with the viewer has them.

#ifdef PLUMBLINE_HAS_VIEWER

#include <set>
#include <utility>

#include <gtest/gtest.h>

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

namespace fs = std::filesystem;
using test::Commands;

/// Width and height of a PNG file, from its first chunk (ISO/IEC 15948, 11.2.2).
std::pair<unsigned, unsigned> sizeOfPng(const std::string& bytes) {
    if (bytes.size() < 24 || bytes.substr(1, 3) != "PNG") return {0, 0};
    const auto number = [&bytes](std::size_t at) {
        unsigned out = 0;
        for (std::size_t i = 0; i < 4; ++i) {
            out = out * 256 + static_cast<unsigned char>(bytes[at + i]);
        }
        return out;
    };
    return {number(16), number(20)};
}

TEST_F(Commands, FilmAndPictureHaveTheSizeThatIsAsked) {
    const ProgramRun ran =
        run({"picture", "t.routine.toml", "--at", "2 s", "--size", "322x180", "-o", "a b.png"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_EQ(sizeOfPng(read("a b.png")), std::pair(322U, 180U));
}

TEST_F(Commands, FilmAndPictureSeeFromWhereOneSits) {
    std::set<std::string> pictures;
    const std::vector<std::vector<std::string>> seats{
        {}, {"--eye", "1.2 m"}, {"--back", "30 m"}, {"--seat", "-150 m"}, {"--lens", "100 mm"}};
    for (const std::vector<std::string>& seat : seats) {
        std::vector<std::string> arguments{"picture", "t.routine.toml", "--size", "160x90",
                                           "-o",      "seat.png"};
        arguments.insert(arguments.end(), seat.begin(), seat.end());
        const ProgramRun ran = run(arguments);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        pictures.insert(read("seat.png"));
    }
    EXPECT_EQ(pictures.size(), seats.size());  // every one of them moves something
}

TEST_F(Commands, FilmAndPictureSetsHoldEveryViewAtEachMoment) {
    write("three.routine.toml", routine("line level until x 200 m\n") +
                                    "[[figure]]\nname = \"Two\"\ntext = \"line 200 m\"\n"
                                    "[[figure]]\nname = \"Three\"\ntext = \"line 200 m\"\n");
    const ProgramRun ran =
        run({"picture", "three.routine.toml", "--size", "64x36", "--set", "set", "--moments", "3"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    std::size_t views = 0, windows = 0;
    for (const auto& entry : fs::directory_iterator(fs::path(folder_) / "set")) {
        const std::string name = entry.path().filename().string();
        (name.starts_with("window-") ? windows : views) += 1;
        EXPECT_NE(ran.out.find(name), std::string::npos);  // each is told
        if (!name.starts_with("window-")) {
            EXPECT_EQ(sizeOfPng(read("set/" + name)), std::pair(64U, 36U)) << name;
        }
    }
    EXPECT_EQ(views, 6U * 3U);
    EXPECT_EQ(windows, 2U);
}

TEST_F(Commands, RefusesPicturesThatCannotBeFilmedOrDrawn) {
    const auto refused = [&](const std::vector<std::string>& options, const std::string& start) {
        std::vector<std::string> arguments{"picture", "t.routine.toml"};
        arguments.insert(arguments.end(), options.begin(), options.end());
        expectRefused(arguments, start);
    };
    refused({"-o", "a.png", "--eye", "1.2"}, "--eye: ");
    refused({"-o", "a.png", "--back", "4 s"}, "--back: ");
    refused({"-o", "a.png", "--lens", "9 mm"}, "--lens: ");
    refused({"-o", "a.png", "--at", "1000 s"}, "plumbline: --at: ");
    refused({"-o", "a.png", "--size", "0x90"}, "--size: ");
    refused({"--set", "s", "--moments", "0"}, "plumbline picture: ");
    refused({"--set", "s", "--moments", "61"}, "plumbline picture: ");
    expectRefused({"show", "--size", "big"}, "--size: ");
}

TEST_F(Commands, FilmsAStretchInBothKinds) {
    for (const char* name : {"a b.mp4", "c.webm"}) {
        const ProgramRun ran = run({"film", "t.routine.toml", "--start", "1 s", "--stop", "1.4 s",
                                    "--size", "160x90", "--frames", "25", "--cues", "-o", name});
        EXPECT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_NE(ran.err.find("10 frames"), std::string::npos) << ran.err;
    }
    // How the two kinds begin: ISO/IEC 14496-12 (file type box), RFC 8794 (EBML header).
    EXPECT_EQ(read("a b.mp4").substr(4, 4), "ftyp");
    EXPECT_EQ(read("c.webm").substr(0, 4), "\x1A\x45\xDF\xA3");
    for (const auto& entry : fs::directory_iterator(folder_)) {
        EXPECT_EQ(entry.path().string().find(".part"), std::string::npos);
    }
}

TEST_F(Commands, FilmsASecondRoutineBeside) {
    write("u.routine.toml", read("t.routine.toml"));
    const ProgramRun ran = run({"film", "t.routine.toml", "--second", "u.routine.toml", "--stop",
                                "0.2 s", "--size", "160x90", "-o", "d.mp4"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    expectRefused({"film", "demo", "--second", "u.routine.toml", "-o", "e.mp4"}, "--second: ");
}

TEST_F(Commands, RefusesFilmsThatCannotBe) {
    const auto refused = [&](const std::vector<std::string>& options, const std::string& start) {
        std::vector<std::string> arguments{"film", "t.routine.toml"};
        arguments.insert(arguments.end(), options.begin(), options.end());
        expectRefused(arguments, start);
    };
    refused({"-o", "a.avi"}, "a.avi: ");
    refused({"-o", "a.mp4", "--size", "161x90"}, "--size: ");
    refused({"-o", "a.mp4", "--start", "2"}, "--start: ");
    refused({"-o", "a.mp4", "--stop", "1 m"}, "--stop: ");
    refused({"-o", "a.mp4", "--start", "2 s", "--stop", "1 s"}, "plumbline: --start, --stop: ");
    refused({"-o", "a.mp4", "--stop", "1000 s"}, "plumbline: --start, --stop: ");
    refused({"-o", "no such folder/a.mp4", "--stop", "1 s"}, "");
    refused({"-o", "a.mp4", "--look", "behind"}, "plumbline film: ");
}

}  // namespace
}  // namespace plumbline

#endif
