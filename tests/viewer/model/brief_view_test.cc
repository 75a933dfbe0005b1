// The brief in the window without its threads: words in the text, cues as rows, the page's place.

#include "viewer/model/brief_view.h"

#include <gtest/gtest.h>

#include "viewer/model/list.h"
#include "viewer/model/model.h"
#include "viewer/model/script_text.h"

namespace plumbline::model {
namespace {

Action action(ActionKind kind, int index = 0, const std::string& text = {}) {
    Action out;
    out.kind = kind;
    out.index = index;
    out.text = text;
    return out;
}

constexpr const char* kText = R"(name = "Three"
[[figure]]
name = "One"
narration = "Here it \"comes\"."   # ours
text = """
narration = "not this"
line level 200 m
"""
[[figure]]
name = "Two"
text = """
pull to up at 6 g
"""
[[figure]]
name = "Three"
narration = """
First line,
second line."""
text = "line level 100 m"
[[figure]]
name = "Four"
narration = 'it''
)";

std::string wordsOf(const std::string& text, int index) {
    return scriptWords(text, figureBlocks(text)[static_cast<std::size_t>(index)]);
}

TEST(ScriptText, FindsTheWordsOfEachFigure) {
    const std::vector<FigureBlock> blocks = figureBlocks(kText);
    ASSERT_EQ(blocks.size(), 4U);
    EXPECT_EQ(wordsOf(kText, 0), "Here it \"comes\".");
    EXPECT_FALSE(blocks[1].has_script);
    EXPECT_EQ(wordsOf(kText, 2), "First line,\nsecond line.");
    EXPECT_TRUE(blocks[0].own_text);
    EXPECT_EQ(std::string(kText).substr(blocks[2].text.begin, 16), "line level 100 m");
}

TEST(ScriptText, AFigureWithoutWordsGetsThemAndLosesThemWhenTheyStayEmpty) {
    const std::string added = withScriptAdded(kText, 1);
    EXPECT_NE(added.find("name = \"Two\"\nnarration = \"\"\ntext"), std::string::npos) << added;
    EXPECT_EQ(withEmptyScriptRemoved(added, 1), kText);
    EXPECT_EQ(withScriptAdded(kText, 0), kText) << "it has some";
    EXPECT_EQ(withEmptyScriptRemoved(kText, 0), kText);
    EXPECT_EQ(withScriptAdded(kText, 9), kText);
    // A remark behind it is somebody's own.
    const std::string kept = "[[figure]]\nname = \"A\"\nnarration = \"\" # to do\n";
    EXPECT_EQ(withEmptyScriptRemoved(kept, 0), kept);
    // The last line of a file without a line end.
    const std::string bare = "[[figure]]\nname = \"A\"";
    EXPECT_EQ(withScriptAdded(bare, 0), bare + "\nnarration = \"\"\n");
}

TEST(ScriptText, WhatIsTypedCannotEndTheString) {
    FigureBlock block;
    block.script_quotes = "\"";
    EXPECT_EQ(asScript("say \"up\" \\ now\nand on", block, ""), "say \u201cup\u201d  now and on");
    EXPECT_EQ(asScript("\"", block, "so: "), "\u201c");
    EXPECT_EQ(asScript("\"", block, "up"), "\u201d");
    block.script_quotes = "'";
    EXPECT_EQ(asScript("it's", block, ""), "it\u2019s");
    block.script_quotes = "\"\"\"";
    EXPECT_EQ(asScript("a\nb", block, ""), "a\nb");
}

Model modelOf(const std::string& text) {
    Model model;
    beginEditing(model.editor, "three.routine.toml", text, false);
    refreshRows(model);
    return model;
}

TEST(ScriptEditing, WritesIntoTheRoutineAndCanBeUndone) {
    Model model = modelOf(kText);
    model.brief.on = true;
    apply(model, action(ActionKind::WriteScript, 1));
    ASSERT_TRUE(model.editor.script);
    for (const char* letter : {"N", "o", "w", " ", "\"", "u", "p", "\""})
        apply(model, action(ActionKind::TypeText, 0, letter));
    EXPECT_EQ(wordsOf(model.editor.routineText(), 1), "Now \u201cup\u201d");
    // The caret stays inside the quotes, whatever key is held.
    for (int i = 0; i < 40; ++i) apply(model, action(ActionKind::TakeOut, -1));
    EXPECT_EQ(wordsOf(model.editor.routineText(), 1), "");
    EXPECT_NE(model.editor.routineText().find("narration = \"\""), std::string::npos);
    apply(model, action(ActionKind::StopWriting));
    EXPECT_EQ(model.editor.routineText(), kText) << "begun and left empty: nothing is left";
    while (model.editor.files.front().buffer.canUndo()) apply(model, action(ActionKind::Undo));
    EXPECT_EQ(model.editor.routineText(), kText);
    EXPECT_FALSE(model.editor.changed());
}

TEST(ScriptEditing, EnterWritesWordsInTheBriefAndTextOutsideOfIt) {
    Model model = modelOf(kText);
    model.brief.on = true;
    apply(model, action(ActionKind::WriteFigure, 0));
    EXPECT_TRUE(model.editor.script);
    EXPECT_EQ(writtenRange(model.editor), figureBlocks(kText)[0].script);
    EXPECT_TRUE(offersAt(model.editor).empty());
    apply(model, action(ActionKind::WriteFile, 0));
    EXPECT_FALSE(model.editor.script);
    EXPECT_FALSE(model.brief.on) << "the text as a whole stands in the sheet";
    apply(model, action(ActionKind::WriteFigure, 0));
    EXPECT_FALSE(model.editor.script);
    EXPECT_EQ(writtenRange(model.editor), figureBlocks(kText)[0].text);
}

TEST(CueRows, CountTheWordsThatFitBeforeTheNextCue) {
    Model model;
    show(model, openNow({}, 1));
    ASSERT_TRUE(model.shown);
    const std::vector<CueRow> rows = cueRows(model);
    ASSERT_GE(rows.size(), model.rows.size()) << "every figure has a row";
    // The demo: 19 words from 0:00; the next cue is that of the second figure.
    EXPECT_EQ(rows[0].word_count, 19);
    EXPECT_TRUE(rows[0].cue);
    EXPECT_FALSE(rows[0].said.empty());
    const CueRow* next = nullptr;
    for (std::size_t i = 1; next == nullptr && i < rows.size(); ++i)
        if (rows[i].cue) next = &rows[i];
    ASSERT_TRUE(next);
    // 140 words a minute with a second kept free: the counting of a stopwatch.
    const int fit = static_cast<int>((next->time_s - rows[0].time_s - 1) * 140 / 60);
    EXPECT_NEAR(rows[0].fit, fit, 1);
    EXPECT_EQ(countWords(rows[0]), "19 of " + std::to_string(rows[0].fit) + " words");
    model.session.words_per_min = 40;
    const std::vector<CueRow> slow = cueRows(model);
    EXPECT_LT(slow[0].fit, rows[0].fit);
    EXPECT_EQ(slow[0].too_many, 19 - slow[0].fit);
    EXPECT_EQ(countWords(slow[0]), std::to_string(slow[0].too_many) + " words too many");
    EXPECT_LT(slow[0].early_s, 0) << "windows are not known before they were flown";
}

TEST(BriefPage, KeepsWhatIsUnderThePointerAndStaysOnThePage) {
    Brief brief;
    const page::Size a5{148, 210};
    PagePlace place = placeOf(brief, a5, 400, 420);
    EXPECT_DOUBLE_EQ(place.dots_per_mm, 2);
    EXPECT_DOUBLE_EQ(place.part.width_mm, 148);
    EXPECT_DOUBLE_EQ(place.left_px, 52);
    Model model;
    Action closer;
    closer.kind = ActionKind::ZoomPage;
    closer.value = 4;
    closer.x = 0.75;
    closer.y = 0.25;
    const auto under = [&] {
        const PagePlace now = placeOf(model.brief, a5, 296, 420);
        return page::Point{now.part.x_mm + (closer.x * 296 - now.left_px) / now.dots_per_mm,
                           now.part.y_mm + (closer.y * 420 - now.top_px) / now.dots_per_mm};
    };
    const page::Point before = under();
    apply(model, closer);
    EXPECT_GT(model.brief.zoom, 2);
    EXPECT_NEAR(under().x_mm, before.x_mm, 0.5);
    EXPECT_NEAR(under().y_mm, before.y_mm, 0.5);
    Action drag;
    drag.kind = ActionKind::PanPage;
    drag.x = drag.y = 50;
    apply(model, drag);
    place = placeOf(model.brief, a5, 296, 420);
    EXPECT_NEAR(place.part.x_mm, 0, 0.5);
    EXPECT_NEAR(place.part.y_mm, 0, 0.5);
    apply(model, action(ActionKind::WholePage));
    EXPECT_EQ(model.brief.zoom, 1);
}

TEST(BriefFonts, AFileThatIsNoneIsSaidAndNotKept) {
    Model model;
    Action font = action(ActionKind::AddFont);
    font.files = {"no-such-font.ttf"};
    apply(model, font);
    EXPECT_TRUE(model.message.wrong);
    EXPECT_TRUE(model.session.fonts.empty());
    font.files = {"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf"};
    apply(model, font);
    apply(model, font);
    EXPECT_EQ(model.session.fonts.size(), 1U);
    const Session back = sessionFromText(sessionText(model.session));
    EXPECT_EQ(back.fonts, model.session.fonts);
    apply(model, action(ActionKind::ForgetFonts));
    EXPECT_TRUE(model.session.fonts.empty());
}

}  // namespace
}  // namespace plumbline::model
