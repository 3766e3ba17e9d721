#pragma once
// The service factor a customer asks for, as a demand on strength.

#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"

namespace lobewise::evidence {

/// The tightest margin of contact, life and overhung load when torque and pull on the shaft are `factor` times those of
/// the machine, with the oil at its temperature or its limit: heat is set apart, since a service factor is one on
/// strength. Zero and above: the factor is carried.
[[nodiscard]] double margin_at_factor(const drive::Drive& drive, const drive::Coefficients& c, double factor,
                                      double oil_temperature);

/// How the torque that strength carries is looked for: by halving up to so many times the working torque, in so many
/// steps.
struct StrengthSearch {
  double most = 16;
  double steps = 1 << 20;
  int halvings = 20;
};
inline constexpr StrengthSearch kStrengthSearch{};

}  // namespace lobewise::evidence
