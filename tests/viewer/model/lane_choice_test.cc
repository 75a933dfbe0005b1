#include "viewer/model/lane_choice.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

LaneSituation routine() {
    LaneSituation out;
    out.power = out.heard = true;
    return out;
}

bool has(const LaneSet& set, Lane lane) { return set[static_cast<std::size_t>(lane)]; }

TEST(LaneChoice, ByItselfALowTimelineFoldsSpeedAndSmokeAway) {
    LaneSituation there = routine();
    const LaneSet tall = shownLanes({}, there);
    for (const Lane lane : {Lane::Height, Lane::Load, Lane::Speed, Lane::Smoke, Lane::Findings})
        EXPECT_TRUE(has(tall, lane)) << laneName(lane);
    for (const Lane lane : {Lane::Power, Lane::Cues, Lane::Heard, Lane::Apart, Lane::Music})
        EXPECT_FALSE(has(tall, lane)) << laneName(lane);
    there.low = true;
    EXPECT_FALSE(has(shownLanes({}, there), Lane::Speed));
    EXPECT_FALSE(has(shownLanes({}, there), Lane::Smoke));
    EXPECT_TRUE(has(shownLanes({}, there), Lane::Load));
}

TEST(LaneChoice, AWishHoldsWhateverTheHeight) {
    LaneSituation there = routine();
    LaneWishes wishes{};
    there.low = true;
    wishes[static_cast<std::size_t>(Lane::Speed)] = turned(Lane::Speed, wishes, there);
    EXPECT_TRUE(has(shownLanes(wishes, there), Lane::Speed));
    wishes[static_cast<std::size_t>(Lane::Load)] = turned(Lane::Load, wishes, there);
    EXPECT_FALSE(has(shownLanes(wishes, there), Lane::Load));
    there.low = false;
    EXPECT_FALSE(has(shownLanes(wishes, there), Lane::Load));
    EXPECT_TRUE(has(shownLanes(wishes, there), Lane::Speed));
    // Turned round twice it goes by itself again.
    wishes[static_cast<std::size_t>(Lane::Load)] = turned(Lane::Load, wishes, there);
    EXPECT_EQ(wishes[static_cast<std::size_t>(Lane::Load)], LaneWish::Auto);
}

TEST(LaneChoice, OnlyWhatThereIsToShowIsOffered) {
    LaneSituation recording;
    recording.recording = recording.logged = true;
    for (const Lane lane : {Lane::Cues, Lane::Smoke, Lane::Findings, Lane::Power, Lane::Heard})
        EXPECT_FALSE(laneOffered(lane, recording)) << laneName(lane);
    EXPECT_TRUE(has(shownLanes({}, recording), Lane::Logged));
    LaneWishes wishes{};
    wishes.fill(LaneWish::Shown);
    EXPECT_FALSE(has(shownLanes(wishes, recording), Lane::Power));
    LaneSituation ghost = routine();
    ghost.ghost = true;
    EXPECT_TRUE(has(shownLanes({}, ghost), Lane::Apart));
    EXPECT_FALSE(has(shownLanes({}, ghost), Lane::Speed)) << "the distance takes its place";
}

TEST(LaneChoice, ReachIsOfferedForPlansAtSitesWithAStrip) {
    LaneSituation there = routine();
    EXPECT_FALSE(laneOffered(Lane::Reach, there));
    there.reach = true;
    EXPECT_TRUE(laneOffered(Lane::Reach, there));
    EXPECT_FALSE(has(shownLanes({}, there), Lane::Reach)) << "only when asked for";
    LaneWishes wishes{};
    wishes[static_cast<std::size_t>(Lane::Reach)] = turned(Lane::Reach, wishes, there);
    EXPECT_TRUE(has(shownLanes(wishes, there), Lane::Reach));

    OpenWish demo;
    Model model;
    model.shown = openNow(demo, 1).shown;
    ASSERT_TRUE(model.shown);
    EXPECT_TRUE(laneSituation(model).reach);
    EXPECT_GT(model.shown->reaches.size(),
              static_cast<std::size_t>(model.shown->path().duration_s()));
}

TEST(LaneChoice, LanesNeverOverlapNorLeaveTheirRoom) {
    for (int bits = 0; bits < 1 << kLaneCount; bits += 7) {
        LaneSet shown{};
        for (int i = 0; i < kLaneCount; ++i)
            shown[static_cast<std::size_t>(i)] = ((bits >> i) & 1) != 0;
        for (float room = 30; room < 400; room += 13) {
            const LanePlan plan = planLanes(shown, false, room);
            float bottom = 0;
            for (std::size_t i = 0; i < plan.height.size(); ++i) {
                if (plan.height[i] <= 0) continue;
                EXPECT_TRUE(shown[i]);
                EXPECT_GE(plan.top[i], bottom);
                bottom = plan.top[i] + plan.height[i];
            }
            EXPECT_LE(bottom, room);
            if (room >= lanesHeight(shown, false)) {
                for (std::size_t i = 0; i < plan.height.size(); ++i)
                    EXPECT_EQ(plan.height[i] > 0, shown[i]) << "nothing is left out in that room";
            }
        }
    }
}

TEST(LaneChoice, SpareRoomGoesToHeightAndLoad) {
    const LaneSet shown = shownLanes({}, routine());
    const float least = lanesHeight(shown, false);
    const LanePlan tight = planLanes(shown, false, least);
    const LanePlan wide = planLanes(shown, false, least + 40);
    for (const Lane lane : {Lane::Height, Lane::Load}) {
        const auto i = static_cast<std::size_t>(lane);
        EXPECT_EQ(wide.height[i], tight.height[i] + 20);
    }
    const auto speed = static_cast<std::size_t>(Lane::Speed);
    EXPECT_EQ(wide.height[speed], tight.height[speed]);
}

TEST(LaneChoice, TheListTurnsLanesAndStaysOpen) {
    Model model;
    Action open;
    open.kind = ActionKind::ShowList;
    open.index = static_cast<int>(ListKind::Lanes);
    Actions more;
    ASSERT_TRUE(applyToList(model, open, more));
    const auto rows = listRows(model);
    const auto row = std::find_if(rows.begin(), rows.end(), [](const ListRow& r) {
        return r.title == laneName(Lane::Speed);
    });
    ASSERT_NE(row, rows.end());
    EXPECT_EQ(row->key, "shown");
    Action take;
    take.kind = ActionKind::ListTake;
    take.index = static_cast<int>(row - rows.begin());
    ASSERT_TRUE(applyToList(model, take, more));
    for (const Action& action : more.list()) apply(model, action);
    EXPECT_EQ(model.list.kind, ListKind::Lanes);
    EXPECT_FALSE(has(shownLanes(model.session.lane_wishes, laneSituation(model)), Lane::Speed));
    Action reset;
    reset.kind = ActionKind::ResetLanes;
    apply(model, reset);
    EXPECT_TRUE(has(shownLanes(model.session.lane_wishes, laneSituation(model)), Lane::Speed));
}

}  // namespace
}  // namespace plumbline::model
