#pragma once
// The little of a database that the store needs, the same for SQLite and PostgreSQL. Functions throw a `Problem`.

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "apps/store/outcome.h"
#include "apps/store/place.h"

namespace lobewise::store {

struct Bytes {
  std::string bytes;
};
using Value = std::variant<std::monostate, std::int64_t, std::string, Bytes>;  ///< monostate: NULL
using Row = std::vector<Value>;

[[nodiscard]] inline const std::string& text(const Value& value) {
  static const std::string kNone;
  const auto* found = std::get_if<std::string>(&value);
  return found == nullptr ? kNone : *found;
}
[[nodiscard]] inline std::int64_t integer(const Value& value) {
  const auto* found = std::get_if<std::int64_t>(&value);
  return found == nullptr ? 0 : *found;
}

enum class Access {
  read,   ///< sees one moment of the store from beginning to end
  write,  ///< is the only writer (SQLite), or one of several (PostgreSQL)
  alone,  ///< is the only one to change anything, in both
};

class Connection {
 public:
  virtual ~Connection() = default;
  Connection() = default;
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  virtual void begin(Access access) = 0;
  virtual void commit() = 0;
  virtual void rollback() noexcept = 0;
  /// One statement with its values for `$1`, `$2` … .
  virtual std::vector<Row> run(const std::string& sql, const std::vector<Value>& values = {}) = 0;
  /// A definition with `{int}`, `{bytes}` and `{end}` (of a table) in this database's words.
  [[nodiscard]] virtual std::string words(std::string definition) const = 0;
  /// True when the tables of a store are there. Throws `foreign` when something else is.
  virtual bool has_store() = 0;
  /// Marks a new store as ours.
  virtual void sign() {}
  /// What the database finds wrong with itself, a line each.
  virtual std::vector<std::string> self_check() { return {}; }
};

/// Opens a place. @param create  may make the file
[[nodiscard]] std::unique_ptr<Connection> connect(const Place& place, bool create);
[[nodiscard]] std::unique_ptr<Connection> connect_sqlite(const Place& place, bool create);
[[nodiscard]] std::unique_ptr<Connection> connect_postgres(const Place& place);

/// Commits when `commit` was called, rolls back otherwise.
class Transaction {
 public:
  Transaction(Connection& connection, Access access) : connection_(connection) { connection_.begin(access); }
  ~Transaction() {
    if (open_) connection_.rollback();
  }
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit() {
    connection_.commit();
    open_ = false;
  }

 private:
  Connection& connection_;
  bool open_ = true;
};

}  // namespace lobewise::store
