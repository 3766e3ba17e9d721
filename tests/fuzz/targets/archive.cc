// A zip as bytes, opened as a workbook and as an export.

#include "apps/store/zip_file.h"
#include "apps/survey/zip_archive.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void archive(std::string_view bytes) {
  constexpr std::size_t kMost = 1U << 20U;
  const MemoryFile file(bytes);
  if (const Result<survey::ZipArchive> archive = survey::ZipArchive::open(file.path()))
    for (const char* name : {"xl/workbook.xml", "a", "store.json"})
      if (const Result<std::string> entry = archive->read_entry(name, kMost))
        require(entry->size() <= kMost, "no more than asked for");
  try {
    store::ZipReader zip(file.path());
    for (const char* name : {"store.json", "a", "xl/workbook.xml"})
      require(zip.read(name, kMost).size() <= kMost, "no more than asked for");
  } catch (const store::Problem& problem) {
    require(problem.trouble == store::Trouble::input, "a bad zip is the sender's problem", problem.message);
  }
}

}  // namespace lobewise::fuzz
