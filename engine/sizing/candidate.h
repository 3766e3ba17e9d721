#pragma once
// One build against one enquiry: what is obvious, what every check says, and which of two is preferred.

#include <optional>
#include <string>
#include <vector>

#include "engine/evidence/prove.h"

namespace lobewise::sizing {

/// The check that decides (evidence::worst).
struct Deciding {
  double margin = 0;
  evidence::Basis basis = evidence::Basis::promise;
};

struct Margin {
  std::string id;  ///< of the finding
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  std::optional<Deciding> deciding;  ///< of all checks, as the finding shows it
  std::optional<Deciding> of_build;  ///< of those that another build could mend (Check::of_order): what it is chosen by
  bool estimate = false;             ///< the mesh enters it, and the discs were taken as rigid
};

/// A promise that a build breaks.
struct Failure {
  const evidence::Question* question = nullptr;
  evidence::Check check;
};

struct Candidate {
  drive::Build build;
  int poles = 4;           ///< of the motor it would get
  double motor_price = 0;  ///< counted beside that of the build; 0 for a motor that stands [money]
  double motor_mass = 0;   ///< [kg]
  double ratio_error = 0;  ///< speed off the speed asked for, with sign
  std::vector<Margin> margins;
  evidence::Verdict verdict = evidence::Verdict::cannot_be_judged;
  std::optional<Failure> failure;  ///< the promise that it breaks by the largest part of its limit
  bool bending = false;            ///< looked at with discs that bend; otherwise rigid
  Text fell_out;                   ///< why it was not looked at closer; empty when it was
  bool off_speed = false;          ///< fell out by its speed alone
  Text why;                        ///< why it was chosen, or why another one was

  [[nodiscard]] double price() const { return build.price() + motor_price; }  ///< with its motor [money]
  [[nodiscard]] double mass() const { return build.mass() + motor_mass; }     ///< with its motor [kg]
  /// Looked at, and no promise is broken.
  [[nodiscard]] bool serves() const {
    return verdict == evidence::Verdict::holds || verdict == evidence::Verdict::holds_if;
  }
};

/// Whether a build serves: no finding says that it does not hold. What was only assumed and the yardsticks of the trade
/// refuse nothing.
[[nodiscard]] bool serves(const std::vector<evidence::QuickFinding>& findings);

/// What is obvious, without a mesh table.
/// @param price_of_mass  sizing::price_of_mass of the range
[[nodiscard]] Candidate glance(const enquiry::Requirement& requirement, drive::Build build, double price_of_mass);

/// Every check of a candidate. Errors of `drive::assemble` go to `fell_out`.
void look(const enquiry::Requirement& requirement, const drive::TableSource& tables, Candidate& candidate);

/// What a build breaks, `life: modified life of the outside output bearing 12000 h, needed are 25000 h`; empty when it
/// breaks no promise.
[[nodiscard]] Text why_not(const Candidate& candidate);

/// Of two that serve: the one that costs less with its motor, then the lighter one.
[[nodiscard]] bool preferred(const Candidate& a, const Candidate& b);

/// Margin of the promise that is nearest to its limit or furthest beyond it; large where none is.
[[nodiscard]] double worst_promise(const Candidate& candidate);

/// How far a candidate is from serving: the shortfalls of its findings added up, each at most a whole limit, so that
/// one that has run into its end leaves the others to tell which is nearer; 0 when no promise is broken.
[[nodiscard]] double shortfall(const Candidate& candidate);

/// Best first: those that serve, then the others by how little they fall short (of two alike the dearer one, which is
/// the larger), then those that fell out, the nearest speed first.
[[nodiscard]] bool before(const Candidate& a, const Candidate& b);

}  // namespace lobewise::sizing
