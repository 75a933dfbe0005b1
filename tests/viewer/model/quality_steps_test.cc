#include "viewer/model/quality_steps.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

void run(QualitySteps& steps, double frame_s, int frames) {
    for (int i = 0; i < frames; ++i) steps.frameTook(frame_s);
}

TEST(QualitySteps, GoDownWhileFramesAreSlowAndUpAgainWhenThereIsRoom) {
    QualitySteps steps;
    run(steps, 0.016, 1000);
    EXPECT_EQ(steps.step(), 0);
    run(steps, 0.045, 48);
    EXPECT_EQ(steps.step(), 1);
    run(steps, 0.045, 24);
    EXPECT_EQ(steps.step(), 2);
    run(steps, 0.045, 300);
    EXPECT_EQ(steps.step(), 3) << "there is none below";
    scene::DrawList list;
    steps.applyTo(list);
    EXPECT_EQ(list.quality, scene::Quality::Low);
    EXPECT_LT(list.render_scale, 1);
    run(steps, 0.028, 3000);
    EXPECT_EQ(steps.step(), 3) << "good enough, but no room for more";
    run(steps, 0.010, 6000);
    EXPECT_EQ(steps.step(), 0);
}

TEST(QualitySteps, VerySlowFramesAreNotWaitedForLong) {
    QualitySteps steps;
    run(steps, 0.4, 12);
    EXPECT_EQ(steps.step(), 3) << "within five seconds";
}

TEST(QualitySteps, OneSlowFrameChangesNothing) {
    QualitySteps steps;
    for (int i = 0; i < 50; ++i) {
        run(steps, 0.016, 60);
        steps.frameTook(0.2);
    }
    EXPECT_EQ(steps.step(), 0);
}

TEST(QualitySteps, DoNotSwingBetweenTwoSteps) {
    // Slow at the best step, quick at the next: each return is waited for longer.
    QualitySteps steps;
    int changes = 0;
    for (int i = 0, before = 0; i < 60 * 60 * 5; ++i) {
        steps.frameTook(steps.step() == 0 ? 0.040 : 0.018);
        changes += steps.step() != before ? 1 : 0;
        before = steps.step();
    }
    EXPECT_LT(changes, 30);
}

}  // namespace
}  // namespace plumbline::model
