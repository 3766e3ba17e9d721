#pragma once
// Rating and life of rolling bearings. Theory, validity and sources: docs/theory/life.md.
// SI: forces N, lengths m, speeds rad/s; life in revolutions or hours as named. Speeds are relative speeds of the
// rings.
#include <span>

#include "engine/base/result.h"
#include "engine/strength/coefficients.h"

namespace lobewise::strength {

/// L10 = 1e6 (C/P)^p revolutions. Infinite at P = 0.
/// @param C rating > 0, @param P equivalent load >= 0, @param exponent p: 10/3 rollers, 3 balls
/// Source: ISO 281 (from memory); tests/reference/strength against published examples.
[[nodiscard]] double basic_life(double C, double P, double exponent = kRollerExponent);

/// Hours that `revolutions` last at `speed` [rad/s] > 0: revolutions / (speed / 2 pi) / 3600.
[[nodiscard]] double life_hours(double revolutions, double speed);

/// Equivalent load of a cyclic force: (sum w F^p / sum w)^(1/p). Weights = revolutions under each force; empty = equal.
/// Preconditions: forces >= 0 and not empty; weights empty or as many, >= 0, not all zero.
/// Source: ISO 281 load-life relation; a force that turns with the crank is stationary to one ring, P does not care.
[[nodiscard]] double equivalent_load(std::span<const double> forces, std::span<const double> weights = {},
                                     double exponent = kRollerExponent);

struct DutyEquivalent {
  double load = 0;        ///< P = (sum q n P^p / sum q n)^(1/p) [N]
  double mean_speed = 0;  ///< sum q n [rad/s]
};
/// One load and speed that stand for a duty in the basic life; for display only, exact only if the life factor is the
/// same in every block (then use `spectrum_life`). Preconditions: equal sizes, loads and speeds >= 0, sum q n > 0.
/// Source: common practice, no source.
[[nodiscard]] DutyEquivalent duty_equivalent(std::span<const double> loads, std::span<const double> speeds,
                                             std::span<const double> time_shares, double exponent = kRollerExponent);

/// Life of a duty from the life of each block, Palmgren-Miner: 1 / sum(q_i / L_i). Preconditions: equal sizes, L_i > 0.
[[nodiscard]] double spectrum_life(std::span<const double> time_shares, std::span<const double> lives);

/// f_c of a radial roller bearing [N, mm]: 207.9 l_nu g^(2/9) (1-g)^(29/27) / (1+g)^(1/4)
/// {1 + [1.04 ((1-g)/(1+g))^(143/108)]^(9/2)}^(-2/9), g = D cos a / D_pw in (0, 0.5).
/// Source: ISO 281 (207.9 from memory); reproduces the table of the standard (from memory) within 0.05.
[[nodiscard]] double roller_fc(double roller_diameter, double pitch_diameter, double contact_angle = 0);

/// A radial roller bearing as counted parts.
struct RollerBearingGeometry {
  int rows = 1;                             ///< i
  int rollers = 0;                          ///< Z in a row
  double roller_diameter = 0;               ///< D [m]
  double roller_length = 0;                 ///< L: effective length, roller length minus chamfers [m]
  double pitch_diameter = 0;                ///< D_pw [m]
  double contact_angle = 0;                 ///< alpha [rad]
  double material = kRollerMaterialFactor;  ///< b_m: 1.1 cylindrical or machined needle, 1.0 drawn cup, 1.15 spherical
};
struct BearingRating {
  double C = 0;    ///< basic dynamic rating [N]
  double C_0 = 0;  ///< basic static rating [N]
  double C_u = 0;  ///< fatigue limit load [N]
};
/// mm, N: C = b_m f_c (i L cos a)^(7/9) Z^(3/4) D^(29/27), C_0 = 44 (1-g) i Z L D cos a, C_u = C_0/8.2, times
/// (100/D_pw)^0.3 above D_pw = 100 mm. Sources: ISO 281 and ISO 76 (from memory), C_u public source code.
/// A full-complement bearing needs no other formula, only its larger Z (`full_complement_count`).
[[nodiscard]] BearingRating roller_rating(const RollerBearingGeometry& bearing);

/// Rollers that fit a row without a cage, leaving at least 0.5 % of the circumference free.
/// Preconditions: 0 < D < D_pw/2. Source of the gap: common practice, no source.
[[nodiscard]] int full_complement_count(double roller_diameter, double pitch_diameter);

/// a_1 for reliability S in (0, 1): 0.95 (ln(1/S)/ln(1/0.9))^(2/3) + 0.05; a_1(0.9) = 1.
/// Source: public source code; within 0.005 of the table of ISO 281:2007 (from memory) between 0.9 and 0.9995.
[[nodiscard]] double reliability_factor(double reliability);

/// Modification factor a_ISO of a radial roller bearing:
/// 0.1 [1 - (1.5859 - c/kappa^x) (e_C C_u/P)^0.4]^-9.185, (c, x) = (1.3993, 0.054381) below kappa 0.4,
/// (1.2348, 0.19087) below 1, (1.2348, 0.071739) up to 4; at most 50; kappa above 4 counts as 4.
/// @param kappa        viscosity ratio
/// @param limit_ratio  e_C C_u / P >= 0
/// Error (model): kappa < 0.1, where the standard gives no factor. Source: ISO 281:2007 eq. 34-36 as quoted in public
/// code.
[[nodiscard]] Result<double> life_factor_roller(double kappa, double limit_ratio);

enum class RollingElement { roller, ball };

/// The factor as the spectrum needs it: where the model gives none (kappa < 0.1) the bound 0.1 and the flag stand.
/// Radial roller bearings: as `life_factor_roller`. Radial ball bearings: 0.1 [1 - (2.5671 - c/kappa^x)^0.83
/// (e_C C_u/P)^(1/3)]^-9.3 with (2.2649, 0.054381), (1.9987, 0.19087), (1.9987, 0.071739); source: ISO 281:2007 eq.
/// 31-33, coefficients quoted in public code, exponents from memory.
struct LifeFactor {
  double value = 0;
  bool outside_model = false;  ///< wear decides there, not fatigue
};
[[nodiscard]] LifeFactor life_factor(RollingElement element, double kappa, double limit_ratio);

/// What a bearing is to the life model.
struct RollingBearing {
  RollingElement element = RollingElement::roller;
  BearingRating rating;
  double pitch_diameter = 0;  ///< D_pw [m]
};
struct LifeConditions {
  double kappa = 0;
  double contamination = kContaminationSealed.nominal;  ///< e_C in (0, 1]
  double reliability = 0.9;                             ///< S
};
struct BearingLife {
  double basic_hours = 0;     ///< L10h
  double modified_hours = 0;  ///< a_1 a_ISO L10h
  LifeFactor factor;
  bool overloaded = false;  ///< P > 0.5 C: outside the scope of the rating life
};
/// Life of one bearing under one load. Infinite at P = 0. Preconditions: P >= 0, speed > 0, ratings > 0.
[[nodiscard]] BearingLife bearing_life(const RollingBearing& bearing, double P, double speed,
                                       const LifeConditions& conditions);

}  // namespace lobewise::strength
