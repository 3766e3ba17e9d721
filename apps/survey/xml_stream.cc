#include "apps/survey/xml_stream.h"

namespace lobewise::survey {
namespace {

Error not_xml(const char* why) { return input_error("", "", std::string("this workbook is damaged: ") + why); }

/// Local name of a tag at `<`, without slash and prefix.
std::string_view local_name(std::string_view tag) {
  tag.remove_prefix(1);
  if (tag.starts_with('/')) tag.remove_prefix(1);
  tag = tag.substr(0, tag.find_first_of(" \t\r\n/>"));
  const std::size_t colon = tag.find(':');
  return colon == std::string_view::npos ? tag : tag.substr(colon + 1);
}

}  // namespace

Result<bool> ElementStream::more() {
  if (text_.size() > kLongestElement) return not_xml("one row or text is longer than 8 MiB");
  const Result<std::string_view> chunk = entry_.read();
  if (!chunk) return chunk.errors();
  text_ += *chunk;
  return !chunk->empty();
}

Result<std::size_t> ElementStream::find(std::string_view what, std::size_t from) {
  for (;;) {
    const std::size_t found = text_.find(what, from);
    if (found != std::string::npos) return found;
    from = std::max(from, text_.size() - std::min(text_.size(), what.size() - 1));
    const Result<bool> got = more();
    if (!got) return got.errors();
    if (!*got) return std::string::npos;
  }
}

Result<std::size_t> ElementStream::tag_end(std::size_t from) {
  char quote = 0;
  for (std::size_t i = from;; ++i) {
    while (i >= text_.size()) {
      const Result<bool> got = more();
      if (!got) return got.errors();
      if (!*got) return not_xml("a tag does not end");
    }
    const char c = text_[i];
    if (quote != 0)
      quote = c == quote ? '\0' : quote;
    else if (c == '"' || c == '\'')
      quote = c;
    else if (c == '>')
      return i;
  }
}

Result<bool> ElementStream::next(std::string& element) {
  text_.erase(0, at_);
  at_ = 0;
  std::size_t begin = std::string::npos;  // of the element
  for (;;) {
    if (begin == std::string::npos && at_ > (1U << 16U)) {
      text_.erase(0, at_);
      at_ = 0;
    }
    const Result<std::size_t> open = find("<", at_);
    if (!open) return open.errors();
    if (*open == std::string::npos) {
      if (begin != std::string::npos) return not_xml("it ends in the middle");
      at_ = text_.size();
      return false;
    }
    while (text_.size() < *open + 9) {  // enough to tell the kinds of markup apart
      const Result<bool> got = more();
      if (!got) return got.errors();
      if (!*got) break;
    }
    const std::string_view here = std::string_view(text_).substr(*open);
    const std::string_view close = here.starts_with("<!--")        ? "-->"
                                   : here.starts_with("<![CDATA[") ? "]]>"
                                   : here.starts_with("<?")        ? "?>"
                                                                   : "";
    if (!close.empty()) {
      const Result<std::size_t> end = find(close, *open + 2);
      if (!end) return end.errors();
      if (*end == std::string::npos) return not_xml("a comment does not end");
      at_ = *end + close.size();
      continue;
    }
    if (here.starts_with("<!")) return not_xml("document type declarations are not read");
    const Result<std::size_t> end = tag_end(*open);
    if (!end) return end.errors();
    at_ = *end + 1;
    const std::string_view tag = std::string_view(text_).substr(*open, at_ - *open);
    if (local_name(tag) != name_) continue;
    const bool closing = tag[1] == '/';
    const bool alone = tag.size() > 2 && tag[tag.size() - 2] == '/';
    if (begin == std::string::npos) {
      if (closing) return not_xml("an end without a beginning");
      begin = *open;
      if (!alone) continue;
    } else if (!closing) {
      return not_xml("rows or texts within each other");
    }
    element.assign(text_, begin, at_ - begin);
    return true;
  }
}

}  // namespace lobewise::survey
