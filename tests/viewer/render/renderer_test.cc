// Pictures drawn without a display, judged by what a person would see in them: where things are
// and which colours they have, with tolerance. Geometry oracles are closed forms.

#include "viewer/render/renderer.h"

#include <array>
#include <cmath>
#include <fstream>
#include <iterator>

#include <glm/geometric.hpp>
#include <gtest/gtest.h>

#include "viewer/platform/surface.h"
#include "viewer/render/ui_surface.h"

namespace plumbline {
namespace {

constexpr int kWidth = 320;
constexpr int kHeight = 180;

struct Rgb {
    int r = 0, g = 0, b = 0;
};

/// One context for all tests: making it costs more than drawing.
class RendererTest : public testing::Test {
protected:
    static void SetUpTestSuite() {
        auto surface = platform::Offscreen::create();
        ASSERT_TRUE(surface) << surface.error();
        surface_ = std::move(surface).value().release();
        auto renderer = render::Renderer::create(surface_->loader());
        ASSERT_TRUE(renderer) << renderer.error();
        renderer_ = std::move(renderer).value().release();
        const auto world = makeWorld();
        world_ = new std::shared_ptr<const scene::World>(world);
        renderer_->finishWork(crowdView());
    }
    static void TearDownTestSuite() {
        delete world_;
        delete renderer_;
        delete surface_;
        world_ = nullptr;
        renderer_ = nullptr;
        surface_ = nullptr;
    }

    static std::shared_ptr<const scene::World> makeWorld() {
        auto world = std::make_shared<scene::World>();
        world->revision = 1;
        world->site.crowd_line_y_m = -150;
        world->site.crowd_x_min_m = -300;
        world->site.crowd_x_max_m = 300;
        data::Runway runway;
        runway.bearing_rad = kPi / 2;
        runway.length_m = 1000;
        runway.width_m = 30;
        world->site.show_line_bearing_rad = kPi / 2;
        world->site.runway = runway;
        world->sun_elevation_rad = kPi / 4;
        world->sun_S = glm::normalize(Vec3(-0.5, -0.5, std::sqrt(0.5)));
        world->weather.visibility_m = 20000;
        return world;
    }

    static scene::DrawList viewFrom(const Vec3& eye, const Vec3& at) {
        scene::DrawList list;
        list.world = *world_;
        list.show_aircraft = false;
        list.show_crowd = false;
        list.camera.eye_S_m = eye;
        list.camera.forward_S = glm::normalize(at - eye);
        const Vec3 right = glm::normalize(glm::cross(list.camera.forward_S, Vec3(0, 0, 1)));
        list.camera.up_S = glm::cross(right, list.camera.forward_S);
        list.camera.vertical_fov_rad = 0.5;
        return list;
    }
    static scene::DrawList crowdView() { return viewFrom({0, -154, 1.7}, {0, 0, 1.7}); }

    static render::Image draw(const scene::DrawList& list) {
        return renderer_->drawImage(list, kWidth, kHeight);
    }
    static Rgb at(const render::Image& image, int x, int y) {
        const auto i = static_cast<std::size_t>((y * image.width_px + x) * 4);
        return {image.rgba[i], image.rgba[i + 1], image.rgba[i + 2]};
    }
    static Rgb mean(const render::Image& image, int x0, int y0, int x1, int y1) {
        long r = 0, g = 0, b = 0, n = 0;
        for (int y = y0; y < y1; ++y) {
            for (int x = x0; x < x1; ++x) {
                const Rgb p = at(image, x, y);
                r += p.r;
                g += p.g;
                b += p.b;
                ++n;
            }
        }
        return {static_cast<int>(r / n), static_cast<int>(g / n), static_cast<int>(b / n)};
    }
    /// Greatest difference of any channel, over the picture.
    static int greatestDifference(const render::Image& a, const render::Image& b) {
        int greatest = 0;
        for (std::size_t i = 0; i < a.rgba.size(); ++i) {
            greatest = std::max(greatest, std::abs(int(a.rgba[i]) - int(b.rgba[i])));
        }
        return greatest;
    }
    /// Centre and extent of the pixels in which two pictures differ by more than `least`.
    struct Patch {
        double x = 0, y = 0;
        int width = 0, height = 0, count = 0;
    };
    static Patch difference(const render::Image& a, const render::Image& b, int least) {
        Patch patch;
        int x0 = a.width_px, x1 = -1, y0 = a.height_px, y1 = -1;
        for (int y = 0; y < a.height_px; ++y) {
            for (int x = 0; x < a.width_px; ++x) {
                const Rgb p = at(a, x, y), q = at(b, x, y);
                if (std::abs(p.r - q.r) + std::abs(p.g - q.g) + std::abs(p.b - q.b) <= least) {
                    continue;
                }
                patch.x += x + 0.5;
                patch.y += y + 0.5;
                ++patch.count;
                x0 = std::min(x0, x);
                x1 = std::max(x1, x);
                y0 = std::min(y0, y);
                y1 = std::max(y1, y);
            }
        }
        if (patch.count > 0) {
            patch.x /= patch.count;
            patch.y /= patch.count;
            patch.width = x1 - x0 + 1;
            patch.height = y1 - y0 + 1;
        }
        return patch;
    }
    static std::vector<std::uint8_t> modelBytes() {
        std::ifstream file(std::string(PLUMBLINE_ASSETS) + "/aircraft/plumbline.glb",
                           std::ios::binary);
        return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    }
    /// Level, upright, to crowd right.
    static scene::AircraftPose levelAt(const Vec3& position) {
        scene::AircraftPose pose;
        pose.position_S_m = position;
        pose.q_SB = Quat(0, 1, 0, 0);
        pose.span_m = 7.6;
        return pose;
    }

    static platform::Offscreen* surface_;
    static render::Renderer* renderer_;
    static std::shared_ptr<const scene::World>* world_;
};

platform::Offscreen* RendererTest::surface_ = nullptr;
render::Renderer* RendererTest::renderer_ = nullptr;
std::shared_ptr<const scene::World>* RendererTest::world_ = nullptr;

TEST_F(RendererTest, SkyIsBlueAboveAndGrassGreenBelowTheHorizon) {
    const render::Image image = draw(crowdView());
    ASSERT_EQ(image.width_px, kWidth);
    ASSERT_EQ(image.rgba.size(), static_cast<std::size_t>(kWidth * kHeight * 4));
    const Rgb sky = mean(image, 0, 0, kWidth, 30);
    EXPECT_GT(sky.b, sky.g);
    EXPECT_GT(sky.g, sky.r);
    const Rgb grass = mean(image, 0, kHeight - 30, kWidth, kHeight);
    EXPECT_GT(grass.g, grass.r);
    EXPECT_GT(grass.r, grass.b);
    // A level camera has the horizon in the middle: the ground below it is darker than the haze
    // over the trees (16 m high, 480 m away: 12 pixels).
    const Rgb above = mean(image, 0, kHeight / 2 - 24, 40, kHeight / 2 - 18);
    const Rgb below = mean(image, 0, kHeight / 2 + 8, 40, kHeight / 2 + 12);
    EXPECT_GT(above.r + above.g + above.b, below.r + below.g + below.b);
}

TEST_F(RendererTest, TheFirstPictureGoesWhereTheCallerWantsIt) {
    auto fresh = render::Renderer::create(surface_->loader());
    ASSERT_TRUE(fresh.has_value());
    const render::OffscreenTarget target(kWidth, kHeight);
    target.bind();
    render::clearPicture(kWidth, kHeight, 0, 0, 0);
    (*fresh)->draw(crowdView(), 0, 0, kWidth, kHeight);
    const Rgb sky = mean(target.read(), 0, 0, kWidth, 30);
    EXPECT_GT(sky.b, 100);
    EXPECT_GT(sky.b, sky.r);
}

TEST_F(RendererTest, SamePictureTwice) {
    const scene::DrawList list = crowdView();
    EXPECT_EQ(renderer_->pendingWork(), 0);
    EXPECT_EQ(greatestDifference(draw(list), draw(list)), 0);
}

TEST_F(RendererTest, BobStandsWhereTheProjectionPutsIt) {
    scene::DrawList list = viewFrom({0, -150, 20}, {0, 0, 20});
    const render::Image without = draw(list);
    scene::Bob bob;
    bob.position_S_m = {10, 0, 0};
    bob.colour = {0, 0, 0, 1};
    list.bobs.push_back(bob);
    const Patch patch = difference(without, draw(list), 30);
    ASSERT_GT(patch.count, 10);
    // Pin-hole: x/y = 10/150 to the right, 20/150 down, in units of half height / tan(fov/2).
    const double focal = kHeight / 2.0 / std::tan(0.25);
    EXPECT_NEAR(patch.x, kWidth / 2.0 + focal * 10 / 150, 1.0);
    const double tip_y = kHeight / 2.0 + focal * 20 / 150;
    EXPECT_LT(patch.y, tip_y);
    EXPECT_NEAR(patch.y, tip_y - 0.5 * patch.height, 2.0);
}

TEST_F(RendererTest, LineInMetresIsAsWideAsItsAngle) {
    scene::DrawList list = viewFrom({0, 0, 100}, {0, 0.01, 0});
    list.camera.up_S = {0, 1, 0};
    list.camera.forward_S = {0, 0, -1};
    const render::Image without = draw(list);
    scene::Polyline line;
    line.points_S_m = {{-500, 0, 0}, {500, 0, 0}};
    line.width_m = 4;
    line.on_ground = true;
    line.colour = {1, 0, 1, 1};
    list.lines.push_back(line);
    const Patch patch = difference(without, draw(list), 60);
    const double focal = kHeight / 2.0 / std::tan(0.25);
    EXPECT_NEAR(patch.height, focal * 4 / 100, 1.6);
    EXPECT_EQ(patch.width, kWidth);
    EXPECT_NEAR(patch.y, kHeight / 2.0, 0.6);
}

TEST_F(RendererTest, LineThinnerThanAPixelIsFaintNotBroken) {
    scene::DrawList list = viewFrom({0, -150, 20}, {0, 0, 20});
    const render::Image without = draw(list);
    scene::Polyline line;
    line.points_S_m = {{-80, 0, 12.3}, {80, 0, 27.9}};
    line.width_px = 0.5F;
    line.colour = {0, 0, 0, 1};
    list.lines.push_back(line);
    const render::Image with = draw(list);
    int empty_columns = 0;
    for (int x = 2; x < kWidth - 2; ++x) {
        int change = 0;
        for (int y = 0; y < kHeight; ++y) {
            const Rgb p = at(without, x, y), q = at(with, x, y);
            change += std::abs(p.r - q.r) + std::abs(p.g - q.g) + std::abs(p.b - q.b);
        }
        if (change < 20) ++empty_columns;
    }
    EXPECT_EQ(empty_columns, 0);
}

TEST_F(RendererTest, MapIsTrueToScaleInBothDirections) {
    scene::DrawList list = viewFrom({0, 0, 900}, {0, 0.01, 0});
    list.camera.orthographic = true;
    list.camera.forward_S = {0, 0, -1};
    list.camera.up_S = {0, 1, 0};
    list.camera.half_height_m = 360;
    const render::Image without = draw(list);
    scene::Polyline line;
    line.points_S_m = {{-200, -100, 0}, {200, -100, 0}, {200, 200, 0}};
    line.width_px = 2;
    line.on_ground = true;
    line.colour = {1, 0, 1, 1};
    list.lines.push_back(line);
    const Patch patch = difference(without, draw(list), 60);
    const double px_per_m = kHeight / 720.0;
    EXPECT_NEAR(patch.width, 400 * px_per_m, 3);
    EXPECT_NEAR(patch.height, 300 * px_per_m, 3);
}

TEST_F(RendererTest, TheUsersAerialPictureLiesWhereItsCornersAre) {
    // Left half red, right half blue, 400 m wide and 200 m deep, turned by 90 deg: red is at +y.
    auto picture = std::make_shared<scene::GroundPicture>();
    picture->width_px = 64;
    picture->height_px = 32;
    for (int i = 0; i < 64 * 32; ++i) {
        const bool left = i % 64 < 32;
        const std::uint8_t texel[4] = {std::uint8_t(left ? 255 : 0), 0,
                                       std::uint8_t(left ? 0 : 255), 255};
        picture->rgba.insert(picture->rgba.end(), texel, texel + 4);
    }
    picture->top_left_S_m = {100, 200, 0};
    picture->top_right_S_m = {100, -200, 0};
    picture->bottom_left_S_m = {-100, 200, 0};
    EXPECT_TRUE(picture->covers(0, 199));
    EXPECT_FALSE(picture->covers(0, 201));
    EXPECT_FALSE(picture->covers(101, 0));
    scene::DrawList list;
    list.show_aircraft = false;
    list.show_crowd = false;
    auto world = std::make_shared<scene::World>(**world_);
    world->revision = 4711;
    world->aerial = picture;
    list.world = world;
    list.camera.orthographic = true;
    list.camera.eye_S_m = {0, 0, 900};
    list.camera.forward_S = {0, 0, -1};
    list.camera.up_S = {0, 1, 0};
    list.camera.half_height_m = 400;
    renderer_->finishWork(list);
    const render::Image image = draw(list);
    const double px_m = image.height_px / 800.0;
    const auto pixel = [&](double x_m, double y_m) {
        return at(image, static_cast<int>(image.width_px / 2 + x_m * px_m),
                  static_cast<int>(image.height_px / 2 - y_m * px_m));
    };
    const Rgb red = pixel(20, 100), blue = pixel(20, -100), grass = pixel(-300, 100);
    EXPECT_GT(red.r, 3 * std::max(red.g, red.b));
    EXPECT_GT(blue.b, 3 * std::max(blue.g, blue.r));
    EXPECT_GT(grass.g, grass.r * 0.8);
    EXPECT_GT(grass.g, grass.b);
    // The runway of the picture counts, not the invented one.
    const Rgb middle = pixel(60, 4);
    EXPECT_GT(middle.r, 3 * middle.g);
    renderer_->finishWork(crowdView());  // the world that the other tests share
}

TEST_F(RendererTest, BandShowsItsCanopySideBrighterThanItsWheelSide) {
    scene::DrawList list = viewFrom({0, -150, 20}, {0, 0, 20});
    scene::Band band;
    for (int i = 0; i <= 20; ++i) {
        scene::BandVertex v;
        v.left_S_m = {-40 + 4.0 * i, 0, 26};
        v.right_S_m = {-40 + 4.0 * i, 0, 14};
        v.canopy_S = {0, -1, 0};
        v.colour = {0.8F, 0.5F, 0.2F, 1};
        v.time_s = static_cast<float>(i) * 0.04F;
        band.vertices.push_back(v);
    }
    list.bands.push_back(band);
    const int x = kWidth / 2, y = kHeight / 2;
    const Rgb canopy = mean(draw(list), x - 8, y - 4, x + 8, y + 4);
    // Display space, unlit: the map's colour itself.
    EXPECT_NEAR(canopy.r, 204, 3);
    EXPECT_NEAR(canopy.g, 128, 3);
    EXPECT_NEAR(canopy.b, 51, 3);
    for (scene::BandVertex& v : list.bands[0].vertices) v.canopy_S = {0, 1, 0};
    const Rgb wheels = mean(draw(list), x - 8, y - 4, x + 8, y + 4);
    EXPECT_LT(wheels.r, canopy.r * 0.75);
    EXPECT_GT(wheels.r, canopy.r * 0.5);
}

TEST_F(RendererTest, LadderIsOpen) {
    scene::DrawList list = viewFrom({0, -150, 20}, {0, 0, 20});
    const render::Image without = draw(list);
    scene::Band band;
    band.ladder = true;
    for (int i = 0; i <= 20; ++i) {
        scene::BandVertex v;
        v.left_S_m = {-40 + 4.0 * i, 0, 26};
        v.right_S_m = {-40 + 4.0 * i, 0, 14};
        v.canopy_S = {0, -1, 0};
        v.colour = {0.1F, 0.1F, 0.1F, 1};
        v.rung = i == 5;
        band.vertices.push_back(v);
    }
    list.bands.push_back(band);
    const render::Image with = draw(list);
    const Rgb middle = at(with, kWidth / 2, kHeight / 2);
    const Rgb before = at(without, kWidth / 2, kHeight / 2);
    EXPECT_EQ(middle.r, before.r);
    EXPECT_EQ(middle.g, before.g);
    EXPECT_GT(difference(without, with, 30).count, 100);
}

TEST_F(RendererTest, SmokeIsLighterThanTheGroundBehindIt) {
    scene::DrawList list = viewFrom({0, -150, 30}, {0, 0, 0});
    const int x = kWidth / 2, y = kHeight / 2;
    const Rgb ground = mean(draw(list), x - 3, y - 3, x + 3, y + 3);
    for (int i = 0; i < 4; ++i) {
        scene::Puff puff;
        puff.position_S_m = {0, -5, 1 + 0.2 * i};
        puff.diameter_m = 14;
        puff.opacity = 0.8F;
        puff.seed = 0.2F * static_cast<float>(i);
        list.smoke.push_back(puff);
    }
    const Rgb smoke = mean(draw(list), x - 3, y - 3, x + 3, y + 3);
    EXPECT_GT(smoke.r + smoke.g + smoke.b, ground.r + ground.g + ground.b + 150);
    EXPECT_LT(std::abs(smoke.r - smoke.b), 60);  // white, not coloured
}

TEST_F(RendererTest, AircraftIsAsWideAsItsAngleAndShowsItsSides) {
    const std::vector<std::uint8_t> bytes = modelBytes();
    ASSERT_FALSE(bytes.empty());
    const auto loaded = renderer_->setAircraftModel(bytes.data(), bytes.size());
    ASSERT_TRUE(loaded) << loaded.error();
    // From ahead, level: the span lies across the picture. 60 m away it is drawn through the
    // supersampled tile, 20 m away directly.
    for (const double distance_m : {60.0, 20.0}) {
        scene::DrawList list = viewFrom({0, 0, 100}, {-distance_m, 0, 100});
        const render::Image without = draw(list);
        list.show_aircraft = true;
        list.aircraft = levelAt({-distance_m, 0, 100});
        const render::Image with = draw(list);
        const Patch patch = difference(without, with, 25);
        const double focal = kHeight / 2.0 / std::tan(0.25);
        EXPECT_NEAR(patch.width, focal * 7.6 / distance_m, 2.0 + 0.03 * focal * 7.6 / distance_m)
            << distance_m;
        EXPECT_NEAR(patch.x, kWidth / 2.0, 1.5) << distance_m;
    }
    // From above it is saffron (red over blue), from below indigo.
    scene::DrawList list = viewFrom({0, -1, 130}, {0, 0, 100});
    const render::Image no_top = draw(list);
    list.show_aircraft = true;
    list.aircraft = levelAt({0, 0, 100});
    const auto meanOfChange = [&](const render::Image& a, const render::Image& b) {
        long red = 0, blue = 0;
        for (int y = 0; y < kHeight; ++y) {
            for (int x = 0; x < kWidth; ++x) {
                const Rgb p = at(a, x, y), q = at(b, x, y);
                if (std::abs(p.r - q.r) + std::abs(p.g - q.g) + std::abs(p.b - q.b) < 40) continue;
                red += q.r;
                blue += q.b;
            }
        }
        return std::pair<long, long>(red, blue);
    };
    const auto [top_red, top_blue] = meanOfChange(no_top, draw(list));
    EXPECT_GT(top_red, top_blue * 3 / 2);
    list = viewFrom({0, -1, 70}, {0, 0, 100});
    const render::Image no_bottom = draw(list);
    list.show_aircraft = true;
    list.aircraft = levelAt({0, 0, 100});
    const auto [bottom_red, bottom_blue] = meanOfChange(no_bottom, draw(list));
    EXPECT_GT(bottom_blue, bottom_red);
}

TEST_F(RendererTest, ShadowLiesWhereTheSunPutsIt) {
    // Straight down over the place where the line from the sun through the aircraft meets z = 0.
    const Vec3 sun = (*world_)->sun_S;
    const Vec3 aircraft(0, 30, 40);
    const Vec3 ground = aircraft - sun * (aircraft.z / sun.z);
    scene::DrawList list = viewFrom({ground.x, ground.y, 60}, {ground.x, ground.y + 0.01, 0});
    list.camera.forward_S = {0, 0, -1};
    list.camera.up_S = {0, 1, 0};
    list.show_aircraft = true;
    list.aircraft = levelAt(aircraft);
    list.aircraft.position_S_m = {5000, 5000, 40};  // away: no shadow here
    const render::Image without = draw(list);
    list.aircraft = levelAt(aircraft);
    const render::Image with = draw(list);
    const Patch patch = difference(without, with, 24);
    ASSERT_GT(patch.count, 40);
    EXPECT_NEAR(patch.x, kWidth / 2.0, 6);
    EXPECT_NEAR(patch.y, kHeight / 2.0, 6);
    const Rgb before =
        mean(without, kWidth / 2 - 3, kHeight / 2 - 3, kWidth / 2 + 3, kHeight / 2 + 3);
    const Rgb after = mean(with, kWidth / 2 - 3, kHeight / 2 - 3, kWidth / 2 + 3, kHeight / 2 + 3);
    EXPECT_LT(after.g, before.g);
}

TEST_F(RendererTest, LooksTheSameAtTwiceTheSize) {
    const scene::DrawList list = crowdView();
    const render::Image big = renderer_->drawImage(list, 2 * kWidth, 2 * kHeight);
    const render::Image small = draw(list);
    const Rgb a = mean(big, 0, 0, 2 * kWidth, 40);
    const Rgb b = mean(small, 0, 0, kWidth, 20);
    EXPECT_NEAR(a.r, b.r, 3);
    EXPECT_NEAR(a.g, b.g, 3);
    EXPECT_NEAR(a.b, b.b, 3);
}

TEST_F(RendererTest, RefusesWhatIsNoModelAndKeepsTheOldOne) {
    scene::DrawList list = viewFrom({0, 0, 100}, {-20, 0, 100});
    list.show_aircraft = true;
    list.aircraft = levelAt({-20, 0, 100});
    const render::Image before = draw(list);
    const std::array<std::uint8_t, 16> nonsense{'n', 'o', ' ', 'm', 'o', 'd', 'e', 'l'};
    const auto refused = renderer_->setAircraftModel(nonsense.data(), nonsense.size());
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().find(".glb"), std::string::npos);
    std::vector<std::uint8_t> cut = modelBytes();
    cut.resize(cut.size() / 2);
    EXPECT_FALSE(renderer_->setAircraftModel(cut.data(), cut.size()));
    EXPECT_EQ(greatestDifference(before, draw(list)), 0);
}

}  // namespace
}  // namespace plumbline
