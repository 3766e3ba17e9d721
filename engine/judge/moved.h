#pragma once
// What moved between two proofs of one enquiry: one that was kept, of whatever version, and one of today.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise::judge {

/// A check as it was kept, SI.
struct KeptCheck {
  std::string name;
  double figure = 0, limit = 0, margin = 0;
  Quantity quantity = Quantity::number;
};
/// A finding by its id, the word of its verdict, and its checks.
struct KeptFinding {
  std::string id, verdict;
  std::vector<KeptCheck> checks = {};
};

/// A verdict that reads otherwise; empty on the side that did not have the finding.
struct Turned {
  std::string finding, before, after;
};
/// A check that one side lacks, or that moved: figure, limit or margin by more than kMoved of it.
struct MovedCheck {
  std::string finding;
  std::optional<KeptCheck> before, after;
};
struct Moved {
  std::vector<Turned> turned;
  std::vector<MovedCheck> checks;  ///< those of findings that turned first, then by how far the margin moved
  [[nodiscard]] bool empty() const { return turned.empty() && checks.empty(); }
};

/// Share below which figures are the same: they come out of iterations that stop at 1e-9 and are shown to four digits.
inline constexpr double kMoved = 1e-6;

[[nodiscard]] Moved moved(const std::vector<KeptFinding>& before, const std::vector<KeptFinding>& after);

}  // namespace lobewise::judge
