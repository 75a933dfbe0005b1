// plumbline brief, run as its users run it.

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

using BriefCommand = test::Commands;

TEST_F(BriefCommand, WritesItsSheetsIntoAFolder) {
    const ProgramRun ran = run({"brief", "t.routine.toml", "--flights", "20", "-o", "out"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    for (const char* name : {"out/card.pdf", "out/cues.pdf", "out/director.pdf"}) {
        EXPECT_EQ(read(name).substr(0, 5), "%PDF-") << name;
        EXPECT_NE(ran.out.find(name), std::string::npos) << ran.out;
    }
    EXPECT_NE(ran.out.find("no approval to fly"), std::string::npos);
    const std::string before = read("out/card.pdf");
    EXPECT_EQ(run({"brief", "t.routine.toml", "--flights", "20", "-o", "out"}).exit_code, 0);
    EXPECT_EQ(read("out/card.pdf"), before);
    EXPECT_EQ(run({"brief", "t.routine.toml", "--flights", "20", "--mirror", "--units", "feet",
                   "--paper", "letter", "--pace", "160 words/min", "-o", "out"})
                  .exit_code,
              0);
    EXPECT_NE(read("out/card.pdf"), before);
}

TEST_F(BriefCommand, BadInputIsRefusedAndNothingWritten) {
    expectRefused({"brief", "none.routine.toml", "-o", "out"}, "none.routine.toml: ");
    expectRefused({"brief", "t.routine.toml"}, "plumbline brief: ");
    expectRefused({"brief", "t.routine.toml", "-o", "out", "--pace", "fast"}, "--pace: ");
    expectRefused({"brief", "t.routine.toml", "-o", "out", "--pace", "140"}, "--pace: ");
    expectRefused({"brief", "t.routine.toml", "-o", "out", "--paper", "a0"}, "plumbline brief: ");
    expectRefused({"brief", "t.routine.toml", "-o", "out", "--font", "none.ttf"}, "none.ttf: ");
    expectRefused({"brief", "t.routine.toml", "-o", "out", "--font", "t.routine.toml"},
                  "t.routine.toml: ");
    expectRefused({"brief", "t.routine.toml", "-o", "t.routine.toml", "--flights", "20"},
                  "t.routine.toml: ");
}

}  // namespace
}  // namespace plumbline
