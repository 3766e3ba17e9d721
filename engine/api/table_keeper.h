#pragma once
// Where mesh tables outlive a program. The engine itself reads and writes no file.

#include <optional>
#include <string>
#include <string_view>

namespace lobewise::api {

/// Called from several threads at once.
class TableKeeper {
 public:
  TableKeeper() = default;
  TableKeeper(const TableKeeper&) = delete;
  TableKeeper& operator=(const TableKeeper&) = delete;
  virtual ~TableKeeper() = default;
  /// What was kept under this key to the last byte, or nothing.
  [[nodiscard]] virtual std::optional<std::string> find(const std::string& key) = 0;
  /// Keeps it if it can.
  virtual void keep(const std::string& key, std::string_view bytes) = 0;
};

}  // namespace lobewise::api
