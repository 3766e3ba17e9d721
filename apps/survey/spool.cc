#include "apps/survey/spool.h"

namespace lobewise::survey {

Result<Spool> Spool::open() {
  std::FILE* file = std::tmpfile();
  if (file == nullptr)
    return Error{ErrorKind::data, "", "", "no temporary file can be made here (disk full, or TMPDIR not writable)", 0};
  return Spool(file);
}

bool Spool::append(std::string_view text) {
  const std::uint64_t begin = ends_.empty() ? 0 : ends_.back();
  if (!writing_ && fseeko(file_.get(), static_cast<off_t>(begin), SEEK_SET) != 0) return false;
  writing_ = true;
  if (std::fwrite(text.data(), 1, text.size(), file_.get()) != text.size()) return false;
  ends_.push_back(begin + text.size());
  return true;
}

bool Spool::read(std::size_t index, std::string& text) {
  const std::uint64_t begin = index == 0 ? 0 : ends_[index - 1];
  writing_ = false;
  text.resize(static_cast<std::size_t>(ends_[index] - begin));
  return fseeko(file_.get(), static_cast<off_t>(begin), SEEK_SET) == 0 &&
         std::fread(text.data(), 1, text.size(), file_.get()) == text.size();
}

}  // namespace lobewise::survey
