#pragma once
// Files of a test, in a folder of their own that goes when the test ends.

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

namespace lobewise::survey {

class Folder {
 public:
  Folder() {
    std::string name = (std::filesystem::temp_directory_path() / "survey_XXXXXX").string();
    if (mkdtemp(name.data()) == nullptr) ADD_FAILURE() << "no temporary folder";
    path_ = name;
  }
  ~Folder() { std::filesystem::remove_all(path_); }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;

  [[nodiscard]] std::string file(const std::string& name) const { return (path_ / name).string(); }
  [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
    std::ofstream(file(name), std::ios::binary) << text;
    return file(name);
  }
  [[nodiscard]] static std::string read(const std::string& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  }

 private:
  std::filesystem::path path_;
};

/// The same numbers every time.
class Draw {
 public:
  explicit Draw(std::uint64_t seed) : state_(seed) {}
  std::size_t operator()(std::size_t below) {
    state_ = state_ * 6364136223846793005ULL + 1442695040888963407ULL;  // Knuth, MMIX
    return static_cast<std::size_t>(state_ >> 33U) % below;
  }

 private:
  std::uint64_t state_;
};

}  // namespace lobewise::survey
