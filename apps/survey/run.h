#pragma once
// A whole list: read, proved on several threads, spooled in the order of the list; or one slice of it; or slices
// joined.

#include <functional>

#include "apps/survey/line.h"
#include "apps/survey/spool.h"

namespace lobewise::survey {

/// Every `of`-th line, beginning with the `part`-th: slices of a list are of one length and one mixture.
struct Slice {
  int part = 1, of = 1;  ///< part 1 … of
};

struct Progress {
  double share = 0;  ///< of the list that has been read 0 … 1
  long lines = 0;    ///< done
};

struct Work {
  const Mapping* mapping = nullptr;
  const Fields* fields = nullptr;
  std::function<Prover()> make_prover;  ///< called once on each thread
  int threads = 1;
  Slice slice;
  std::function<bool()> cancelled;                ///< asked between lines
  std::function<void(const Progress&)> progress;  ///< called from the calling thread
};

/// `Outcome::stopped` of a job that somebody cancelled.
inline constexpr std::string_view kCancelledWord = "cancelled";

/// Records of lines in the order of the list.
struct Outcome {
  Spool records;
  std::vector<long> indices;  ///< of each record: its line's place in the list, from 0, blank lines not counted
  long lines = 0;             ///< of the whole list, as far as it was read
  bool complete = false;      ///< read to the end; otherwise `stopped` says why
  std::string stopped;
};

/// Reads on from where `reader` stands (after the headings) and answers each line of the slice. Memory grows by some 20
/// bytes a line. What was done stays when it is cancelled or the list breaks off.
/// Errors: no temporary file.
[[nodiscard]] Result<Outcome> run(TableReader& reader, const Work& work);

/// What makes two slices belong together.
struct SliceHead {
  std::string list_name;
  std::string list;      ///< checksum of the list
  std::string mapping;   ///< YAML
  bool elastic = false;  ///< proved with discs that bend
  std::string range;     ///< checksum of the range, empty for the demo range
  std::string version;   ///< of the program
  Slice slice;
};

/// JSON, one record a line, with a head and an end. Errors: not writable.
[[nodiscard]] Errors write_slice(const std::string& file, const SliceHead& head, Outcome& outcome);
/// Puts slices together. Errors: not a slice, slices of different lists, mappings, ranges or versions, one twice, one
/// missing, one that was broken off.
[[nodiscard]] Result<std::pair<SliceHead, Outcome>> join(const std::vector<std::string>& files);

/// `checksum` of a file: that of its blocks of 64 KiB, one after the other. Errors: not readable.
[[nodiscard]] Result<std::string> checksum_of_file(const std::string& file);

}  // namespace lobewise::survey
