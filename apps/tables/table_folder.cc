#include "apps/tables/table_folder.h"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <fstream>
#include <vector>

#include "engine/base/checksum.h"

namespace lobewise::tables {
namespace fs = std::filesystem;
namespace {

constexpr const char* kEnding = ".table";
constexpr std::uintmax_t kMostBytesOfOne = 16U << 20U;
constexpr std::size_t kSumLength = 16;

/// Checksum, key, a zero, bytes.
std::string file_text(const std::string& key, std::string_view bytes) {
  std::string body = key;
  body += '\0';
  body += bytes;
  return checksum(body) + body;
}

}  // namespace

TableFolder::TableFolder(fs::path folder, std::uintmax_t most_bytes)
    : folder_(std::move(folder)), most_bytes_(most_bytes) {}

fs::path TableFolder::file_of(const std::string& key) const {
  const std::string sum = checksum(key);
  return folder_ / (sum + checksum(key, sum) + kEnding);
}

std::optional<std::string> TableFolder::find(const std::string& key) {
  const fs::path file = file_of(key);
  std::error_code problem;
  const std::uintmax_t size = fs::file_size(file, problem);
  if (problem || size < kSumLength + key.size() + 1 || size > kMostBytesOfOne) return std::nullopt;
  std::string text(size, '\0');
  std::ifstream in(file, std::ios::binary);
  if (!in.read(text.data(), static_cast<std::streamsize>(size))) return std::nullopt;
  const std::string_view body = std::string_view(text).substr(kSumLength);
  if (body.substr(0, key.size()) != key || body[key.size()] != '\0' ||
      std::string_view(text).substr(0, kSumLength) != checksum(body))
    return std::nullopt;
  fs::last_write_time(file, fs::file_time_type::clock::now(), problem);  // it is of use: not the next to go
  return std::string(body.substr(key.size() + 1));
}

void TableFolder::keep(const std::string& key, std::string_view bytes) {
  static std::atomic<unsigned> counter{0};
  const std::string text = file_text(key, bytes);
  if (text.size() > kMostBytesOfOne) return;
  std::error_code problem;
  fs::create_directories(folder_, problem);
  if (problem) return;
  const fs::path file = file_of(key);
  const fs::path beside = fs::path(file).concat(fmt::format(".{}-{}", ::getpid(), counter++));
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out << text;
    if (!out.flush()) {
      out.close();
      fs::remove(beside, problem);
      return;
    }
  }
  fs::rename(beside, file, problem);
  if (problem) fs::remove(beside, problem);
  make_room();
}

void TableFolder::make_room() const {
  struct Entry {
    fs::file_time_type used;
    std::uintmax_t bytes;
    fs::path path;
  };
  std::vector<Entry> entries;
  std::uintmax_t sum = 0;
  std::error_code problem;
  for (fs::directory_iterator at(folder_, problem), end; !problem && at != end; at.increment(problem)) {
    std::error_code gone;
    const Entry entry{at->last_write_time(gone), at->file_size(gone), at->path()};
    if (gone) continue;
    sum += entry.bytes;
    entries.push_back(entry);
  }
  if (sum <= most_bytes_) return;
  std::sort(entries.begin(), entries.end(), [](const Entry& a, const Entry& b) { return a.used < b.used; });
  for (const Entry& entry : entries) {
    if (sum <= most_bytes_ / 2) break;
    fs::remove(entry.path, problem);
    sum -= entry.bytes;
  }
}

std::shared_ptr<api::TableKeeper> users_tables() {
  const auto set = [](const char* name) {
    const char* value = std::getenv(name);
    return value != nullptr && *value != '\0' ? std::optional<std::string>(value) : std::nullopt;
  };
  if (const auto named = set("LOBEWISE_TABLES"))
    return *named == "none" ? nullptr : std::make_shared<TableFolder>(*named);
  if (const auto cache = set("XDG_CACHE_HOME"))
    return std::make_shared<TableFolder>(fs::path(*cache) / "lobewise/tables");
  if (const auto home = set("HOME")) return std::make_shared<TableFolder>(fs::path(*home) / ".cache/lobewise/tables");
  return nullptr;
}

}  // namespace lobewise::tables
