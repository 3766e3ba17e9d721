#pragma once
// Everything that is not known exactly, as one set of numbers: the nominal set, or a sample of the ranges.

#include <span>
#include <string_view>

#include "engine/base/working.h"
#include "engine/contact/lubricant.h"
#include "engine/losses/friction.h"
#include "engine/strength/coefficients.h"

namespace lobewise::drive {

/// How much warmer a disc is than the oil that washes it, as a share of oil over housing: the eccentric bearing heats
/// it from inside, its rollers take heat to the ring.
inline constexpr Coefficient kDiscExcess{0, -0.3, 0.6, "common practice, no source"};

struct Coefficients {
  losses::SleeveCurve sleeve;
  losses::MixedCurve mixed;
  double needle_friction = losses::kNeedleFriction.nominal;
  double sliding_factor = 1;  ///< on the friction of plain sleeves and of rollers that cannot turn
  double f0_factor = 1;       ///< on the no-load friction of every bearing
  double f1_factor = 1;       ///< on the load friction of every bearing
  double seal_factor = losses::kSealFactor.nominal;
  double drag_factor = losses::kDragFactor.nominal;
  double fin_factor = 1;                     ///< on the fin factor of the housing
  double air_factor = 1;                     ///< on the air speed
  double flange_factor = 1;                  ///< on the conductance to the base
  double oil_factor = 1;                     ///< on the conductance from oil to housing
  double disc_excess = kDiscExcess.nominal;  ///< disc over its oil, share of oil over housing
  double ring_expansion_shift = 0;           ///< added to the expansion of the ring [1/K]
  double dust_factor = 1;                    ///< on the layer of dust, where the place is dusty
  double motor_rise_factor = 1;              ///< on the rise of the motor's flange
  double viscosity_factor = 1;               ///< on the grade's viscosity
  double contamination = 0;                  ///< e_C; 0: by the lubricant (grease or filtered 0.5, splash 0.2)
  double capacity_factor = strength::kBearingCapacity.nominal;
  double line_factor = 1;       ///< on the capacity of lobes and pins, 1 = nominal
  double torque_factor = 1;     ///< on the torque of the machine
  double stiffness_factor = 1;  ///< on the torsional stiffness
  double play_factor = 1;       ///< on the lost motion
  double start_play_shift = 0;  ///< added to the share of the play that a start crosses
  double motor_inertia_factor = 1;
  double start_factor = 1;           ///< on the torque that breaks the machine away, besides `torque_factor`
  double rest_factor = 1;            ///< on what friction at rest is over friction while turning
  double cold_factor = 1;            ///< on what bearings take beyond their formula's validity: losses::kBeyondValid
  double ambient_low_shift = 0;      ///< added to the coldest surroundings when nobody said them [K]
  double voltage_factor = 1;         ///< on the voltage of the mains
  double motor_torque_factor = 1.3;  ///< on the least torques of the standard: kTypicalStartTorque of motor_choice.h
};

/// One unknown: which member, over which range.
struct Unknown {
  std::string_view id;
  std::string_view label;  ///< plain words
  double Coefficients::*member;
  Coefficient range;         ///< of the member
  bool logarithmic = false;  ///< spread evenly over the logarithm
};

/// The unknowns every drive has; the demand's own range is added by the caller.
[[nodiscard]] std::span<const Unknown> unknowns();

}  // namespace lobewise::drive
