// How far a slide goes is what its figure text says: from the top, what coasts up before it left
// out, to where the nose is let swing.
#include "engine/review/slides.h"

#include <algorithm>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::fly;
using test::reviewOf;
using test::Written;

Written slideOf(const std::string& way, const std::string& fall = "fall wheels-down") {
    return {"Tailslide",
            "line level 200 m\npull to up at 5 g\nline up until 60 kt\npower idle\n"
            "line up until 15 kt\nslide " +
                way + "\n" + fall + "\nline down 60 m\npower full\npull to level at 5 g"};
}

TEST(Slide, IsAsLongAsThePlanSays) {
    for (const double way_m : {60.0, 90.0, 120.0, 150.0}) {
        const path::Path plan = fly({slideOf(std::to_string(static_cast<int>(way_m)) + " m")});
        const Review review = reviewOf(plan, plan);
        ASSERT_EQ(review.slides.size(), 1U);
        EXPECT_NEAR(review.slides[0].way_m.planned, way_m, 1);
        EXPECT_NEAR(review.slides[0].way_m.flown, way_m, 1);
    }
}

TEST(Slide, OfAnotherLengthOrFallIsMeasuredTheSame) {
    const path::Path plan = fly({slideOf("120 m")});
    for (const double way_m : {80.0, 105.0, 140.0})
        for (const char* fall : {"fall wheels-down", "fall wheels-up"}) {
            const path::Path flight =
                fly({slideOf(std::to_string(static_cast<int>(way_m)) + " m", fall)});
            const Review review = reviewOf(flight, plan);
            ASSERT_EQ(review.slides.size(), 1U);
            EXPECT_NEAR(review.slides[0].way_m.flown, way_m, 2);
        }
}

// Closed form: a fall from rest. Up with 10 m/s, back down for three seconds: 45 m below the top
// with g = 10.
TEST(Slide, CountsFromTheTop) {
    path::Path path;
    path.known.attitude = true;
    for (int i = 0; i <= 400; ++i) {
        path::Sample s;
        s.time_s = 0.01 * i;
        s.velocity_S_mps = Vec3(0, 0, 10 - 10 * s.time_s);
        s.position_S_m = Vec3(0, 0, 300 + 10 * s.time_s - 5 * s.time_s * s.time_s);
        s.q_SB = Quat(std::sqrt(0.5), 0, -std::sqrt(0.5), 0);  // nose up
        path.samples.push_back(s);
    }
    Piece slide;
    slide.motion = Motion::Slide;
    slide.stop_s = 4;
    const SlideMeasure m = measureSlide(path, slide, 0);
    EXPECT_NEAR(m.way_m, 45, 0.01);
    EXPECT_NEAR(m.fastest_mps, 30, 0.01);
    EXPECT_NEAR(measureSlide(path, slide, 1).way_m, 20, 0.01);
}

// What comes to rest steeply down behind a fall is no line that the plan draws.
TEST(Slide, ItsFallIsNoVertical) {
    const path::Path plan = fly({slideOf("120 m")});
    for (const Review::Line& line : reviewOf(plan, plan).lines)
        EXPECT_EQ(line.name.find("fall"), std::string::npos) << line.name;
}

}  // namespace
}  // namespace plumbline::review
