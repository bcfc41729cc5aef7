#include "sim/regression/database.hpp"

#include <sqlite3.h>

#include <utility>

#include "sim/files/input_error.hpp"
#include "sim/files/output_error.hpp"

namespace sim {

namespace {

std::string fault_in_words(int code, const std::string& words, Database::Access access) {
    const bool reads = access == Database::Access::read;
    switch (code) {
        case SQLITE_NOTADB:
            return "this is no file of results; give one that runup regress wrote";
        case SQLITE_CORRUPT:
            return "the file is damaged; run the campaign again";
        case SQLITE_FULL:
            return "the disk is full; free some space or name a file on another disk";
        case SQLITE_READONLY:
        case SQLITE_PERM:
            return "permission to write it is missing; name another file";
        case SQLITE_CANTOPEN:
            return reads ? "it cannot be opened; give a file that can be read"
                         : "it cannot be opened; name a file in a folder that can be written to";
        case SQLITE_BUSY:
        case SQLITE_LOCKED:
            return "another campaign is writing it; wait for its end or name another file";
        default:
            return "it cannot be " + std::string(reads ? "read" : "written") + " (" + words +
                   "); name another file";
    }
}

}  // namespace

Database::Database(const std::string& path, Access access, std::string name)
    : access_(access), name_(std::move(name)) {
    // Also for reading: what a killed writer left half done is put right by whoever opens next.
    const int flags = SQLITE_OPEN_READWRITE | (access == Access::change ? SQLITE_OPEN_CREATE : 0);
    if (sqlite3_open_v2(path.c_str(), &handle_, flags, nullptr) != SQLITE_OK) {
        const std::string fault =
            fault_in_words(sqlite3_errcode(handle_) & 0xff, sqlite3_errmsg(handle_), access_);
        sqlite3_close(handle_);
        handle_ = nullptr;
        fail(fault);
    }
}

Database::~Database() {
    sqlite3_close(handle_);
}

void Database::run(const std::string& statements) {
    if (sqlite3_exec(handle_, statements.c_str(), nullptr, nullptr, nullptr) != SQLITE_OK) {
        fail();
    }
}

Statement Database::prepare(std::string_view statement) {
    sqlite3_stmt* handle = nullptr;
    if (sqlite3_prepare_v2(handle_, statement.data(), static_cast<int>(statement.size()), &handle,
                           nullptr) != SQLITE_OK) {
        fail();
    }
    return {*this, handle};
}

void Database::be_patient_for(std::chrono::milliseconds longest) {
    sqlite3_busy_timeout(handle_, static_cast<int>(longest.count()));
}

bool Database::has_table(std::string_view table) {
    Statement found = prepare("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = ?");
    found.bind(0, table);
    return found.step();
}

std::int64_t Database::pragma(std::string_view name) {
    Statement told = prepare("PRAGMA " + std::string(name));
    return told.step() ? told.whole(0) : 0;
}

void Database::fail() {
    fail(fault_in_words(sqlite3_errcode(handle_) & 0xff, sqlite3_errmsg(handle_), access_));
}

void Database::fail(const std::string& fault) {
    if (access_ == Access::read) {
        throw InputError(name_, 0, "", fault);
    }
    throw OutputError(name_, fault);
}

Statement::Statement(Database& database, sqlite3_stmt* handle)
    : database_(&database), handle_(handle) {}

Statement::~Statement() {
    sqlite3_finalize(handle_);
}

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_), handle_(std::exchange(other.handle_, nullptr)) {}

void Statement::bind(int parameter, std::int64_t value) {
    sqlite3_bind_int64(handle_, parameter + 1, value);
}

void Statement::bind(int parameter, double value) {
    sqlite3_bind_double(handle_, parameter + 1, value);
}

void Statement::bind(int parameter, std::string_view value) {
    sqlite3_bind_text64(handle_, parameter + 1, value.data(), value.size(), SQLITE_TRANSIENT,
                        SQLITE_UTF8);
}

void Statement::bind(int parameter, const std::optional<double>& value) {
    if (value) {
        bind(parameter, *value);
    } else {
        sqlite3_bind_null(handle_, parameter + 1);
    }
}

bool Statement::step() {
    const int code = sqlite3_step(handle_);
    if (code != SQLITE_ROW && code != SQLITE_DONE) {
        database_->fail();
    }
    return code == SQLITE_ROW;
}

void Statement::run() {
    while (step()) {
    }
    reset();
}

void Statement::reset() {
    sqlite3_reset(handle_);
    sqlite3_clear_bindings(handle_);
}

std::int64_t Statement::whole(int column) const {
    return sqlite3_column_int64(handle_, column);
}

std::string Statement::text(int column) const {
    const auto* letters = sqlite3_column_text(handle_, column);
    return letters == nullptr
               ? std::string()
               : std::string(reinterpret_cast<const char*>(letters),
                             static_cast<std::size_t>(sqlite3_column_bytes(handle_, column)));
}

std::optional<double> Statement::number(int column) const {
    return sqlite3_column_type(handle_, column) == SQLITE_NULL
               ? std::nullopt
               : std::optional<double>(sqlite3_column_double(handle_, column));
}

int Statement::columns() const {
    return sqlite3_column_count(handle_);
}

std::string Statement::column_name(int column) const {
    return sqlite3_column_name(handle_, column);
}

}  // namespace sim
