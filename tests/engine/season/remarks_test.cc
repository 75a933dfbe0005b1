#include "engine/season/remarks.h"

#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

using season::Book;
using season::Remark;

class SeasonRemarks : public test::SeasonFolder {
protected:
    static Remark remark(double time_s, const std::string& words) {
        Remark r;
        r.about = season::aboutRoutine("Evening");
        r.time_s = time_s;
        r.by = "Coach";
        r.words = words;
        r.written_utc_s = 1780000000;
        return r;
    }
};

TEST_F(SeasonRemarks, AreListedByTimeEachWithItsOwn) {
    Book book = open();
    const Remark late = *season::addRemark(book, remark(95.25, "float longer"));
    const Remark early = *season::addRemark(book, remark(3, "wings: level first"));
    Remark other = remark(50, "of the flight");
    other.about = {season::Subject::Kind::Sortie,
                   "Evening"};  // a sortie's key, whatever it looks like
    ASSERT_TRUE(season::addRemark(book, other));
    const auto listed = season::remarksOn(book, season::aboutRoutine("Evening"));
    ASSERT_EQ(listed->size(), 2U);
    EXPECT_EQ((*listed)[0].id, early.id);
    EXPECT_EQ((*listed)[1].id, late.id);
    EXPECT_EQ((*listed)[1].time_s, 95.25);
    EXPECT_EQ((*listed)[1].words, "float longer");
    EXPECT_EQ((*listed)[1].by, "Coach");
    EXPECT_EQ((*listed)[1].written_utc_s, 1780000000);
    EXPECT_EQ(season::allRemarks(book)->size(), 3U);
    EXPECT_TRUE(season::remarksOn(book, season::aboutRoutine("Morning"))->empty());
}

TEST_F(SeasonRemarks, WordsAreWordsWhateverStandsInThem) {
    Book book = open();
    const std::string nasty =
        "'); DROP TABLE remark; -- \"quoted\" ?1 :a \xc3\xa9\xe2\x9c\x88\nsecond line";
    Remark r = remark(1, nasty);
    r.by = "O'Hara; --";
    r.about.key = "x' OR '1'='1";
    ASSERT_TRUE(season::addRemark(book, r));
    const auto listed = season::remarksOn(book, r.about);
    ASSERT_EQ(listed->size(), 1U);
    EXPECT_EQ(listed->front().words, nasty);
    EXPECT_EQ(listed->front().by, r.by);
    EXPECT_TRUE(season::remarksOn(book, season::aboutRoutine("anything"))->empty());
}

TEST_F(SeasonRemarks, AreChangedAndDeleted) {
    Book book = open();
    Remark r = *season::addRemark(book, remark(10, "pull harder"));
    const Remark kept = *season::addRemark(book, remark(20, "good"));
    r.words = "pull later";
    r.time_s = 11;
    EXPECT_TRUE(season::changeRemark(book, r, 1780000060).empty());
    auto listed = season::allRemarks(book);
    EXPECT_EQ(listed->front().words, "pull later");
    EXPECT_EQ(listed->front().time_s, 11);
    EXPECT_EQ(listed->front().changed_utc_s, 1780000060);
    EXPECT_EQ(listed->back().words, "good");
    EXPECT_TRUE(season::deleteRemark(book, r.id).empty());
    listed = season::allRemarks(book);
    ASSERT_EQ(listed->size(), 1U);
    EXPECT_EQ(listed->front().id, kept.id);
}

TEST_F(SeasonRemarks, AnIdIsNeverGivenTwice) {
    Book book = open();
    const std::int64_t id = season::addRemark(book, remark(1, "a"))->id;
    EXPECT_TRUE(season::deleteRemark(book, id).empty());
    EXPECT_GT(season::addRemark(book, remark(1, "b"))->id, id);
}

TEST_F(SeasonRemarks, WhatIsGoneOrEmptyIsSaid) {
    Book book = open();
    Remark r = *season::addRemark(book, remark(1, "a"));
    EXPECT_FALSE(season::addRemark(book, remark(1, " \n")));
    r.words.clear();
    EXPECT_NE(describe(season::changeRemark(book, r, 1)).find("without words"), std::string::npos);
    Book other = open();  // another window
    EXPECT_TRUE(season::deleteRemark(other, r.id).empty());
    r.words = "b";
    EXPECT_NE(describe(season::changeRemark(book, r, 1)).find("there is no remark 1"),
              std::string::npos);
    EXPECT_NE(describe(season::deleteRemark(book, r.id)).find("there is no remark 1"),
              std::string::npos);
    EXPECT_TRUE(season::addRemark(book, remark(1, "after all that")));
}

TEST_F(SeasonRemarks, TheSameFilesAreTheSameSortie) {
    // FNV-1a, 64 bits: the test values published with the algorithm (from memory).
    const auto key = [](std::vector<std::string_view> files) { return season::sortieKey(files); };
    EXPECT_EQ(key({""}), "cbf29ce484222325");
    EXPECT_EQ(key({"a"}), "af63dc4c8601ec8c");
    EXPECT_EQ(key({"foobar"}), "85944171f73967e8");
    EXPECT_EQ(key({"imu", "gnss"}), key({"gnss", "imu"}));
    EXPECT_NE(key({"imu", "gnss"}), key({"imugnss"}));
}

}  // namespace
}  // namespace plumbline
