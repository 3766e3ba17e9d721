#pragma once
// The local approach of a contact down to the depth where the disc's body takes over.
#include <cmath>

#include "engine/contact/elastic_disc.h"

namespace lobewise::contact::elastic {

/// Local approach of one contact, delta = F (p - w ln F) with F in newton: every log law is of this form because the
/// half width grows with the root of the force. Everything that is linear in F is folded into p.
struct LocalLaw {
  double p = 0, w = 0;
  [[nodiscard]] double approach(double force) const { return force * (p - w * std::log(force)); }
  [[nodiscard]] double slope(double force) const { return p - w * (std::log(force) + 1); }
  /// Integral of the approach from 0 to F.
  [[nodiscard]] double energy(double force) const {
    return force * force * (0.5 * p - w * (0.5 * std::log(force) - 0.25));
  }
};

/// Laws of a stage. With q = F/b, cc = (1 - nu^2)/(pi E), nus = nu/(1 - nu), always in plane strain:
///   body down to the depth h: q cc (2 ln(2h/a) - nus); free sleeve, surface to middle: q cc (2 ln(4r/a) - 1).
class LocalLaws {
 public:
  LocalLaws(const ElasticModel& model, double depth)
      : unit_((1 - model.material.poisson * model.material.poisson) /
              (kPi * model.material.modulus * model.stage.width)),
        poisson_(model.material.poisson / (1 - model.material.poisson)),
        force_(kPi * contact_modulus(model.material, model.material) * model.stage.width),
        depth_(depth) {}
  [[nodiscard]] LocalLaw body(double rho) const {
    return {unit_ * (std::log(depth_ * depth_ * force_ / rho) - poisson_), unit_};
  }
  [[nodiscard]] LocalLaw sleeve(double rho, double radius) const {
    return {unit_ * (std::log(4 * radius * radius * force_ / rho) - 1), unit_};
  }

 private:
  double unit_, poisson_, force_, depth_;
};
[[nodiscard]] inline LocalLaw operator+(LocalLaw a, LocalLaw b) { return {a.p + b.p, a.w + b.w}; }

}  // namespace lobewise::contact::elastic
