#include "engine/api/offer_json.h"

#include "engine/api/evidence_json.h"
#include "engine/drive/lifting.h"

namespace lobewise::api {
namespace {

const char* word(enquiry::Orientation orientation) {
  switch (orientation) {
    case enquiry::Orientation::output_down:
      return "output_down";
    case enquiry::Orientation::output_up:
      return "output_up";
    case enquiry::Orientation::horizontal:
      break;
  }
  return "horizontal";
}

const char* word(range::BaseOil base) {
  switch (base) {
    case range::BaseOil::pao:
      return "polyalphaolefin";
    case range::BaseOil::pag:
      return "polyglycol";
    case range::BaseOil::mineral:
      break;
  }
  return "mineral";
}

Json motor_json(const drive::Drive& drive, const drive::Motor& motor) {
  Json json{{"power", quantity_json(motor.rated_power, Quantity::power)},
            {"poles", motor.poles},
            {"frequency", quantity_json(motor.frequency, Quantity::frequency)},
            {"speed", quantity_json(motor.rated_speed, Quantity::angular_speed)},
            {"torque", quantity_json(motor.rated_torque, Quantity::torque)},
            {"frame", motor.frame}};
  if (const auto& voltage = drive.requirement.voltage) {
    json["voltage"] = quantity_json(*voltage, Quantity::voltage);
    json["current"] = quantity_json(drive::rated_current(motor, *voltage), Quantity::current);
  }
  return json;
}

Json lubricant_json(const drive::Drive& drive) {
  const range::Lubricant& fill = drive.oil.fill;
  Json json{{"kind", fill.kind == range::LubricantKind::grease ? "grease" : "oil"},
            {"base", word(fill.base)},
            {"viscosity_40", quantity_json(fill.viscosity_40, Quantity::kinematic_viscosity)},
            {"food_grade", fill.food_grade}};
  Json fills = Json::array();
  for (auto stage = drive.build.stages.rbegin(); stage != drive.build.stages.rend(); ++stage)
    fills.push_back(
        {{"frame", stage->frame->name}, {"volume", quantity_json(stage->frame->housing.oil_volume, Quantity::volume)}});
  json["fills"] = std::move(fills);
  return json;
}

}  // namespace

Json price_json(double price, const enquiry::Requirement& requirement) {
  if (requirement.not_offered.empty()) return quantity_json(price, Quantity::money);
  return Json{{"value", 0}, {"quantity", "money"}, {"si", "not offered"}, {"us", "not offered"}};
}

Json offer_json(const drive::Drive& drive, const range::Range& range) {
  Json json{{"mounting", drive.requirement.mounting == enquiry::MountingKind::flange ? "flange" : "foot"},
            {"orientation", word(drive.requirement.orientation)},
            {"ratio", drive.build.ratio()},
            {"input_speed", quantity_json(drive.input_speed, Quantity::angular_speed)},
            {"output_speed", quantity_json(drive.output_speed, Quantity::angular_speed)},
            {"lubricant", lubricant_json(drive)},
            {"mass", quantity_json(drive.build.mass(), Quantity::mass)},
            {"price", price_json(drive.build.price(), drive.requirement)},
            {"currency", range.currency},
            {"quoted", false},
            {"range", {{"name", range.name}, {"version", range.version}, {"note", range.note}}}};
  const bool offered = drive.requirement.not_offered.empty();
  if (const auto& money = drive.requirement.economics; offered && money && money->candidate_price) {
    json["price"] = quantity_json(money->candidate_price->likely, Quantity::money);
    json["quoted"] = true;
    if (!money->currency.empty()) json["currency"] = money->currency;
  }
  json["offered"] = offered;
  const drive::Lifted lifted = drive::lifted(drive);
  json["lifting"] = {{"mass", quantity_json(lifted.mass.nominal, Quantity::mass)},
                     {"mass_low", quantity_json(lifted.mass.low, Quantity::mass)},
                     {"mass_high", quantity_json(lifted.mass.high, Quantity::mass)},
                     {"words", drive::lifting_words(lifted)}};
  if (lifted.centre) json["lifting"]["centre"] = quantity_json(*lifted.centre, Quantity::length);
  if (drive.motor) json["motor"] = motor_json(drive, *drive.motor);
  return json;
}

}  // namespace lobewise::api
