// plumbline review, run as its users run it.

#include <nlohmann/json.hpp>

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

class ReviewCommand : public test::Commands {
protected:
    void SetUp() override {
        Commands::SetUp();
        write("plan.routine.toml", routine(text("120 m")));
        write("flown.routine.toml", routine(text("90 m")));
        ASSERT_EQ(run({"solve", "flown.routine.toml", "-o", "flown.csv"}).exit_code, 0);
        ASSERT_EQ(run({"solve", "plan.routine.toml", "-o", "plan.csv"}).exit_code, 0);
    }
    static std::string text(const std::string& slide) {
        return "pull to up at 5 g\nline up until 60 kt\npower idle\nline up until 15 kt\nslide " +
               slide + "\nfall wheels-down\nline down 60 m\npower full\npull to level at 5 g\n";
    }
};

TEST_F(ReviewCommand, APerfectFlightIsDone) {
    const ProgramRun ran = run({"review", "plan.csv", "--plan", "plan.routine.toml"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    EXPECT_NE(ran.out.find("nothing to mend"), std::string::npos) << ran.out;
    EXPECT_NE(ran.out.find("no approval to fly"), std::string::npos);
}

TEST_F(ReviewCommand, AShortSlideIsSaidAndFoundInTheJson) {
    const ProgramRun ran = run({"review", "flown.csv", "--plan", "plan.routine.toml"});
    EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
    EXPECT_NE(ran.out.find("short of its"), std::string::npos) << ran.out;
    const ProgramRun json = run({"review", "flown.csv", "--plan", "plan.routine.toml", "--json"});
    const auto report = nlohmann::json::parse(json.out);
    ASSERT_EQ(report["slides"].size(), 1U);
    const auto way = report["slides"][0]["way_m"];
    EXPECT_NEAR(way["planned"].get<double>() - way["flown"].get<double>(), 30, 5);
    EXPECT_EQ(report["figures"][0]["figure"], "One");
    EXPECT_FALSE(report["caution"].get<std::string>().empty());
}

TEST_F(ReviewCommand, WithoutAPlanItTellsWhatWasFlown) {
    const ProgramRun ran = run({"review", "plan.csv"});
    EXPECT_EQ(ran.exit_code, 0) << ran.err;
    for (const char* word : {"pull", "line up", "slide", "fall", "line down"})
        EXPECT_NE(ran.out.find(word), std::string::npos) << word << "\n" << ran.out;
}

TEST_F(ReviewCommand, PrintsADebriefAndItsTables) {
    const ProgramRun ran =
        run({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "prints"});
    EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
    for (const char* name : {"debrief.pdf", "crew.pdf"})
        EXPECT_EQ(read(std::string("prints/") + name).substr(0, 5), "%PDF-") << name;
    EXPECT_EQ(nlohmann::json::parse(read("prints/review.json"))["slides"].size(), 1U);
    EXPECT_NE(read("prints/slides.csv").find("\r\nOne,"), std::string::npos);
    // The same flight again: the same bytes, and no file more.
    const std::string first = read("prints/debrief.pdf");
    const auto count = std::distance(std::filesystem::directory_iterator(folder_ / "prints"),
                                     std::filesystem::directory_iterator());
    run({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "prints"});
    EXPECT_EQ(read("prints/debrief.pdf"), first);
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_ / "prints"),
                            std::filesystem::directory_iterator()),
              count);
    // A change of the plan's file changes what is printed of its revision.
    write("plan.routine.toml", routine(text("120 m")) + "# later\n");
    run({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "prints"});
    EXPECT_NE(read("prints/debrief.pdf"), first);
}

TEST_F(ReviewCommand, WhatCannotBePrintedIsRefused) {
    expectRefused({"review", "flown.csv", "-o", "prints"}, "-o: ");
    expectRefused({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "plan.csv"},
                  "plan.csv: ");
    expectRefused({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "prints", "--font",
                   "plan.csv"},
                  "plan.csv: ");
    expectRefused({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "prints", "--font",
                   "none.ttf"},
                  "none.ttf: ");
    EXPECT_EQ(
        run({"review", "flown.csv", "--plan", "plan.routine.toml", "-o", "x", "--paper", "a5"})
            .exit_code,
        2);
}

TEST_F(ReviewCommand, PrintsTheSightingFrameByTheFileOrByAFlight) {
    ASSERT_EQ(run({"sighting", "plan.routine.toml", "-o", "frame.pdf"}).exit_code, 0);
    EXPECT_EQ(read("frame.pdf").substr(0, 5), "%PDF-");
    expectRefused({"sighting", "plan.routine.toml", "--flight", "none.csv", "-o", "x.pdf"},
                  "none.csv: ");
    ASSERT_EQ(run({"solve", "t.routine.toml", "-o", "level.csv"}).exit_code, 0);
    expectRefused({"sighting", "plan.routine.toml", "--flight", "level.csv", "-o", "x.pdf"},
                  "level.csv: ");
}

TEST_F(ReviewCommand, BadInputIsRefused) {
    expectRefused({"review", "none.csv"}, "none.csv: ");
    expectRefused({"review", "plan.csv", "--plan", "none.routine.toml"}, "none.routine.toml");
    // Places alone tell no attitude, and figures are told by it.
    expectRefused({"review", "paraglider.igc"}, "paraglider.igc: ");
    expectRefused({"review"}, "plumbline review");
}

}  // namespace
}  // namespace plumbline
