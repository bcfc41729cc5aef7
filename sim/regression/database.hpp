// An SQLite database file and its statements, as objects that clean up after themselves and turn
// every error into one of ours.
#pragma once

#include <chrono>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

struct sqlite3;
struct sqlite3_stmt;

namespace sim {

class Statement;

class Database {
  public:
    enum class Access {
        read,    ///< errors are InputError; the file must be there
        change,  ///< errors are OutputError; the file is made if it is not there
    };

    /// `name` stands for the file in messages.
    Database(const std::string& path, Access access, std::string name);
    Database(const std::string& path, Access access) : Database(path, access, path) {}
    ~Database();
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    /// One or more statements without results.
    void run(const std::string& statements);
    Statement prepare(std::string_view statement);

    /// How long to wait for somebody else who holds the file; at first not at all.
    void be_patient_for(std::chrono::milliseconds longest);

    bool has_table(std::string_view table);
    /// A number that a PRAGMA tells.
    std::int64_t pragma(std::string_view name);

    /// Throws what fits the last error.
    [[noreturn]] void fail();
    /// Throws in the manner of this database.
    [[noreturn]] void fail(const std::string& fault);

    const std::string& name() const { return name_; }

  private:
    sqlite3* handle_ = nullptr;
    Access access_;
    std::string name_;
};

/// A prepared statement. Parameters and columns are counted from 0.
class Statement {
  public:
    Statement(Database& database, sqlite3_stmt* handle);
    ~Statement();
    Statement(Statement&& other) noexcept;
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;

    void bind(int parameter, std::int64_t value);
    void bind(int parameter, double value);
    void bind(int parameter, std::string_view value);
    void bind(int parameter, const std::optional<double>& value);

    /// Goes to the next row; false: there is none.
    bool step();
    /// Runs to the end and makes ready for other parameters.
    void run();
    void reset();

    std::int64_t whole(int column) const;
    std::string text(int column) const;
    std::optional<double> number(int column) const;  ///< none for NULL
    int columns() const;
    std::string column_name(int column) const;

  private:
    Database* database_;
    sqlite3_stmt* handle_;
};

}  // namespace sim
