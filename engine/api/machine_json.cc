#include "engine/api/machine_json.h"

#include "engine/api/evidence_json.h"

namespace lobewise::api {
namespace {

Json figure(const char* id, const char* label, const demand::Figure& of, Quantity quantity) {
  return Json{{"id", id},
              {"label", label},
              {"value", quantity_json(of.value, quantity)},
              {"low", quantity_json(of.low, quantity)},
              {"high", quantity_json(of.high, quantity)}};
}

Json practice_json(const demand::CrossCheck& check) {
  using Agreement = demand::CrossCheck::Agreement;
  Json explanation = Json::array();
  for (const Text& text : check.explanation) explanation.push_back(sentence_json(text));
  return Json{{"low", check.practice.low},
              {"high", check.practice.high},
              {"computed", check.computed.value},
              {"computed_low", check.computed.low},
              {"computed_high", check.computed.high},
              {"agreement", check.agreement == Agreement::agrees               ? "agrees"
                            : check.agreement == Agreement::practice_asks_more ? "practice_asks_more"
                                                                               : "duty_asks_more"},
              {"explanation", std::move(explanation)},
              {"source",
               "usual service factors, common practice, no source: data/service_factor_practice.csv, "
               "data/driven_machine_classes.csv"},
              {"working", working_json(check.practice.working)}};
}

}  // namespace

Json machine_json(const enquiry::Requirement& requirement) {
  const demand::Demand& demand = requirement.demand;
  Json figures = Json::array();
  const auto add = [&](const char* id, const char* label, const demand::Figure& of) {
    if (of.high > 0) figures.push_back(figure(id, label, of, Quantity::torque));
  };
  add("runback_torque", "Runs back with", demand.runback_torque);
  add("holding_torque", "To be held by a backstop or brake", demand.holding_torque);
  add("overhauling_torque", "Drives the reducer with", demand.overhauling_torque);
  const auto angle = [](double si) { return quantity_json(si, Quantity::angle); };
  Json jam{{"text", demand.jam.text},
           {"sudden", demand.jam.sudden},
           {"angle", angle(demand.jam.angle.nominal)},
           {"angle_low", angle(demand.jam.angle.low)},
           {"angle_high", angle(demand.jam.angle.high)},
           {"source", demand.jam.angle.source}};
  if (demand.jam.slip_torque) jam["slip_torque"] = quantity_json(*demand.jam.slip_torque, Quantity::torque);
  Json out{{"figures", std::move(figures)},
           {"shock_class", demand::to_string(demand.shock_class)},
           {"shock_reason", demand.shock_reason},
           {"jam", std::move(jam)}};
  if (requirement.practice) out["practice"] = practice_json(*requirement.practice);
  return out;
}

}  // namespace lobewise::api
