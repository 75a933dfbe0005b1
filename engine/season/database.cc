#include "engine/season/database.h"

#include <utility>

#include <sqlite3.h>

namespace plumbline::season {

namespace {

// chosen: another program's write takes milliseconds, a slow drive's flush a second
constexpr int kWait_ms = 10000;

Database::Kind kindOf(int code) {
    switch (code & 0xff) {  // the low byte is the kind, the rest says where
        case SQLITE_OK:
        case SQLITE_ROW:
        case SQLITE_DONE:
            return Database::Kind::None;
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return Database::Kind::Busy;
        case SQLITE_NOTADB:
            return Database::Kind::NotOurs;
        case SQLITE_CORRUPT:
            return Database::Kind::Damaged;
        case SQLITE_READONLY:
            return Database::Kind::ReadOnly;
        default:
            return Database::Kind::Other;
    }
}

}  // namespace

Database::Database(const std::filesystem::path& file, bool make) {
    const std::string name = file.string();  // UTF-8, which SQLite asks for
    const int flags = SQLITE_OPEN_READWRITE | (make ? SQLITE_OPEN_CREATE : 0);
    note(sqlite3_open_v2(name.c_str(), &handle_, flags, nullptr));
    if (handle_ == nullptr) return;
    sqlite3_extended_result_codes(handle_, 1);
    sqlite3_busy_timeout(handle_, kWait_ms);
    if (!good()) return;
    // The rollback journal, not a write-ahead log: one file to copy, also on a network drive.
    // EXTRA flushes the folder too, so that a power cut takes nothing back that was said to be
    // there. A schema that somebody else wrote is not trusted.
    run("PRAGMA synchronous = EXTRA; PRAGMA foreign_keys = ON; PRAGMA trusted_schema = OFF;"
        "PRAGMA cell_size_check = ON;");
}

Database::~Database() { sqlite3_close(handle_); }

Database::Database(Database&& other) noexcept
    : handle_(std::exchange(other.handle_, nullptr)),
      kind_(other.kind_),
      reason_(std::move(other.reason_)) {}

Database& Database::operator=(Database&& other) noexcept {
    std::swap(handle_, other.handle_);
    kind_ = other.kind_;
    reason_ = std::move(other.reason_);
    return *this;
}

void Database::note(int code) {
    if (!good() || kindOf(code) == Kind::None) return;
    kind_ = kindOf(code);
    reason_ = handle_ == nullptr ? "no memory" : sqlite3_errmsg(handle_);
}

void Database::run(const char* statements) {
    if (!good()) return;
    note(sqlite3_exec(handle_, statements, nullptr, nullptr, nullptr));
}

std::int64_t Database::number(const char* statement) {
    Query query(*this, statement);
    return query.row() ? query.number(0) : 0;
}

std::int64_t Database::lastRow() const { return sqlite3_last_insert_rowid(handle_); }

std::int64_t Database::changed() const { return sqlite3_changes(handle_); }

Query::Query(Database& database, const char* statement) : database_(database) {
    if (database_.good())
        database_.note(sqlite3_prepare_v2(database_.handle_, statement, -1, &statement_, nullptr));
}

Query::~Query() { sqlite3_finalize(statement_); }

Query& Query::with(std::int64_t value) {
    if (database_.good()) database_.note(sqlite3_bind_int64(statement_, ++bound_, value));
    return *this;
}

Query& Query::with(double value) {
    if (database_.good()) database_.note(sqlite3_bind_double(statement_, ++bound_, value));
    return *this;
}

Query& Query::with(std::string_view text) {
    // Of no text at all SQLite would make NULL.
    if (database_.good())
        database_.note(sqlite3_bind_text(statement_, ++bound_, text.empty() ? "" : text.data(),
                                         static_cast<int>(text.size()), SQLITE_TRANSIENT));
    return *this;
}

bool Query::row() {
    if (!database_.good() || statement_ == nullptr) return false;
    const int code = sqlite3_step(statement_);
    database_.note(code);
    return code == SQLITE_ROW;
}

void Query::run() {
    while (row()) {
    }
    if (statement_ == nullptr) return;
    sqlite3_reset(statement_);
    sqlite3_clear_bindings(statement_);
    bound_ = 0;
}

std::int64_t Query::number(int column) const { return sqlite3_column_int64(statement_, column); }

double Query::real(int column) const { return sqlite3_column_double(statement_, column); }

std::string Query::text(int column) const {
    const unsigned char* bytes = sqlite3_column_text(statement_, column);
    const int size = sqlite3_column_bytes(statement_, column);
    return bytes == nullptr ? std::string()
                            : std::string(bytes, bytes + static_cast<std::ptrdiff_t>(size));
}

bool Query::known(int column) const {
    return sqlite3_column_type(statement_, column) != SQLITE_NULL;
}

bool Query::isReal(int column) const {
    return sqlite3_column_type(statement_, column) == SQLITE_FLOAT;
}

int Query::columns() const { return sqlite3_column_count(statement_); }

std::string Query::columnName(int column) const {
    const char* name = sqlite3_column_name(statement_, column);
    return name == nullptr ? "" : name;
}

std::optional<double> Query::maybeReal(int column) const {
    return known(column) ? std::optional(real(column)) : std::nullopt;
}

std::optional<std::int64_t> Query::maybeNumber(int column) const {
    return known(column) ? std::optional(number(column)) : std::nullopt;
}

Transaction::Transaction(Database& database) : database_(database) {
    database_.run("BEGIN IMMEDIATE");
    open_ = database_.good();
}

Transaction::~Transaction() {
    if (!open_) return;
    // What went wrong before is the reason that counts; a failed undo leaves the journal, and the
    // next who opens the file undoes it.
    Database::Kind kind = database_.kind();
    if (kind != Database::Kind::None) {
        const std::string reason = database_.reason();
        database_.forgive();
        database_.run("ROLLBACK");
        database_.fail(kind, reason);
    } else {
        database_.run("ROLLBACK");
    }
}

bool Transaction::commit() {
    if (!open_ || !database_.good()) return false;
    database_.run("COMMIT");
    open_ = !database_.good();
    return database_.good();
}

}  // namespace plumbline::season
