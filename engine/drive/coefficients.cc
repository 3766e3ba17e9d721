#include "engine/drive/coefficients.h"

#include "data/model_errors.h"
#include "engine/drive/motor_choice.h"

namespace lobewise::drive {
namespace {

/// What a model may be wrong by, by data/model_errors.csv. A word that is not there does not compile.
constexpr const data::ModelErrorsRow& model_error(std::string_view id) {
  for (const data::ModelErrorsRow& row : data::kModelErrors)
    if (row.id == id) return row;
  throw "no such row";
}
template <std::size_t n>
consteval Unknown of_form(const char (&id)[n], std::string_view label, double Coefficients::*member) {
  const data::ModelErrorsRow& row = model_error(id);
  return {id, label, member, {row.nominal, row.low, row.high, row.source.data()}, row.spread == "log"};
}
static_assert(model_error("low_speed").nominal == losses::kLowSpeedHalf);

}  // namespace

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
      {"rolling", "rolling friction of rollers on lobes and holes", &C::rolling_arm, losses::kRollingArm, true},
      {"roller_drag", "oil in the needles and sleeves of the rollers", &C::roller_drag, losses::kRollerDrag, true},
      of_form("losses_load", "form of the loss model, load", &C::load_loss_form),
      of_form("losses_no_load", "form of the loss model, no load", &C::no_load_loss_form),
      of_form("low_speed", "film at which rolling friction rises at low speed", &C::low_speed_half),
      of_form("heat_to_air", "form of the model of heat to the air", &C::air_form),
      of_form("heat_to_base", "heat led into the base", &C::flange_factor),
      of_form("oil_to_housing", "heat from oil to housing", &C::oil_factor),
      of_form("disc_temperature", "how much warmer than its oil a disc is", &C::disc_excess),
      of_form("stiffness", "torsional stiffness", &C::stiffness_factor),
      of_form("lost_motion", "lost motion", &C::play_factor),
      of_form("damping", "damping in torsion", &C::damping_factor),
      {"fins", "heat given off by the fins", &C::fin_factor, {1, 0.85, 1.3, kPractice}, false},
      {"air", "air speed over the housing", &C::air_factor, {1, 0.4, 2.5, kPractice}, true},
      {"motor_rise", "warmth of the motor's flange", &C::motor_rise_factor, {1, 0.5, 1.8, kPractice}, false},
      {"viscosity", "viscosity within the grade", &C::viscosity_factor, contact::kViscosityGrade, false},
      {"cleanliness", "cleanliness of the lubricant", &C::contamination, strength::kContaminationSealed, false},
      {"capacity", "capacity of the bearings", &C::capacity_factor, strength::kBearingCapacity, false},
      {"line_factor", "capacity of lobes and pins", &C::line_factor, {1, 0.66, 1.2, kPractice}, false},
      {"motor_inertia", "inertia of the motor", &C::motor_inertia_factor, kScale, true},
      {"motor_torque", "torque of the motor", &C::motor_torque_factor, kTypicalStartTorque, false},
  };
  return list;
}

}  // namespace lobewise::drive
