#pragma once
// Units of one stage drawn as they may be made, and what their play is.

#include <array>
#include <cstdint>
#include <vector>

#include "engine/contact/part_offsets.h"
#include "engine/tolerance/manufacture.h"
#include "engine/uncertainty/sobol_sequence.h"

namespace lobewise::tolerance {

/// Where scatter comes from, in groups that one tolerance or setting can change.
enum class Source { pitch_circle, roller_place, roller_radius, profile, holes, pins, temperature };
inline constexpr std::size_t kSources = 7;
inline constexpr std::array<const char*, kSources> kSourceNames{
    "pitch circle", "place of each ring roller",   "ring roller radius", "profile of the discs", "output holes",
    "output pins",  "temperature of disc and ring"};
using Sources = std::array<bool, kSources>;

struct MadeUnit {
  contact::PartOffsets offsets;                ///< as cold as the drawing, without `flank`
  std::vector<std::vector<double>> lobe_form;  ///< by disc and lobe: how far its flank lies outward [m]
  double warmth = 0;                           ///< 0 cold … 1 settled and warm
};

/// Every width is six C_p standard deviations of a normal distribution (common practice, no source). What all parts of
/// a unit have in common and the temperature are scrambled Sobol' points; what each part has of its own is drawn from a
/// hash of its place, so that a unit depends on its seed and number alone.
class UnitSampler {
 public:
  UnitSampler(const mechanism::StageGeometry& stage, const Widths& widths, std::uint64_t seed);
  /// @param twin  sources that come from the unit's twin, an independent one of the same number: for sensitivities
  [[nodiscard]] MadeUnit unit(std::uint32_t number, const Sources& twin = {}) const;

 private:
  mechanism::StageGeometry stage_;
  Widths widths_;
  std::uint64_t seed_;
  uncertainty::SobolSequence points_;
};

/// `flank` of the offsets at a crank angle: which lobe stands before which roller.
void face_lobes(const mechanism::StageGeometry& stage, double crank_angle, MadeUnit& unit);

/// Crank angles at which units are looked at: spread over a turn of the output, so that eight phases of the crank and
/// ever other pairs of lobe and roller are met [rad].
inline constexpr int kAngles = 8;
[[nodiscard]] std::array<double, kAngles> stated_angles(const mechanism::StageGeometry& stage);

/// Play of units of a stage at the stated angles, to first order in every offset (docs/theory/tolerances.md).
class PlayOfUnits {
 public:
  /// Precondition: `check_geometry` found nothing.
  explicit PlayOfUnits(const mechanism::StageGeometry& stage);
  struct Play {
    double lost_motion = 0;  ///< of the output without load, where it is least; below zero: pressed together [rad]
    double widest = 0;       ///< where it is most [rad]
    double transmission_error = 0;  ///< of the output without load, from peak to peak over the angles [rad]
  };
  /// @param growth  of the disc's pitch radius more than the ring's, above the drawing [m]
  [[nodiscard]] Play of(const MadeUnit& unit, double growth) const;

 private:
  struct Touch {
    double gap = 0, radial = 0, tangential = 0;  ///< of the perfect unit; what offsets do to it
    double arm = 0;                              ///< gap opens with arm times a turn counter-clockwise [m]
    int lobe = 0;
  };
  struct PinTouch {
    double along_radial = 0, along_tangential = 0;  ///< of an offset of the pin on its gap
    double arm = 0;                                 ///< [m]
  };
  mechanism::StageGeometry stage_;
  std::vector<Touch> rings_;    ///< by angle, disc, roller
  std::vector<PinTouch> pins_;  ///< by angle, disc, pin
};

}  // namespace lobewise::tolerance
