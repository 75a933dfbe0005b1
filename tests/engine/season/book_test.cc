// The book as a file: new, old, newer, broken, not a book at all.

#include "engine/season/book.h"

#include "engine/season/database.h"
#include "engine/season/remarks.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

using season::Book;

class SeasonBook : public test::SeasonFolder {
protected:
    /// A file as another program made it.
    void make(const std::string& statements) const {
        season::Database database(file_, true);
        database.run(statements.c_str());
        ASSERT_TRUE(database.good()) << database.reason();
    }
    void expectRefusedUntouched(const std::string& part) const {
        const std::string before = bytes();
        for (const Book::Access access : {Book::Access::Existing, Book::Access::Make}) {
            const std::string said = refusal(access);
            EXPECT_NE(said.find(part), std::string::npos) << said;
            EXPECT_EQ(said.substr(0, file_.string().size()), file_.string());
        }
        EXPECT_EQ(bytes(), before);
    }
    static season::Remark remark(const std::string& words) {
        season::Remark r;
        r.about = season::aboutRoutine("Evening");
        r.words = words;
        return r;
    }
};

TEST_F(SeasonBook, IsMadeOnlyWhenAsked) {
    EXPECT_NE(refusal().find("there is no season's book yet"), std::string::npos);
    EXPECT_FALSE(std::filesystem::exists(file_));
    file_ = folder_ / "a" / "b" / "season.book";
    {
        Book book = open();
        EXPECT_TRUE(season::addRemark(book, remark("early")));
    }
    Book book = open(Book::Access::Existing);
    EXPECT_EQ(season::allRemarks(book)->size(), 1U);
}

TEST_F(SeasonBook, AnEmptyFileIsABookNotYetBegun) {
    // So a program leaves it that is killed while it makes one.
    write("");
    EXPECT_EQ(refusal(), "");
}

TEST_F(SeasonBook, OtherFilesAreRefusedAndStay) {
    write("name = \"Trial\"\naircraft = \"sample.aircraft.toml\"\n" + std::string(5000, '#'));
    expectRefusedUntouched("this is no season's book: ");
    std::filesystem::remove(file_);
    make("CREATE TABLE song(title TEXT); INSERT INTO song VALUES('a')");
    expectRefusedUntouched("other tables");
}

TEST_F(SeasonBook, ANewerBookIsRefusedAndStays) {
    { Book book = open(); }
    make("PRAGMA user_version = 99; CREATE TABLE later(a)");
    expectRefusedUntouched("written by a newer plumbline (version 99");
}

TEST_F(SeasonBook, ADamagedBookIsRefusedAndStays) {
    {
        Book book = open();
        for (int i = 0; i < 30; ++i)
            ASSERT_TRUE(season::addRemark(book, remark(std::string(1500, 'w'))));
    }
    std::string broken = bytes();
    ASSERT_GT(broken.size(), 20000U);
    // Pages beyond the first, as a bad drive or half a copy leaves them.
    for (std::size_t i = 9000; i < broken.size(); ++i) broken[i] = static_cast<char>(i * 31);
    write(broken);
    expectRefusedUntouched("the season's book is damaged");
    write(broken.substr(0, 6000));
    expectRefusedUntouched("the season's book is damaged");
}

// The tables as version 1 had them, written out here so that a change of them is found.
constexpr const char* kVersionOne = R"sql(
CREATE TABLE remark(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  about TEXT NOT NULL CHECK(about IN ('routine', 'sortie')),
  key TEXT NOT NULL,
  time_s REAL NOT NULL,
  who TEXT NOT NULL,
  words TEXT NOT NULL CHECK(length(words) > 0),
  written_utc_s INTEGER NOT NULL,
  changed_utc_s INTEGER
) STRICT;
CREATE INDEX remark_about ON remark(about, key, time_s);
INSERT INTO remark VALUES(7, 'sortie', '00000000000000ff', 12.5, 'Coach', 'late', 1780000000, NULL);
PRAGMA application_id = 1347187554;
PRAGMA user_version = 1;
)sql";

TEST_F(SeasonBook, AnOldBookIsBroughtUpToDate) {
    make(kVersionOne);
    Book book = open(Book::Access::Existing);
    EXPECT_EQ(book.database().number("PRAGMA user_version"), season::newestVersion());
    const auto remarks = season::allRemarks(book);
    ASSERT_EQ(remarks->size(), 1U);
    const season::Remark& r = remarks->front();
    EXPECT_EQ(r.id, 7);
    EXPECT_EQ(r.about, (season::Subject{season::Subject::Kind::Sortie, "00000000000000ff"}));
    EXPECT_EQ(r.time_s, 12.5);
    EXPECT_EQ(r.by, "Coach");
    EXPECT_EQ(r.words, "late");
    EXPECT_EQ(r.written_utc_s, 1780000000);
    EXPECT_EQ(r.changed_utc_s, 0);
    EXPECT_EQ(season::addRemark(book, remark("new"))->id, 8);
}

TEST_F(SeasonBook, BroughtUpToDateItHasTheTablesOfANewOne) {
    const auto schema = [](Book& book) {
        std::string all;
        season::Query query(book.database(), "SELECT name, sql FROM sqlite_schema ORDER BY name");
        while (query.row()) {
            std::string sql = query.text(1);
            // Without comments and blanks.
            for (std::size_t at; (at = sql.find("--")) != sql.npos;)
                sql.erase(at, std::min(sql.find('\n', at), sql.size()) - at);
            std::erase_if(sql, [](char c) { return c == ' ' || c == '\n'; });
            all += query.text(0) + ": " + sql + "\n";
        }
        return all;
    };
    make(kVersionOne);
    Book old = open();
    file_ = folder_ / "new.book";
    Book fresh = open();
    EXPECT_EQ(schema(old), schema(fresh));
}

}  // namespace
}  // namespace plumbline
