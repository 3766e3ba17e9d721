#pragma once
// Mesh tables kept in a folder between runs. Losing them costs time and nothing else: whatever is wrong with the folder
// or with a file is met by solving again.

#include <filesystem>
#include <memory>

#include "engine/api/table_keeper.h"

namespace lobewise::tables {

/// Files of one table each, whole or not there, with a checksum. The oldest go when the folder grows beyond its limit.
class TableFolder : public api::TableKeeper {
 public:
  explicit TableFolder(std::filesystem::path folder, std::uintmax_t most_bytes = 200U << 20U);
  [[nodiscard]] std::optional<std::string> find(const std::string& key) override;
  void keep(const std::string& key, std::string_view bytes) override;

 private:
  [[nodiscard]] std::filesystem::path file_of(const std::string& key) const;
  void make_room() const;

  std::filesystem::path folder_;
  std::uintmax_t most_bytes_;
};

/// The user's own: LOBEWISE_TABLES names the folder or says `none`; else `lobewise/tables` in the user's cache folder
/// (XDG Base Directory Specification). Null: nothing is kept.
[[nodiscard]] std::shared_ptr<api::TableKeeper> users_tables();

}  // namespace lobewise::tables
