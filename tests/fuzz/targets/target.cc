#include "tests/fuzz/target.h"

#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <set>

#include "apps/store/zip_file.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {
namespace {

constexpr Target kTargets[] = {{"api", api},
                               {"archive", archive},
                               {"door", door},
                               {"enquiry", enquiry},
                               {"list", list},
                               {"load_log", load_log},
                               {"mapping", mapping},
                               {"quantity", quantity},
                               {"range", range},
                               {"slice", slice},
                               {"store_file", store_file},
                               {"store_import", store_import},
                               {"text", text},
                               {"workbook", workbook}};

}  // namespace

const Target* find_target(std::string_view name) {
  const auto found =
      std::find_if(std::begin(kTargets), std::end(kTargets), [&](const Target& t) { return t.name == name; });
  return found == std::end(kTargets) ? nullptr : found;
}

std::vector<std::string_view> target_names() {
  std::vector<std::string_view> names;
  for (const Target& target : kTargets) names.push_back(target.name);
  return names;
}

void require(bool holds, std::string_view what, std::string_view detail) {
  if (holds) return;
  std::fprintf(stderr, "DOES NOT HOLD: %.*s\n%.*s\n", static_cast<int>(what.size()), what.data(),
               static_cast<int>(std::min<std::size_t>(detail.size(), 4000)), detail.data());
  std::abort();
}

MemoryFile::MemoryFile(std::string_view bytes) : handle_(memfd_create("input", MFD_CLOEXEC)) {
  require(handle_ >= 0 && write(handle_, bytes.data(), bytes.size()) == static_cast<ssize_t>(bytes.size()),
          "a file in memory");
}
MemoryFile::~MemoryFile() { close(handle_); }
std::string MemoryFile::path() const { return "/proc/self/fd/" + std::to_string(handle_); }

const std::string& work_folder() {
  struct Folder {
    Folder() {
      std::string name = std::filesystem::temp_directory_path() / "lobewise-fuzz-XXXXXX";
      require(mkdtemp(name.data()) != nullptr, "a folder to work in");
      path = name;
    }
    ~Folder() {
      std::error_code error;
      std::filesystem::remove_all(path, error);
    }
    std::string path;
  };
  static const Folder kFolder;
  return kFolder.path;
}

std::vector<Part> parts_of(std::string_view bytes) {
  constexpr std::string_view kMark = "#part ";
  std::vector<Part> parts{{"", bytes.substr(0, 0)}};
  std::size_t from = 0;  // of the part that goes on
  for (std::size_t at = 0; at < bytes.size();) {
    const std::size_t end = std::min(bytes.find('\n', at), bytes.size()), next = std::min(end + 1, bytes.size());
    if (bytes.substr(at, kMark.size()) == kMark) {
      parts.back().bytes = bytes.substr(from, at - from);
      parts.push_back({bytes.substr(at + kMark.size(), end - at - kMark.size()), {}});
      from = next;
    }
    at = next;
  }
  parts.back().bytes = bytes.substr(from);
  if (parts.size() > 1) parts.erase(parts.begin());
  return parts;
}

std::string zip_of(const std::vector<Part>& parts) {
  const std::string path = work_folder() + "/input.zip";
  std::filesystem::remove(path);
  store::ZipWriter zip(path);
  std::set<std::string> names;
  for (const Part& part : parts) {
    std::string name(part.name.substr(0, part.name.find('\0')));
    if (name.empty() || !names.insert(name).second) continue;
    try {
      zip.add(name, std::string(part.bytes));
    } catch (const store::Problem&) {  // a name no zip can have
    }
  }
  if (names.empty()) zip.add("nothing", "");
  zip.finish();
  return path;
}

}  // namespace lobewise::fuzz
