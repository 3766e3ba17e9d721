#include "engine/drive/coefficients.h"

#include "engine/drive/motor_choice.h"

namespace lobewise::drive {

std::span<const Unknown> unknowns() {
  using C = Coefficients;
  static constexpr const char* kPractice = "common practice, no source";
  static constexpr Coefficient kScale{1, 0.6, 1.6, kPractice};
  static const Unknown list[] = {
      {"needle_friction", "friction of needle-mounted rollers", &C::needle_friction, losses::kNeedleFriction, false},
      {"f0", "no-load friction of the bearings", &C::f0_factor, kScale, false},
      {"f1", "load friction of the bearings", &C::f1_factor, {1, 0.7, 1.4, kPractice}, false},
      {"seal", "friction of the seals", &C::seal_factor, losses::kSealFactor, false},
      {"drag", "oil drag", &C::drag_factor, losses::kDragFactor, true},
      {"fins", "heat given off by the fins", &C::fin_factor, {1, 0.85, 1.3, kPractice}, false},
      {"air", "air speed over the housing", &C::air_factor, {1, 0.4, 2.5, kPractice}, true},
      {"flange", "heat led into the base", &C::flange_factor, {1, 0, 2.5, kPractice}, false},
      {"motor_rise", "warmth of the motor's flange", &C::motor_rise_factor, {1, 0.5, 1.8, kPractice}, false},
      {"oil_to_housing", "heat from oil to housing", &C::oil_factor, {1, 0.5, 2, kPractice}, true},
      {"disc_temperature", "how much warmer than its oil a disc is", &C::disc_excess, kDiscExcess, false},
      {"viscosity", "viscosity within the grade", &C::viscosity_factor, contact::kViscosityGrade, false},
      {"cleanliness", "cleanliness of the lubricant", &C::contamination, strength::kContaminationSealed, false},
      {"capacity", "capacity of the bearings", &C::capacity_factor, strength::kBearingCapacity, false},
      {"line_factor", "capacity of lobes and pins", &C::line_factor, {1, 0.66, 1.2, kPractice}, false},
      {"stiffness", "torsional stiffness", &C::stiffness_factor, {1, 0.7, 1.3, kPractice}, false},
      {"play", "lost motion", &C::play_factor, {1, 0.5, 2, kPractice}, true},
      {"motor_inertia", "inertia of the motor", &C::motor_inertia_factor, kScale, true},
      {"motor_torque", "torque of the motor", &C::motor_torque_factor, kTypicalStartTorque, false},
  };
  return list;
}

}  // namespace lobewise::drive
