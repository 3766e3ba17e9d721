#include "apps/store/copy.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <unistd.h>

#include <filesystem>

#include "apps/store/content.h"
#include "apps/store/migrations.h"
#include "apps/store/replace.h"
#include "apps/store/transact.h"

namespace lobewise::store {
namespace {

namespace fs = std::filesystem;

void copy_table(Connection& from, Connection& to, const Table& table) {
  std::vector<std::string> conditions, places;
  for (std::size_t i = 0; i < table.key.size(); ++i) conditions.push_back(fmt::format("{} = ${}", table.key[i], i + 1));
  for (std::size_t i = 0; i < table.columns.size(); ++i) places.push_back(fmt::format("${}", i + 1));
  const std::string columns = fmt::format("{}", fmt::join(table.columns, ", "));
  const std::string select =
      fmt::format("SELECT {} FROM {} WHERE {}", columns, table.name, fmt::join(conditions, " AND "));
  const std::string insert =
      fmt::format("INSERT INTO {} ({}) VALUES ({})", table.name, columns, fmt::join(places, ", "));
  // One row at a time: a document may be large.
  for (const Row& key : from.run(fmt::format("SELECT {} FROM {}", fmt::join(table.key, ", "), table.name)))
    for (const Row& row : from.run(select, key)) to.run(insert, row);
}

/// A store of its own in a new file, filled from `from`, which is in a transaction.
Counts write_copy(Connection& from, const std::string& file) {
  require_new_file(file);
  const std::string part = fmt::format("{}.{}.part", file, random_id().substr(0, 8));
  Counts counts;
  try {
    {
      Place place;
      place.address = part;
      const std::unique_ptr<Connection> to = connect(place, true);
      migrate(*to);
      Transaction transaction(*to, Access::write);
      copy_all(from, *to);
      transaction.commit();
      if (!to->self_check().empty())
        throw Problem{Trouble::damaged, "The copy does not agree with itself; the store it was made from is damaged."};
      counts = count_all(*to);
    }
    publish(part, file);
  } catch (...) {
    std::error_code error;
    for (const char* tail : {"", "-wal", "-shm", "-journal"}) fs::remove(part + tail, error);
    throw;
  }
  return counts;
}

}  // namespace

void copy_all(Connection& from, Connection& to) {
  to.run("DELETE FROM session");
  to.run("DELETE FROM attempt");
  for (auto table = tables().rbegin(); table != tables().rend(); ++table)
    to.run(fmt::format("DELETE FROM {}", table->name));
  for (const Table& table : tables()) copy_table(from, to, table);
}

Counts count_all(Connection& connection) {
  const auto count = [&](const char* table) {
    return integer(connection.run(fmt::format("SELECT count(*) FROM {}", table)).at(0).at(0));
  };
  return {count("enquiry"), count("revision"), count("document"), 0};
}

void copy_file_before(Connection& connection, const std::string& file, std::int64_t format) {
  std::string copy = fmt::format("{}.format-{}", file, format);
  std::error_code error;
  for (int i = 2; fs::exists(copy, error); ++i) copy = fmt::format("{}.format-{}.{}", file, format, i);
  connection.run("VACUUM INTO $1", {copy});
}

void require_new_file(const std::string& file) {
  std::error_code error;
  if (file.empty()) throw Problem{Trouble::input, "The name of a new file is needed."};
  if (fs::exists(fs::symlink_status(file, error)))
    throw Problem{Trouble::input, fmt::format("{} exists already. Nothing was written; take another name.", file)};
}

void publish(const std::string& part, const std::string& file) {
  const auto sync = [](const std::string& path, int flags) {
    const int handle = ::open(path.c_str(), flags | O_CLOEXEC);
    if (handle < 0) return false;
    const bool done = ::fsync(handle) == 0;
    return ::close(handle) == 0 && done;
  };
  std::error_code error;
  fs::permissions(part, fs::perms::owner_read | fs::perms::owner_write, error);
  const bool written = sync(part, O_RDONLY);
  if (written) fs::rename(part, file, error);
  if (!written || error)
    throw Problem{Trouble::access,
                  fmt::format("{} cannot be written: {}", file, written ? error.message() : "disk error")};
  const fs::path folder = fs::path(file).parent_path();
  sync(folder.empty() ? "." : folder.string(), O_RDONLY | O_DIRECTORY);
}

Outcome<Counts> Store::backup(const std::string& file) {
  return in(Access::read, [&](Connection& connection) { return write_copy(connection, file); });
}

Outcome<Counts> Store::restore(const Actor& by, const std::string& file, const std::string& before) {
  return guarded([&] {
    require_role(by, Role::keeper);
    // A copy is opened, so that the backup stays as it is even when it is of an older format.
    std::error_code error;
    const fs::path copy = fs::path(before).parent_path() / fmt::format(".lobewise-{}", random_id());
    fs::create_directory(copy, error);
    fs::permissions(copy, fs::perms::owner_all, error);
    const std::shared_ptr<void> cleanup(nullptr, [&](void*) { fs::remove_all(copy, error); });
    std::error_code failed;
    fs::copy_file(file, copy / "backup", failed);
    if (failed) throw Problem{Trouble::access, fmt::format("{} cannot be read: {}", file, failed.message())};
    Place place;
    place.address = (copy / "backup").string();
    Outcome<Store> backup = Store::open(place);
    if (!backup) throw Problem{backup.problem().trouble, replace_all(backup.problem().message, place.address, file)};
    const Outcome<std::vector<std::string>> wrong = backup->check();
    if (!wrong || !wrong->empty())
      throw Problem{Trouble::damaged, fmt::format("{} is damaged: {} Nothing was touched.", file,
                                                  wrong ? wrong->front() : wrong.problem().message)};
    Outcome<Counts> counts = in(Access::alone, [&](Connection& connection) {
      write_copy(connection, before);
      Transaction reading(*backup->connection_, Access::read);
      copy_all(*backup->connection_, connection);
      note(connection, by.name, "restore", file, "what was there: " + before);
      return count_all(connection);
    });
    if (!counts) throw counts.problem();
    return *counts;
  });
}

}  // namespace lobewise::store
