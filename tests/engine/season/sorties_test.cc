// Sorties and routines: in, out, noted, removed.

#include "engine/season/sorties.h"

#include "engine/season/database.h"
#include "engine/season/export_csv.h"
#include "engine/season/remarks.h"
#include "tests/engine/season/made_sorties.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

using season::Book;
using season::Sortie;

class SeasonSorties : public test::SeasonFolder {};

TEST_F(SeasonSorties, ComeOutAsTheyWentIn) {
    Book book = open();
    Sortie in = test::madeSortie("a", 1780000000);
    in.notes = "gusty; \"late\"\nagain";
    in.fuel_kg.reset();
    in.figures.front().measures.push_back({"line up", "line off", 0.0123456789012345, 0.005, {}});
    const season::Routine plan = test::madeRoutine("Evening", "4c1e 90b7");
    const auto id = season::addSortie(book, in, &plan);
    ASSERT_TRUE(id);
    const auto out = season::sortie(book, *id);
    ASSERT_TRUE(out);
    EXPECT_EQ(out->key, in.key);
    EXPECT_EQ(out->flown_utc_s, 1780000000);
    EXPECT_EQ(out->routine_name, "Evening");
    EXPECT_EQ(out->notes, in.notes);
    EXPECT_EQ(out->flown_s, in.flown_s);
    EXPECT_EQ(out->full_power_s, in.full_power_s);
    EXPECT_FALSE(out->fuel_kg);  // not told is not zero
    ASSERT_EQ(out->figures.size(), 2U);
    EXPECT_EQ(out->figures[1].name, "Loop");
    EXPECT_TRUE(out->figures[1].again);
    const season::Measured& m = out->figures[0].measures.back();
    EXPECT_EQ(m.value, 0.0123456789012345);  // every bit
    EXPECT_EQ(m.sigma, 0.005);
    EXPECT_FALSE(m.planned);
    ASSERT_TRUE(out->loads);
    EXPECT_EQ(out->loads->most_g, 6.5);
    ASSERT_EQ(out->loads->cycles.size(), 2U);
    EXPECT_EQ(out->loads->cycles[1].count, 1.5);
    EXPECT_EQ(out->loads->levels.size(), 2U);
    EXPECT_EQ(out->loads->push_pulls.size(), 1U);
}

// What begins at the very moment at which the figure before ends is its own figure's.
TEST(SortieOf, PutsEachMeasureToItsFigure) {
    review::Review review;
    for (const char* name : {"Hammerhead", "Loop"}) {
        review::FigureReview figure;
        figure.name = name;
        figure.start_s = review.figures.empty() ? 0 : 30;
        figure.stop_s = figure.start_s + 30;
        review.figures.push_back(figure);
    }
    review::Review::Arc arc;
    arc.figure = "Loop";
    arc.name = "pull 360 deg";
    arc.flown.start_s = 30;
    arc.flown.radius_m = 110;
    review.arcs = {arc};
    path::Known known;
    const season::Sortie sortie = season::sortieOf(review, {}, {}, known);
    const auto has = [&](std::size_t figure) {
        for (const season::Measured& m : sortie.figures[figure].measures)
            if (m.name == "radius") return true;
        return false;
    };
    ASSERT_EQ(sortie.figures.size(), 2U);
    EXPECT_FALSE(has(0));
    EXPECT_TRUE(has(1));
}

TEST_F(SeasonSorties, NoFlightStandsTwice) {
    Book book = open();
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("a", 1), nullptr));
    const auto again = season::addSortie(book, test::madeSortie("a", 2), nullptr);
    ASSERT_FALSE(again);
    EXPECT_NE(describe(again.error()).find("there already, as sortie 1"), std::string::npos);
    EXPECT_TRUE(season::addSortie(book, test::madeSortie("b", 2), nullptr));
    EXPECT_EQ(season::sorties(book)->size(), 2U);
}

TEST_F(SeasonSorties, ARoutineIsKeptOncePerRevision) {
    Book book = open();
    const season::Routine old = test::madeRoutine("Evening", "1");
    const season::Routine changed = test::madeRoutine("Evening", "2");
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("a", 1), &old));
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("b", 2), &old));
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("c", 3), &changed));
    const auto all = season::routines(book);
    ASSERT_EQ(all->size(), 2U);
    EXPECT_EQ((*all)[0].sorties, 2);
    EXPECT_EQ((*all)[1].sorties, 1);
    EXPECT_EQ(*season::addRoutine(book, changed), (*all)[1].id);
    EXPECT_NE(describe(season::removeRoutine(book, 1)).find("flown by 2 sorties"),
              std::string::npos);
    EXPECT_TRUE(season::removeSortie(book, 3).empty());
    EXPECT_TRUE(season::removeRoutine(book, 2).empty());
}

TEST_F(SeasonSorties, WithASortieGoesAllThatHangsOnIt) {
    Book book = open();
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("a", 1), nullptr));
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("b", 2), nullptr));
    for (const char* key : {"a", "b"}) {
        season::Remark r;
        r.about = {season::Subject::Kind::Sortie, key};
        r.words = "w";
        ASSERT_TRUE(season::addRemark(book, r));
    }
    EXPECT_EQ(season::sortie(book, 1)->remarks, 1);
    EXPECT_TRUE(season::removeSortie(book, 1).empty());
    EXPECT_FALSE(season::sortie(book, 1));
    EXPECT_EQ(season::allRemarks(book)->size(), 1U);
    for (const char* left : {"SELECT count(*) FROM figure WHERE sortie = 1",
                             "SELECT count(*) FROM load_level WHERE sortie = 1",
                             "SELECT count(*) FROM load_cycle WHERE sortie = 1",
                             "SELECT count(*) FROM push_pull WHERE sortie = 1"})
        EXPECT_EQ(book.database().number(left), 0) << left;
    EXPECT_EQ(book.database().number("SELECT count(*) FROM measure"),
              book.database().number("SELECT count(*) FROM measure m JOIN figure f ON "
                                     "f.id = m.figure WHERE f.sortie = 2"));
    EXPECT_NE(describe(season::removeSortie(book, 1)).find("no sortie 1"), std::string::npos);
}

TEST_F(SeasonSorties, NotesChangeWhatIsSaidOnly) {
    Book book = open();
    ASSERT_TRUE(season::addSortie(book, test::madeSortie("a", 1), nullptr));
    EXPECT_TRUE(season::noteSortie(book, 1, "calm, 14 C", {}).empty());
    EXPECT_TRUE(season::noteSortie(book, 1, {}, "tired").empty());
    EXPECT_EQ(season::sortie(book, 1)->conditions, "calm, 14 C");
    EXPECT_EQ(season::sortie(book, 1)->notes, "tired");
    EXPECT_FALSE(season::noteSortie(book, 9, "x", {}).empty());
}

TEST_F(SeasonSorties, TablesQuoteWhatNeedsIt) {
    Book book = open();
    Sortie in = test::madeSortie("a", 1255804646);  // 2009-10-17T18:37:26Z
    in.notes = "gusty, \"late\"";
    in.fuel_kg.reset();
    in.flown_s = 0.1;
    ASSERT_TRUE(season::addSortie(book, in, nullptr));
    const auto tables = season::exportTables(book);
    ASSERT_TRUE(tables);
    const std::string& csv = tables->front().bytes;
    EXPECT_EQ(tables->front().name, "sorties.csv");
    EXPECT_EQ(csv.substr(0, 27), "sortie,flown_utc,recording,");
    // RFC 4180, section 2, 5 to 7: quotes around, and doubled within.
    EXPECT_NE(csv.find(",\"gusty, \"\"late\"\"\",0.1,"), std::string::npos) << csv;
    EXPECT_NE(csv.find("1,2009-10-17T18:37:26Z,"), std::string::npos) << csv;
    EXPECT_EQ(csv.substr(csv.size() - 2), "\r\n");
}

}  // namespace
}  // namespace plumbline
