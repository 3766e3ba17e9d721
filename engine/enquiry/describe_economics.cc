// Fields of the drive in service and of the money, and the drive in service as its model takes it.
#include "engine/base/constants.h"
#include "engine/enquiry/economics.h"
#include "engine/enquiry/enquiry.h"
#include "engine/enquiry/incumbent.h"

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<incumbent::UnitKind>() {
  static const std::vector<Choice> words{{"helical_in_line", "helical, shafts in line"},
                                         {"parallel_shaft", "helical, parallel shafts"},
                                         {"bevel_helical", "bevel and helical"},
                                         {"worm", "worm"},
                                         {"planetary", "planetary"},
                                         {"belt_and_gear", "belt and helical gears"},
                                         {"cycloidal", "cycloidal"}};
  return words;
}

template <>
const std::vector<Choice>& choices_of<incumbent::Trouble>() {
  static const std::vector<Choice> words{{"tooth_breakage", "a tooth broke"},
                                         {"pitting", "pits on the flanks"},
                                         {"worm_wheel_wear", "the worm wheel wears"},
                                         {"bearing_failure", "a bearing failed"},
                                         {"overheating", "it runs hot"},
                                         {"oil_leak", "it leaks"},
                                         {"noise", "it is loud"},
                                         {"shaft_breakage", "a shaft broke"},
                                         {"key_failure", "a key gave way"},
                                         {"belt_slip", "the belt slips"}};
  return words;
}

template <>
const RecordType& describe<enquiry::TroubleSeen>() {
  using T = enquiry::TroubleSeen;
  static const RecordType type{"trouble",
                               "Trouble",
                               "Something that went wrong with the drive",
                               {
                                   field<&T::what>("what", "What", ""),
                                   field<&T::per_year>("per_year", "Times a year", "", Quantity::number, {0, 1000}),
                                   field<&T::note>("note", "Note", "What was seen, in words"),
                               }};
  return type;
}

template <>
const RecordType& describe<incumbent::Dimensions>() {
  using D = incumbent::Dimensions;
  constexpr Limits kLength{0.001, 20};
  static const RecordType type{
      "dimensions",
      "Dimensions",
      "What tape and caliper say about the drive in service",
      {
          field<&D::shaft_height>("shaft_height", "Shaft height", "Output axis over the foot plane", Quantity::length,
                                  kLength),
          field<&D::shaft_diameter>("shaft_diameter", "Output shaft diameter", "Or the bore of a hollow shaft",
                                    Quantity::length, kLength),
          field<&D::shaft_length>("shaft_length", "Output shaft length", "", Quantity::length, kLength),
          field<&D::hollow_shaft>("hollow_shaft", "Hollow shaft", ""),
          field<&D::foot_length>("foot_length", "Foot holes along the shaft", "Distance between hole centres",
                                 Quantity::length, kLength),
          field<&D::foot_width>("foot_width", "Foot holes across", "Distance between hole centres", Quantity::length,
                                kLength),
          field<&D::foot_hole>("foot_hole", "Foot hole diameter", "", Quantity::length, kLength),
          field<&D::flange_bolt_circle>("flange_bolt_circle", "Flange bolt circle", "", Quantity::length, kLength),
          field<&D::flange_spigot>("flange_spigot", "Flange spigot", "", Quantity::length, kLength),
          field<&D::shaft_end_to_foot>("shaft_end_to_foot", "Shaft end to foot hole",
                                       "From the end of the output shaft to the nearest foot hole, along the axis",
                                       Quantity::length, kLength),
          field<&D::length>("length", "Overall length", "With motor", Quantity::length, kLength),
          field<&D::width>("width", "Overall width", "", Quantity::length, kLength),
          field<&D::height>("height", "Overall height", "", Quantity::length, kLength),
          field<&D::mass>("mass", "Mass with motor", "", Quantity::mass, {0.1, 1e5}),
          field<&D::axis_offset>("axis_offset", "Input axis above the output axis", "0 when both are in line",
                                 Quantity::length, {0, 5}),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Incumbent>() {
  using I = enquiry::Incumbent;
  static const RecordType type{
      "incumbent",
      "Drive in service",
      "What stands there now; whatever is not known is designed to the same duty by a textbook method",
      {
          field<&I::kind>("kind", "Kind", "How the unit is built"),
          field<&I::note>("note", "Note", ""),
          field<&I::ratio>("ratio", "Ratio", "Of the whole unit, belt included", Quantity::number, {1.2, 1000}),
          field<&I::rated_power>("rated_power", "Nameplate power", "Of the unit", Quantity::power, {10, 1e7}),
          field<&I::rated_torque>("rated_torque", "Nameplate torque", "At the output", Quantity::torque, {0.1, 1e7}),
          field<&I::input_speed>("input_speed", "Nameplate input speed", "", Quantity::angular_speed, {1, 1000}),
          field<&I::output_speed>("output_speed", "Nameplate output speed", "", Quantity::angular_speed, {0.001, 800}),
          field<&I::stages>("stages", "Gear stages", "A belt in front is not counted", Quantity::number, {1, 3}),
          field<&I::belt_ratio>("belt_ratio", "Ratio of the belt", "", Quantity::number, {1, 6}),
          field<&I::belt_pulley>("belt_pulley", "Belt pulley on the unit", "Diameter", Quantity::length, {0.02, 3}),
          field<&I::through_hardened>("through_hardened", "Soft gears",
                                      "Older through-hardened gears instead of case-hardened and ground ones"),
          field<&I::oil_viscosity_40>("oil_viscosity_40", "Oil grade", "Viscosity at 40 °C, the number in the grade",
                                      Quantity::kinematic_viscosity, {10e-6, 1500e-6}),
          field<&I::mass>("mass", "Mass without motor", "Nameplate", Quantity::mass, {0.1, 1e5}),
          field<&I::runs_now>(
              "runs_now", "Runs today",
              "It starts and carries the machine at this full load; taken so. Its motor then bounds what "
              "was assumed of the machine; say no when the job grows"),
          field<&I::running_time>("running_time", "Hours served", "", Quantity::duration, {0, 3e9}),
          field<&I::age>("age", "Age", "Since it was put in", Quantity::age, {0, 3e9}),
          field<&I::efficiency>("efficiency", "Stated efficiency", "At full load, as somebody stated or measured it",
                                Quantity::share, {0.05, 0.999}),
          field<&I::motor_power>("motor_power", "Motor on it", "Nameplate power", Quantity::power, {40, 1e6}),
          field<&I::motor_efficiency>("motor_efficiency", "Efficiency of that motor", "Nameplate", Quantity::share,
                                      {0.3, 0.99}),
          field<&I::oil_temperature>("oil_temperature", "Measured oil temperature", "At full load, warm",
                                     Quantity::temperature, {230, 450}),
          field<&I::troubles>("troubles", "Troubles seen", ""),
          field<&I::trouble>("trouble", "Trouble in words", ""),
          field<&I::dimensions>("dimensions", "Dimensions", ""),
      }};
  return type;
}

template <>
const RecordType& describe<enquiry::Economics>() {
  using E = enquiry::Economics;
  constexpr Limits kMoney{0, 1e9};
  constexpr Limits kRate{-0.5, 1};
  static const RecordType type{
      "economics",
      "Money",
      "What decides whether a change pays; a range such as 0.12 … 0.20 /kWh may stand for any figure",
      {
          field<&E::currency>("currency", "Currency", "All amounts in it; the range's own when left out"),
          field<&E::exchange_rate>("exchange_rate", "Exchange rate",
                                   "What one unit of the range's currency costs in the currency of this enquiry",
                                   Quantity::number, {1e-6, 1e6}),
          field<&E::years>("years", "Horizon in years", "", Quantity::number, {1, 40}),
          field<&E::discount_rate>("discount_rate", "Discount rate", "Real, per year", Quantity::share, kRate),
          field<&E::country>("country", "Country", "Name or three letters: carbon of its grid, price of energy"),
          field<&E::energy_price>("energy_price", "Price of electric energy", "", Quantity::energy_price, {0, 1e-5}),
          field<&E::energy_growth>("energy_growth", "Growth of the energy price", "Real, per year", Quantity::share,
                                   kRate),
          field<&E::grid_carbon>("grid_carbon", "Carbon of the grid", "", Quantity::carbon_intensity, {0, 1e-6}),
          field<&E::carbon_price>("carbon_price", "Price of carbon", "What the plant pays for it",
                                  Quantity::carbon_price, {0, 10}),
          field<&E::stop_cost>("stop_cost", "Cost of an hour's standstill", "Lost production", Quantity::money_rate,
                               kMoney),
          field<&E::stops_per_year>("stops_per_year", "Stoppages a year",
                                    "Caused by the present drive, counted by the plant", Quantity::number, {0, 1000}),
          field<&E::repair_time>("repair_time", "Standstill of one stoppage", "Waiting for parts included",
                                 Quantity::duration, {0, 3e7}),
          field<&E::repair_cost>("repair_cost", "Cost of one repair", "Parts and work", Quantity::money, kMoney),
          field<&E::spare_on_shelf>("spare_on_shelf", "Spare on the shelf", "Of the present unit"),
          field<&E::candidate_spare>("candidate_spare", "Spare of the new unit",
                                     "One of the new units is bought for the shelf"),
          field<&E::spare_wait>("spare_wait", "Wait for a part", "When none is on the shelf", Quantity::lead_time,
                                {0, 6e7}),
          field<&E::labour_rate>("labour_rate", "Labour per hour", "", Quantity::money_rate, {0, 1e5}),
          field<&E::upkeep_time>("upkeep_time", "Upkeep a year", "Labour on the present drive", Quantity::duration,
                                 {0, 3e7}),
          field<&E::lubricant_cost>("lubricant_cost", "Lubricant a year", "Of the present drive", Quantity::money,
                                    kMoney),
          field<&E::must_be_replaced>("must_be_replaced", "Must be replaced",
                                      "The present unit cannot stay: the choice is between new ones"),
          field<&E::replacement_price>("replacement_price", "Quote for a new unit of its kind", "Without motor",
                                       Quantity::money, kMoney),
          field<&E::replacement_delivery>("replacement_delivery", "Its delivery time", "", Quantity::lead_time,
                                          {0, 1e8}),
          field<&E::candidate_price>("candidate_price", "Quote for the candidate",
                                     "Without motor; the range's price when left out", Quantity::money, kMoney),
          field<&E::candidate_delivery>("candidate_delivery", "Its delivery time", "", Quantity::lead_time, {0, 1e8}),
          field<&E::installation>("installation", "Installation", "Work, crane, alignment", Quantity::money, kMoney),
          field<&E::adapters>("adapters", "Adapters", "Plates, couplings, guards", Quantity::money, kMoney),
          field<&E::motor_price>("motor_price", "New motor", "When the old one does not stay", Quantity::money, kMoney),
      }};
  return type;
}

}  // namespace lobewise::model

namespace lobewise::enquiry {

incumbent::UnitInService unit_in_service(const Incumbent& in) {
  incumbent::UnitInService unit;
  unit.kind = *in.kind;
  unit.ratio = in.ratio;
  if (!unit.ratio && in.input_speed && in.output_speed && *in.input_speed > *in.output_speed)
    unit.ratio = *in.input_speed / *in.output_speed;
  unit.rated_torque = in.rated_torque;
  unit.rated_power = in.rated_power;
  if (!unit.rated_torque && in.rated_power && in.output_speed) unit.rated_torque = *in.rated_power / *in.output_speed;
  unit.stages = in.stages;
  unit.belt_ratio = in.belt_ratio;
  unit.belt_pulley = in.belt_pulley;
  unit.mass = in.mass;
  unit.through_hardened = in.through_hardened;
  if (in.oil_viscosity_40) {
    // 60 degC is where the model takes a usual grade as well (incumbent::kUsualViscosity).
    constexpr double kWorking = 60 + kZeroCelsius;
    const Result<double> hot =
        contact::nu_100_from_index(*in.oil_viscosity_40, contact::kMineralOil.viscosity_index.nominal);
    if (hot) unit.oil_viscosity = contact::kinematic_viscosity(*in.oil_viscosity_40, *hot, kWorking);
  }
  return unit;
}

}  // namespace lobewise::enquiry
