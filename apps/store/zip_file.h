#pragma once
// A zip as names and bytes. What is read is suspect: sizes are believed only as far as the limits go.

#include <memory>
#include <optional>
#include <string>

#include "apps/store/outcome.h"

struct zip;

namespace lobewise::store {

class ZipWriter {
 public:
  explicit ZipWriter(const std::string& file);
  ~ZipWriter();
  ZipWriter(const ZipWriter&) = delete;
  ZipWriter& operator=(const ZipWriter&) = delete;
  void add(const std::string& name, std::string bytes);
  void finish();

 private:
  zip* archive_ = nullptr;
};

class ZipReader {
 public:
  /// Problems: input (cannot be read, no zip, too many entries).
  explicit ZipReader(const std::string& file);
  ~ZipReader();
  ZipReader(const ZipReader&) = delete;
  ZipReader& operator=(const ZipReader&) = delete;
  /// @param most  bytes; problems: input (missing, larger, damaged)
  [[nodiscard]] std::string read(const std::string& name, std::size_t most);

 private:
  zip* archive_ = nullptr;
  std::string file_;
  std::size_t budget_;  ///< bytes that may still come out of it
};

}  // namespace lobewise::store
