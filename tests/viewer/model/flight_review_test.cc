// A flight over its plan as the window gets it. The flown routine has known faults: an upline of 86
// deg, a loop left out; both are solved, the flight goes through a path CSV.
#include "viewer/model/flight_review.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>
#include <thread>

#include <gtest/gtest.h>

#include "engine/out/path_csv.h"
#include "engine/units/units.h"
#include "viewer/model/action_list.h"
#include "viewer/model/debrief_desk.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

const std::filesystem::path kData = PLUMBLINE_TEST_DATA;

const char* const kHead = R"(aircraft = "sample.aircraft.toml"
site = "sample.site.toml"
weather = "sample.weather.toml"
[start]
x = "-600 m"
y = "200 m"
height = "300 m"
heading = "crowd-right"
speed = "75 m/s"
fuel = "40 l"
)";
std::string figure(const char* name, const char* text) {
    return std::string("[[figure]]\nname = \"") + name + "\"\ntext = \"\"\"\n" + text +
           "\n\"\"\"\n";
}
const std::string kRun = figure("Run in", "line level 200 m");
const std::string kUp = figure(
    "Upline",
    "line level 100 m\npull to up at 5 g\nline up 150 m\npush to level at 1 g\nline level 100 m");
const std::string kLeaning = figure("Upline",
                                    "line level 100 m\npull to 86 deg up at 5 g\nline 86 deg up by "
                                    "nose 150 m\npush to level at 1 g\nline level 100 m");
const std::string kLoop = figure("Loop", "pull 360 deg at 4 g\nline level 200 m");
const std::string kCuban = figure("Half Cuban",
                                  "pull 225 deg at 4 g\nline 45 deg down 100 m with 1/2 roll "
                                  "left\npull to level at 4 g\nline level 200 m");

class Reviewed : public testing::Test {
protected:
    static void SetUpTestSuite() {
        folder_ = std::filesystem::path(testing::TempDir()) / "reviewed";
        std::filesystem::create_directories(folder_);
        for (const char* name : {"sample.aircraft.toml", "sample.site.toml", "sample.weather.toml"})
            std::filesystem::copy_file(kData / "files" / name, folder_ / name,
                                       std::filesystem::copy_options::overwrite_existing);
        write("plan.routine.toml", kRun + kUp + kLoop + kCuban);
        write("flown.routine.toml", kRun + kLeaning + kCuban);
        OpenWish wish;
        wish.files = {folder_ / "flown.routine.toml"};
        const OpenResult flown = openNow(wish, 1);
        ASSERT_NE(flown.shown, nullptr) << describe(flown.problems);
        std::ofstream(folder_ / "sortie.csv", std::ios::binary)
            << out::pathCsv(flown.shown->path());
        wish.files = {folder_ / "plan.routine.toml", folder_ / "sortie.csv"};
        wish.review = true;
        result_ = openNow(wish, 2);
        ASSERT_NE(result_.shown, nullptr) << describe(result_.problems);
        ASSERT_NE(result_.shown->review, nullptr);
    }
    static void TearDownTestSuite() { result_ = OpenResult(); }
    static void write(const char* name, const std::string& figures) {
        std::ofstream(folder_ / name) << "name = \"Evening\"\n" << kHead << figures;
    }
    static const Shown& shown() { return *result_.shown; }
    static Model modelOf() {
        Model model;
        show(model, result_);
        return model;
    }

    static std::filesystem::path folder_;
    static OpenResult result_;
};
std::filesystem::path Reviewed::folder_;
OpenResult Reviewed::result_;

TEST_F(Reviewed, TheFlightStandsOverItsPlan) {
    EXPECT_TRUE(shown().recording());
    EXPECT_EQ(shown().title, "sortie");
    ASSERT_NE(shown().review->plan, nullptr);
    EXPECT_EQ(shown().review->plan->title, "Evening");
    ASSERT_NE(shown().source.ghost, nullptr);
    EXPECT_EQ(shown().source.ghost->path, shown().review->plan->source.path);
    EXPECT_EQ(shown().logs.size(), 1U);
    EXPECT_EQ(shown().lanes.planned_height_m.values.size(), shown().lanes.time_s.size());
}

TEST_F(Reviewed, WhatIsToBeMendedIsListedHeaviestFirst) {
    const auto& list = shown().review->to_mend;
    ASSERT_GE(list.size(), 2U);
    EXPECT_TRUE(std::is_sorted(list.begin(), list.end(), [](const ToMend& a, const ToMend& b) {
        return a.weight > b.weight;
    }));
    EXPECT_EQ(list[0].figure, "Loop");
    const auto line = std::find_if(list.begin(), list.end(),
                                   [](const ToMend& one) { return one.figure == "Upline"; });
    ASSERT_NE(line, list.end());
    EXPECT_NE(line->fault.find("4.0\u00B0 off the vertical"), std::string::npos) << line->fault;
    EXPECT_NE(line->fault.find("wheels"), std::string::npos) << line->fault;
}

TEST_F(Reviewed, RowsAreTheFiguresFlownAndThoseMissingInTheirPlaces) {
    const Model model = modelOf();
    std::vector<std::string> names;
    for (const SheetRow& row : model.rows) names.push_back(row.figure.name);
    EXPECT_EQ(names, (std::vector<std::string>{"Run in", "Upline", "Loop", "Half Cuban"}));
    EXPECT_EQ(model.rows[2].outline, -1);
    EXPECT_GE(model.rows[1].outline, 0);
}

// The findings lane, its keys and the marks in the sheet: only what has a moment in the flight.
TEST_F(Reviewed, FindingsStandInTheFlightsTime) {
    ASSERT_FALSE(shown().findings.empty());
    for (const check::Finding& finding : shown().findings) {
        EXPECT_NE(finding.figure, "Loop");
        EXPECT_GE(finding.time_s, 0);
        EXPECT_LE(finding.time_s, shown().path().duration_s());
    }
    Model model = modelOf();
    EXPECT_FALSE(model.clock.playing());
    Action home, next;
    home.kind = ActionKind::ToStart;
    next.kind = ActionKind::NextFinding;
    apply(model, home);
    apply(model, next);
    EXPECT_NEAR(model.clock.time_s(), shown().findings.front().time_s, 1e-6);
}

TEST_F(Reviewed, EveryLineHasItsAngleOnThePath) {
    ASSERT_NE(shown().source.notes, nullptr);
    const auto& notes = *shown().source.notes;
    const auto up = std::find_if(notes.begin(), notes.end(), [](const scene::PathNote& note) {
        return note.text == "Up 86.0\u00B0";
    });
    ASSERT_NE(up, notes.end());
    EXPECT_EQ(up->quiet, "4.0\u00B0 towards wheels");
}

// By figure the plan's Half Cuban runs with the flight's; by the clock the plan is still in the
// loop that was left out.
TEST_F(Reviewed, ThePlanKeepsStepByFigureOrByTime) {
    const FlightReview& review = *shown().review;
    const auto& figures = review.result.figures;
    const auto cuban = std::find_if(figures.begin(), figures.end(),
                                    [](const auto& f) { return f.name == "Half Cuban"; });
    ASSERT_NE(cuban, figures.end());
    // Half a second in: the step over what was left out takes one of the kept quarters of a second.
    EXPECT_NEAR(scene::ghostTime(*review.by_figure, cuban->start_s + 0.5),
                cuban->planned_start_s + 0.5, 0.05);
    const double first_s = figures.front().start_s;
    EXPECT_NEAR(scene::ghostTime(*review.by_time, cuban->start_s) - cuban->start_s,
                figures.front().planned_start_s - first_s, 0.01);
    EXPECT_GT(cuban->planned_start_s - scene::ghostTime(*review.by_time, cuban->start_s), 5);

    Model model = modelOf();
    Action by_time;
    by_time.kind = ActionKind::ToggleByTime;
    apply(model, by_time);
    EXPECT_EQ(model.shown->source.ghost, review.by_time);
    EXPECT_TRUE(model.shown->review->by_time_now);
    apply(model, by_time);
    EXPECT_EQ(model.shown->source.ghost, review.by_figure);
}

TEST_F(Reviewed, WithoutAPlanTheFlightIsToldForItself) {
    OpenWish wish;
    wish.files = {folder_ / "sortie.csv"};
    const OpenResult alone = openNow(wish, 3);
    ASSERT_NE(alone.shown, nullptr);
    ASSERT_NE(alone.shown->review, nullptr);
    EXPECT_EQ(alone.shown->review->plan, nullptr);
    EXPECT_EQ(alone.shown->source.ghost, nullptr);
    EXPECT_FALSE(alone.shown->review->result.lines.empty());
}

// A flight that was read once is not read again, and the plan may be had back with it beside.
TEST_F(Reviewed, FromFlightToPlanAndBack) {
    OpenWish wish;
    wish.files = {folder_ / "plan.routine.toml"};
    wish.flight = result_.shown;
    const OpenResult plan = openNow(wish, 4);
    ASSERT_NE(plan.shown, nullptr);
    EXPECT_FALSE(plan.shown->recording());
    EXPECT_EQ(plan.shown->source.ghost->path, shown().source.path);
    OpenWish again;
    again.files = {folder_ / "no longer there.csv"};
    again.plan = plan.shown;
    again.flight = result_.shown;
    const OpenResult back = openNow(again, 5);
    ASSERT_NE(back.shown, nullptr) << describe(back.problems);
    EXPECT_EQ(back.shown->source.path, shown().source.path);
    EXPECT_EQ(back.shown->review->to_mend.size(), shown().review->to_mend.size());
}

TEST_F(Reviewed, ItsActionsAreOfferedWhereTheyMeanSomething) {
    const auto offers = [](const Model& model, ActionKind kind) {
        const auto list = actionList();
        const auto entry = std::find_if(list.begin(), list.end(),
                                        [kind](const ActionEntry& e) { return e.kind == kind; });
        return entry != list.end() && offered(model, *entry);
    };
    const Model none;
    const Model reviewed = modelOf();
    for (const ActionKind kind : {ActionKind::ToggleReview, ActionKind::ToggleByTime,
                                  ActionKind::ToggleMending, ActionKind::WriteDebrief}) {
        EXPECT_FALSE(offers(none, kind));
        EXPECT_TRUE(offers(reviewed, kind));
    }
}

TEST_F(Reviewed, TheTwoPagesGoBesideTheLog) {
    const std::filesystem::path folder = folder_ / "sortie-debrief";
    std::filesystem::remove_all(folder);
    EXPECT_EQ(debriefFolder(shown()), folder);
    Model model = modelOf();
    DebriefDesk desk;
    desk.begin(model);
    ASSERT_TRUE(desk.busy());
    while (desk.busy()) {
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
        desk.look(model);
    }
    EXPECT_FALSE(model.message.wrong) << model.message.text;
    std::string head(5, ' ');
    std::ifstream(folder / "debrief.pdf", std::ios::binary).read(head.data(), 5);
    EXPECT_EQ(head, "%PDF-");
}

TEST(Debrief, IsOfAFlightOverAPlanOnly) {
    Model model;
    DebriefDesk desk;
    desk.begin(model);
    EXPECT_FALSE(desk.busy());
    EXPECT_TRUE(model.message.wrong);
}

TEST(ToMend, TakesARemarkApart) {
    review::Remark remark;
    remark.words = "line up 250 m: 3.1 deg off the vertical (+- 0.8): too far towards the wheels";
    remark.figure = "Hammerhead";
    const ToMend one = toMend(remark);
    EXPECT_EQ(one.where, "line up 250 m");
    EXPECT_EQ(one.fault, "3.1\u00B0 off the vertical (\u00B10.8), too far towards the wheels");
    remark.words = "12 m lower than planned, at 38 m (+- 3)";
    EXPECT_EQ(toMend(remark).where, "");
    EXPECT_EQ(toMend(remark).fault, "12 m lower than planned, at 38 m (\u00B13)");
}

TEST(JudgeSees, TheLineThatIsFlownNow) {
    FlightReview review;
    review::Review::Line up;
    up.measure.climb_rad = 90 * units::kDegree_rad;
    up.measure.start_s = 10;
    up.measure.stop_s = 14;
    up.from_judge = review::Seen{1.9 * units::kDegree_rad, 0, 0.2 * units::kDegree_rad};
    review::Review::Line down45 = up;
    down45.measure.climb_rad = -45 * units::kDegree_rad;
    down45.measure.start_s = 20;
    down45.measure.stop_s = 22;
    down45.from_judge = review::Seen{46.8 * units::kDegree_rad, 45.2 * units::kDegree_rad,
                                     0.2 * units::kDegree_rad};
    review::Review::Line end_on = up;  // nothing to be seen of it
    end_on.measure.start_s = 30;
    end_on.measure.stop_s = 33;
    end_on.from_judge = {};
    review.result.lines = {up, down45, end_on};
    EXPECT_EQ(judgeSees(review, 9), "");
    EXPECT_EQ(judgeSees(review, 12), "Judge sees 88.1\u00B0");
    EXPECT_EQ(judgeSees(review, 21), "Judge sees 43.2\u00B0, true 44.8\u00B0");
    EXPECT_EQ(judgeSees(review, 31), "");
}

}  // namespace
}  // namespace plumbline::model
