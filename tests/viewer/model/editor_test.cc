#include "viewer/model/editor.h"

#include <gtest/gtest.h>

#include "engine/load/load.h"
#include "engine/system/whole_file.h"
#include "viewer/model/action_list.h"
#include "viewer/model/keeper.h"
#include "viewer/model/list.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

Action action(ActionKind kind, int index = 0, const std::string& text = {}) {
    Action out;
    out.kind = kind;
    out.index = index;
    out.text = text;
    return out;
}

constexpr const char* kText = R"(name = "Two"
[[figure]]
name = "One"
text = """
line level 200 m
"""
[[figure]]
name = "Two"
text = """
pull to up at 6 g
"""
)";

Model modelOf(const std::string& text) {
    Model model;
    beginEditing(model.editor, "two.routine.toml", text, false);
    refreshRows(model);
    return model;
}

std::string disk(const fs::path& file) {
    return system::readWholeFile(file).bytes.value_or("(not there)");
}

/// A folder of its own, empty.
fs::path freshFolder(const char* name) {
    const fs::path folder = fs::path(testing::TempDir()) / name;
    fs::remove_all(folder);
    fs::create_directories(folder);
    return folder;
}

TEST(Editor, TypingStaysInTheFigureThatIsOpen) {
    Model model = modelOf(kText);
    apply(model, action(ActionKind::WriteFigure, 1));
    apply(model, action(ActionKind::MoveCaret, static_cast<int>(CaretMove::Start)));
    EXPECT_EQ(model.editor.text().substr(model.editor.caret, 7), "pull to");
    apply(model, action(ActionKind::TypeText, 0, "line 100 m\n"));
    apply(model, action(ActionKind::MoveCaret, static_cast<int>(CaretMove::Start)));
    apply(model, action(ActionKind::TakeOut, -1));  // nothing of the figure stands before it
    EXPECT_NE(model.editor.text().find("\"\"\"\nline 100 m\npull to up"), std::string::npos);
    for (int i = 0; i < 50; ++i) apply(model, action(ActionKind::Undo));
    EXPECT_EQ(model.editor.text(), kText);
}

TEST(Editor, AHundredStepsOfANumberAreUndone) {
    Model model = modelOf(kText);
    apply(model, action(ActionKind::WriteFigure, 0));
    Action place = action(ActionKind::PlaceCaret);
    place.value = static_cast<double>(model.editor.text().find("200"));
    apply(model, place);
    for (int i = 0; i < 100; ++i) apply(model, action(ActionKind::StepNumber, 1));
    EXPECT_NE(model.editor.text().find("line level 700 m"), std::string::npos);
    for (int i = 0; i < 100; ++i) apply(model, action(ActionKind::Undo));
    EXPECT_EQ(model.editor.text(), kText);
}

TEST(Editor, WordsAreOfferedWhereTheyCanStand) {
    Model model = modelOf(kText);
    apply(model, action(ActionKind::WriteFigure, 0));
    apply(model, action(ActionKind::MoveCaret, static_cast<int>(CaretMove::End)));
    apply(model, action(ActionKind::TypeText, 0, "tor"));
    EXPECT_EQ(offersAt(model.editor), std::vector<std::string>{"torque-roll"});
    apply(model, action(ActionKind::TakeOffer, 0));
    EXPECT_NE(model.editor.text().find("torque-roll "), std::string::npos);
    apply(model, action(ActionKind::TypeText, 0, "l"));
    EXPECT_EQ(offersAt(model.editor), (std::vector<std::string>{"left", "level", "line"}));
    apply(model, action(ActionKind::TypeText, 0, "eft 5 s"));
    EXPECT_TRUE(offersAt(model.editor).empty()) << "a unit stands behind a number";
    apply(model, action(ActionKind::TypeText, 0, " # lin"));
    EXPECT_TRUE(offersAt(model.editor).empty()) << "a comment is free";
}

TEST(Editor, ProblemsStandAtTheirPlaces) {
    Model model = modelOf(kText);
    Problem problem;
    problem.where = {"two.routine.toml", 5, 12};
    EXPECT_EQ(byteOfProblem(model.editor, problem), model.editor.text().find("200"));
    problem.where.file = "other.toml";
    EXPECT_FALSE(byteOfProblem(model.editor, problem));
}

TEST(Editor, FiguresAreAddedMovedDoubledRemoved) {
    Model model = modelOf(kText);
    apply(model, action(ActionKind::WriteFigure, 0));
    apply(model, action(ActionKind::AddFigure, 0, "loop"));
    ASSERT_EQ(model.rows.size(), 3U);
    EXPECT_EQ(model.rows[1].figure.name, "Loop");
    EXPECT_EQ(openRow(model), 1);
    apply(model, action(ActionKind::MoveFigureBy, 1));
    EXPECT_EQ(model.rows[2].figure.name, "Loop");
    EXPECT_EQ(openRow(model), 2);
    apply(model, action(ActionKind::DoubleFigure, -1));
    EXPECT_EQ(model.rows[3].figure.name, "Loop 2");
    apply(model, action(ActionKind::RemoveFigure, 3));
    apply(model, action(ActionKind::RemoveFigure, 2));
    EXPECT_EQ(model.rows.size(), 2U);
    for (int i = 0; i < 5; ++i) apply(model, action(ActionKind::Undo));
    EXPECT_EQ(model.editor.text(), kText);
}

/// What is offered with the caret behind a text that occurs once.
std::vector<std::string> offersBehind(const std::string& text, const std::string& caret_behind) {
    Model model = modelOf(text);
    model.editor.writing = true;
    model.editor.caret = model.editor.anchor = text.find(caret_behind) + caret_behind.size();
    return offersAt(model.editor);
}

TEST(Editor, NamesOfFiguresAndParametersAreOffered) {
    const std::string text = R"([[figure]]
name = "One"
figure = "hammerhead"
values = { pull = "6 g", to }
[[figure]]
name = "Two"
text = """
pull to up at {entry_g}
pull to level at {e
"""
values = { entry_g = "6 g", exit_g = "5 g" }
)";
    EXPECT_EQ(offersBehind("[[figure]]\nfigure = \"hamm\"\n", "hamm").at(0), "hammerhead");
    EXPECT_EQ(offersBehind(text, "6 g\", to"), std::vector<std::string>{"top_speed"});
    const std::vector<std::string> both{"entry_g", "exit_g"};
    EXPECT_EQ(offersBehind(text, "level at {e"), both);
    // A name is taken without a blank behind it.
    Model model = modelOf(text);
    model.editor.writing = true;
    model.editor.caret = model.editor.anchor = text.find("level at {e") + 11;
    apply(model, action(ActionKind::TakeOffer, 1));
    EXPECT_NE(model.editor.text().find("level at {exit_g\n"), std::string::npos);
}

TEST(Editor, ANewRoutineCanBeFlown) {
    LiveWish wish;
    wish.routine = "demo/new.routine.toml";
    wish.built_in = true;
    wish.texts[wish.routine] = newRoutineText();
    const LiveResult result = LiveFlight(LiveFlight::Kind::Fine).fly(wish, 1);
    EXPECT_TRUE(result.shown) << describe(result.problems);
}

struct OnDisk {
    fs::path folder, file;
};

/// A folder of its own with kText in it.
OnDisk freshFile(const char* name) {
    const fs::path folder = freshFolder(name);
    OnDisk made{folder, folder / "two.routine.toml"};
    system::writeWholeFile(made.file, kText);
    return made;
}

void writeALine(Model& model) {
    apply(model, action(ActionKind::WriteFigure, 0));
    apply(model, action(ActionKind::TypeText, 0, "line 90 m\n"));
}

TEST(Keeper, WhatWasNotSavedIsBackAfterACrash) {
    const auto [folder, file] = freshFile("keeper_crash");
    Model model;
    {
        Keeper keeper(folder / "unsaved");
        keeper.opened(model, file, kText, false);
        writeALine(model);
        keeper.tick(model, 0.1);
        keeper.tick(model, 0.5);  // a pause: put aside
    }                             // without finish(): as after a kill
    EXPECT_EQ(disk(file), kText);
    Model again;
    Keeper keeper(folder / "unsaved");
    keeper.opened(again, file, disk(file), false);
    EXPECT_EQ(again.editor.text(), model.editor.text());
    EXPECT_TRUE(again.editor.changed());
    apply(again, action(ActionKind::Undo));
    EXPECT_EQ(again.editor.text(), kText);
}

TEST(Keeper, WeatherThatWasNotSavedIsBackAsWell) {
    const auto [folder, file] = freshFile("keeper_weather");
    const fs::path weather = folder / "day.weather.toml";
    system::writeWholeFile(weather, "temperature = \"15 C\"\n");
    Model model;
    {
        Keeper keeper(folder / "unsaved");
        keeper.opened(model, file, kText, false);
        model.editor.active = openFile(model.editor, weather);
        ASSERT_EQ(model.editor.active, 1);
        model.editor.writing = true;
        apply(model, action(ActionKind::TypeText, 0, "# hot\n"));
        keeper.tick(model, 0.1);
        keeper.tick(model, 0.5);
    }
    Model again;
    Keeper keeper(folder / "unsaved");
    keeper.opened(again, file, disk(file), false);
    ASSERT_EQ(again.editor.files.size(), 2U);
    EXPECT_FALSE(again.editor.files[0].changed());
    EXPECT_EQ(again.editor.files[1].buffer.text(), "# hot\ntemperature = \"15 C\"\n");
    EXPECT_TRUE(keeper.save(again));
    EXPECT_EQ(disk(weather), "# hot\ntemperature = \"15 C\"\n");
}

TEST(Keeper, SavedElsewhereOtherTextsStayToBeSaved) {
    const auto [folder, file] = freshFile("keeper_elsewhere");
    const fs::path weather = folder / "day.weather.toml";
    system::writeWholeFile(weather, "temperature = \"15 C\"\n");
    Model model;
    Keeper keeper(folder / "unsaved");
    keeper.opened(model, file, kText, false);
    model.editor.active = openFile(model.editor, weather);
    model.editor.writing = true;
    apply(model, action(ActionKind::TypeText, 0, "# hot\n"));
    EXPECT_TRUE(keeper.saveAs(model, folder / "other.routine.toml"));
    EXPECT_TRUE(model.editor.changed());
    EXPECT_TRUE(keeper.save(model));
    EXPECT_NE(disk(weather).find("# hot"), std::string::npos);
}

TEST(Keeper, SeesThatAFileItOnlyReadsWasChanged) {
    const fs::path folder = freshFolder("keeper_others");
    Model model;
    Keeper keeper("");
    keeper.opened(model, "demo/demo.routine.toml",
                  std::string(load::embeddedAsset("demo/demo.routine.toml").value()), true);
    ASSERT_TRUE(keeper.saveAs(model, folder / "demo.routine.toml"));
    OpenWish wish;
    wish.files = {folder / "demo.routine.toml"};
    show(model, openNow(wish, 1));
    keeper.opened(model, wish.files.front(), disk(wish.files.front()), false);
    keeper.tick(model, 1.5);
    EXPECT_FALSE(keeper.takeWorldChanged());
    const fs::path weather = folder / "vellmoor.weather.toml";
    fs::last_write_time(weather, fs::last_write_time(weather) + std::chrono::seconds(2));
    keeper.tick(model, 1.5);
    EXPECT_TRUE(keeper.takeWorldChanged());
    EXPECT_FALSE(keeper.takeWorldChanged());
}

TEST(Keeper, SaysOnceThatItCannotPutAsideAndDoesWhenItCan) {
    const auto [folder, file] = freshFile("keeper_no_place");
    const fs::path place = folder / "unsaved";
    system::writeWholeFile(place, "a file where a folder should be");
    Model model;
    Keeper keeper(place);
    keeper.opened(model, file, kText, false);
    EXPECT_TRUE(keeper.putAsideOrSay(model));  // nothing to lose
    writeALine(model);
    model.message.text.clear();
    keeper.tick(model, 1);
    EXPECT_NE(model.message.text.find("cannot be put aside"), std::string::npos);
    model.message.text.clear();
    keeper.tick(model, 1);
    keeper.tick(model, 1);
    EXPECT_EQ(model.message.text, "");
    EXPECT_FALSE(keeper.putAsideOrSay(model));
    EXPECT_NE(model.message.text.find("Ctrl S"), std::string::npos);
    fs::remove(place);
    EXPECT_TRUE(keeper.save(model));
    EXPECT_TRUE(keeper.putAsideOrSay(model));
}

TEST(Keeper, APlaceThatFillsUpIsTriedAgain) {
    const auto [folder, file] = freshFile("keeper_full");
    const fs::path place = folder / "unsaved";
    Model model;
    Keeper keeper(place);
    keeper.opened(model, file, kText, false);
    writeALine(model);
    ASSERT_EQ(keeper.putAside(model), "");
    const auto kept = [&place] {
        for (const fs::directory_entry& entry : fs::directory_iterator(place))
            if (entry.path().extension() == ".unsaved") return entry.path();
        return fs::path();
    };
    const fs::path kept_file = kept();
    ASSERT_FALSE(kept_file.empty());
    fs::remove(kept_file);
    fs::create_directories(kept_file / "in the way");
    writeALine(model);
    EXPECT_NE(keeper.putAside(model), "");
    fs::remove_all(kept_file);
    keeper.tick(model, 1);  // without another change
    EXPECT_TRUE(fs::is_regular_file(kept_file));
}

TEST(Keeper, WhatWasGivenUpDoesNotComeBack) {
    const auto [folder, file] = freshFile("keeper_given_up");
    Model model;
    Keeper keeper(folder / "unsaved");
    keeper.opened(model, file, kText, false);
    writeALine(model);
    keeper.putAside(model);
    keeper.giveUp(model);
    keeper.opened(model, file, kText, false);
    EXPECT_EQ(model.editor.text(), kText);
}

TEST(Keeper, AfterSavingNothingComesBack) {
    const auto [folder, file] = freshFile("keeper_saved");
    Model model;
    Keeper keeper(folder / "unsaved");
    keeper.opened(model, file, kText, false);
    writeALine(model);
    keeper.putAside(model);
    EXPECT_TRUE(keeper.save(model));
    EXPECT_EQ(disk(file), model.editor.text());
    keeper.finish(model);
    Model again;
    Keeper next(folder / "unsaved");
    next.opened(again, file, disk(file), false);
    EXPECT_FALSE(again.editor.changed());
}

TEST(Keeper, ChangesFromOutsideAreMergedOrAskedAbout) {
    const auto [folder, file] = freshFile("keeper_outside");
    Model model;
    Keeper keeper(folder / "unsaved");
    keeper.opened(model, file, kText, false);
    writeALine(model);
    std::string theirs = kText;
    theirs.replace(theirs.find("6 g"), 3, "5 g");
    system::writeWholeFile(file, theirs);
    keeper.tick(model, 1.5);
    EXPECT_NE(model.editor.text().find("line 90 m"), std::string::npos);
    EXPECT_NE(model.editor.text().find("5 g"), std::string::npos);
    EXPECT_TRUE(model.question.choices.empty());
    // Now both change the same line.
    theirs.replace(theirs.find("200 m"), 5, "300 m");
    system::writeWholeFile(file, theirs);
    const std::string mine = model.editor.text();
    Action place = action(ActionKind::PlaceCaret);
    place.value = static_cast<double>(mine.find("200 m"));
    apply(model, place);
    apply(model, action(ActionKind::StepNumber, 1));
    EXPECT_FALSE(keeper.save(model));
    EXPECT_FALSE(model.question.choices.empty());
    EXPECT_EQ(disk(file), theirs) << "nothing is written over without an answer";
    keeper.takeTheirs(model);
    EXPECT_EQ(model.editor.text(), theirs);
    apply(model, action(ActionKind::Undo));
    EXPECT_NE(model.editor.text().find("205 m"), std::string::npos);
}

TEST(Keeper, TwoWindowsOfOneFileKeepTheirTextsApart) {
    const auto [folder, file] = freshFile("keeper_two");
    Model first, second;
    Keeper a(folder / "unsaved"), b(folder / "unsaved");
    a.opened(first, file, kText, false);
    b.opened(second, file, kText, false);
    apply(first, action(ActionKind::WriteFigure, 0));
    apply(first, action(ActionKind::TypeText, 0, "line 90 m\n"));
    apply(second, action(ActionKind::WriteFigure, 1));
    apply(second, action(ActionKind::TypeText, 0, "line 80 m\n"));
    a.putAside(first);
    b.putAside(second);
    EXPECT_TRUE(a.save(first));
    EXPECT_TRUE(b.save(second));  // merges
    EXPECT_NE(disk(file).find("line 90 m"), std::string::npos);
    EXPECT_NE(disk(file).find("line 80 m"), std::string::npos);
}

TEST(Keeper, ABuiltInRoutineIsSavedWithWhatItNeeds) {
    const fs::path folder = freshFolder("keeper_new");
    Model model;
    Keeper keeper("");
    keeper.opened(model, "demo/new.routine.toml", newRoutineText(), true);
    EXPECT_TRUE(keeper.saveAs(model, folder / "mine.routine.toml"));
    EXPECT_FALSE(model.editor.changed());
    EXPECT_TRUE(load::loadWorkspace(folder / "mine.routine.toml"));
}

TEST(Keeper, TheDemoIsSavedWithWhatItNeeds) {
    const fs::path folder = freshFolder("keeper_demo");
    Model model;
    Keeper keeper("");
    keeper.opened(model, "demo/demo.routine.toml",
                  std::string(load::embeddedAsset("demo/demo.routine.toml").value()), true);
    EXPECT_TRUE(keeper.saveAs(model, folder / "demo.routine.toml"));
    const auto loaded = load::loadWorkspace(folder / "demo.routine.toml");
    ASSERT_TRUE(loaded.has_value());
}

TEST(List, AnythingIsFoundByItsWords) {
    Model model = modelOf(kText);
    Actions more;
    applyToList(model, action(ActionKind::ShowList, static_cast<int>(ListKind::Anything)), more);
    applyToList(model, action(ActionKind::ListType, 0, "figure double"), more);
    const std::vector<ListRow> rows = listRows(model);
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].action.kind, ActionKind::DoubleFigure);
    applyToList(model, action(ActionKind::ListTake, -1), more);
    EXPECT_EQ(more.list().size(), 1U);
    EXPECT_EQ(model.list.kind, ListKind::None);
}

TEST(List, WhatIsCalledSoComesFirst) {
    Model model;
    std::vector<ShelfFigure> shelf(2);
    shelf[0].title = "Hammerhead past the vertical";
    shelf[1].title = "Hammerhead";
    model.shelf = std::make_shared<const std::vector<ShelfFigure>>(shelf);
    model.list.kind = ListKind::Shelf;
    model.list.words = "hammerhead";
    EXPECT_EQ(listRows(model).at(0).title, "Hammerhead");
}

TEST(ActionList, NoTwoActionsShareAKey) {
    // The cockpit, the prompter and the walk-through have keys of their own while they are there.
    const auto at_times = [](const ActionEntry& entry) {
        return entry.kind == ActionKind::LookTo || entry.kind == ActionKind::Prompter ||
               entry.kind == ActionKind::WalkThrough;
    };
    for (const ActionEntry& a : actionList()) {
        for (const ActionEntry& b : actionList()) {
            const bool same_place = &a == &b || a.key == 0 || at_times(a) || at_times(b);
            EXPECT_TRUE(same_place || a.key != b.key || a.modifiers != b.modifiers) << a.words;
        }
    }
}

TEST(ActionList, TheLogReadsBack) {
    Action set = action(ActionKind::SetNumber, 2, "a b\nc");
    set.value = -1.25;
    set.x = 3;
    for (const Action& written :
         {set, action(ActionKind::CloseList), action(ActionKind::MoveFigureBy, -1)}) {
        const auto read = actionFromText(actionText(written));
        ASSERT_TRUE(read.has_value());
        EXPECT_EQ(actionText(*read), actionText(written));
    }
    EXPECT_FALSE(actionFromText("Nothing index 1"));
    EXPECT_FALSE(actionFromText("Seek value x"));
}

TEST(ActionList, TheLogNamesWhatWasDone) {
    EXPECT_EQ(actionText(action(ActionKind::CloseList)), "CloseList");
    EXPECT_EQ(actionText(action(ActionKind::TypeText, 0, "a\nb")), "TypeText text a\\nb");
    EXPECT_EQ(actionText(action(ActionKind::MoveFigureBy, -1)), "MoveFigureBy index -1");
}

}  // namespace
}  // namespace plumbline::model
