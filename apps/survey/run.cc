#include "apps/survey/run.h"

#include <fmt/format.h>

#include <array>
#include <condition_variable>
#include <deque>
#include <fstream>
#include <mutex>
#include <thread>

#include "engine/base/checksum.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

std::string text_of(const Json& record) { return record.dump(-1, ' ', false, Json::error_handler_t::replace); }

/// Threads that turn rows into records. Rows go in by number; records come out in the same order.
class Pool {
 public:
  explicit Pool(const Work& work) : work_(work) {
    for (int i = 0; i < std::max(1, work.threads); ++i) threads_.emplace_back([this] { serve(); });
  }
  Pool(const Pool&) = delete;
  Pool& operator=(const Pool&) = delete;
  ~Pool() {
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      closed_ = true;
    }
    waiting_.notify_all();
    for (std::thread& thread : threads_) thread.join();
  }

  [[nodiscard]] std::size_t most_under_way() const { return 16 * threads_.size(); }
  [[nodiscard]] std::size_t under_way() const { return given_ - taken_; }

  void give(Row row) {
    {
      const std::lock_guard<std::mutex> lock(mutex_);
      jobs_.push_back({given_++, std::move(row)});
      records_.emplace_back();
    }
    waiting_.notify_one();
  }
  /// The next record in order; waits for it.
  std::string take() {
    std::unique_lock<std::mutex> lock(mutex_);
    ready_.wait(lock, [&] { return records_.front().done; });
    std::string text = std::move(records_.front().text);
    records_.pop_front();
    ++taken_;
    return text;
  }

 private:
  struct Job {
    std::size_t number;
    Row row;
  };
  struct Record {
    bool done = false;
    std::string text;
  };

  std::string answer(const Row& row, const Prover& prove) const {
    try {
      return text_of(answer_line(read_line(row, *work_.mapping, *work_.fields), *work_.mapping, prove));
    } catch (const std::exception& problem) {  // a defect of ours must not take the other lines with it
      Line line;
      line.row = row.number;
      line.obstacle = fmt::format("internal error: {}", problem.what());
      return text_of(answer_line(line, *work_.mapping, prove));
    }
  }

  void serve() {
    const Prover prove = work_.make_prover();
    for (;;) {
      Job job;
      {
        std::unique_lock<std::mutex> lock(mutex_);
        waiting_.wait(lock, [&] { return closed_ || !jobs_.empty(); });
        if (jobs_.empty()) return;
        job = std::move(jobs_.front());
        jobs_.pop_front();
      }
      std::string text = answer(job.row, prove);
      {
        const std::lock_guard<std::mutex> lock(mutex_);
        Record& record = records_[job.number - taken_];
        record.text = std::move(text);
        record.done = true;
      }
      ready_.notify_one();
    }
  }

  const Work& work_;
  std::mutex mutex_;
  std::condition_variable waiting_, ready_;
  std::deque<Job> jobs_;
  std::deque<Record> records_;  // from number taken_ on
  std::size_t given_ = 0, taken_ = 0;
  bool closed_ = false;
  std::vector<std::thread> threads_;
};

Error full_disk() {
  return Error{ErrorKind::data, "", "", "the temporary file cannot be written: the disk is full", 0};
}

}  // namespace

Result<Outcome> run(TableReader& reader, const Work& work) {
  Result<Spool> spool = Spool::open();
  if (!spool) return spool.errors();
  Outcome outcome{std::move(*spool), {}, 0, false, ""};
  Pool pool(work);
  bool room = true;
  const auto take = [&] {
    room = outcome.records.append(pool.take()) && room;
    if (work.progress) work.progress({reader.share_read(), static_cast<long>(outcome.records.size())});
  };
  Row row;
  while (room) {
    if (work.cancelled && work.cancelled()) {
      outcome.stopped = kCancelledWord;
      break;
    }
    const Result<bool> got = reader.next(row);
    if (!got) {
      const Error& error = got.errors().front();
      outcome.stopped = error.offending.empty() ? error.message : error.offending + ": " + error.message;
      break;
    }
    if (!*got) {
      outcome.complete = true;
      break;
    }
    if (row.number == work.mapping->units_row) continue;
    if (outcome.lines == kMostRows) {
      outcome.stopped = fmt::format("more than {} lines", kMostRows);
      break;
    }
    const long index = outcome.lines++;
    if (index % work.slice.of != work.slice.part - 1) continue;
    outcome.indices.push_back(index);
    pool.give(std::move(row));
    while (pool.under_way() >= pool.most_under_way()) take();
  }
  while (pool.under_way() > 0) take();
  if (!room) return full_disk();
  return outcome;
}

Result<std::string> checksum_of_file(const std::string& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return input_error("", file, "this file cannot be read");
  std::array<char, 1U << 16U> chunk;
  std::string sum;
  while (in.read(chunk.data(), chunk.size()), in.gcount() > 0)
    sum = checksum({chunk.data(), static_cast<std::size_t>(in.gcount())}, sum);
  return sum;
}

Errors write_slice(const std::string& file, const SliceHead& head, Outcome& outcome) {
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << text_of(Json{{"survey_slice", 1},
                      {"list_name", head.list_name},
                      {"list", head.list},
                      {"elastic", head.elastic},
                      {"mapping", head.mapping},
                      {"range", head.range},
                      {"version", head.version},
                      {"part", head.slice.part},
                      {"of", head.slice.of}})
      << '\n';
  std::string text;
  for (std::size_t i = 0; i < outcome.records.size() && out; ++i) {
    if (!outcome.records.read(i, text)) return {full_disk()};
    out << outcome.indices[i] << ' ' << text << '\n';
  }
  out << text_of(Json{{"records", outcome.records.size()},
                      {"lines", outcome.lines},
                      {"complete", outcome.complete},
                      {"stopped", outcome.stopped}})
      << '\n';
  out.close();
  if (!out) return {input_error("", file, "this file cannot be written")};
  return {};
}

namespace {

/// One slice while it is merged: its next record waits here.
struct Part {
  std::string file;
  std::ifstream in;
  SliceHead head;
  long index = -1;  ///< of the waiting record, -1 at the end
  std::string text;
  long records = 0, lines = 0;
  Errors errors;

  void refuse(std::string message) { errors.push_back(input_error("", file, std::move(message))); }

  bool open() {
    in.open(file, std::ios::binary);
    std::string line;
    if (!in || !std::getline(in, line)) {
      refuse("this file cannot be read");
      return false;
    }
    const Json json = Json::parse(line, nullptr, false);
    if (!json.is_object() || json.value("survey_slice", Json()) != Json(1)) {
      refuse("this is no slice of a survey");
      return false;
    }
    try {
      head.list_name = json.value("list_name", "");
      head.list = json.value("list", "");
      head.elastic = json.value("elastic", false);
      head.mapping = json.value("mapping", "");
      head.range = json.value("range", "");
      head.version = json.value("version", "");
      head.slice = {json.value("part", 0), json.value("of", 0)};
    } catch (const Json::exception&) {  // a text where a number belongs, or the other way round
      refuse("this slice is damaged: run it again");
      return false;
    }
    if (head.slice.of < 1 || head.slice.part < 1 || head.slice.part > head.slice.of) {
      refuse("this slice does not say which one it is");
      return false;
    }
    return advance();
  }

  bool advance() {
    std::string line;
    index = -1;
    if (!std::getline(in, line)) {
      refuse("this slice breaks off: run it again");
      return false;
    }
    if (line.starts_with('{')) {
      const Json end = Json::parse(line, nullptr, false);
      try {
        if (!end.is_object() || end.value("records", -1L) != records) {
          refuse("this slice is damaged: run it again");
          return false;
        }
        if (!end.value("complete", false)) {
          refuse(fmt::format("this slice was broken off ({}): run it again", end.value("stopped", "")));
          return false;
        }
        lines = end.value("lines", 0L);
      } catch (const Json::exception&) {
        refuse("this slice is damaged: run it again");
        return false;
      }
      return true;
    }
    const std::size_t blank = line.find(' ');
    const Result<double> number = parse_number(line.substr(0, blank), "");
    if (blank == std::string::npos || !number || !(*number >= 0 && *number < kMostRows)) {
      refuse("this slice is damaged: run it again");
      return false;
    }
    index = static_cast<long>(*number);
    text = line.substr(blank + 1);
    ++records;
    return true;
  }
};

}  // namespace

Result<std::pair<SliceHead, Outcome>> join(const std::vector<std::string>& files) {
  if (files.empty()) return input_error("", "", "name the slices to join");
  std::vector<Part> parts(files.size());
  Errors errors;
  for (std::size_t i = 0; i < files.size(); ++i) {
    parts[i].file = files[i];
    parts[i].open();
    errors.insert(errors.end(), parts[i].errors.begin(), parts[i].errors.end());
  }
  if (!errors.empty()) return errors;
  const SliceHead& first = parts.front().head;
  std::vector<std::string> seen(static_cast<std::size_t>(first.slice.of));
  for (const Part& part : parts) {
    const SliceHead& head = part.head;
    if (head.list != first.list || head.mapping != first.mapping || head.range != first.range ||
        head.elastic != first.elastic || head.version != first.version || head.slice.of != first.slice.of) {
      errors.push_back(input_error(
          "", part.file,
          fmt::format("belongs to another list, mapping, range, version or number of slices than {}", files.front())));
      continue;
    }
    std::string& place = seen[static_cast<std::size_t>(head.slice.part - 1)];
    if (!place.empty())
      errors.push_back(
          input_error("", part.file, fmt::format("is slice {} once more; {} is it already", head.slice.part, place)));
    place = part.file;
  }
  for (std::size_t i = 0; i < seen.size() && errors.empty(); ++i)
    if (seen[i].empty())
      errors.push_back(input_error("", "", fmt::format("slice {} of {} is missing", i + 1, seen.size())));
  if (!errors.empty()) return errors;

  Result<Spool> spool = Spool::open();
  if (!spool) return spool.errors();
  Outcome outcome{std::move(*spool), {}, 0, true, ""};
  for (;;) {
    Part* next = nullptr;
    for (Part& part : parts)
      if (part.index >= 0 && (next == nullptr || part.index < next->index)) next = &part;
    if (next == nullptr) break;
    if (!outcome.records.append(next->text)) return full_disk();
    outcome.indices.push_back(next->index);
    if (!next->advance()) return next->errors;
  }
  outcome.lines = parts.front().lines;
  return std::pair<SliceHead, Outcome>(first, std::move(outcome));
}

}  // namespace lobewise::survey
