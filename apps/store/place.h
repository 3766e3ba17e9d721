#pragma once
// Where a store is: a file of this machine, or a database that a team shares.

#include <string>

#include "apps/store/outcome.h"

namespace lobewise::store {

struct Place {
  bool team = false;    ///< PostgreSQL
  std::string address;  ///< path of the file, or the connection address as given
  int most_pages = 0;   ///< SQLite: the file may grow to so many pages; 0: as far as the disk goes
  int patience = 5000;  ///< how long to wait for another writer [ms]

  /// For people and logs: never with a password.
  [[nodiscard]] std::string shown() const;
};

/// `postgresql://…` (or `postgres://…`) is a team's store, anything else a file. Errors: empty, names SQLite keeps for
/// itself.
[[nodiscard]] Outcome<Place> parse_place(const std::string& text);

/// LOBEWISE_STORE when it is set; else `lobewise/store.lobewise` in the user's folder for data (XDG).
[[nodiscard]] std::string default_place();

}  // namespace lobewise::store
