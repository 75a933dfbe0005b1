#pragma once
// The season's book: a file that sorties, routines and remarks are kept in.

#include <filesystem>
#include <memory>
#include <string>

#include "engine/base/expected.h"
#include "engine/base/problem.h"

namespace plumbline::season {

class Database;

/// An open book. Several programs may have it open at once; each change is whole or not there, also
/// when a program is killed or the power fails, and on the drive when it was said to be done.
class Book {
public:
    enum class Access {
        Existing,  ///< refused where there is none yet
        Make,      ///< made, with its folder, where there is none
    };
    /// Brings a book of an older program up to date first.
    /// @errors no book there, a file that is no book, a damaged one, one of a newer program, one
    ///   that others keep busy: each with what to do, and the file stays as it is
    static Expected<Book, Problems> open(const std::filesystem::path& file, Access access);

    Book(Book&&) noexcept;
    Book& operator=(Book&&) noexcept;
    ~Book();

    const std::filesystem::path& file() const { return file_; }
    Database& database() { return *database_; }
    /// What went wrong since the last call, as a problem of this file.
    Problems problems();
    /// Something else that is wrong, likewise.
    Problems problem(std::string what, std::string remedy) const;

private:
    Book(std::filesystem::path file, std::unique_ptr<Database> database);
    std::filesystem::path file_;
    std::unique_ptr<Database> database_;
};

/// Where the book lies if nobody says otherwise; empty where the system names no folder.
std::filesystem::path usualBook();

/// The version that books are brought to.
int newestVersion();

}  // namespace plumbline::season
