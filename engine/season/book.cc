#include "engine/season/book.h"

#include <string>
#include <utility>

#include "engine/season/database.h"
#include "engine/season/schema.h"
#include "engine/system/data_folder.h"

namespace plumbline::season {

namespace fs = std::filesystem;

namespace {

Problems problemOf(const fs::path& file, std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = file.string();
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    return {problem};
}

constexpr const char* kOtherFile = "name another with --book FILE; this file is left as it is";

Problems problemOf(const fs::path& file, const Database& database) {
    switch (database.kind()) {
        case Database::Kind::Busy:
            return problemOf(file, "another program keeps the season's book busy",
                             "close it there and try again");
        case Database::Kind::NotOurs:
            return problemOf(file, "this is no season's book", kOtherFile);
        case Database::Kind::Damaged:
            return problemOf(file, "the season's book is damaged (" + database.reason() + ")",
                             "bring back a copy of it; this file is left as it is");
        case Database::Kind::ReadOnly:
            return problemOf(file, "the season's book cannot be written to",
                             "give yourself leave to write it and its folder, or name another "
                             "with --book FILE");
        default:
            return problemOf(file, "the season's book fails: " + database.reason(),
                             "look at the file, its folder and the room on the drive");
    }
}

/// The tables of the newest version, whatever was there before; in one transaction.
Problems bringUpToDate(const fs::path& file, Database& database) {
    const auto newest = static_cast<std::int64_t>(schemaSteps().size());
    // Most books are as they should be: no lock is asked for then.
    if (database.number("PRAGMA application_id") == kApplicationId &&
        database.number("PRAGMA user_version") == newest)
        return {};
    Transaction transaction(database);
    const std::int64_t version = database.number("PRAGMA user_version");
    const std::int64_t id = database.number("PRAGMA application_id");
    const std::int64_t tables = database.number("SELECT count(*) FROM sqlite_schema");
    if (!database.good()) return problemOf(file, database);
    if (id != kApplicationId && (tables > 0 || version != 0 || id != 0))
        return problemOf(file, "this is no season's book but other tables", kOtherFile);
    if (version > newest)
        return problemOf(file,
                         "this season's book was written by a newer plumbline (version " +
                             std::to_string(version) + ", this one knows " +
                             std::to_string(newest) + ")",
                         "use the newer program; the file is left as it is");
    for (std::int64_t step = version; step < newest; ++step)
        database.run(schemaSteps()[static_cast<std::size_t>(step)]);
    // Pragmas take no parameters; these are our own numbers.
    database.run(("PRAGMA application_id = " + std::to_string(kApplicationId) +
                  "; PRAGMA user_version = " + std::to_string(newest))
                     .c_str());
    if (!transaction.commit()) return problemOf(file, database);
    return {};
}

}  // namespace

Book::Book(fs::path file, std::unique_ptr<Database> database)
    : file_(std::move(file)), database_(std::move(database)) {}
Book::Book(Book&&) noexcept = default;
Book& Book::operator=(Book&&) noexcept = default;
Book::~Book() = default;

Expected<Book, Problems> Book::open(const fs::path& file, Access access) {
    std::error_code error;
    if (file.empty())
        return Unexpected(problemOf(file, "the system names no folder for the season's book",
                                    "name a file with --book FILE"));
    if (access == Access::Existing && !fs::exists(file, error))
        return Unexpected(problemOf(file, "there is no season's book yet",
                                    "begin one with plumbline season add, or name yours with "
                                    "--book FILE"));
    if (access == Access::Make && file.has_parent_path()) {
        fs::create_directories(file.parent_path(), error);
        if (error)
            return Unexpected(problemOf(file, "its folder cannot be made: " + error.message(),
                                        "name another with --book FILE"));
    }
    auto database = std::make_unique<Database>(file, access == Access::Make);
    if (Problems problems = bringUpToDate(file, *database); !problems.empty())
        return Unexpected(std::move(problems));
    // A few milliseconds a megabyte, and nothing is built on a page that is broken.
    Query look(*database, "PRAGMA quick_check(1)");
    if (look.row() && look.text(0) != "ok") database->fail(Database::Kind::Damaged, look.text(0));
    if (!database->good()) return Unexpected(problemOf(file, *database));
    return Book(file, std::move(database));
}

Problems Book::problems() {
    if (database_->good()) return {};
    Problems problems = problemOf(file_, *database_);
    database_->forgive();
    return problems;
}

Problems Book::problem(std::string what, std::string remedy) const {
    return problemOf(file_, std::move(what), std::move(remedy));
}

fs::path usualBook() {
    const fs::path folder = system::dataFolder();
    return folder.empty() ? fs::path() : folder / "season.book";
}

int newestVersion() { return static_cast<int>(schemaSteps().size()); }

}  // namespace plumbline::season
