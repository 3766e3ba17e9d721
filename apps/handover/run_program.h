#pragma once
// Other programs that make a document: the browser that prints, the writer of solids.

#include <filesystem>
#include <string>
#include <vector>

namespace lobewise::handover {

/// A folder of our own that is gone afterwards; an empty path when none can be made.
class TemporaryFolder {
 public:
  TemporaryFolder();
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  ~TemporaryFolder();
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Runs a program with its output thrown away, in a process group of its own, for two minutes at most.
/// @param words  path of the program and its arguments; no shell is between
/// @returns exit code, -1 when it could not start or took too long
[[nodiscard]] int run_program(const std::vector<std::string>& words);

}  // namespace lobewise::handover
