// Remarks as the window keeps them: in a book of their own, there again for whoever opens the same
// thing.
#include "viewer/model/remark_desk.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

class RemarkDeskTest : public testing::Test {
protected:
    void SetUp() override {
        book_ = std::filesystem::path(testing::TempDir()) / "remarks_of_the_window.book";
        std::filesystem::remove(book_);
    }
    static Model modelOf(const char* key) {
        Model model;
        auto shown = std::make_shared<Shown>();
        shown->subject = {season::Subject::Kind::Sortie, key};
        shown->source.path = std::make_shared<const path::Path>();
        model.shown = std::move(shown);
        return model;
    }
    static Action keep(int index, double time_s, int by, const char* words) {
        Action action;
        action.kind = ActionKind::KeepRemark;
        action.index = index;
        action.value = time_s;
        action.x = by;
        action.text = words;
        return action;
    }
    std::filesystem::path book_;
};

TEST_F(RemarkDeskTest, AreThereAgainForTheSameFlightOnly) {
    RemarkDesk desk(book_);
    Model model = modelOf("0123456789abcdef");
    desk.look(model);
    EXPECT_TRUE(model.remarks.list.empty());
    EXPECT_FALSE(std::filesystem::exists(book_));  // looking makes no book
    desk.apply(model, keep(-1, 62.5, 1, "Pull later"), 1000);
    desk.apply(model, keep(-1, 12, 0, "Gust here"), 1001);
    ASSERT_EQ(model.remarks.list.size(), 2U);
    EXPECT_EQ(model.remarks.list[0].words, "Gust here");
    EXPECT_EQ(model.remarks.list[0].by, "pilot");
    EXPECT_EQ(model.remarks.list[1].by, "coach");

    RemarkDesk tomorrow(book_);
    Model same = modelOf("0123456789abcdef"), other = modelOf("fedcba9876543210");
    tomorrow.look(same);
    tomorrow.look(other);
    EXPECT_EQ(same.remarks.list.size(), 2U);
    EXPECT_DOUBLE_EQ(same.remarks.list[1].time_s, 62.5);
    EXPECT_TRUE(other.remarks.list.empty());
}

TEST_F(RemarkDeskTest, StandOnThePathInFewWords) {
    RemarkDesk desk(book_);
    Model model = modelOf("0123456789abcdef");
    desk.look(model);
    EXPECT_EQ(model.remarks.notes, nullptr);
    const std::string long_words =
        "The pull into the second line came late, so that the whole figure sat too far left";
    desk.apply(model, keep(-1, 62.5, 1, long_words.c_str()), 1000);
    desk.apply(model, keep(-1, 12, 0, "Gust here"), 1001);
    ASSERT_NE(model.remarks.notes, nullptr);
    ASSERT_EQ(model.remarks.notes->size(), 2U);
    const scene::PathNote& first = model.remarks.notes->at(0);
    EXPECT_EQ(first.text, "Gust here");
    EXPECT_EQ(first.quiet, "pilot");
    EXPECT_DOUBLE_EQ(first.time_s, 12);
    const std::string& text = model.remarks.notes->at(1).text;
    EXPECT_LT(text.size(), 56U);
    EXPECT_EQ(text.substr(0, 20), long_words.substr(0, 20));
    EXPECT_NE(text.find("\u2026"), std::string::npos);
    Action remove;
    remove.kind = ActionKind::DeleteRemark;
    desk.apply(model, remove, 1002);
    ASSERT_NE(model.remarks.notes, nullptr);
    EXPECT_EQ(model.remarks.notes->size(), 1U);
    desk.apply(model, remove, 1003);
    EXPECT_EQ(model.remarks.notes, nullptr);
}

TEST_F(RemarkDeskTest, AreChangedAndDeletedInTheBook) {
    RemarkDesk desk(book_);
    Model model = modelOf("0123456789abcdef");
    desk.look(model);
    desk.apply(model, keep(-1, 10, 0, "First"), 1000);
    desk.apply(model, keep(-1, 20, 0, "Second"), 1000);
    desk.apply(model, keep(0, 30, 1, "First, later"), 1100);
    EXPECT_EQ(model.remarks.list[1].words, "First, later");
    Action gone;
    gone.kind = ActionKind::DeleteRemark;
    gone.index = 0;
    desk.apply(model, gone, 1200);

    Model same = modelOf("0123456789abcdef");
    RemarkDesk(book_).look(same);
    ASSERT_EQ(same.remarks.list.size(), 1U);
    EXPECT_EQ(same.remarks.list[0].words, "First, later");
    EXPECT_DOUBLE_EQ(same.remarks.list[0].time_s, 30);
    EXPECT_EQ(same.remarks.list[0].by, "coach");
}

TEST_F(RemarkDeskTest, WhatCannotBeKeptIsSaidAndNotShown) {
    RemarkDesk desk(book_);
    Model model = modelOf("0123456789abcdef");
    desk.look(model);
    desk.apply(model, keep(-1, 10, 0, ""), 1000);  // no words
    EXPECT_TRUE(model.remarks.list.empty());
    EXPECT_TRUE(model.message.wrong);
}

}  // namespace
}  // namespace plumbline::model
