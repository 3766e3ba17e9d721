// A store that a team shares.

#include <fmt/format.h>

#include <memory>
#include <pqxx/pqxx>

#include "apps/store/connection.h"
#include "apps/store/replace.h"
#include "apps/store/transact.h"

namespace lobewise::store {
namespace {

// Types of the catalogue (pg_type): what a column holds.
constexpr pqxx::oid kBytea = 17, kInt8 = 20, kInt2 = 21, kInt4 = 23;
constexpr int kOurLock = 0x4C425753;  ///< "LBWS"

class Postgres final : public Connection {
 public:
  explicit Postgres(const Place& place) : place_(place) { connect(); }

  void begin(Access access) override {
    guard([&] {
      if (!connection_ || !connection_->is_open()) connect();
      try {
        start(access);
      } catch (const pqxx::broken_connection&) {  // it broke while nothing was going on: nothing is lost by a new one
        transaction_.reset();
        connect();
        start(access);
      }
    });
  }
  void commit() override {
    guard([&] { transaction_->commit(); });
    transaction_.reset();
  }
  void rollback() noexcept override { transaction_.reset(); }

  std::vector<Row> run(const std::string& sql, const std::vector<Value>& values) override {
    // Outside of a transaction a statement is one of its own.
    if (!transaction_) {
      begin(Access::write);
      std::vector<Row> rows = run(sql, values);
      commit();
      return rows;
    }
    std::vector<Row> rows;
    guard([&] {
      std::vector<std::string> texts(values.size());
      std::vector<const char*> parameters(values.size(), nullptr);
      for (std::size_t i = 0; i < values.size(); ++i) {
        if (std::holds_alternative<std::monostate>(values[i])) continue;
        texts[i] = written(values[i]);
        parameters[i] = texts[i].c_str();
      }
      for (const auto& found : transaction_->exec_params(sql, pqxx::prepare::make_dynamic_params(parameters)))
        rows.push_back(read_row(found));
    });
    return rows;
  }

  [[nodiscard]] std::string words(std::string definition) const override {
    definition = replace_all(std::move(definition), "{int}", "BIGINT");
    definition = replace_all(std::move(definition), "{bytes}", "BYTEA");
    return replace_all(std::move(definition), "{end}", ")");
  }

  bool has_store() override { return !run("SELECT 1 WHERE to_regclass('meta') IS NOT NULL", {}).empty(); }

 private:
  void connect() {
    transaction_.reset();
    connection_.reset();
    guard([&] {
      connection_ = std::make_unique<pqxx::connection>(place_.address);
      connection_->set_client_encoding("UTF8");
      pqxx::nontransaction settings(*connection_);
      settings.exec("SET client_min_messages = warning");
      settings.exec(fmt::format("SET lock_timeout = {}", place_.patience));
      settings.exec("SET statement_timeout = 60000");
      settings.exec("SET idle_in_transaction_session_timeout = 60000");
      settings.exec("SET synchronous_commit = on");  // a confirmed save outlives a power cut
    });
  }

  void start(Access access) {
    if (access == Access::read) {
      transaction_ = std::make_unique<pqxx::transaction<pqxx::repeatable_read>>(*connection_);
      transaction_->exec("SET TRANSACTION READ ONLY");
    } else {
      transaction_ = std::make_unique<pqxx::work>(*connection_);
      // Writers share this lock; who must be alone waits for them and keeps them out.
      transaction_->exec(
          fmt::format("SELECT pg_advisory_xact_lock{}({})", access == Access::alone ? "" : "_shared", kOurLock));
    }
  }

  static std::string written(const Value& value) {
    if (const auto* number = std::get_if<std::int64_t>(&value)) return std::to_string(*number);
    if (const auto* bytes = std::get_if<Bytes>(&value)) {
      constexpr const char* kDigits = "0123456789abcdef";
      std::string out = "\\x";
      out.reserve(2 + 2 * bytes->bytes.size());
      for (const char c : bytes->bytes) {
        const auto byte = static_cast<unsigned char>(c);
        out.push_back(kDigits[byte >> 4U]);
        out.push_back(kDigits[byte & 15U]);
      }
      return out;
    }
    return text(value);
  }

  static Row read_row(const pqxx::row& found) {
    Row row;
    for (const auto& field : found) {
      if (field.is_null()) {
        row.emplace_back(std::monostate{});
        continue;
      }
      switch (field.type()) {
        case kInt2:
        case kInt4:
        case kInt8:
          row.emplace_back(field.as<std::int64_t>());
          break;
        case kBytea: {
          const pqxx::binarystring bytes(field);
          row.emplace_back(Bytes{bytes.str()});
          break;
        }
        default:
          row.emplace_back(std::string(field.c_str(), field.size()));
      }
    }
    return row;
  }

  template <class Action>
  void guard(Action action) {
    const std::string where = place_.shown();
    try {
      action();
    } catch (const Problem&) {
      throw;
    } catch (const pqxx::in_doubt_error&) {
      throw Problem{Trouble::in_doubt,
                    fmt::format("The connection to {} broke while a change was being confirmed. Look "
                                "whether it is there before you save it again.",
                                where)};
    } catch (const pqxx::broken_connection&) {
      transaction_.reset();
      throw Problem{Trouble::access, fmt::format("{} does not answer. Nothing was written.", where)};
    } catch (const pqxx::sql_error& error) {
      const std::string& state = error.sqlstate();
      const std::string message = line(error.what());
      if (state == "40001" || state == "40P01")  // serialization failure, deadlock
        throw Again{{Trouble::busy, "Others are writing to the same enquiry. Nothing was written; try again."}};
      if (state == "55P03" || state == "57014")  // lock or statement took too long
        throw Problem{Trouble::busy, fmt::format("{} is busy for too long. Nothing was written; try again.", where)};
      if (state.rfind("53", 0) == 0)  // disk full, out of memory, too many connections
        throw Problem{Trouble::full,
                      fmt::format("No room is left at {} ({}). This change was not written; everything saved "
                                  "before is unharmed.",
                                  where, message)};
      if (state.rfind("57P", 0) == 0 || state.rfind("08", 0) == 0 || state.rfind("25P03", 0) == 0)
        throw Problem{Trouble::access, fmt::format("{} does not answer. Nothing was written.", where)};
      if (state == "42501" || state == "25006")
        throw Problem{Trouble::access, fmt::format("{} does not let this user write ({}).", where, message)};
      if (state.rfind("XX", 0) == 0)
        throw Problem{Trouble::damaged,
                      fmt::format("{} reports damage ({}). Nothing was written. Put the last backup back: "
                                  "lobewise store restore BACKUP.",
                                  where, message)};
      throw Problem{Trouble::internal, fmt::format("internal error of the store: {} ({})", message, state)};
    } catch (const std::exception& error) {
      if (connection_ && !connection_->is_open())
        throw Problem{Trouble::access, fmt::format("{} does not answer. Nothing was written.", where)};
      throw Problem{Trouble::internal, fmt::format("internal error of the store: {}", line(error.what()))};
    }
  }

  static std::string line(const char* what) {
    std::string out = what;
    while (!out.empty() && out.back() == '\n') out.pop_back();
    return replace_all(std::move(out), "\n", " ");
  }

  Place place_;
  std::unique_ptr<pqxx::connection> connection_;
  std::unique_ptr<pqxx::transaction_base> transaction_;
};

}  // namespace

std::unique_ptr<Connection> connect_postgres(const Place& place) { return std::make_unique<Postgres>(place); }

}  // namespace lobewise::store
