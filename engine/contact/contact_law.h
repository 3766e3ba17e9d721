#pragma once
// How far a roller and its partner come closer under a force: the law of one line contact and its inverse.
// Derivation and checks: docs/theory/mesh.md.
#include <cmath>
#include <string_view>

#include "engine/contact/hertz.h"

namespace lobewise::contact {

enum class LawKind {
  palmgren,  ///< delta = m 3.84e-5 F^0.9 / L^0.8 + c F (mm, N; steel only, ignores curvature)
  log,       ///< delta = m q/pi (1-nu^2)/E [2 ln(2h/a) - nu/(1-nu) + 2 ln(4 r_b/a) - 1] + c F
  linear,    ///< delta = F / k
};

/// One family of contacts (all ring contacts, or all pin contacts) of a stage.
struct LawSettings {
  LawKind kind = LawKind::log;
  double multiplier = 1;          ///< m > 0: softer body or two contacts in series
  double extra_compliance = 0;    ///< c >= 0: anything linear in series with the contact [m/N]
  double depth = 0.014;           ///< h > 0: depth in the disc to which the approach is counted [m]
  double linear_stiffness = 1e9;  ///< k > 0 of the linear law [N/m]
};

struct ContactForce {
  double force = 0;      ///< F [N]
  double stiffness = 0;  ///< dF/d delta [N/m]
};

/// The law with everything folded in that stays constant in a stage; the inverse is free of iterations that could fail.
class ContactLaw {
 public:
  /// @param length         contact length L [m]
  /// @param roller_radius  r_b of the log law: ring roller or output sleeve [m]
  /// Precondition: positive settings, lengths and modulus.
  ContactLaw(const LawSettings& settings, const Elastic& material, double length, double roller_radius);

  /// Approach under F >= 0 with effective radius rho [m].
  [[nodiscard]] double approach(double force, double radius) const;
  /// Force and stiffness at approach delta > 0: inverse of `approach`. Beyond `limit_force` the log law goes on
  /// straight, so that a solver on its way stays finite; a solution out there is outside the model.
  [[nodiscard]] ContactForce force(double delta, double radius) const;
  /// Largest force for which the law holds: log law: where the half width grows so large that d delta/dF has fallen to
  /// half of the bracket's unit step (a comparable to the roller itself); unlimited for the others [N].
  [[nodiscard]] double limit_force(double radius) const;
  /// The log law as delta = F (local - logarithmic ln(F/N)) [m/N].
  [[nodiscard]] double local(double radius) const {
    return 2 * unit_ * (1 + log_scale_ - std::log(2 * unit_ * radius));
  }
  [[nodiscard]] double logarithmic() const { return 2 * unit_; }

 private:
  [[nodiscard]] ContactForce log_force(double delta, double radius) const;
  [[nodiscard]] ContactForce palmgren_force(double delta) const;

  LawKind kind_;
  double linear_;     ///< c, or 1/k of the linear law [m/N]
  double palmgren_;   ///< B of delta = B F^0.9
  double unit_;       ///< A of the log law: m (1-nu^2) / (pi E L) [m/N]
  double log_scale_;  ///< ln(2 A F* rho), F* = force at which d delta/dF of the log law is zero
};

/// Name in files: `palmgren`, `log`, `linear`.
[[nodiscard]] std::string_view law_name(LawKind kind);

}  // namespace lobewise::contact
