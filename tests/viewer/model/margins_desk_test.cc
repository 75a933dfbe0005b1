#include "viewer/model/margins_desk.h"

#include <chrono>
#include <functional>
#include <thread>

#include <gtest/gtest.h>

#include "viewer/model/action_list.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

struct Trial {
    Model model;
    MarginsDesk desk;

    Trial() {
        show(model, openNow({}, 1));
        EXPECT_TRUE(model.shown);
    }
    /// Frames until something is so; a bound against hanging only.
    bool until(const std::function<bool()>& so) {
        for (int i = 0; i < 50000 && !so(); ++i) {
            desk.frame(model, 0.01);
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        return so();
    }
};

TEST(MarginsDesk, ToldToItBringsPartsAndPutsOneFlightBesideThePlan) {
    Trial t;
    Margins& margins = t.model.margins;
    for (int i = 0; i < 300; ++i) t.desk.frame(t.model, 0.01);
    EXPECT_FALSE(margins.report) << "nothing is flown unasked";

    Action toggle;
    toggle.kind = ActionKind::ToggleMargins;
    apply(t.model, toggle);
    ASSERT_TRUE(t.until([&] { return margins.report != nullptr; }));
    EXPECT_LT(margins.report->flights, kImperfectFlights) << "a part comes before the whole";
    EXPECT_EQ(margins.revision, t.model.shown->revision);
    EXPECT_EQ(margins.report->figures.size(), t.model.shown->path().figures.size());
    EXPECT_EQ(margins.report->ways.size(), kFan);

    // The list of the worst: its first row puts that flight beside the plan.
    t.model.list.kind = ListKind::Worst;
    const std::vector<ListRow> rows = listRows(t.model);
    ASSERT_EQ(rows.size(), margins::kWorstFlights);
    apply(t.model, rows.front().action);
    ASSERT_TRUE(t.until([&] { return t.model.shown->source.ghost != nullptr; }));
    EXPECT_EQ(t.model.shown->beside.rfind("Flight ", 0), 0U) << t.model.shown->beside;
    EXPECT_EQ(t.model.editor.beside, t.model.shown->source.ghost->path);
    const std::uint64_t known = margins.report->flights;
    ASSERT_TRUE(t.until([&] { return margins.report->flights > known; }))
        << "the counting goes on behind it";

    apply(t.model, toggle);
    t.desk.frame(t.model, 0.01);
    EXPECT_FALSE(margins.report);
    EXPECT_EQ(t.model.shown->source.ghost, nullptr);
    EXPECT_EQ(t.model.editor.beside, nullptr);
}

TEST(MarginsDesk, AChangeGivesItUpAndARestBeginsItAnew) {
    Trial t;
    Margins& margins = t.model.margins;
    margins.on = true;
    ASSERT_TRUE(t.until([&] { return margins.report != nullptr; }));
    auto changed = std::make_shared<Shown>(*t.model.shown);
    changed->revision = 2;
    t.model.shown = changed;
    EXPECT_TRUE(margins.old(*t.model.shown));
    t.desk.frame(t.model, 0.01);
    ASSERT_TRUE(margins.report) << "the old one stays to be seen";
    ASSERT_TRUE(t.until([&] { return !margins.old(*t.model.shown); }));
}

TEST(MarginsDesk, IsNotOfferedForRecordings) {
    Model model;
    model.shown = std::make_shared<Shown>();
    for (const ActionEntry& entry : actionList())
        if (entry.kind == ActionKind::ToggleMargins) {
            EXPECT_FALSE(offered(model, entry));
        }
    Action toggle;
    toggle.kind = ActionKind::ToggleMargins;
    apply(model, toggle);
    EXPECT_FALSE(model.margins.on);
}

}  // namespace
}  // namespace plumbline::model
