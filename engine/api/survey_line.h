#pragma once
// One line of a plant's list: sized and proved like any enquiry, answered in short. For lists of thousands.

#include <memory>

#include "engine/api/json_io.h"

namespace lobewise::api {

/// Which mesh a line is proved with: discs that bend, as `prove` has them, or rigid ones, a quick look. The energy
/// beside a present drive is always that of discs that bend.
enum class LineMesh { rigid, elastic };

class TableShelf;

/// Proves line after line of a list against one range. Keeps mesh tables between lines; an answer does not depend on
/// what was asked before. Not shared between threads: one for each.
class LineProver {
 public:
  /// @param range  a range (SI), or null for the demo range. Errors: those of the range.
  /// @param shelf  may be shared by the provers of one list; null: its own
  [[nodiscard]] static Result<LineProver> open(const Json& range, LineMesh mesh,
                                               std::shared_ptr<TableShelf> shelf = nullptr);
  ~LineProver();
  LineProver(LineProver&&) noexcept;
  LineProver& operator=(LineProver&&) noexcept;

  /// The enquiry's `build` if it names one, else the cheapest that serves; shape: docs/api.md,
  /// `survey_line`. A line that no build serves is answered with the closest build, or with `why_none` alone. Errors:
  /// those of the enquiry.
  [[nodiscard]] Result<Json> prove(const Json& enquiry);

 private:
  struct State;
  explicit LineProver(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace lobewise::api
