#pragma once
// Elements of a large XML part one by one, so that the whole need not be in memory.

#include <string>
#include <string_view>

#include "apps/survey/zip_archive.h"

namespace lobewise::survey {

/// Hands out the text of every element of one name (any prefix), from `<name` to its end tag. Elements of that name are
/// not nested in each other in what is read here. Comments and CDATA are passed over; document type declarations, and
/// with them entities, are refused.
class ElementStream {
 public:
  ElementStream(ZipEntry entry, std::string name) : entry_(std::move(entry)), name_(std::move(name)) {}
  /// False at the end. Errors: damaged archive, an element longer than `kLongestElement`, not XML.
  [[nodiscard]] Result<bool> next(std::string& element);
  [[nodiscard]] double share_read() const { return entry_.share_read(); }

  static constexpr std::size_t kLongestElement = 8U << 20U;  ///< [bytes]

 private:
  /// Position of `what` from `from` on, reading more as needed; npos at the end of the part.
  [[nodiscard]] Result<std::size_t> find(std::string_view what, std::size_t from);
  [[nodiscard]] Result<std::size_t> tag_end(std::size_t from);
  [[nodiscard]] Result<bool> more();

  ZipEntry entry_;
  std::string name_;
  std::string text_;
  std::size_t at_ = 0;
};

}  // namespace lobewise::survey
