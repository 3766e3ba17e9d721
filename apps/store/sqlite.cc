// A store in one file.

#include <fcntl.h>
#include <fmt/format.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstring>
#include <filesystem>

#include "apps/store/connection.h"
#include "apps/store/replace.h"

namespace lobewise::store {
namespace {

constexpr int kOurFile = 0x4C425753;  ///< "LBWS" in the file's header: this file is ours

class Sqlite final : public Connection {
 public:
  Sqlite(const Place& place, bool create) : path_(place.address) {
    // Customers' data: for the one who made it. What SQLite puts beside the file gets the same rights.
    if (create) ::close(::open(path_.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, S_IRUSR | S_IWUSR));
    const int flags = SQLITE_OPEN_READWRITE | (create ? SQLITE_OPEN_CREATE : 0) | SQLITE_OPEN_FULLMUTEX;
    const int code = sqlite3_open_v2(path_.c_str(), &database_, flags, nullptr);
    if (code != SQLITE_OK) {
      const Problem problem = problem_of(code);
      sqlite3_close(database_);
      throw problem;
    }
    try {
      sqlite3_extended_result_codes(database_, 1);
      sqlite3_busy_timeout(database_, place.patience);
      sqlite3_db_config(database_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
      sqlite3_db_config(database_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
      // Nothing of ours is known to be in the file yet: look before anything is written, journal mode included.
      if (!create) has_store();
      run("PRAGMA cell_size_check = ON");
      run("PRAGMA journal_mode = WAL");
      run("PRAGMA synchronous = FULL");  // a confirmed save outlives a power cut
      run("PRAGMA foreign_keys = ON");
      if (place.most_pages > 0) run(fmt::format("PRAGMA max_page_count = {}", place.most_pages));
    } catch (const Problem&) {
      sqlite3_close(database_);
      throw;
    }
  }
  ~Sqlite() override { sqlite3_close(database_); }

  void begin(Access access) override {
    run(access == Access::read ? "BEGIN" : "BEGIN IMMEDIATE");
    // A reader's moment begins with its first read, not with BEGIN.
    if (access == Access::read) run("SELECT count(*) FROM sqlite_master");
  }
  void commit() override { run("COMMIT"); }
  void rollback() noexcept override {
    if (sqlite3_get_autocommit(database_) == 0) sqlite3_exec(database_, "ROLLBACK", nullptr, nullptr, nullptr);
  }

  std::vector<Row> run(const std::string& sql, const std::vector<Value>& values) override {
    sqlite3_stmt* raw = nullptr;
    check(sqlite3_prepare_v2(database_, sql.data(), static_cast<int>(sql.size()), &raw, nullptr));
    const std::unique_ptr<sqlite3_stmt, decltype(&sqlite3_finalize)> statement(raw, &sqlite3_finalize);
    for (std::size_t i = 0; i < values.size(); ++i) bind(raw, fmt::format("${}", i + 1), values[i]);
    std::vector<Row> rows;
    int code = sqlite3_step(raw);
    for (; code == SQLITE_ROW; code = sqlite3_step(raw)) rows.push_back(read_row(raw));
    if (code != SQLITE_DONE) throw problem_of(code);
    return rows;
  }
  std::vector<Row> run(const char* sql) { return run(std::string(sql), {}); }
  std::vector<Row> run(const std::string& sql) { return run(sql, {}); }

  [[nodiscard]] std::string words(std::string definition) const override {
    definition = replace_all(std::move(definition), "{int}", "INTEGER");
    definition = replace_all(std::move(definition), "{bytes}", "BLOB");
    return replace_all(std::move(definition), "{end}", ") STRICT");
  }

  bool has_store() override {
    const std::int64_t mark = integer(run("PRAGMA application_id").at(0).at(0));
    if (mark == kOurFile) return true;
    if (mark == 0 && integer(run("SELECT count(*) FROM sqlite_master").at(0).at(0)) == 0) return false;
    throw Problem{Trouble::foreign, fmt::format("{} is a database of another program. Nothing was touched.", path_)};
  }
  void sign() override { run(fmt::format("PRAGMA application_id = {}", kOurFile)); }

  std::vector<std::string> self_check() override {
    std::vector<std::string> lines;
    for (const char* pragma : {"PRAGMA integrity_check(50)", "PRAGMA foreign_key_check"})
      for (const Row& row : run(pragma))
        if (text(row.at(0)) != "ok") lines.push_back(text(row.at(0)));
    return lines;
  }

 private:
  void check(int code) {
    if (code != SQLITE_OK) throw problem_of(code);
  }

  void bind(sqlite3_stmt* statement, const std::string& name, const Value& value) {
    const int place = sqlite3_bind_parameter_index(statement, name.c_str());
    if (place == 0) return;
    if (const auto* number = std::get_if<std::int64_t>(&value))
      check(sqlite3_bind_int64(statement, place, *number));
    else if (const auto* words_of = std::get_if<std::string>(&value))
      check(sqlite3_bind_text64(statement, place, words_of->data(), words_of->size(), SQLITE_STATIC, SQLITE_UTF8));
    else if (const auto* blob = std::get_if<Bytes>(&value))
      check(sqlite3_bind_blob64(statement, place, blob->bytes.data(), blob->bytes.size(), SQLITE_STATIC));
  }

  static Row read_row(sqlite3_stmt* statement) {
    Row row;
    for (int i = 0; i < sqlite3_column_count(statement); ++i) {
      const int type = sqlite3_column_type(statement, i);
      if (type == SQLITE_INTEGER) {
        row.emplace_back(static_cast<std::int64_t>(sqlite3_column_int64(statement, i)));
      } else if (type == SQLITE_TEXT || type == SQLITE_BLOB) {
        const void* data = type == SQLITE_TEXT ? sqlite3_column_text(statement, i) : sqlite3_column_blob(statement, i);
        std::string bytes;
        if (data != nullptr)
          bytes.assign(static_cast<const char*>(data), static_cast<std::size_t>(sqlite3_column_bytes(statement, i)));
        if (type == SQLITE_TEXT)
          row.emplace_back(std::move(bytes));
        else
          row.emplace_back(Bytes{std::move(bytes)});
      } else {
        row.emplace_back(std::monostate{});
      }
    }
    return row;
  }

  [[nodiscard]] Problem problem_of(int code) const {
    const std::string said = database_ != nullptr ? sqlite3_errmsg(database_) : sqlite3_errstr(code);
    switch (code & 0xff) {
      case SQLITE_FULL:
        return {Trouble::full,
                fmt::format("No room is left for {}. This change was not written; everything saved before "
                            "is unharmed. Make room, then save again.",
                            path_)};
      case SQLITE_BUSY:
      case SQLITE_LOCKED:
        return {Trouble::busy,
                fmt::format("Another program is writing to {} and does not finish. Nothing was written; try again.",
                            path_)};
      case SQLITE_ERROR:  // our statements are always the same: the file's tables are not those we made
      case SQLITE_CORRUPT:
        return {Trouble::damaged,
                fmt::format(
                    "{0} is damaged ({1}). Nothing was written. Keep a copy of {0} and of {0}-wal, then put the last "
                    "backup back: lobewise store restore BACKUP.",
                    path_, said)};
      case SQLITE_NOTADB:
        return {Trouble::foreign,
                fmt::format("{} is not a store of Lobewise, or its first bytes are damaged. Nothing was "
                            "touched. If it was one, put the last backup back: lobewise store restore "
                            "BACKUP.",
                            path_)};
      case SQLITE_CANTOPEN: {
        std::error_code error;
        if (!std::filesystem::exists(path_, error))
          return {Trouble::access, fmt::format("There is no store at {}. `lobewise store init` makes one.", path_)};
        return {Trouble::access, fmt::format("{} cannot be opened: is it readable, and its folder writable?", path_)};
      }
      case SQLITE_READONLY:
      case SQLITE_PERM:
      case SQLITE_AUTH:
        return {Trouble::access,
                fmt::format("{} may not be written: check the rights of the file and its folder.", path_)};
      case SQLITE_IOERR:
        return {Trouble::access, fmt::format("The disk refused to read or write {} ({}). This change was not written; "
                                             "everything saved before is unharmed.",
                                             path_, said)};
      default:
        return {Trouble::internal, fmt::format("internal error of the store: {} ({})", said, code)};
    }
  }

  std::string path_;
  sqlite3* database_ = nullptr;
};

}  // namespace

std::unique_ptr<Connection> connect_sqlite(const Place& place, bool create) {
  return std::make_unique<Sqlite>(place, create);
}

}  // namespace lobewise::store
