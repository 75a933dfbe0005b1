#include "viewer/model/handles.h"

#include <cctype>

#include <gtest/gtest.h>

#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

std::string routineText() {
    std::string text = newRoutineText();
    const std::string line = "line level until x -400 m\n";
    text.replace(text.find(line), line.size(),
                 "line level until x -400 m\npull 360 deg radius 105 m\nline 100 m\n"
                 "pull to up at 5 g\nline up 150 m\n");
    return text;
}

/// Flown, with its only figure open.
Model flown(const std::string& text) {
    Model model;
    beginEditing(model.editor, "demo/new.routine.toml", text, true);
    LiveWish wish;
    wish.number = ++model.editor.asked;
    wish.routine = model.editor.files.front().file;
    wish.built_in = true;
    wish.texts[wish.routine] = text;
    showLive(model, LiveFlight(LiveFlight::Kind::Fine).fly(wish, 1));
    Action write;
    write.kind = ActionKind::WriteFigure;
    apply(model, write);
    return model;
}

TEST(Handles, StandWhereTheirNumbersTakeEffect) {
    const Model model = flown(routineText());
    const std::vector<Handle> handles = handlesOf(model);
    ASSERT_EQ(handles.size(), 4U);
    EXPECT_EQ(handles[0].words, "x -400 m");
    EXPECT_NEAR(handles[0].position_S_m.x, -400, 1);
    EXPECT_EQ(handles[0].way_S, Vec3(1, 0, 0));
    // A loop's far side goes by two metres for each metre of radius, and a little with the wind.
    EXPECT_NEAR(glm::length(handles[1].way_S), 2, 0.1);
    EXPECT_GT(handles[2].way_S.x, 0.98) << "level, crowd-right";
    EXPECT_EQ(handles[3].value, 150);
    EXPECT_GT(handles[3].way_S.z, 0.98) << "a vertical grows upwards";
    for (const Handle& handle : handles) {
        EXPECT_TRUE(std::isdigit(model.editor.text()[handle.byte])) << handle.words;
    }
}

// The oracle is flying the changed text: the end moves as the way says.
TEST(Handles, WaysAreThoseOfTheFlight) {
    const std::string text = routineText();
    const std::vector<Handle> before = handlesOf(flown(text));
    for (std::size_t i = 0; i < before.size(); ++i) {
        Model model = flown(text);
        Action set;
        set.kind = ActionKind::SetNumber;
        set.value = static_cast<double>(before[i].byte);
        set.text = draggedDigits(before[i], 10);
        apply(model, set);
        const std::vector<Handle> after = handlesOf(flown(model.editor.text()));
        ASSERT_EQ(after.size(), before.size()) << model.editor.text();
        EXPECT_EQ(after[i].value, before[i].value + 10);
        const Vec3 moved = after[i].position_S_m - before[i].position_S_m;
        // Of a loop: a larger one takes longer and drifts more with the wind.
        const Vec3 way_S_m = before[i].way_S * 10.0;
        EXPECT_LT(glm::length(moved - way_S_m), 0.25 * glm::length(way_S_m)) << before[i].words;
    }
}

TEST(Handles, ADragGoesByWhatIsSeen) {
    Handle handle;
    handle.position_S_m = Vec3(0, 0, 100);
    handle.way_S = Vec3(0, 0, 1);
    handle.value = 100;
    handle.unit = "m";
    scene::Camera camera;
    camera.eye_S_m = Vec3(0, -500, 100);
    double x = 0, y = 0, x1 = 0, y1 = 0, away_m = 0;
    ASSERT_TRUE(scene::project(camera, 1280, 720, handle.position_S_m, x, y, away_m));
    ASSERT_TRUE(scene::project(camera, 1280, 720, Vec3(0, 0, 130), x1, y1, away_m));
    const double by_m = draggedBy_m(handle, camera, 1280, 720, x1 - x + 50, y1 - y);
    EXPECT_NEAR(by_m, 30, 0.5) << "what goes across its way counts nothing";
    EXPECT_EQ(draggedDigits(handle, by_m), "130");
    handle.unit = "ft";
    EXPECT_EQ(draggedDigits(handle, 30.48), "200");
    handle.way_S = Vec3(0, 1, 0);  // towards the eye
    EXPECT_EQ(draggedBy_m(handle, camera, 1280, 720, 40, 40), 0);
}

TEST(Handles, NoneWhileTheTextIsWrong) {
    Model model = flown(routineText());
    model.editor.problems.emplace_back();
    EXPECT_TRUE(handlesOf(model).empty());
}

}  // namespace
}  // namespace plumbline::model
