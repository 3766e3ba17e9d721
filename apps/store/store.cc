#include "apps/store/store.h"

#include <fmt/format.h>

#include <chrono>
#include <ctime>
#include <filesystem>

#include "apps/store/content.h"
#include "apps/store/copy.h"
#include "apps/store/migrations.h"
#include "apps/store/transact.h"
#include "apps/store/words.h"

namespace lobewise::store {

std::int64_t now() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::system_clock::now().time_since_epoch())
      .count();
}

std::unique_ptr<Connection> connect(const Place& place, bool create) {
  return place.team ? connect_postgres(place) : connect_sqlite(place, create);
}

Store::Store(Place place, Clock clock, std::unique_ptr<Connection> connection)
    : place_(std::move(place)),
      clock_(std::move(clock)),
      mutex_(std::make_unique<std::mutex>()),
      connection_(std::move(connection)) {}

Outcome<Store> Store::create(const Place& place, Clock clock) {
  return guarded([&] {
    if (!place.team) {
      std::error_code error;
      const std::filesystem::path file(place.address);
      if (std::filesystem::exists(file, error))
        throw Problem{Trouble::input, fmt::format("{} exists already. Nothing was touched.", place.address)};
      if (file.has_parent_path()) std::filesystem::create_directories(file.parent_path(), error);
    }
    std::unique_ptr<Connection> connection = connect(place, true);
    if (format_of(*connection) != 0)
      throw Problem{Trouble::input, fmt::format("There is a store at {} already. Nothing was touched.", place.shown())};
    migrate(*connection);
    return Store(place, std::move(clock), std::move(connection));
  });
}

Outcome<Store> Store::open(const Place& place, Clock clock) {
  return guarded([&] {
    std::unique_ptr<Connection> connection = connect(place, false);
    const std::int64_t format = format_of(*connection);
    if (format == 0)
      throw Problem{Trouble::access,
                    fmt::format("There is no store at {} yet. `lobewise store init` makes one.", place.shown())};
    if (format < kFormat) {
      if (!place.team) copy_file_before(*connection, place.address, format);
      migrate(*connection);
    }
    return Store(place, std::move(clock), std::move(connection));
  });
}

std::string Store::time() const {
  const std::int64_t at = clock_();
  const std::time_t seconds = static_cast<std::time_t>(at / 1000);
  std::tm utc{};
  gmtime_r(&seconds, &utc);
  return fmt::format("{:04}-{:02}-{:02}T{:02}:{:02}:{:02}.{:03}Z", utc.tm_year + 1900, utc.tm_mon + 1, utc.tm_mday,
                     utc.tm_hour, utc.tm_min, utc.tm_sec, at % 1000);
}

void Store::note(Connection& connection, const std::string& person, const std::string& action,
                 const std::string& subject, const std::string& detail) {
  connection.run("INSERT INTO audit (id, at, person, action, subject, detail) VALUES ($1, $2, $3, $4, $5, $6)",
                 {random_id(), time(), line_of(person, kMostName), action, line_of(subject, kMostName),
                  line_of(detail, kMostNote)});
}

Outcome<std::vector<AuditLine>> Store::audit(std::int64_t most) {
  return in(Access::read, [&](Connection& connection) {
    std::vector<AuditLine> lines;
    for (const Row& row :
         connection.run("SELECT at, person, action, subject, detail FROM audit ORDER BY at DESC, id LIMIT $1", {most}))
      lines.push_back({text(row[0]), text(row[1]), text(row[2]), text(row[3]), text(row[4])});
    return lines;
  });
}

}  // namespace lobewise::store
