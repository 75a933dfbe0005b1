#include "viewer/scene/pick.h"

#include <gtest/gtest.h>

#include "tests/viewer/scene/made_paths.h"

namespace plumbline::scene {
namespace {

constexpr int kWidth_px = 1280, kHeight_px = 720;

Camera crowdCamera() {
    Camera camera;
    camera.eye_S_m = {0, -150, 1.7};
    camera.forward_S = glm::normalize(Vec3(0, 1, 0.4));
    camera.up_S = glm::normalize(Vec3(0, -0.4, 1));
    camera.vertical_fov_rad = 0.8;
    return camera;
}

std::optional<double> pickAt(const path::Path& path, const Camera& camera, const Vec3& at_S_m,
                             double off_x_px = 0, double off_y_px = 0) {
    double x = 0, y = 0, distance_m = 0;
    EXPECT_TRUE(project(camera, kWidth_px, kHeight_px, at_S_m, x, y, distance_m));
    PickWish wish;
    wish.to_s = path.duration_s();
    return pickPath(path, camera, kWidth_px, kHeight_px, x + off_x_px, y + off_y_px, wish);
}

TEST(Pick, FindsTheMomentUnderThePointer) {
    const path::Path path = levelPass(60, 60);
    for (const double time_s : {8.0, 9.33, 10.0, 11.7}) {
        const auto picked = pickAt(path, crowdCamera(), path::sampleAt(path, time_s).position_S_m);
        ASSERT_TRUE(picked);
        EXPECT_NEAR(*picked, time_s, 0.005);
    }
}

TEST(Pick, TakesTheFootOfThePerpendicularAndNothingFarAway) {
    const path::Path path = levelPass(60, 60);
    const Vec3 place_S_m = path::sampleAt(path, 10).position_S_m;
    const auto beside = pickAt(path, crowdCamera(), place_S_m, 0, 6);
    ASSERT_TRUE(beside);
    EXPECT_NEAR(*beside, 10, 0.01);
    EXPECT_FALSE(pickAt(path, crowdCamera(), place_S_m, 0, 14));
}

TEST(Pick, OfTwoThatCrossTheNearerIsMeant) {
    // A loop seen along its plane: ascending and descending halves lie over each other, at other
    // distances once the eye stands in the plane.
    const path::Path path = roundLoop();
    Camera camera;
    camera.eye_S_m = {-400, 0, 150};
    camera.forward_S = {1, 0, 0};
    camera.up_S = {0, 0, 1};
    camera.vertical_fov_rad = 0.8;
    // At mid height the near side of the circle is the descending one, flown later.
    const double round_s = 2 * kPi * 90 / 60;
    const double far_s = 5 + 0.25 * round_s, near_s = 5 + 0.75 * round_s;
    const auto picked = pickAt(path, camera, path::sampleAt(path, far_s).position_S_m);
    ASSERT_TRUE(picked);
    EXPECT_NEAR(*picked, near_s, 0.2);
}

TEST(Pick, WhatLiesBehindTheEyeIsNotPicked) {
    const path::Path path = levelPass(60, 60);
    Camera camera = crowdCamera();
    camera.forward_S = {0, -1, 0};
    camera.up_S = {0, 0, 1};
    PickWish wish;
    wish.to_s = path.duration_s();
    wish.within_px = 1e6;
    EXPECT_FALSE(pickPath(path, camera, kWidth_px, kHeight_px, 640, 360, wish));
    EXPECT_FALSE(pickPath({}, crowdCamera(), kWidth_px, kHeight_px, 640, 360, wish));
}

}  // namespace
}  // namespace plumbline::scene
