#pragma once
// Texts kept in a temporary file, found again by number: results and shared strings wait here, not in memory (8 bytes
// a text stay there).

#include <cstdint>
#include <cstdio>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::survey {

class Spool {
 public:
  /// Errors: no room for a temporary file.
  [[nodiscard]] static Result<Spool> open();
  /// False when the disk is full.
  [[nodiscard]] bool append(std::string_view text);
  /// Precondition: index < size().
  [[nodiscard]] bool read(std::size_t index, std::string& text);
  [[nodiscard]] std::size_t size() const { return ends_.size(); }

 private:
  struct Close {
    void operator()(std::FILE* file) const { std::fclose(file); }
  };
  explicit Spool(std::FILE* file) : file_(file) {}
  std::unique_ptr<std::FILE, Close> file_;
  std::vector<std::uint64_t> ends_;
  bool writing_ = true;
};

}  // namespace lobewise::survey
