// plumbline brief, run as its users run it.

#include <cstdlib>

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

/// A folder with a viewer for browsers that is its frame alone; the real one is tested in browsers.
class BriefPage : public test::Commands {
protected:
    void SetUp() override {
        Commands::SetUp();
        write("viewer.html", "<script type=\"application/json\" id=\"carried\">{}</script>\n");
        setenv("PLUMBLINE_PAGE", (folder_ / "viewer.html").c_str(), 1);
    }
    void TearDown() override {
        unsetenv("PLUMBLINE_PAGE");
        Commands::TearDown();
    }
};

TEST_F(BriefPage, IsWrittenWithTheRoutineAndTheFlight) {
    const ProgramRun ran = run({"brief", "t.routine.toml", "--flights", "20", "--mirror",
                                "--sortie", "paraglider.igc", "-o", "out"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("out/page.html, "), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("carries 5 files"), std::string::npos) << ran.out;
    const std::string page = read("out/page.html");
    for (const char* part : {"\"t.routine.toml\"", "\"paraglider.igc\"", "\"--mirror\""})
        EXPECT_NE(page.find(part), std::string::npos) << part;
    EXPECT_EQ(page.find(folder_.string()), std::string::npos) << "it tells where the files lay";
}

TEST_F(BriefPage, IsNoMustUnlessAskedFor) {
    setenv("PLUMBLINE_PAGE", "none.html", 1);
    const ProgramRun ran = run({"brief", "t.routine.toml", "--flights", "20", "-o", "out"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.err.find("no page to send by mail"), std::string::npos) << ran.err;
    EXPECT_EQ(ran.out.find("page.html"), std::string::npos);
    expectRefused({"brief", "t.routine.toml", "--page", "-o", "none"}, "page.html: ");
    setenv("PLUMBLINE_PAGE", "t.routine.toml", 1);
    expectRefused({"brief", "t.routine.toml", "--page", "-o", "none"}, "page.html: ");
}

TEST_F(BriefPage, RefusesAFlightThatIsNotThereAndTooMuchForMail) {
    expectRefused({"brief", "t.routine.toml", "--sortie", "none.igc", "-o", "none"}, "none.igc: ");
    write("long.csv", std::string(std::size_t{13} << 20U, 'x'));
    expectRefused({"brief", "t.routine.toml", "--sortie", "long.csv", "-o", "none"}, "page.html: ");
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
