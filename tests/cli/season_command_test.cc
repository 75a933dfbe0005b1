// plumbline season, run as its users run it.

#include <algorithm>
#include <cstdlib>
#include <thread>

#include <nlohmann/json.hpp>

#include "tests/cli/commands_folder.h"

namespace plumbline {
namespace {

class SeasonCommand : public test::Commands {
protected:
    void SetUp() override {
        Commands::SetUp();
        write("plan.routine.toml", routine(text("120 m")));
        for (int i = 0; i < 3; ++i) {
            const std::string name = "s" + std::to_string(i);
            write(name + ".routine.toml", routine(text(std::to_string(90 + 10 * i) + " m")));
            ASSERT_EQ(run({"solve", name + ".routine.toml", "-o", name + ".csv"}).exit_code, 0);
        }
    }
    static std::string text(const std::string& slide) {
        return "pull to up at 5 g\nline up until 60 kt\npower idle\nline up until 15 kt\nslide " +
               slide + "\nfall wheels-down\nline down 60 m\npower full\npull to level at 5 g\n";
    }
    ProgramRun season(std::vector<std::string> words) const {
        words.insert(words.begin(), "season");
        words.insert(words.end(), {"--book", "my.book"});
        return run(words);
    }
    ProgramRun add(int i, const std::string& day) const {
        return season({"add", "s" + std::to_string(i) + ".csv", "--plan", "plan.routine.toml",
                       "--on", day, "--airframe", "X-AAA"});
    }
};

TEST_F(SeasonCommand, SortiesAreKeptListedAndToldAgain) {
    ASSERT_EQ(add(1, "2026-05-15 10:30").exit_code, 0);
    ASSERT_EQ(add(0, "2026-05-14").exit_code, 0);
    const ProgramRun list = season({"list"});
    EXPECT_EQ(list.exit_code, 0);
    EXPECT_NE(list.out.find("2026-05-15 10:30"), std::string::npos) << list.out;
    // By the day flown, not by that of adding.
    EXPECT_LT(list.out.find("s0.csv"), list.out.find("s1.csv"));
    EXPECT_NE(list.out.find("Trial"), std::string::npos);
    ASSERT_EQ(season({"note", "1", "--conditions", "gusts", "--notes", "tired"}).exit_code, 0);
    const ProgramRun told = season({"sortie", "1"});
    for (const char* part : {"X-AAA", "conditions: gusts", "notes: tired", "slide length", "One"})
        EXPECT_NE(told.out.find(part), std::string::npos) << part << "\n" << told.out;
    const ProgramRun again = add(1, "2026-05-15");
    EXPECT_EQ(again.exit_code, 2);
    EXPECT_NE(again.err.find("there already, as sortie 1"), std::string::npos) << again.err;
    ASSERT_EQ(season({"remove", "1"}).exit_code, 0);
    EXPECT_EQ(season({"sortie", "1"}).exit_code, 2);
}

TEST_F(SeasonCommand, TrendsGiveEachFlightsOwnNumber) {
    for (int i = 0; i < 3; ++i) ASSERT_EQ(add(i, "2026-05-1" + std::to_string(i)).exit_code, 0);
    const ProgramRun ran = season({"trends", "--measure", "slide length", "--json"});
    ASSERT_EQ(ran.exit_code, 0) << ran.err;
    const auto trends = nlohmann::json::parse(ran.out)["trends"];
    ASSERT_EQ(trends.size(), 1U);
    EXPECT_EQ(trends[0]["figure"], "One");
    for (std::size_t i = 0; i < 3; ++i) {
        const auto& point = trends[0]["points"][i];
        EXPECT_NEAR(point["planned"].get<double>() - point["value"].get<double>(),
                    30 - 10 * static_cast<double>(i), 3);
    }
    EXPECT_EQ(trends[0]["course"], "too few to say");
    EXPECT_EQ(season({"trends", "--measure", "elegance"}).exit_code, 2);
}

TEST_F(SeasonCommand, LoadsBeginAnewWithAnOverhaul) {
    for (int i = 0; i < 3; ++i) ASSERT_EQ(add(i, "2026-05-1" + std::to_string(i)).exit_code, 0);
    ASSERT_EQ(season({"overhaul", "X-AAA", "--on", "2026-05-11"}).exit_code, 0);
    const ProgramRun ran = season({"loads", "--json"});
    const auto airframe = nlohmann::json::parse(ran.out)["airframes"][0];
    EXPECT_EQ(airframe["sorties"], 2);
    EXPECT_NEAR(airframe["most_g"].get<double>(), 5, 0.3);
    double pulls = 0;  // two pulls beyond 3 g in each sortie
    for (const auto& level : airframe["levels"])
        if (level["load_g"] == 3) pulls = level["times"].get<double>();
    EXPECT_EQ(pulls, 4);
}

TEST_F(SeasonCommand, RemarksGoFromHandToHand) {
    ASSERT_EQ(add(0, "2026-05-14").exit_code, 0);
    ASSERT_EQ(season({"remark", "1", "--at", "12s", "--by", "Coach", "late"}).exit_code, 0);
    ASSERT_EQ(season({"remark", "plan.routine.toml", "--at", "1 min", "on the plan"}).exit_code, 0);
    ASSERT_EQ(season({"remark", "Trial", "--at", "70s", "by its name"}).exit_code, 0);
    const ProgramRun on_plan = season({"remarks", "Trial"});
    EXPECT_NE(on_plan.out.find("on the plan"), std::string::npos) << on_plan.out;
    EXPECT_NE(on_plan.out.find("by its name"), std::string::npos);
    EXPECT_EQ(on_plan.out.find("late"), std::string::npos);
    ASSERT_EQ(season({"remark", "--change", "1", "early"}).exit_code, 0);
    ASSERT_EQ(season({"remark", "--drop", "2"}).exit_code, 0);
    const ProgramRun all = season({"remarks"});
    EXPECT_NE(all.out.find("early"), std::string::npos) << all.out;
    EXPECT_EQ(all.out.find("on the plan"), std::string::npos);
}

TEST_F(SeasonCommand, WithoutAPlanNobodyKnowsWhereTheCrowdIs) {
    ASSERT_EQ(season({"add", "s0.csv", "--on", "2026-05-14", "--airframe", "X-AAA"}).exit_code, 0);
    const ProgramRun told = season({"sortie", "1"});
    EXPECT_NE(told.out.find("Tailslide"), std::string::npos) << told.out;
    EXPECT_EQ(told.out.find("from crowd line"), std::string::npos) << told.out;
}

TEST_F(SeasonCommand, TablesHoldEverySortie) {
    ASSERT_EQ(add(0, "2026-05-14").exit_code, 0);
    ASSERT_EQ(season({"export", "-o", "tables"}).exit_code, 0);
    const std::string sorties = read("tables/sorties.csv");
    EXPECT_EQ(std::count(sorties.begin(), sorties.end(), '\n'), 2);
    EXPECT_NE(read("tables/measures.csv").find("slide length"), std::string::npos);
}

TEST_F(SeasonCommand, TheUsualBookLiesWherePeoplesDataDo) {
    setenv("XDG_DATA_HOME", (folder_ / "data").c_str(), 1);
    EXPECT_EQ(run({"season", "add", "plan.routine.toml"}).exit_code, 0);
    EXPECT_TRUE(std::filesystem::exists(folder_ / "data" / "plumbline" / "season.book"));
    unsetenv("XDG_DATA_HOME");
}

TEST_F(SeasonCommand, CurrencyTellsItsWindows) {
    ASSERT_EQ(add(0, "2026-05-14").exit_code, 0);
    const ProgramRun ran = season({"currency", "--within", "3650", "--json"});
    const auto json = nlohmann::json::parse(ran.out);
    EXPECT_EQ(json["windows"][0]["days"], 3650);
    EXPECT_EQ(json["routines"][0]["name"], "Trial");
    EXPECT_NE(run({"season", "currency", "--help"}).out.find("common practice, no source"),
              std::string::npos);
}

TEST_F(SeasonCommand, TwoWhoAddAtOnceBothDo) {
    std::vector<ProgramRun> ran(2);
    std::vector<std::thread> both;
    // Each in a folder of its own, since the outputs of a run are kept beside its folder.
    for (std::size_t i = 0; i < 2; ++i) {
        const std::filesystem::path own = folder_ / ("at" + std::to_string(i));
        std::filesystem::create_directories(own);
        both.emplace_back([&, i, own] {
            ran[i] = runProgram(own.string(), {"season", "add", "../s" + std::to_string(i) + ".csv",
                                               "--plan", "../plan.routine.toml", "--on",
                                               "2026-05-14", "--book", "../my.book"});
        });
    }
    for (std::thread& one : both) one.join();
    for (const ProgramRun& one : ran) EXPECT_EQ(one.exit_code, 0) << one.err;
    const ProgramRun list = season({"list"});
    EXPECT_NE(list.out.find("s0.csv"), std::string::npos) << list.out;
    EXPECT_NE(list.out.find("s1.csv"), std::string::npos);
}

TEST_F(SeasonCommand, BadInputIsRefused) {
    expectRefused({"season"}, "plumbline season: ");
    expectRefused({"season", "lsit"}, "plumbline season: there is no word \"lsit\"");
    expectRefused({"season", "list", "--book", "none.book"},
                  "none.book: there is no season's book");
    expectRefused({"season", "list", "--book", "plan.routine.toml"},
                  "plan.routine.toml: this is no season's book");
    expectRefused({"season", "add", "s0.csv", "--airframe", "X-AAA", "--book", "b"},
                  "s0.csv: this recording has no date: say when");
    expectRefused({"season", "add", "s0.csv", "--on", "2026-05-14", "--book", "b"}, "s0.csv: ");
    expectRefused({"season", "add", "s0.csv", "--on", "14th of May", "--book", "b"}, "--on: ");
    ASSERT_EQ(season({"add", "plan.routine.toml"}).exit_code, 0);
    expectRefused({"season", "remark", "7", "late", "--at", "95s", "--book", "my.book"},
                  "my.book: there is no sortie 7");
    expectRefused({"season", "remark", "Trial", "late", "--at", "95", "--book", "my.book"},
                  "--at: ");
    expectRefused({"season", "remark", "Trial", "--at", "95s", "--book", "my.book"},
                  "plumbline season remark: ");
    expectRefused({"season", "note", "7", "--notes", "x", "--book", "my.book"}, "my.book: ");
}

}  // namespace
}  // namespace plumbline
