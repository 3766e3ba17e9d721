// CSV as spreadsheets and maintenance systems write it: comma, semicolon or tab, quotes, line breaks in quotes; UTF-8,
// UTF-16 with a byte order mark, Windows-1252.

#include <fmt/format.h>

#include <array>
#include <fstream>

#include "apps/survey/table.h"

namespace lobewise::survey {
namespace {

/// The bytes of a file as 8-bit text, chunk by chunk.
class Source {
 public:
  explicit Source(const std::string& file) : in_(file, std::ios::binary | std::ios::ate) {
    size_ = in_ ? static_cast<double>(in_.tellg()) : 0;
    in_.seekg(0);
    fill();
    if (text_.starts_with("\xEF\xBB\xBF")) at_ = 3;
    if (text_.starts_with("\xFF\xFE")) wide_ = 1;
    if (text_.starts_with("\xFE\xFF")) wide_ = 2;
    if (wide_ != 0) {
      const std::string raw = text_.substr(2);
      text_.clear();
      widen(raw);
    }
  }
  [[nodiscard]] bool bad() const { return in_.bad() || !opened(); }
  [[nodiscard]] double share_read() const { return size_ > 0 ? read_ / size_ : 1; }
  /// What has been read ahead, for guessing the delimiter.
  [[nodiscard]] std::string_view ahead() const { return std::string_view(text_).substr(at_); }

  /// The next character, or -1 at the end.
  int get() {
    if (at_ == text_.size() && !fill()) return -1;
    return static_cast<unsigned char>(text_[at_++]);
  }
  int peek() {
    if (at_ == text_.size() && !fill()) return -1;
    return static_cast<unsigned char>(text_[at_]);
  }

 private:
  [[nodiscard]] bool opened() const { return size_ > 0 || in_.is_open(); }

  bool fill() {
    std::array<char, 1U << 16U> chunk;
    in_.read(chunk.data(), chunk.size());
    const auto got = static_cast<std::size_t>(in_.gcount());
    if (got == 0) return false;
    read_ += static_cast<double>(got);
    at_ = 0;
    text_.clear();
    if (wide_ == 0)
      text_.assign(chunk.data(), got);
    else
      widen({chunk.data(), got});
    return !text_.empty() || fill();
  }

  /// UTF-16 to UTF-8; halves of pairs are put together, lone ones become a question mark.
  void widen(std::string_view raw) {
    const auto put = [&](unsigned c) { text_ += static_cast<char>(c); };
    for (const char byte : raw) {
      if (!half_) {
        half_ = true;
        first_ = static_cast<unsigned char>(byte);
        continue;
      }
      half_ = false;
      const auto second = static_cast<unsigned char>(byte);
      unsigned unit = wide_ == 1 ? first_ + 256U * second : 256U * first_ + second;
      if (unit >= 0xD800 && unit < 0xDC00) {
        high_ = unit;
        continue;
      }
      if (unit >= 0xDC00 && unit < 0xE000) {
        if (high_ == 0) {
          put('?');
          continue;
        }
        const unsigned full = 0x10000U + ((high_ - 0xD800U) << 10U) + (unit - 0xDC00U);
        put(0xF0U | full >> 18U);
        put(0x80U | (full >> 12U & 0x3FU));
        put(0x80U | (full >> 6U & 0x3FU));
        put(0x80U | (full & 0x3FU));
        high_ = 0;
        continue;
      }
      high_ = 0;
      if (unit < 0x80) {
        put(unit);
      } else if (unit < 0x800) {
        put(0xC0U | unit >> 6U);
        put(0x80U | (unit & 0x3FU));
      } else {
        put(0xE0U | unit >> 12U);
        put(0x80U | (unit >> 6U & 0x3FU));
        put(0x80U | (unit & 0x3FU));
      }
    }
  }

  std::ifstream in_;
  double size_ = 0, read_ = 0;
  std::string text_;
  std::size_t at_ = 0;
  int wide_ = 0;  // 1 little-endian, 2 big-endian
  bool half_ = false;
  unsigned first_ = 0, high_ = 0;
};

/// The delimiter that cuts the first lines into the most, and equally many, cells.
char guess_delimiter(std::string_view text) {
  char best = ',';
  double best_score = 0;
  for (const char delimiter : {';', '\t', ','}) {
    std::vector<int> counts;
    int count = 0;
    bool quoted = false;
    for (const char c : text) {
      if (c == '"') quoted = !quoted;
      if (quoted) continue;
      if (c == delimiter) ++count;
      if (c == '\n') {
        if (count > 0) counts.push_back(count);
        count = 0;
        if (counts.size() == 30) break;
      }
    }
    if (count > 0) counts.push_back(count);
    double score = 0;
    for (const int c : counts) {
      int same = 0;
      for (const int other : counts) same += other == c ? 1 : 0;
      score = std::max(score, static_cast<double>(same) * (1 + c));
    }
    if (score > best_score) {
      best_score = score;
      best = delimiter;
    }
  }
  return best;
}

class CsvReader final : public TableReader {
 public:
  explicit CsvReader(const std::string& file) : source_(file) {
    const std::string_view ahead = source_.ahead();
    if (ahead.size() > 5 && (ahead.starts_with("sep=") || ahead.starts_with("SEP="))) {  // a hint some programs write
      delimiter_ = ahead[4];
      while (source_.peek() != -1 && source_.get() != '\n') {
      }
      ++line_;
    } else {
      delimiter_ = guess_delimiter(ahead.substr(0, 1U << 16U));
    }
  }
  [[nodiscard]] bool bad() const { return source_.bad(); }
  [[nodiscard]] double share_read() const override { return source_.share_read(); }
  [[nodiscard]] const std::string& sheet() const override { return sheet_; }

  Result<bool> next(Row& row) override {
    for (;;) {
      if (source_.peek() == -1) return false;
      row.number = ++line_;
      row.cells.clear();
      const Errors errors = read_record(row);
      if (!errors.empty()) return errors;
      if (!row.blank()) return true;
    }
  }

 private:
  [[nodiscard]] Error refuse(const char* message) const {
    Error error = input_error("", fmt::format("row {}", line_), message);
    error.line = static_cast<int>(std::min<long>(line_, 1 << 30));
    return error;
  }

  Errors read_record(Row& row) {
    std::string cell;
    std::size_t size = 0;
    bool quoted = false, closed = false;
    for (;;) {
      const int c = source_.get();
      if (++size > kLongestRow)
        return {
            refuse(quoted ? "longer than 1 MiB: a quotation mark is opened and never closed" : "longer than 1 MiB")};
      if (c == 0) return {refuse("holds a zero byte: this is no text file")};
      if (quoted) {
        if (c == -1) return {refuse("a quotation mark is opened and never closed")};
        if (c != '"') {
          cell += static_cast<char>(c);
        } else if (source_.peek() == '"') {
          source_.get();
          cell += '"';
        } else {
          quoted = false;
          closed = true;
        }
        continue;
      }
      if (c == '"' && !closed && cell.find_first_not_of(' ') == std::string::npos) {
        cell.clear();
        quoted = true;
        continue;
      }
      if (c == delimiter_ || c == '\n' || c == '\r' || c == -1) {
        if (row.cells.size() == kMostColumns) return {refuse("more than 1024 columns")};
        row.cells.push_back({clean(cell), false});
        cell.clear();
        closed = false;
        if (c == delimiter_) continue;
        if (c == '\r' && source_.peek() == '\n') source_.get();
        return {};
      }
      cell += static_cast<char>(c);
    }
  }

  Source source_;
  char delimiter_ = ',';
  long line_ = 0;
  std::string sheet_;
};

}  // namespace

Result<std::unique_ptr<TableReader>> open_csv(const std::string& file) {
  auto reader = std::make_unique<CsvReader>(file);
  if (reader->bad()) return input_error("", file, "this file cannot be read");
  return std::unique_ptr<TableReader>(std::move(reader));
}

}  // namespace lobewise::survey
