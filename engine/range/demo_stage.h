#pragma once
// Stages of the demo range by the rules of demo_rules.h. Not for use outside the generator.
#include "engine/range/demo_rules.h"
#include "engine/range/range.h"
#include "engine/range/standard_parts.h"

namespace lobewise::range::demo {

/// Rolling elements of a bearing of ISO 15 size by plain proportions of its section; ratings of the
/// ISO 281 formula then come out within about a tenth of what such bearings usually have (from memory).
[[nodiscard]] Bearing bearing_of(BearingKind kind, const BearingSize& size);

/// Everything that the stages of one frame on one flange have in common [m].
struct Flange {
  FlangeRule rule;
  double pin_circle_radius = 0, pin_radius = 0, bore_radius = 0;
  int pins = 0;
};
[[nodiscard]] Flange make_flange(const FlangeRule& rule, double pitch_radius);

[[nodiscard]] double eccentricity_of(int lobes, double pitch_radius);
[[nodiscard]] double roller_radius_of(int lobes, double pitch_radius);

/// A stage without its price, which depends on the frame.
[[nodiscard]] Stage make_stage(int ring_diameter, const Flange& flange, int lobes);

/// Output torque at which the eccentric bearings reach the design life, forces of equally stiff contacts [N m].
[[nodiscard]] double design_torque(const Stage& stage);

}  // namespace lobewise::range::demo
