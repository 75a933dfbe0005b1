#include "engine/season/remarks.h"

#include <utility>

#include "engine/season/database.h"

namespace plumbline::season {

namespace {

const char* wordOf(Subject::Kind kind) {
    return kind == Subject::Kind::Routine ? "routine" : "sortie";
}

Problems noWords(const Book& book) {
    return book.problem("a remark without words", "say what there is to say");
}

Problems noRemark(const Book& book, std::int64_t id) {
    return book.problem("there is no remark " + std::to_string(id),
                        "plumbline season remarks lists those there are");
}

bool blank(const std::string& words) { return words.find_first_not_of(" \t\r\n") == words.npos; }

constexpr const char* kListings[] = {
    "SELECT id, about, key, time_s, who, words, written_utc_s, changed_utc_s FROM remark "
    "WHERE about = ? AND key = ? ORDER BY time_s, id",
    "SELECT id, about, key, time_s, who, words, written_utc_s, changed_utc_s FROM remark "
    "ORDER BY about, key, time_s, id"};

Expected<std::vector<Remark>, Problems> read(Book& book, Query& query) {
    std::vector<Remark> remarks;
    while (query.row()) {
        Remark& r = remarks.emplace_back();
        r.id = query.number(0);
        r.about = {query.text(1) == "routine" ? Subject::Kind::Routine : Subject::Kind::Sortie,
                   query.text(2)};
        r.time_s = query.real(3);
        r.by = query.text(4);
        r.words = query.text(5);
        r.written_utc_s = query.number(6);
        r.changed_utc_s = query.number(7);
    }
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return remarks;
}

}  // namespace

Expected<Remark, Problems> addRemark(Book& book, Remark remark) {
    if (blank(remark.words)) return Unexpected(noWords(book));
    Database& database = book.database();
    Transaction transaction(database);
    Query(database,
          "INSERT INTO remark(about, key, time_s, who, words, written_utc_s) VALUES(?,?,?,?,?,?)")
        .with(wordOf(remark.about.kind))
        .with(remark.about.key)
        .with(remark.time_s)
        .with(remark.by)
        .with(remark.words)
        .with(remark.written_utc_s)
        .run();
    remark.id = database.lastRow();
    transaction.commit();
    if (Problems problems = book.problems(); !problems.empty())
        return Unexpected(std::move(problems));
    return remark;
}

Problems changeRemark(Book& book, const Remark& remark, std::int64_t now_utc_s) {
    if (blank(remark.words)) return noWords(book);
    Database& database = book.database();
    Transaction transaction(database);
    Query(database,
          "UPDATE remark SET time_s = ?, who = ?, words = ?, changed_utc_s = ? WHERE id = ?")
        .with(remark.time_s)
        .with(remark.by)
        .with(remark.words)
        .with(now_utc_s)
        .with(remark.id)
        .run();
    if (database.good() && database.changed() == 0) return noRemark(book, remark.id);
    transaction.commit();
    return book.problems();
}

Problems deleteRemark(Book& book, std::int64_t id) {
    Database& database = book.database();
    Transaction transaction(database);
    Query(database, "DELETE FROM remark WHERE id = ?").with(id).run();
    if (database.good() && database.changed() == 0) return noRemark(book, id);
    transaction.commit();
    return book.problems();
}

Expected<std::vector<Remark>, Problems> remarksOn(Book& book, const Subject& about) {
    Query query(book.database(), kListings[0]);
    query.with(wordOf(about.kind)).with(about.key);
    return read(book, query);
}

Expected<std::vector<Remark>, Problems> allRemarks(Book& book) {
    Query query(book.database(), kListings[1]);
    return read(book, query);
}

}  // namespace plumbline::season
