#include "viewer/scene/build.h"

#include <chrono>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/viewer/scene/made_paths.h"
#include "viewer/scene/smoke.h"

namespace plumbline::scene {
namespace {

data::Site showSite() {
    data::Site site;
    site.crowd_line_y_m = -150;
    site.crowd_x_min_m = -400;
    site.crowd_x_max_m = 400;
    site.floor_m = 30;
    site.box = data::Box{-600, 600, -100, 500, 1000};
    return site;
}

SceneSource sourceOf(path::Path path, const data::Weather& weather = {},
                     const data::Site& site = showSite()) {
    SceneSource source;
    auto aircraft = std::make_shared<data::Aircraft>();
    aircraft->geometry.span_m = 8;
    aircraft->geometry.length_m = 6.5;
    aircraft->geometry.eye_B_m = {-0.75, 0, -0.7};
    source.aircraft = aircraft;
    source.path = std::make_shared<const path::Path>(std::move(path));
    source.world = makeWorld(site, weather, 1);
    source.shape = makeShape(*source.path);
    return source;
}

DrawList listAt(const SceneSource& source, double time_s, View view = View::Crowd,
                const Marks& marks = {}) {
    ViewSettings settings;
    settings.view = view;
    return buildDrawList(source, settings, marks, time_s, 1280, 720);
}

Vec3 middle(const BandVertex& vertex) { return 0.5 * (vertex.left_S_m + vertex.right_S_m); }

TEST(Band, IsAWingWideAndShowsTheBank) {
    const SceneSource source = sourceOf(levelPass(60, 60));
    const DrawList list = listAt(source, 10);
    ASSERT_EQ(list.bands.size(), 2U);
    for (const Band& band : list.bands) {
        for (const BandVertex& v : band.vertices) {
            EXPECT_NEAR(glm::length(v.right_S_m - v.left_S_m), 8, 1e-9);
            EXPECT_NEAR(v.right_S_m.y, -4, 1e-9);  // to crowd right: the right wing to the crowd
            EXPECT_NEAR(glm::length(v.canopy_S - Vec3(0, 0, 1)), 0, 1e-9);
        }
    }
}

TEST(Band, StaysOnThePathBetweenItsVertices) {
    for (const path::Path& path : {roundLoop(), slidePath(), hammerhead()}) {
        const SceneSource source = sourceOf(path);
        Marks marks;
        marks.band_behind_s = 60;
        const DrawList list = listAt(source, path.duration_s(), View::Crowd, marks);
        ASSERT_EQ(list.bands.size(), 1U) << "nothing to come at the end";
        const std::vector<BandVertex>& vertices = list.bands[0].vertices;
        for (std::size_t i = 1; i < vertices.size(); ++i) {
            const double t0 = vertices[i - 1].time_s, t1 = vertices[i].time_s;
            ASSERT_LT(t0, t1);
            EXPECT_LT(t1 - t0, 0.3);
            const path::Sample between = path::sampleAt(path, 0.5 * (t0 + t1));
            // A chord of an arc and the small difference of speed on it.
            const Vec3 along =
                glm::normalize(middle(vertices[i]) - middle(vertices[i - 1]) + Vec3(1e-12, 0, 0));
            const Vec3 off = between.position_S_m - middle(vertices[i]);
            EXPECT_LT(glm::length(off - glm::dot(off, along) * along), 0.06);
            const Vec3 right_S = rotate(between.q_SB, Vec3(0, 1, 0));
            const Vec3 chord = glm::normalize(vertices[i].right_S_m - vertices[i].left_S_m);
            EXPECT_GT(glm::dot(right_S, chord), std::cos(13 * units::kDegree_rad));
        }
        EXPECT_LT(vertices.size(), 60 * path.duration_s());
    }
}

TEST(Band, EndsShortOfTheAircraftAndFadesBehind) {
    const SceneSource source = sourceOf(levelPass(60, 60));
    const DrawList list = listAt(source, 18);
    ASSERT_EQ(list.bands.size(), 2U);
    const Band& behind = list.bands[0];
    const Band& ahead = list.bands[1];
    ASSERT_FALSE(behind.ladder);
    ASSERT_TRUE(ahead.ladder);
    EXPECT_NEAR(glm::length(middle(behind.vertices.back()) - list.aircraft.position_S_m), 6, 0.1);
    EXPECT_NEAR(glm::length(middle(ahead.vertices.front()) - list.aircraft.position_S_m), 6, 0.1);
    EXPECT_NEAR(behind.vertices.front().time_s, 2, 1e-6);
    EXPECT_NEAR(behind.vertices.front().colour.a, 0.62, 1e-5);
    EXPECT_GT(behind.vertices.back().colour.a, 0.99);
    EXPECT_NEAR(ahead.vertices.back().time_s, 20, 1e-6) << "the path ends before the ladder would";
    EXPECT_GT(ahead.vertices.front().time_s, 18);
}

TEST(Band, HasARungEachWholeSecondAndNoOther) {
    const SceneSource source = sourceOf(roundLoop());
    const DrawList list = listAt(source, 10.3);
    ASSERT_EQ(list.bands.size(), 2U);
    for (const Band& band : list.bands) {
        const double from = band.vertices.front().time_s, to = band.vertices.back().time_s;
        int rungs = 0;
        for (const BandVertex& v : band.vertices) {
            if (!v.rung) continue;
            ++rungs;
            EXPECT_NEAR(v.time_s, std::round(v.time_s), 1e-5);
        }
        EXPECT_EQ(rungs, static_cast<int>(std::floor(to) - std::floor(from)));
    }
}

TEST(Band, VerticesStayWhereTheyAreFromFrameToFrame) {
    const SceneSource source = sourceOf(roundLoop());
    const DrawList a = listAt(source, 11), b = listAt(source, 11.016);
    // All inner vertices of the later frame's past that the first frame had are the same ones.
    std::size_t same = 0;
    const std::vector<BandVertex>& va = a.bands[0].vertices;
    const std::vector<BandVertex>& vb = b.bands[0].vertices;
    for (const BandVertex& v : vb) {
        for (const BandVertex& w : va) same += v.time_s == w.time_s && v.left_S_m == w.left_S_m;
    }
    EXPECT_GE(same + 4, va.size());
}

TEST(Pose, WhereTheAttitudeIsUnsureTheAircraftIsDrawnAsIfItWereUnknown) {
    path::Path path = levelPass(60, 60);
    for (path::Sample& s : path.samples) {
        s.attitude_sigma_rad = s.time_s < 5 ? 0.01F : 0.5F;
        s.q_SB = Quat(0, 0, 1, 0);
    }
    EXPECT_TRUE(listAt(sourceOf(path), 2).aircraft.attitude_known);
    EXPECT_FALSE(listAt(sourceOf(path), 8).aircraft.attitude_known);
}

TEST(Band, WithoutBankIsAFlatRibbonAndSoIsTheMarker) {
    path::Path path = levelPass(60, 60);
    path.known.attitude = false;
    path.known.bank = false;
    path.known.load = false;
    for (path::Sample& s : path.samples) s.q_SB = Quat(1, 0, 0, 0);
    const DrawList list = listAt(sourceOf(path), 10);
    EXPECT_FALSE(list.aircraft.attitude_known);
    // Nose along the track, wings level.
    EXPECT_NEAR(glm::length(rotate(list.aircraft.q_SB, Vec3(1, 0, 0)) - Vec3(1, 0, 0)), 0, 1e-9);
    EXPECT_NEAR(rotate(list.aircraft.q_SB, Vec3(0, 1, 0)).z, 0, 1e-9);
    const glm::vec4 first = list.bands.at(0).vertices.at(0).colour;
    for (const BandVertex& v : list.bands.at(0).vertices) {
        EXPECT_NEAR(v.canopy_S.z, 1, 1e-9);
        EXPECT_NEAR(v.left_S_m.z, v.right_S_m.z, 1e-9);
        // Load is not known, so no colour of the load map claims it is.
        EXPECT_EQ(glm::vec3(v.colour), glm::vec3(first));
    }
}

TEST(Smoke, SizeAndOpacityFollowTheirFormulas) {
    EXPECT_DOUBLE_EQ(puffDiameter(0), 1.5);
    EXPECT_DOUBLE_EQ(puffDiameter(4), 1.5 + 2.1 * 2 + 0.28 * 4);
    EXPECT_DOUBLE_EQ(puffOpacity(0, 10), 0.5);
    EXPECT_NEAR(puffOpacity(5, 10), 0.5 * std::exp(-1.0), 1e-12);
    EXPECT_DOUBLE_EQ(puffOpacity(10, 10), 0);
}

TEST(Smoke, DriftsWithTheWindAtItsHeight) {
    path::Path path = levelPass(100, 60);
    path.smoke.push_back({5, 6});
    data::Site site = showSite();
    site.show_line_bearing_rad = kPi / 2;  // +x is east, +y north
    data::Weather weather;
    weather.wind = {{0, kPi, 2}, {100, kPi, 10}};  // from the south: blows to +y
    const SceneSource source = sourceOf(path, weather, site);
    const DrawList list = listAt(source, 10);
    ASSERT_GT(list.smoke.size(), 20U);
    for (const Puff& puff : list.smoke) {
        // Ages from 4 to 5 s at 10 m/s; off by at most the wander of 6 % of the diameter.
        const double slack_m = 0.062 * puff.diameter_m;
        EXPECT_GT(puff.position_S_m.y, 40 - slack_m);
        EXPECT_LT(puff.position_S_m.y, 50 + slack_m);
        EXPECT_NEAR(puff.position_S_m.z, 100 - 0.07 * 8, slack_m);
        // Left behind the aircraft, where it was between 5 and 6 s.
        EXPECT_GT(puff.position_S_m.x, -600 + 60 * 5 - 0.35 * 8 - slack_m - 1);
        EXPECT_LT(puff.position_S_m.x, -600 + 60 * 6 - 0.35 * 8 + slack_m + 1);
        // x over the ground tells the age: y = 10 x age.
        const double age_s = 10 - (puff.position_S_m.x + 0.35 * 8 + 600) / 60;
        EXPECT_NEAR(puff.position_S_m.y, 10 * age_s, 1.2 * slack_m + 0.2);
    }
}

TEST(Smoke, SixPuffsEachFortyMillisecondsWhenYoung) {
    path::Path path = levelPass(100, 80);
    path.smoke.push_back({5, 20});
    const DrawList list = listAt(sourceOf(path), 5.2);
    EXPECT_NEAR(static_cast<double>(list.smoke.size()), 30, 1);
    // None is left before the smoke goes on, and all are gone 14 s after it went off.
    EXPECT_TRUE(listAt(sourceOf(path), 4.99).smoke.empty());
    path.smoke[0].stop_s = 6;
    EXPECT_FALSE(listAt(sourceOf(path), 13).smoke.empty());
    EXPECT_TRUE(listAt(sourceOf(path), 20).smoke.empty());
}

TEST(Smoke, NeverMoreThanAThousandAndNoGapsInTheTrail) {
    path::Path slow = levelPass(100, 6);
    slow.smoke.push_back({0, 20});
    EXPECT_LE(listAt(sourceOf(slow), 20).smoke.size(), kMostPuffs);
    path::Path fast = levelPass(100, 90);
    fast.smoke.push_back({0, 20});
    const DrawList list = listAt(sourceOf(fast), 19);
    EXPECT_LE(list.smoke.size(), kMostPuffs);
    EXPECT_GT(list.smoke.size(), 300U);
    // Those that are young enough to be dense touch their neighbours.
    for (std::size_t i = 1; i < list.smoke.size(); ++i) {
        const Puff& a = list.smoke[i - 1];
        const Puff& b = list.smoke[i];
        if (puffDiameter(7) < a.diameter_m) continue;
        EXPECT_LT(glm::length(a.position_S_m - b.position_S_m), a.diameter_m);
    }
}

TEST(Smoke, MergingKeepsTheDensity) {
    path::Path path = levelPass(100, 60);
    path.smoke.push_back({0, 20});
    const DrawList list = listAt(sourceOf(path), 15);
    // Optical depth laid down over one second of emission, whatever the merging: the sum of
    // -log(1 - opacity) is that of 75 puffs.
    double depth = 0, expected = 0;
    for (const Puff& puff : list.smoke) {
        const double age_s = 15 - (puff.position_S_m.x + 0.35 * 8 + 600) / 60;
        if (age_s < 4 || age_s > 6) continue;
        depth -= std::log(1 - static_cast<double>(puff.opacity));
    }
    for (int i = 0; i < 150; ++i) {
        const double age_s = 4 + (i + 0.5) / 75;
        double mean = 0;
        for (int k = 0; k < 60; ++k) mean += puffOpacity(age_s, 8 + (k + 0.5) * 0.1) / 60;
        expected -= std::log(1 - mean);
    }
    EXPECT_NEAR(depth, expected, 0.12 * expected);
}

TEST(Thread, HangsPlumbFromTheAircraftToItsBob) {
    const SceneSource source = sourceOf(levelPass(76.4, 60));
    Marks marks;
    marks.lines = marks.floor = false;
    const DrawList list = listAt(source, 8, View::Crowd, marks);
    ASSERT_EQ(list.lines.size(), 1U);
    ASSERT_EQ(list.bobs.size(), 1U);
    ASSERT_EQ(list.labels.size(), 1U);
    const Vec3 top = list.lines[0].points_S_m.front(), foot = list.lines[0].points_S_m.back();
    EXPECT_EQ(top, list.aircraft.position_S_m);
    EXPECT_EQ(foot, Vec3(top.x, top.y, 0));
    EXPECT_EQ(list.bobs[0].position_S_m, foot);
    EXPECT_NEAR(list.labels[0].height_m.value_or(0), 76.4, 1e-9);
}

TEST(Thread, MoreOfThemHangWhereTheAircraftWasEachTwoSeconds) {
    const SceneSource source = sourceOf(levelPass(100, 60));
    Marks marks;
    const std::size_t without = buildDrawList(source, {}, marks, 9, 1280, 720).lines.size();
    marks.more_threads = true;
    const DrawList list = buildDrawList(source, {}, marks, 9, 1280, 720);
    // At 8, 6, 4, 2 and 0 s.
    ASSERT_EQ(list.lines.size(), without + 5);
    int found = 0;
    for (const Polyline& line : list.lines) {
        if (line.width_px != 0.8F || line.points_S_m.size() != 2) continue;
        EXPECT_NEAR(std::remainder(line.points_S_m[0].x + 600, 120), 0, 1e-6);
        EXPECT_EQ(line.points_S_m[0].x, line.points_S_m[1].x);
        EXPECT_EQ(line.points_S_m[1].z, 0);
        ++found;
    }
    EXPECT_EQ(found, 5);
}

TEST(Floor, IsHatchedOnlyWhenTheAircraftIsLow) {
    Marks marks;
    marks.lines = marks.thread = false;
    ViewSettings settings;
    settings.view = View::Free;
    const auto hatch = [&](double height_m) {
        return buildDrawList(sourceOf(levelPass(height_m, 60)), settings, marks, 10, 1280, 720)
            .lines;
    };
    EXPECT_TRUE(hatch(91).empty());
    const std::vector<Polyline> lines = hatch(40);
    EXPECT_NEAR(static_cast<double>(lines.size()), 22, 1);
    for (const Polyline& line : lines) {
        for (const Vec3& p : line.points_S_m) {
            EXPECT_DOUBLE_EQ(p.z, 30);
            EXPECT_LE(std::hypot(p.x - 0, p.y), 260 + 1e-6);  // the aircraft is over show centre
        }
    }
    // Seen from below it is hidden.
    settings.view = View::Crowd;
    EXPECT_TRUE(hatch(40).empty());
}

TEST(Lines, ShowLineCrowdLineAndBoxStandWhereTheSiteSays) {
    Marks marks;
    marks.thread = marks.floor = false;
    const DrawList list = listAt(sourceOf(levelPass(60, 60)), 5, View::Map, marks);
    bool show_line = false, crowd_line = false, box = false;
    for (const Polyline& line : list.lines) {
        EXPECT_TRUE(line.on_ground);
        const std::vector<Vec3>& p = line.points_S_m;
        show_line |= p.size() == 2 && p[0] == Vec3(-600, 0, 0) && p[1] == Vec3(600, 0, 0);
        crowd_line |= p.size() == 2 && p[0] == Vec3(-400, -150, 0) && p[1] == Vec3(400, -150, 0);
        box |= p.size() == 5 && p.front() == p.back();
    }
    EXPECT_TRUE(show_line && crowd_line && box);
    // A place without a show has none of them.
    data::Site bare;
    EXPECT_TRUE(listAt(sourceOf(levelPass(60, 60), {}, bare), 5, View::Map, marks).lines.empty());
}

TEST(Ribbons, HangBetweenPolesAcrossTheShowLine) {
    data::Site site = showSite();
    const std::size_t without = listAt(sourceOf(levelPass(100, 60), {}, site), 1).lines.size();
    site.ribbons = {{"low", 40, 5, 8, 20}};
    const DrawList list = listAt(sourceOf(levelPass(100, 60), {}, site), 1);
    ASSERT_EQ(list.lines.size(), without + 3);
    int poles = 0, ribbons = 0;
    for (const Polyline& line : list.lines) {
        if (!line.round) continue;
        const bool pole = line.points_S_m.size() == 2;
        (pole ? poles : ribbons) += 1;
        for (const Vec3& p : line.points_S_m) {
            EXPECT_DOUBLE_EQ(p.x, 40);
            EXPECT_NEAR(p.y, 5, 10);
        }
        if (pole) {
            EXPECT_DOUBLE_EQ(std::abs(line.points_S_m[0].y - 5), 10);
            continue;
        }
        // It hangs at its height at the poles and less than half a metre under it between.
        EXPECT_DOUBLE_EQ(line.points_S_m.front().z, 8);
        EXPECT_DOUBLE_EQ(line.points_S_m.back().z, 8);
        EXPECT_NEAR(line.points_S_m[line.points_S_m.size() / 2].z, 7.75, 0.25);
    }
    EXPECT_EQ(poles, 2);
    EXPECT_EQ(ribbons, 1);
}

TEST(Map, AircraftAndBandCanBeSeenHoweverWideTheMapIs) {
    const SceneSource source = sourceOf(levelPass(100, 60));
    ViewSettings settings;
    settings.view = View::Map;
    settings.map_half_height_m = 3000;
    const DrawList wide = buildDrawList(source, settings, Marks{}, 6, 1280, 720);
    EXPECT_NEAR(wide.aircraft.span_m / 6000 * 720, 38, 1);
    ASSERT_FALSE(wide.bands.empty());
    const BandVertex& v = wide.bands[0].vertices[0];
    EXPECT_NEAR(glm::length(v.left_S_m - v.right_S_m) / 6000 * 720, 6, 0.1);
    // Near enough, both are true to scale.
    settings.map_half_height_m = 40;
    const DrawList near = buildDrawList(source, settings, Marks{}, 6, 1280, 720);
    EXPECT_DOUBLE_EQ(near.aircraft.span_m, 8);
}

TEST(Pose, SurfacesGoTheWayTheAircraftTurns) {
    const path::Path rolling = pathOf(4, [](double t, path::Sample& s) {
        s.position_S_m = {60 * t, 0, 100};
        s.velocity_S_mps = {60, 0, 0};
        s.q_SB = attitudeOf({1, 0, 0}, {0, 0, 1}) * rotationX(2 * t);  // to the right
    });
    EXPECT_GT(listAt(sourceOf(rolling), 2).aircraft.aileron_rad, 0.1);
    EXPECT_GT(listAt(sourceOf(roundLoop()), 8).aircraft.elevator_rad, 0.03);
    EXPECT_LT(listAt(sourceOf(hammerhead()), 4 + 0.5 * kPi * 80 / 60 + 60 / kGravity_mps2)
                  .aircraft.rudder_rad,
              -0.1)
        << "a pivot to the left";
}

TEST(World, TheSunStandsWhereItShould) {
    data::Site site = showSite();
    // 2026-03-20, 14:46 UTC, is the March equinox; at noon UTC on the Greenwich meridian and the
    // equator the sun is overhead but for the equation of time (-7.5 min: 1.9 deg) and the last
    // hours of declination (0.05 deg).
    site.show_time_utc = "2026-03-20T12:00:00Z";
    auto world = makeWorld(site, {}, 7);
    EXPECT_EQ(world->revision, 7U);
    EXPECT_GT(world->sun_S.z, std::cos(2.1 * units::kDegree_rad));
    // Six hours later it is on the western horizon; with +x to the north, west is +y.
    site.show_time_utc = "2026-03-20T18:00:00Z";
    world = makeWorld(site, {}, 8);
    EXPECT_GT(world->sun_S.y, 0.998);
    EXPECT_NEAR(world->sun_elevation_rad, 0, 2.5 * units::kDegree_rad);
    // With +x to the east, west is -x.
    site.show_line_bearing_rad = kPi / 2;
    EXPECT_LT(makeWorld(site, {}, 9)->sun_S.x, -0.998);
}

TEST(World, WithoutATimeItIsMidsummerNoon) {
    data::Site site;
    site.show_centre.latitude_rad = 51 * units::kDegree_rad;
    site.show_centre.longitude_rad = 100 * units::kDegree_rad;
    const auto world = makeWorld(site, {}, 1);
    // 90 deg - latitude + obliquity (23.44 deg) at noon, in the south: -x with +x to the north.
    EXPECT_NEAR(world->sun_elevation_rad / units::kDegree_rad, 90 - 51 + 23.44, 0.1);
    EXPECT_LT(world->sun_S.x, 0);
    EXPECT_NEAR(world->sun_S.y, 0, 0.02);
}

TEST(World, SoundIsSlowerOnAColdDay) {
    data::Weather weather;
    EXPECT_NEAR(makeWorld({}, weather, 1)->speed_of_sound_mps, 340.294, 0.001);  // ICAO Doc 7488
    weather.temperature_k = 268.15;
    EXPECT_NEAR(makeWorld({}, weather, 1)->speed_of_sound_mps, 340.294 * std::sqrt(268.15 / 288.15),
                0.001);
}

TEST(Shape, HoldsTheRangesOfThePath) {
    const path::Path path = roundLoop();
    const auto shape = makeShape(path);
    for (const Quantity quantity : {Quantity::Load, Quantity::Speed, Quantity::Height}) {
        const QuantityRange range = shape->ranges.at(static_cast<std::size_t>(quantity));
        EXPECT_EQ(range.low, rangeOf(quantity, path).low);
        EXPECT_EQ(range.high, rangeOf(quantity, path).high);
    }
    EXPECT_NEAR(rangeOf(Quantity::Height, path).high, 60 + 2 * 90, 0.1);
}

TEST(DrawList, AnEmptyPathAndOddTimesDoNoHarm) {
    const DrawList nothing = buildDrawList({}, {}, {}, 5, 0, 0);
    EXPECT_FALSE(nothing.show_aircraft);
    EXPECT_TRUE(nothing.bands.empty());
    const SceneSource source = sourceOf(roundLoop());
    for (const double t : {-10.0, 0.0, 1e9, std::nan("")}) {
        for (int i = 0; i < kViewCount; ++i) {
            const DrawList list = listAt(source, t, static_cast<View>(i));
            EXPECT_GE(list.time_s, 0);
            EXPECT_LE(list.time_s, source.path->duration_s());
            EXPECT_NEAR(glm::length(list.camera.forward_S), 1, 1e-9);
        }
    }
}

TEST(DrawList, ALongPathCostsNoMoreThanItsPartInSight) {
    // 12 minutes of loops at 100 Hz with smoke all the time.
    path::Path path = pathOf(720, [](double t, path::Sample& s) {
        const double a = 0.7 * t;
        s.position_S_m = {80 * std::sin(a), 0.1 * t, 150 - 80 * std::cos(a)};
        s.velocity_S_mps = {56 * std::cos(a), 0.1, 56 * std::sin(a)};
        s.q_SB = attitudeOf(s.velocity_S_mps, {-std::sin(a), 0, std::cos(a)});
    });
    path.smoke.push_back({0, 720});
    const SceneSource source = sourceOf(path);
    for (int i = 0; i < kViewCount; ++i) {
        const auto view = static_cast<View>(i);
        double best_s = 1;
        for (int round = 0; round < 5; ++round) {
            const auto start = std::chrono::steady_clock::now();
            constexpr int kFrames = 50;
            for (int k = 0; k < kFrames; ++k) listAt(source, 600 + k / 60.0, view);
            const std::chrono::duration<double> spent = std::chrono::steady_clock::now() - start;
            best_s = std::min(best_s, spent.count() / kFrames);
        }
        std::printf("  %s: %.3f ms a frame\n", viewWord(view), best_s * 1e3);
        // Generous: sanitizers and busy machines pass, work in proportion to the whole path does
        // not.
        EXPECT_LT(best_s, 0.010);
    }
}

}  // namespace
}  // namespace plumbline::scene
