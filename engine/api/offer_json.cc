#include "engine/api/offer_json.h"

#include "engine/api/evidence_json.h"

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

Json motor_json(const drive::Motor& motor) {
  return Json{{"power", quantity_json(motor.rated_power, Quantity::power)},
              {"poles", motor.poles},
              {"frequency", quantity_json(motor.frequency, Quantity::frequency)},
              {"speed", quantity_json(motor.rated_speed, Quantity::angular_speed)},
              {"torque", quantity_json(motor.rated_torque, Quantity::torque)},
              {"frame", motor.frame}};
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

Json offer_json(const drive::Drive& drive, const range::Range& range) {
  Json json{{"mounting", drive.requirement.mounting == enquiry::MountingKind::flange ? "flange" : "foot"},
            {"orientation", word(drive.requirement.orientation)},
            {"ratio", drive.build.ratio()},
            {"input_speed", quantity_json(drive.input_speed, Quantity::angular_speed)},
            {"output_speed", quantity_json(drive.output_speed, Quantity::angular_speed)},
            {"lubricant", lubricant_json(drive)},
            {"mass", quantity_json(drive.build.mass(), Quantity::mass)},
            {"price", quantity_json(drive.build.price(), Quantity::money)},
            {"currency", range.currency},
            {"quoted", false},
            {"range", {{"name", range.name}, {"version", range.version}, {"note", range.note}}}};
  if (const auto& money = drive.requirement.economics; money && money->candidate_price) {
    json["price"] = quantity_json(money->candidate_price->likely, Quantity::money);
    json["quoted"] = true;
    if (!money->currency.empty()) json["currency"] = money->currency;
  }
  if (drive.motor) json["motor"] = motor_json(*drive.motor);
  return json;
}

}  // namespace lobewise::api
