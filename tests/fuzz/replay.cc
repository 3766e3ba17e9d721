// Puts kept inputs through a target: fuzz_replay TARGET FILE|FOLDER…

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "tests/fuzz/target.h"

int main(int count, char** arguments) {
  namespace fs = std::filesystem;
  const lobewise::fuzz::Target* target = count > 2 ? lobewise::fuzz::find_target(arguments[1]) : nullptr;
  if (target == nullptr) {
    std::fprintf(stderr, "usage: fuzz_replay TARGET FILE|FOLDER…\n");
    return 2;
  }
  std::vector<fs::path> files;
  for (int i = 2; i < count; ++i) {
    const fs::path given = arguments[i];
    if (!fs::is_directory(given))
      files.push_back(given);
    else
      for (const fs::directory_entry& entry : fs::directory_iterator(given)) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) {
    std::fprintf(stderr, "%s\n", file.c_str());  // the last one named is the one that broke
    std::ifstream in(file, std::ios::binary);
    if (!in) return 3;
    target->run(std::string{std::istreambuf_iterator<char>(in), {}});
  }
  std::fprintf(stderr, "%zu inputs\n", files.size());
  return files.empty() ? 3 : 0;
}
