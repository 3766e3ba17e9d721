#pragma once
// Every build of a range against one enquiry: which serve, which is best, and why the others fell out.

#include <string>
#include <vector>

#include "engine/evidence/prove.h"

namespace lobewise::sizing {

struct Margin {
  std::string id;  ///< of the finding
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  std::optional<double> margin;  ///< the worst check's
};

struct Candidate {
  drive::Build build;
  int poles = 4;           ///< of the motor it would get
  double ratio_error = 0;  ///< speed off the speed asked for, with sign
  std::vector<Margin> margins;
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  Text fell_out;  ///< why it was not looked at closer; empty when it was
};

struct Sizing {
  std::vector<Candidate> candidates;  ///< best first, then those that fell out
  int chosen = -1;                    ///< index of the best that serves, -1: none
  Text why_none;
};

/// Whether a build serves: no finding fails, apart from `sharing` and `efficiency`, which are measured against rules of
/// the trade and not against strength.
[[nodiscard]] bool serves(const std::vector<evidence::QuickFinding>& findings);

/// Looks at every build: first whether its ratio can give the speed and whether it can carry the torque at all, then
/// every check at nominal values. Best: serves, then a four-pole motor before
/// others (they are larger and dearer for the same power; prices here are without motor), then the lower price. The
/// range must outlive the result.
/// @param tables  where mesh tables come from; keep them to prove the chosen build at once
[[nodiscard]] Sizing size(const enquiry::Requirement& requirement, const range::Range& range,
                          const drive::TableSource& tables);

/// The candidates of `size`, in its order, without looking at more builds than somebody asks for: builds are looked at
/// in the order in which they would be preferred, and the first that serves is the best. What is passed in must outlive
/// it.
class Search {
 public:
  /// @param rough  null, or tables that are cheaper and less exact: a build that fails with them by more than half of a
  ///               limit is not looked at closer, and when none serves only the closest one is found
  Search(const enquiry::Requirement& requirement, const range::Range& range, const drive::TableSource& tables,
         const drive::TableSource* rough = nullptr);
  /// The next one that did not fall out, or null; valid until the next call. Its verdict says whether it serves.
  [[nodiscard]] const Candidate* next();
  /// Why no build serves; empty while one did.
  [[nodiscard]] const Text& why_none() const { return why_none_; }

 private:
  [[nodiscard]] bool far_too_small(Candidate& candidate) const;
  void look_at_closest();

  const enquiry::Requirement& requirement_;
  const drive::TableSource& tables_;
  const drive::TableSource* rough_;
  std::vector<Candidate> waiting_;  ///< not looked at, preferred ones first
  std::size_t looked_ = 0;
  std::vector<Candidate> rejected_;     ///< by rough tables
  std::optional<Candidate> off_speed_;  ///< the nearest with the wrong ratio
  std::vector<Candidate> failed_;       ///< looked at, do not serve; best first once all were looked at
  std::size_t handed_ = 0;
  Candidate current_;
  bool served_ = false;
  Text why_none_;
};

}  // namespace lobewise::sizing
