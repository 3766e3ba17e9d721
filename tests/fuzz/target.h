#pragma once
// A target: what some stranger's bytes meet, with what must hold whatever they are.

#include <string>
#include <string_view>
#include <vector>

namespace lobewise::fuzz {

struct Target {
  std::string_view name;
  void (*run)(std::string_view bytes);
};

/// A target of that name, null when there is none.
[[nodiscard]] const Target* find_target(std::string_view name);
[[nodiscard]] std::vector<std::string_view> target_names();

/// Ends the program when something that must hold does not.
void require(bool holds, std::string_view what, std::string_view detail = "");

/// Bytes as a file without a disk.
class MemoryFile {
 public:
  explicit MemoryFile(std::string_view bytes);
  ~MemoryFile();
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  [[nodiscard]] std::string path() const;

 private:
  int handle_;
};

/// A folder of this process, gone when it ends.
[[nodiscard]] const std::string& work_folder();

struct Part {
  std::string_view name, bytes;
};
/// Pieces of an input: `#part NAME` alone on a line begins one. Without such a line the whole is one nameless part.
[[nodiscard]] std::vector<Part> parts_of(std::string_view bytes);
/// A zip of the parts in the work folder; @returns its path
[[nodiscard]] std::string zip_of(const std::vector<Part>& parts);

}  // namespace lobewise::fuzz
