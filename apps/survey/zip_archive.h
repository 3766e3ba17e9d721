#pragma once
// An archive somebody gives us, entry by entry in chunks, guarded against bombs: what an entry says of its size is not
// believed, the bytes are counted while they come.

#include <zip.h>

#include <memory>
#include <string>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::survey {

inline constexpr zip_int64_t kMostEntries = 10'000;
inline constexpr double kMostUnpacked = 4e9;     ///< of one entry [bytes]
inline constexpr double kHighestRatio = 200;     ///< unpacked over packed, once more than kFreeBytes came
inline constexpr double kFreeBytes = 4U << 20U;  ///< [bytes]

class ZipEntry {
 public:
  /// The next bytes, empty at the end. Errors: damaged, a bomb.
  [[nodiscard]] Result<std::string_view> read();
  [[nodiscard]] double share_read() const { return size_ > 0 ? read_ / size_ : 1; }

 private:
  friend class ZipArchive;
  struct Close {
    void operator()(zip_file_t* file) const { zip_fclose(file); }
  };
  std::unique_ptr<zip_file_t, Close> file_;
  std::string name_;
  std::string chunk_;
  double size_ = 0, packed_ = 0, read_ = 0;
};

class ZipArchive {
 public:
  /// Errors: no archive, too many entries.
  [[nodiscard]] static Result<ZipArchive> open(const std::string& file);
  [[nodiscard]] bool has(const std::string& entry) const;
  /// Errors: no such entry, encrypted, unknown compression.
  [[nodiscard]] Result<ZipEntry> open_entry(const std::string& entry) const;
  /// A whole entry, at most `most` bytes.
  [[nodiscard]] Result<std::string> read_entry(const std::string& entry, std::size_t most) const;

 private:
  struct Close {
    void operator()(zip_t* archive) const { zip_discard(archive); }
  };
  std::unique_ptr<zip_t, Close> archive_;
};

}  // namespace lobewise::survey
