#pragma once
// Every coefficient of the life models with its range and where it comes from. Theory: docs/theory/life.md.
#include "engine/base/working.h"

namespace lobewise::strength {

/// Exponent p of L10 = (C/P)^p. ISO 281 (from memory; 10/3 also in public source code).
inline constexpr double kRollerExponent = 10.0 / 3.0;
inline constexpr double kBallExponent = 3.0;

/// Factor on the basic dynamic rating C by the formula: a maker's own bearing may differ. Common practice, no source.
inline constexpr Coefficient kBearingCapacity{1.0, 0.9, 1.1, "common practice, no source"};
/// b_m of ISO 281 for cylindrical and machined needle roller bearings (from memory).
inline constexpr double kRollerMaterialFactor = 1.1;
/// lambda nu: reduction of the roller rating for edge stress and centre of load. Public source code on roller bearing
/// life.
inline constexpr double kRollerReduction = 0.83;
/// B1 of the line-contact rating in N and mm. Public source code on roller bearing life (551.13373).
inline constexpr double kLineCapacityConstant = 551.13373;
/// Material factor m of a line contact: 1.1 with modelled crowning, 1.1 * 0.83 without (ISO 281 practice), 0.6 when the
/// edges are untreated. Common practice, no source.
inline constexpr Coefficient kLineFactor{1.1 * 0.83, 0.6, 1.1, "common practice, no source"};

/// Weibull slopes: line contacts 9/8, point contacts 10/9 (Lundberg and Palmgren, from memory).
inline constexpr double kWeibullLine = 9.0 / 8.0;
inline constexpr double kWeibullPoint = 10.0 / 9.0;
/// Slope and least life of the modified life of a rolling bearing: the distribution behind a_1, in which every bearing
/// reaches 0.05 of the life that 90 % reach. ISO 281:2007 and ISO/TR 1281-2 (from memory).
inline constexpr double kWeibullModified = 1.5;
inline constexpr double kLeastLifeModified = 0.05;

/// Largest contact pressure of a roller contact at its static rating [Pa]: 4000 MPa, ISO 76 (read in a public preview).
inline constexpr double kStaticPressure = 4.0e9;
/// Contact pressure below which no subsurface fatigue is expected in clean oil [Pa]: 1500 MPa, behind ISO 281's C_u.
inline constexpr double kFatigueLimitPressure = 1.5e9;
/// C_0 / C_u of a roller bearing. Public source code on roller bearing life.
inline constexpr double kStaticOverFatigueLimit = 8.2;

/// Static safety asked for. Common practice, no source.
inline constexpr double kStaticSafetyNormal = 1.5;

/// Factor a_ISO: never above 50 (ISO 281); 0.1 is our pessimistic bound where the model gives none.
inline constexpr double kLifeFactorMax = 50;
inline constexpr double kLifeFactorBound = 0.1;
/// Viscosity ratios between which a_ISO exists. ISO 281 (public source code).
inline constexpr double kKappaMin = 0.1;
inline constexpr double kKappaMax = 4;
/// P / C above which the rating life is out of the scope of ISO 281 (from memory): warn.
inline constexpr double kLoadRatioMax = 0.5;

/// Contamination e_C when nobody tells. Common practice, no source: wear of the reducer's own sleeves circulates.
inline constexpr Coefficient kContaminationSealed{0.5, 0.1, 0.8,
                                                  "sealed grease or filtered oil; common practice, no source"};
inline constexpr Coefficient kContaminationSplash{0.2, 0.1, 0.5, "splash without filter; common practice, no source"};
/// The same where the place is washed down or dusty: half, because water and grit work through the seals. Common
/// practice, no source.
inline constexpr Coefficient kContaminationSealedWet{0.25, 0.05, 0.5,
                                                     "sealed grease, washed down or dusty; common practice, no source"};
inline constexpr Coefficient kContaminationSplashWet{
    0.1, 0.03, 0.3, "splash without filter, washed down or dusty; common practice, no source"};

}  // namespace lobewise::strength
