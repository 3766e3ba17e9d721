#pragma once
// The rules behind the demo range and what its generator shares. Not for use outside the generator.
#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::range::demo {

// R: radius of the roller pitch circle. Shares without a source are our own choice, the reason stands beside them.

/// Pitch circle diameters [mm]: every third number of R 40 (ISO 3, from memory), so that torque, which grows about with
/// the 2.85th power of size, grows by two thirds from frame to frame.
inline constexpr std::array<int, 12> kRingDiameters{80, 95, 112, 132, 160, 190, 224, 265, 315, 375, 450, 530};
/// The odd number nearest to a term of a series; of two that are equally near the lower one.
constexpr int nearest_odd(double term) {
  const int below = 2 * static_cast<int>((term - 1) / 2) + 1;
  return term - below > 1 ? below + 2 : below;
}
/// Series R 20 of ISO 3 from 7.1 to 90, which the ratios of a stage follow (from memory).
inline constexpr std::array<double, 23> kRatioTerms{7.1, 8,    9,    10, 11.2, 12.5, 14, 16, 18, 20, 22.4, 25,
                                                    28,  31.5, 35.5, 40, 45,   50,   56, 63, 71, 80, 90};
/// Lobes: the odd number nearest to each term. Odd, so that with an even number M of output pins both discs are the
/// same part (M a multiple of 2 gcd(N, M)). The price: both mesh in the same phase, their ripples add
/// (docs/theory/mesh.md). Where odd numbers lie further apart than terms, one serves two of them.
inline constexpr std::array<int, 20> kLobes = [] {
  std::array<int, 20> lobes{};
  std::size_t count = 0;
  for (const double term : kRatioTerms)
    if (count == 0 || lobes[count - 1] != nearest_odd(term)) lobes[count++] = nearest_odd(term);
  return lobes;
}();
static_assert(kLobes.back() == 89, "every place is filled");
/// First stages of two-stage units: few, so that few have to be kept. 9, and two and a half and five times as many.
inline constexpr std::array<int, 3> kFirstLobes{9, 23, 45};
/// Totals that two-stage units come near to: R 20 from 100 to 4000, and how near: half a step of the series.
inline constexpr std::array<double, 33> kTotalTerms{100,  112,  125,  140,  160,  180,  200,  224,  250,  280,  315,
                                                    355,  400,  450,  500,  560,  630,  710,  800,  900,  1000, 1120,
                                                    1250, 1400, 1600, 1800, 2000, 2240, 2500, 2800, 3150, 3550, 4000};
inline constexpr double kTotalOff = 0.06;
/// A frame leaves out ratios below these sizes: tolerances of some micrometres would be too large a part of the lobe.
inline constexpr double kLeastEccentricity = 0.5e-3;
inline constexpr double kLeastRollerRadius = 1.5e-3;

/// K = min(0.70, 0.47 + 0.01 Z): a larger shortening lowers every force, but wants holes larger by the eccentricity
/// K R / Z, which is large where Z is small; above 0.70 the lobes come close to undercut.
inline double shortening(int rollers) { return std::min(0.70, 0.47 + 0.01 * rollers); }
/// Ring rollers take at most 0.62 of the room to their neighbours (the ring needs walls between its seats), and at most
/// 0.11 R so that the disc keeps its rim. This stays below 0.6 of the undercut limit.
inline constexpr double kRollerRoom = 0.62;
inline constexpr double kRollerMost = 0.11;

/// Walls of the disc: rim outside the holes, between holes, between hole and bore. They bend least where they are
/// short.
inline constexpr double kRimWall = 0.05, kHoleWall = 0.03, kBoreWall = 0.04;
/// Frames carry two flanges. Low ratios need wide holes and leave less bore; the bore is as wide as output pins of
/// about equal margin allow.
struct FlangeRule {
  int largest_eccentricity_at;  ///< lobes of the ratio that decides the holes
  double bore;                  ///< radius over R
  double bearing_roller;        ///< diameter over R
};
inline constexpr FlangeRule kLowRatios{7, 0.36, 0.10};
inline constexpr FlangeRule kOtherRatios{17, 0.44, 0.11};

/// Clearances a + R/b. The profile is cut with a smaller roller and a smaller pitch radius, so that the flanks, which
/// carry, stay nearly closed while tips and roots, which only need room for oil and tolerances, stand open: the gap of
/// dr < 0 and dR < 0 is dr + |dR| sqrt(1 - K^2) at its narrowest and dr + |dR| at tip and root (docs/theory/mesh.md).
struct ClearanceRule {
  double least;       ///< a [m]
  double per_radius;  ///< 1/b
};
inline constexpr ClearanceRule kFlankGap{1e-6, 1 / 160e3}, kTipGap{4e-6, 1 / 40e3}, kHoleGap{5e-6, 1 / 20e3};
/// These gaps are left when the disc is this much warmer than its ring [K]: the pitch radius of the cut is smaller by
/// what the disc then has grown more. A warm-up with full load from -10 degC reaches about 19 K.
inline constexpr double kCutForWarmerDisc = 23;

/// How exactly the parts are made: zones of each part's own and of all of a unit together, the larger ones growing with
/// the ring. Rollers are sorted, profiles ground.
inline constexpr ClearanceRule kPitchRadius{3e-6, 1 / 40e3}, kRollerPlace{4e-6, 1 / 20e3}, kPinPlace{6e-6, 1 / 20e3};
inline constexpr double kRollerRadius = 2e-6, kRollerRadiusBatch = 2e-6, kProfileForm = 4e-6, kProfileBatch = 3e-6,
                        kHoleRadius = 6e-6, kHoleRadiusBatch = 4e-6, kPinRadius = 3e-6, kPinRadiusBatch = 2e-6;

/// Disc width, bearing roller length over disc width, web of the ring between the discs over disc width.
inline constexpr double kDiscWidth = 0.17, kBearingRollerLength = 0.9, kWeb = 0.25;
/// Shaft through the eccentric; it must stay inside the eccentric of the lowest ratio.
inline constexpr double kInputShaft = 0.32;
/// Room between discs and each input bearing, and the largest frame with input bearings of the light series. Bearings
/// grow less with size than the couple of the discs does.
inline constexpr double kInputRoom = 0.08;
inline constexpr int kLargestLightInput = 190;
/// Needles need a ring of 2 mm between pin and outside (needle 1 mm, wall 1 mm), plain sleeves 0.8 mm.
inline constexpr double kNeedleRing = 2.0e-3, kSleeveRing = 0.8e-3;
/// Pin over outside radius: ring rollers on needles and plain, output rollers on needles and plain.
inline constexpr double kNeedlePin = 0.55, kSleevePin = 0.65, kOutputNeedlePin = 0.65, kOutputSleevePin = 0.75;

/// Largest frame whose eccentric bearings are full complement: without a cage rollers rub on each other, and the speed
/// index must stay low. Larger ones lose an eighth of their rollers to the cage.
inline constexpr int kLargestFullComplement = 190;
inline constexpr double kCagedShare = 0.88;
/// Speed index n D_pw that rules the input speed [m rad/s]: 150 000 and 350 000 mm/min. Common practice, no source.
inline constexpr double kSpeedIndexFull = 150e3 * 2 * kPi / 60 * 1e-3, kSpeedIndexCaged = 350e3 * 2 * kPi / 60 * 1e-3;
inline constexpr double kFastestInput = 3600 * 2 * kPi / 60;

/// Duty that fixes the output shaft and the first stages: eccentric bearing life 10 000 h at 1450 1/min.
inline constexpr double kDesignHours = 10000, kDesignSpeed = 1450 * 2 * kPi / 60;
/// Torsion of the shaft end and pressure on the hub's keyway at that duty [Pa]: leave room for bending under an
/// overhung load, and for the larger torque that a frame carries when it turns more slowly.
inline constexpr double kShaftTorsion = 28e6, kKeyPressure = 80e6;
/// Quenched and tempered steel of the output shaft [Pa]; order of magnitude, from memory.
inline constexpr double kTensileStrength = 900e6, kYieldStrength = 650e6;
/// First stage of a two-stage unit: its design torque over what the second stage's design torque asks of it, because at
/// its low speed the second stage carries more; and the share that the second stage passes on.
inline constexpr double kFirstStageReserve = 1.3, kSecondStageEfficiency = 0.93;

inline constexpr double kSteel = 7850, kIron = 7200;  ///< [kg/m3], from memory

// ---- Small helpers ----

/// Nearest multiple of `step` micrometres, as the decimal number a drawing would print [m].
inline double rounded(double metres, int step) { return std::round(metres * 1e6 / step) * step / 1e6; }
inline double rounded_up(double metres, int step) { return std::ceil(metres * 1e6 / step - 1e-6) * step / 1e6; }
inline double mm(double millimetres) { return millimetres / 1e3; }
inline double square(double x) { return x * x; }
inline double disc_area(double radius) { return kPi * radius * radius; }

}  // namespace lobewise::range::demo
