#pragma once
// SQLite as the season uses it: one connection, bound parameters, reasons instead of exceptions.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

struct sqlite3;
struct sqlite3_stmt;

namespace plumbline::season {

/// An open file of tables. The first thing that goes wrong is kept as the reason, and nothing more
/// is done until it is taken: a row of steps needs one look at its end.
class Database {
public:
    enum class Kind { None, Busy, NotOurs, Damaged, ReadOnly, Other };

    /// @param make  whether a file that is not there is made
    Database(const std::filesystem::path& file, bool make);
    ~Database();
    Database(Database&& other) noexcept;
    Database& operator=(Database&& other) noexcept;
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    bool good() const { return kind_ == Kind::None; }
    Kind kind() const { return kind_; }
    const std::string& reason() const { return reason_; }
    void forgive() { fail(Kind::None, {}); }
    void fail(Kind kind, std::string reason) {
        kind_ = kind;
        reason_ = std::move(reason);
    }

    /// Statements without parameters, one after the other; for schemas only.
    void run(const char* statements);
    /// One whole number that a statement without parameters gives; 0 where it gives none.
    std::int64_t number(const char* statement);
    std::int64_t lastRow() const;
    /// How many rows the last statement changed.
    std::int64_t changed() const;

private:
    friend class Query;
    void note(int code);

    sqlite3* handle_ = nullptr;
    Kind kind_ = Kind::None;
    std::string reason_;
};

/// One statement with its parameters, which are only ever bound.
class Query {
public:
    Query(Database& database, const char* statement);
    ~Query();
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;

    Query& with(std::int64_t value);
    Query& with(int value) { return with(static_cast<std::int64_t>(value)); }
    Query& with(bool value) { return with(static_cast<std::int64_t>(value)); }
    Query& with(double value);
    Query& with(std::string_view text);
    Query& with(const char* text) { return with(std::string_view(text)); }
    /// Nothing is bound as NULL.
    template <class T>
    Query& with(const std::optional<T>& value) {
        if (value) return with(*value);
        ++bound_;
        return *this;
    }

    /// The next row, if there is one.
    bool row();
    /// All rows, for statements that give none. Parameters can be bound anew afterwards.
    void run();

    std::int64_t number(int column) const;
    double real(int column) const;
    std::string text(int column) const;
    bool known(int column) const;  ///< not NULL
    bool isReal(int column) const;
    int columns() const;
    std::string columnName(int column) const;
    std::optional<double> maybeReal(int column) const;
    std::optional<std::int64_t> maybeNumber(int column) const;

private:
    Database& database_;
    sqlite3_stmt* statement_ = nullptr;
    int bound_ = 0;
};

/// All of what follows, or nothing of it; the file is ours alone from the first moment on, so that
/// two who write wait for each other and never fail half-way.
class Transaction {
public:
    explicit Transaction(Database& database);
    ~Transaction();  ///< undone unless committed
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    /// On the drive when this returns true.
    bool commit();

private:
    Database& database_;
    bool open_ = false;
};

}  // namespace plumbline::season
