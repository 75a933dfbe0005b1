// The sorties before this one, of what is worth mending in it.
#include "engine/season/last_times.h"

#include "tests/engine/season/made_sorties.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

class LastTimes : public test::SeasonFolder {
protected:
    static season::Sortie sortie(const std::string& key, std::int64_t utc_s, double off_rad) {
        season::Sortie s = test::madeSortie(key, utc_s);
        s.figures.resize(1);
        s.figures[0].name = "Hammerhead";
        s.figures[0].measures = {{"line up", "line off", off_rad, 0.01, {}},
                                 {"", "lowest", 100, 2.0, 110.0}};
        return s;
    }
    static season::Routine routine(const char* name) {
        season::Routine r;
        r.name = name;
        r.revision = "0123";
        r.text = "text";
        return r;
    }
    static review::Review leaning() {
        review::Review review;
        review::Remark line;
        line.weight = 2;
        line.figure = "Hammerhead";
        line.fault = review::Fault::Line;
        line.element = "line up";
        review::Remark other;  // of what no number tells
        other.weight = 3;
        other.figure = "Hammerhead";
        review.remarks = {other, line, line};
        return review;
    }
};

TEST_F(LastTimes, AreTheLatestOfTheSameRoutineWithThisOneLast) {
    season::Book book = open();
    const season::Routine evening = routine("Evening"), morning = routine("Morning");
    for (int i = 0; i < 9; ++i)
        ASSERT_TRUE(season::addSortie(
            book, sortie("s" + std::to_string(i), 1000000 + 1000 * i, 0.01 * i), &evening));
    ASSERT_TRUE(season::addSortie(book, sortie("m", 1008500, 0.9), &morning));
    season::LastWish wish;
    wish.routine = "Evening";
    wish.key = "s8";  // it stands in the book already
    const auto last = season::lastTimes(book, leaning(), sortie("s8", 1008000, 0.08), wish);
    ASSERT_TRUE(last);
    ASSERT_EQ(last->size(), 1U);  // the same measure once
    const season::LastTimes& line = last->front();
    EXPECT_EQ(line.figure, "Hammerhead");
    EXPECT_EQ(line.kind.name, "line off");
    ASSERT_EQ(line.points.size(), 6U);
    for (std::size_t i = 0; i < 6; ++i)
        EXPECT_DOUBLE_EQ(line.points[i].value, 0.01 * static_cast<double>(i + 3));
    EXPECT_EQ(line.points.back().sortie, 0);
}

TEST_F(LastTimes, OfAFirstSortieAreNone) {
    season::Book book = open();
    const season::Routine evening = routine("Evening");
    season::LastWish wish;
    wish.routine = "Evening";
    EXPECT_TRUE(season::lastTimes(book, leaning(), sortie("a", 1000, 0.1), wish)->empty());
    // Flown later than this one: no sortie before it.
    ASSERT_TRUE(season::addSortie(book, sortie("b", 2000, 0.1), &evening));
    EXPECT_TRUE(season::lastTimes(book, leaning(), sortie("a", 1000, 0.1), wish)->empty());
    // A recording without a date comes after all there are.
    EXPECT_EQ(season::lastTimes(book, leaning(), sortie("a", 0, 0.1), wish)->size(), 1U);
}

}  // namespace
}  // namespace plumbline
