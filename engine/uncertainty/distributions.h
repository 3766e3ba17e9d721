#pragma once
// Distribution functions and their inverses; the standard library has none and samplers of its own in every copy.

namespace lobewise::uncertainty {

/// Regularised incomplete beta function I_x(a, b), a, b > 0, 0 <= x <= 1. Continued fraction (DLMF 8.17.22, from
/// memory), relative error some 1e-13.
[[nodiscard]] double incomplete_beta(double a, double b, double x);
/// x at which I_x(a, b) = share, 0 <= share <= 1.
[[nodiscard]] double beta_quantile(double a, double b, double share);

/// Normal deviate below which a share 0 < p < 1 lies.
[[nodiscard]] double normal_quantile(double p);

/// Share of Student's t with nu > 0 degrees of freedom below t, and its inverse for 0 < p < 1.
[[nodiscard]] double student_share(double t, double degrees);
[[nodiscard]] double student_quantile(double p, double degrees);

/// What is known of one input (JCGM 101:2008, 6.4).
struct Distribution {
  enum class Kind { normal, rectangular, student };
  Kind kind = Kind::normal;
  double mean = 0, deviation = 1;  ///< of a normal; of a Student the shift and the scale s / sqrt(n)
  double low = 0, high = 1;        ///< of a rectangular
  double degrees = 0;              ///< of freedom of a Student
};
/// Value below which a share 0 < p < 1 lies.
[[nodiscard]] double value_at(const Distribution& distribution, double p);
/// Best estimate and standard uncertainty that the propagation of JCGM 100 takes: of a Student its scale.
[[nodiscard]] double estimate(const Distribution& distribution);
[[nodiscard]] double standard_uncertainty(const Distribution& distribution);

}  // namespace lobewise::uncertainty
