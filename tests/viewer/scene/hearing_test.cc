#include "viewer/scene/hearing.h"

#include <gtest/gtest.h>

#include "tests/viewer/scene/made_paths.h"

namespace plumbline::scene {
namespace {

constexpr double kSound_mps = 340;

/// Closed form for a straight pass at constant speed: c^2 (T - t)^2 = |p + v t - e|^2, solved for
/// the earlier t.
double madeAtOnAPass(const Vec3& start_S_m, double speed_mps, const Vec3& ear_S_m, double heard_s) {
    const Vec3 from_ear = start_S_m - ear_S_m;
    const double a = kSound_mps * kSound_mps - speed_mps * speed_mps;
    const double b = -2 * (kSound_mps * kSound_mps * heard_s + speed_mps * from_ear.x);
    const double c = kSound_mps * kSound_mps * heard_s * heard_s - glm::dot(from_ear, from_ear);
    return (-b - std::sqrt(b * b - 4 * a * c)) / (2 * a);
}

TEST(Hearing, APassIsHeardFromWhereItWasByTheClosedForm) {
    constexpr double kHeight_m = 100, kSpeed_mps = 80;
    const path::Path path = levelPass(kHeight_m, kSpeed_mps);
    const Vec3 ear_S_m(0, -154, 1.7);
    for (double heard_s = 3; heard_s < 20; heard_s += 0.7) {
        EXPECT_NEAR(madeAt(path, ear_S_m, kSound_mps, heard_s),
                    madeAtOnAPass({-600, 0, kHeight_m}, kSpeed_mps, ear_S_m, heard_s), 1e-6);
    }
}

TEST(Hearing, BeforeTheFirstSoundComesItsStartIsGiven) {
    const path::Path path = levelPass(100, 80);
    EXPECT_NEAR(madeAt(path, {0, -154, 1.7}, kSound_mps, 0.5), 0, 1e-9);
}

TEST(Hearing, TimesOfArrivalAreDistanceOverSpeedAndRise) {
    const path::Path path = levelPass(100, 80);
    const Vec3 ear_S_m(0, -240, 100);
    const std::vector<double> heard_s = heardTimes(path, ear_S_m, kSound_mps);
    ASSERT_EQ(heard_s.size(), path.samples.size());
    EXPECT_NEAR(heard_s[0], std::hypot(600, 240) / kSound_mps, 1e-12);
    EXPECT_NEAR(heard_s[750], 7.5 + 240 / kSound_mps, 1e-12);  // abeam
    for (std::size_t i = 1; i < heard_s.size(); ++i) EXPECT_GT(heard_s[i], heard_s[i - 1]);
}

}  // namespace
}  // namespace plumbline::scene
