#include "apps/survey/zip_archive.h"

#include <fmt/format.h>

namespace lobewise::survey {
namespace {

Error damaged(const std::string& entry, const std::string& why) {
  return input_error("", entry, fmt::format("this part of the workbook cannot be read: {}", why));
}

}  // namespace

Result<std::string_view> ZipEntry::read() {
  chunk_.resize(1U << 16U);
  const zip_int64_t got = zip_fread(file_.get(), chunk_.data(), chunk_.size());
  if (got < 0) return damaged(name_, zip_file_strerror(file_.get()));
  read_ += static_cast<double>(got);
  if (read_ > kMostUnpacked || (read_ > kFreeBytes && read_ > kHighestRatio * packed_))
    return damaged(name_, "it unpacks to far more than a list of drives can be");
  return std::string_view(chunk_.data(), static_cast<std::size_t>(got));
}

Result<ZipArchive> ZipArchive::open(const std::string& file) {
  int code = 0;
  ZipArchive archive;
  archive.archive_.reset(zip_open(file.c_str(), ZIP_RDONLY, &code));
  if (!archive.archive_) {
    zip_error_t error;
    zip_error_init_with_code(&error, code);
    const std::string why = zip_error_strerror(&error);
    zip_error_fini(&error);
    return input_error("", file, fmt::format("this workbook cannot be opened: {}", why));
  }
  if (zip_get_num_entries(archive.archive_.get(), 0) > kMostEntries)
    return input_error("", file, "this workbook has more than 10000 parts");
  return archive;
}

bool ZipArchive::has(const std::string& entry) const {
  return zip_name_locate(archive_.get(), entry.c_str(), ZIP_FL_NOCASE) >= 0;
}

Result<ZipEntry> ZipArchive::open_entry(const std::string& name) const {
  const zip_int64_t index = zip_name_locate(archive_.get(), name.c_str(), ZIP_FL_NOCASE);
  if (index < 0) return damaged(name, "it is missing");
  const auto at = static_cast<zip_uint64_t>(index);
  zip_stat_t stat;
  zip_stat_init(&stat);
  if (zip_stat_index(archive_.get(), at, 0, &stat) != 0) return damaged(name, zip_strerror(archive_.get()));
  if ((stat.valid & ZIP_STAT_ENCRYPTION_METHOD) != 0 && stat.encryption_method != ZIP_EM_NONE)
    return damaged(name, "it is encrypted; save the workbook without a password");
  ZipEntry entry;
  entry.name_ = name;
  entry.size_ = static_cast<double>(stat.size);
  entry.packed_ = static_cast<double>(stat.comp_size);
  entry.file_.reset(zip_fopen_index(archive_.get(), at, 0));
  if (!entry.file_) return damaged(name, zip_strerror(archive_.get()));
  return entry;
}

Result<std::string> ZipArchive::read_entry(const std::string& name, std::size_t most) const {
  Result<ZipEntry> entry = open_entry(name);
  if (!entry) return entry.errors();
  std::string text;
  for (;;) {
    const Result<std::string_view> chunk = entry->read();
    if (!chunk) return chunk.errors();
    if (chunk->empty()) return text;
    if (text.size() + chunk->size() > most) return damaged(name, "it is too large");
    text += *chunk;
  }
}

}  // namespace lobewise::survey
