#pragma once
// Every build of a range against one enquiry: which serve, which is best, and why the others fell out.

#include <vector>

#include "engine/sizing/candidate.h"

namespace lobewise::sizing {

/// Where mesh tables come from.
struct Sources {
  drive::TableSource tables;   ///< for looking at many builds, usually rigid discs; keep them to prove one at once
  drive::TableSource bending;  ///< may be empty: discs that bend, dear; tried before a build is refused
};

struct Sizing {
  std::vector<Candidate> candidates;  ///< best first, then those that fell out
  int chosen = -1;                    ///< index of the best that serves, -1: none
  Text why_none;
  /// When the speed is what stands in the way: of the builds that serve otherwise the nearest slower and faster one.
  std::vector<Candidate> nearest;
};

/// Whether discs that bend may carry what rigid ones refuse: they take 5 to 13 % off the loads, so only what fails by
/// little.
/// @param candidate  looked at with rigid discs
[[nodiscard]] bool mendable(const Candidate& candidate);

/// Looks at every build: first whether its ratio can give the speed and whether it can carry the torque at all, then
/// every check at nominal values. Best: serves, then the lower price with its motor, then the lower mass. What rigid
/// discs refuse by little is looked at with discs that bend where it would be preferred, three builds at most. When
/// none serves and the tolerance of the speed was only assumed, the build that serves and comes nearest to the speed is
/// taken. The range must outlive the result.
[[nodiscard]] Sizing size(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources);

/// The candidates of `size`, in its order, without looking at more builds than somebody asks for: builds are looked at
/// in the order in which they would be preferred, and the first that serves is the best. What is passed in must outlive
/// it.
class Search {
 public:
  Search(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources);
  /// The next one that did not fall out, or null; valid until the next call. It says whether it serves.
  [[nodiscard]] const Candidate* next();
  /// Why no build serves; empty while one did.
  [[nodiscard]] const Text& why_none() const { return why_none_; }

 private:
  void finish();
  /// The next one that serves with the ordinary tables, in `current_`, or null.
  [[nodiscard]] const Candidate* serving();

  const enquiry::Requirement& requirement_;
  const range::Range& range_;
  const Sources& sources_;
  std::vector<Candidate> waiting_;  ///< not looked at, preferred ones first
  std::size_t looked_ = 0;
  std::vector<Candidate> off_speed_;  ///< fell out by their speed alone
  std::vector<Candidate> failed_;     ///< looked at, do not serve; best first once all were looked at
  std::size_t handed_ = 0;
  Candidate current_;
  std::optional<Candidate> after_mended_;  ///< serves with rigid discs and costs more than one that bends
  bool served_ = false, finished_ = false;
  Text why_none_;
};

}  // namespace lobewise::sizing
