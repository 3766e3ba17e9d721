#pragma once
// Coefficients of friction at rollers and sleeves. Theory and honest limits: docs/theory/losses.md. SI.
#include <algorithm>

#include "engine/losses/coefficients.h"

namespace lobewise::losses {

/// Hersey number of a sleeve on its pin: H = eta (w_rel / 2 pi) / p [-].
/// @param dynamic_viscosity  eta [Pa s] >= 0
/// @param relative_speed     w_rel: sleeve against pin [rad/s] >= 0
/// @param pressure           p = F/(2 r_b l) [Pa] > 0
[[nodiscard]] double hersey_number(double dynamic_viscosity, double relative_speed, double pressure);

/// Values of the coefficients as used in one evaluation (nominal, or a sample of the ranges).
struct SleeveCurve {
  double boundary = kSleeveFriction.boundary.nominal;
  double film = kSleeveFriction.film.nominal;
  double half = kSleeveFriction.half.nominal;
};
/// mu = mu_film + (mu_boundary - mu_film)/(1 + H/H_half). Precondition H >= 0. Source: common practice, no source.
[[nodiscard]] inline double sleeve_friction(double hersey, const SleeveCurve& curve = {}) {
  return curve.film + (curve.boundary - curve.film) / (1 + hersey / curve.half);
}

struct MixedCurve {
  double boundary = kMixedFriction.boundary.nominal;
  double film = kMixedFriction.film.nominal;
  double half = kMixedFriction.half.nominal;
};
/// Share of the load that the asperities carry: 1/(1 + Lambda/Lambda_half). Precondition Lambda >= 0.
/// Source: form as for the sleeve, common practice, no source (docs/decisions).
[[nodiscard]] double asperity_share(double lambda_ratio, const MixedCurve& curve = {});
/// mu = mu_film + (mu_boundary - mu_film) * asperity share.
[[nodiscard]] double mixed_friction(double lambda_ratio, const MixedCurve& curve = {});

/// Effective coefficient of a roller that may turn on its pin: min(mu_outer, mu_inner r_b/r). It slides where the
/// smaller moment lets it. Source: derived, docs/theory/losses.md.
/// @param inner_over_outer  r_b/r: bore radius over outer radius, in (0, 1)
[[nodiscard]] inline double roller_side_factor(double mu_outer, double mu_inner, double inner_over_outer) {
  return std::min(mu_outer, mu_inner * inner_over_outer);
}

}  // namespace lobewise::losses
