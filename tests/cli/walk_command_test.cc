// What is called out, by command.

#include <gtest/gtest.h>

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

using test::Commands;

std::uint32_t numberAt(const std::string& bytes, std::size_t at) {
    std::uint32_t out = 0;
    for (std::size_t i = 4; i-- > 0;) out = out << 8U | static_cast<unsigned char>(bytes[at + i]);
    return out;
}

TEST_F(Commands, WalkPrintsItsCallsAndWritesSound) {
    write("h.routine.toml",
          routine("line level until x -300 m\npull to up at 5 g\nline up until 60 "
                  "kt\npush to level at 1 g\nline 5 s\n"));
    for (const bool tones : {false, true}) {
        std::vector<std::string> arguments{"walk",    "h.routine.toml", "-o",
                                           "a b.wav", "--lead",         "1s"};
        if (tones) arguments.push_back("--tones");
        const auto ran = run(arguments);
        ASSERT_EQ(ran.exit_code, 0) << ran.err;
        EXPECT_EQ(ran.err, "");
        EXPECT_NE(ran.out.find("pull to up, 5 g"), std::string::npos) << ran.out;
        EXPECT_NE(ran.out.find(tones ? "tones" : "spoken"), std::string::npos) << ran.out;
        EXPECT_NE(ran.out.find("no approval to fly"), std::string::npos);
        // RIFF: the whole length behind the first eight bytes, the samples' behind forty-four.
        const std::string sound = read("a b.wav");
        ASSERT_GT(sound.size(), 44U);
        EXPECT_EQ(sound.substr(0, 4) + sound.substr(8, 4), "RIFFWAVE");
        EXPECT_EQ(numberAt(sound, 4), sound.size() - 8);
        EXPECT_EQ(numberAt(sound, 40), sound.size() - 44);
    }
    for (const auto& entry : std::filesystem::directory_iterator(folder_)) {
        EXPECT_EQ(entry.path().string().find(".part"), std::string::npos);
    }
}

TEST_F(Commands, WalkRefusesWhatCannotBe) {
    expectRefused({"walk", "t.routine.toml", "-o", "a.mp3"}, "a.mp3: ");
    expectRefused({"walk", "t.routine.toml", "--lead", "2"}, "--lead: ");
    expectRefused({"walk", "t.routine.toml", "--lead", "20 s"}, "--lead: ");
    expectRefused({"walk", "t.routine.toml", "--pace", "5"}, "plumbline walk: ");
    expectRefused({"walk", "no.routine.toml"}, "no.routine.toml: ");
    // Another voice than there is: said, and tones.
    const auto ran = run({"walk", "t.routine.toml", "-o", "a.wav", "--voice", "no such language"});
    EXPECT_EQ(ran.exit_code, 0);
    EXPECT_NE(ran.err.find("no voice"), std::string::npos);
    EXPECT_NE(ran.out.find("tones"), std::string::npos);
}

}  // namespace
}  // namespace plumbline
