#include "viewer/scene/fan.h"

#include <gtest/gtest.h>

namespace plumbline::scene {
namespace {

std::shared_ptr<const margins::Way> way(float y_m) {
    auto out = std::make_shared<margins::Way>();
    out->begins = {0, 10, 500};
    for (int i = 0; i < 500; ++i) out->places_S_m.emplace_back(static_cast<float>(i), y_m, 100.0F);
    return out;
}

path::Path plan() {
    path::Path plan;
    plan.figures.resize(2);
    plan.figures[0].stop_s = plan.figures[1].start_s = 4;
    plan.figures[1].stop_s = 60;
    return plan;
}

TEST(Fan, ShowsTheFigureOfTheMomentWholeWhateverTheClock) {
    DrawList first, second;
    addFan({way(0), way(5)}, plan(), 1, first);
    ASSERT_EQ(first.lines.size(), 2U);
    EXPECT_EQ(first.lines[0].points_S_m.front().x, 0);
    EXPECT_EQ(first.lines[0].points_S_m.back().x, 9);
    EXPECT_EQ(first.lines[1].points_S_m.front().y, 5);
    addFan({way(0)}, plan(), 30, second);
    ASSERT_EQ(second.lines.size(), 1U);
    EXPECT_EQ(second.lines[0].points_S_m.front().x, 10);
    EXPECT_EQ(second.lines[0].points_S_m.back().x, 499);
    EXPECT_LT(second.lines[0].points_S_m.size(), 125U) << "long ways are thinned out";
}

TEST(Fan, AFlightThatEndedEarlyHasNoLineBeyond) {
    auto early = std::make_shared<margins::Way>();
    early->begins = {0, 3};
    early->places_S_m.resize(3);
    DrawList list;
    addFan({early}, plan(), 30, list);
    EXPECT_TRUE(list.lines.empty());
}

}  // namespace
}  // namespace plumbline::scene
