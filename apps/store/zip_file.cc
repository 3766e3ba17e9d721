#include "apps/store/zip_file.h"

#include <fmt/format.h>
#include <zip.h>

#include <cstdlib>
#include <cstring>

namespace lobewise::store {
namespace {

constexpr zip_int64_t kMostEntries = 500'000;
constexpr std::size_t kMostBytes = std::size_t{16} << 30U;

}  // namespace

ZipWriter::ZipWriter(const std::string& file) {
  int code = 0;
  archive_ = zip_open(file.c_str(), ZIP_CREATE | ZIP_EXCL, &code);
  if (archive_ == nullptr) throw Problem{Trouble::access, fmt::format("{} cannot be written.", file)};
}

ZipWriter::~ZipWriter() {
  if (archive_ != nullptr) zip_discard(archive_);
}

void ZipWriter::add(const std::string& name, std::string bytes) {
  // The library frees what it is handed, unless that is empty.
  void* copy = bytes.empty() ? nullptr : std::malloc(bytes.size());
  if (copy != nullptr) std::memcpy(copy, bytes.data(), bytes.size());
  zip_source_t* source =
      copy == nullptr && !bytes.empty() ? nullptr : zip_source_buffer(archive_, copy, bytes.size(), copy != nullptr);
  if (source == nullptr) {
    std::free(copy);
    throw Problem{Trouble::internal, "internal error: no memory for an export"};
  }
  if (zip_file_add(archive_, name.c_str(), source, ZIP_FL_ENC_UTF_8) < 0) {
    const std::string said = zip_strerror(archive_);
    zip_source_free(source);
    throw Problem{Trouble::internal, fmt::format("internal error: {} in an export: {}", name, said)};
  }
}

void ZipWriter::finish() {
  if (zip_close(archive_) != 0) {
    const std::string said = zip_strerror(archive_);
    throw Problem{Trouble::access, fmt::format("The export cannot be written ({}). Is there room on the disk?", said)};
  }
  archive_ = nullptr;
}

ZipReader::ZipReader(const std::string& file) : file_(file), budget_(kMostBytes) {
  int code = 0;
  archive_ = zip_open(file.c_str(), ZIP_RDONLY, &code);
  if (archive_ == nullptr)
    throw Problem{Trouble::input, code == ZIP_ER_NOENT ? fmt::format("{} cannot be read.", file)
                                                       : fmt::format("{} is not a whole zip.", file)};
  if (zip_get_num_entries(archive_, 0) > kMostEntries) {
    zip_discard(archive_);
    throw Problem{Trouble::input, fmt::format("{} has more than {} entries.", file, kMostEntries)};
  }
}

ZipReader::~ZipReader() { zip_discard(archive_); }

std::string ZipReader::read(const std::string& name, std::size_t most) {
  const std::unique_ptr<zip_file_t, decltype(&zip_fclose)> entry(zip_fopen(archive_, name.c_str(), 0), &zip_fclose);
  if (!entry) throw Problem{Trouble::input, fmt::format("{} lacks {}.", file_, name.substr(0, 200))};
  std::string bytes;
  char buffer[65536];
  for (;;) {
    const zip_int64_t count = zip_fread(entry.get(), buffer, sizeof buffer);
    if (count < 0) throw Problem{Trouble::input, fmt::format("{} is damaged at {}.", file_, name.substr(0, 200))};
    if (count == 0) return bytes;
    const auto more = static_cast<std::size_t>(count);
    if (more > budget_ || bytes.size() + more > most)
      throw Problem{Trouble::input, fmt::format("{} holds more at {} than the {} KiB that are taken.", file_,
                                                name.substr(0, 200), most / 1024)};
    budget_ -= more;
    bytes.append(buffer, more);
  }
}

}  // namespace lobewise::store
