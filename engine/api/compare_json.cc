#include "engine/api/compare_json.h"

#include <fmt/format.h>

#include "engine/api/evidence_json.h"

namespace lobewise::api {
namespace {

Json fact(std::string label, double value, Quantity quantity) {
  return Json{{"label", std::move(label)}, {"value", quantity_json(value, quantity)}};
}

Json fact(std::string label, const Coefficient& c, Quantity quantity) {
  Json json = fact(std::move(label), c.nominal, quantity);
  json["low"] = quantity_json(c.low, quantity);
  json["high"] = quantity_json(c.high, quantity);
  json["source"] = c.source;
  return json;
}

Json pair_facts(const incumbent::PairGeometry& g, const char* driving, const char* driven) {
  Json facts = Json::array();
  facts.push_back(fact(fmt::format("Teeth, {}", driving), g.pair.pinion.teeth, Quantity::number));
  facts.push_back(fact(fmt::format("Teeth, {}", driven), g.pair.wheel.teeth, Quantity::number));
  facts.push_back(fact("Module", g.pair.module, Quantity::length));
  facts.push_back(fact("Helix", g.pair.helix, Quantity::angle));
  facts.push_back(fact("Face width", g.pair.face_width, Quantity::length));
  facts.push_back(fact("Centre distance", g.centre_distance, Quantity::length));
  return facts;
}

Json stage_facts(const incumbent::UnitStage& stage) {
  using incumbent::StageKind;
  Json facts = Json::array();
  if (stage.kind == StageKind::helical) facts = pair_facts(*stage.pair, "pinion", "wheel");
  if (stage.kind == StageKind::planetary) {
    facts = pair_facts(*stage.pair, "sun", "planet");
    facts.push_back(fact("Teeth, ring", stage.planetary->planet_ring.pair.wheel.teeth, Quantity::number));
    facts.push_back(fact("Planets", stage.planetary->planets, Quantity::number));
  }
  if (stage.kind == StageKind::bevel) {
    facts.push_back(fact("Teeth, pinion", stage.bevel->pinion_teeth, Quantity::number));
    facts.push_back(fact("Teeth, wheel", stage.bevel->wheel_teeth, Quantity::number));
    facts.push_back(fact("Face width", stage.bevel->face_width, Quantity::length));
  }
  if (stage.kind == StageKind::worm) {
    facts.push_back(fact("Worm diameter", stage.worm->worm_diameter, Quantity::length));
    facts.push_back(fact("Wheel diameter", stage.worm->wheel_diameter, Quantity::length));
    facts.push_back(fact("Lead angle", stage.worm->lead_angle, Quantity::angle));
  }
  facts.push_back(fact("Driving torque", stage.input_torque, Quantity::torque));
  if (stage.kind == StageKind::belt) return facts;
  facts.push_back(fact("Tooth pairs in contact", stage.mean_pairs, Quantity::number));
  facts.push_back(fact("Contact stress", stage.contact_stress, Quantity::pressure));
  if (stage.rating) {
    facts.push_back(fact("Safety of the flanks", stage.rating->contact_safety, Quantity::number));
    facts.push_back(fact("Safety of the roots", stage.rating->bending_safety, Quantity::number));
  }
  if (stage.worm_rating)
    facts.push_back(fact("Safety of the bronze wheel", stage.worm_rating->torque_safety, Quantity::number));
  if (stage.bending_stress) facts.push_back(fact("Root bending stress", *stage.bending_stress, Quantity::pressure));
  return facts;
}

Json figure_json(const incumbent::Figure& figure, Quantity quantity) {
  return Json{{"nominal", quantity_json(figure.nominal, quantity)},
              {"low", quantity_json(figure.low, quantity)},
              {"high", quantity_json(figure.high, quantity)}};
}

constexpr const char* kBetter[] = {"candidate", "incumbent", "even", "unknown"};
constexpr const char* kFit[] = {"fits", "adapter", "does_not_fit", "unknown"};

const char* word(incumbent::FitVerdict verdict) { return kFit[static_cast<std::size_t>(verdict)]; }

Json option_json(const cost::Option& option, const cost::OptionResult& result) {
  const cost::CostParts& p = result.present;
  const auto money = [](double value) { return quantity_json(value, Quantity::money); };
  return Json{{"name", option.name},
              {"total", money(p.total())},
              {"purchase", money(p.purchase)},
              {"energy", money(p.energy)},
              {"carbon", money(p.carbon)},
              {"upkeep", money(p.upkeep)},
              {"repairs", money(p.repairs)},
              {"standstill", money(p.standstill)},
              {"energy_first_year", quantity_json(result.energy, Quantity::energy)},
              {"carbon_mass", quantity_json(result.carbon, Quantity::mass)},
              {"stoppages", result.stoppages},
              {"lost_time", quantity_json(result.lost_time, Quantity::duration)}};
}

Json band_json(const std::optional<double>& nominal, const cost::OpenBand& band) {
  Json json = Json::object();
  if (nominal) json["nominal"] = *nominal;
  if (band.low) json["low"] = *band.low;
  if (band.median) json["median"] = *band.median;
  if (band.high) json["high"] = *band.high;
  return json;
}

}  // namespace

Json gear_unit_json(const incumbent::GearUnit& unit) {
  const std::vector<model::Choice>& kinds = model::choices_of<incumbent::UnitKind>();
  Json facts = Json::array();
  facts.push_back(fact("Ratio", unit.ratio, Quantity::number));
  facts.push_back(fact("Made for", unit.design_torque, Quantity::torque));
  facts.push_back(fact("Efficiency", unit.efficiency, Quantity::share));
  facts.push_back(fact("Oil temperature", unit.oil_temperature, Quantity::temperature));
  facts.push_back(fact("Mass without motor", unit.mass, Quantity::mass));
  if (unit.static_ratio) facts.push_back(fact("Momentary over working torque", *unit.static_ratio, Quantity::number));
  if (unit.belt_pull) facts.push_back(fact("Pull of the belt on its input shaft", *unit.belt_pull, Quantity::force));
  Json stages = Json::array(), assumptions = Json::array();
  for (const incumbent::UnitStage& stage : unit.stages)
    stages.push_back({{"kind", incumbent::name(stage.kind)}, {"ratio", stage.ratio}, {"facts", stage_facts(stage)}});
  for (Assumption assumption : unit.assumptions) {
    assumption.path = "incumbent." + assumption.path;
    assumptions.push_back(assumption_json(assumption));
  }
  return Json{{"kind", std::string(kinds[static_cast<std::size_t>(unit.kind)].key)},
              {"name", fmt::format("{} unit", incumbent::name(unit.kind))},
              {"geared", unit.geared()},
              {"ratio", unit.ratio},
              {"facts", std::move(facts)},
              {"stages", std::move(stages)},
              {"assumptions", std::move(assumptions)}};
}

Json axes_json(const std::vector<incumbent::Axis>& axes) {
  Json list = Json::array();
  for (const incumbent::Axis& axis : axes) {
    Json json{{"id", axis.id},
              {"question", axis.question},
              {"better", kBetter[static_cast<std::size_t>(axis.better)]},
              {"remark", axis.remark}};
    if (axis.candidate) json["candidate"] = figure_json(*axis.candidate, axis.quantity);
    if (axis.incumbent) json["incumbent"] = figure_json(*axis.incumbent, axis.quantity);
    list.push_back(std::move(json));
  }
  return list;
}

Json fit_json(const evidence::FitBeside& beside) {
  Json lines = Json::array();
  for (const incumbent::FitLine& line : beside.fit.lines) {
    if (!line.before && !line.after) continue;
    Json json{{"field", line.field}, {"label", line.label}, {"verdict", word(line.verdict)}, {"work", line.work}};
    if (line.before) json["before"] = quantity_json(*line.before, line.quantity);
    if (line.after) json["after"] = quantity_json(*line.after, line.quantity);
    lines.push_back(std::move(json));
  }
  return Json{{"verdict", word(beside.fit.verdict)}, {"lines", std::move(lines)}, {"missing", beside.unknown}};
}

Json case_json(const evidence::CaseStudy& study) {
  const cost::CaseResult& r = study.result;
  const cost::Simulation& s = study.spread;
  const auto money = [](double value) { return quantity_json(value, Quantity::money); };
  Json turns = Json::array(), matters = Json::array(), assumptions = Json::array(), charts = Json::array();
  for (const cost::BreakEven& turn : study.break_evens) {
    Json json{{"path", turn.path},
              {"label", turn.label},
              {"sentence", sentence_json(turn.sentence)},
              {"pays_now", turn.pays_now}};
    if (turn.value) json["value"] = quantity_json(*turn.value, turn.quantity);
    turns.push_back(std::move(json));
  }
  constexpr std::size_t kMost = 10;
  for (const cost::Sensitivity& one : study.sensitivities) {
    if (matters.size() == kMost || one.swing() <= 0) break;
    matters.push_back({{"path", one.path},
                       {"label", one.label},
                       {"low", quantity_json(one.low, one.quantity)},
                       {"high", quantity_json(one.high, one.quantity)},
                       {"value_at_low", money(one.npv_at_low)},
                       {"value_at_high", money(one.npv_at_high)}});
  }
  for (const Assumption& assumption : study.setup.assumptions) assumptions.push_back(assumption_json(assumption));
  for (const evidence::Chart& chart :
       {evidence::cash_flow_chart(study), evidence::cost_parts_chart(study), evidence::sensitivity_chart(study)})
    charts.push_back(chart_json(chart));
  Json json{{"against", study.against == evidence::Against::present ? "present" : "replacement"},
            {"name", study.setup.input.keep.name},
            {"currency", study.setup.currency},
            {"years", study.setup.input.years},
            {"answer", sentence_json(evidence::case_sentence(study))},
            {"value",
             {{"nominal", money(r.net_present_value)},
              {"low", money(s.npv_low)},
              {"median", money(s.npv_median)},
              {"high", money(s.npv_high)}}},
            {"payback", study.hangs_on_spare() ? Json::object() : band_json(r.payback, s.payback)},
            {"hangs_on_spare", study.hangs_on_spare()},
            {"return_rate", band_json(r.return_rate.rate, s.return_rate)},
            {"return_ambiguous", r.return_rate.ambiguous},
            {"share_paying", s.share_positive},
            {"share_paying_back", s.share_paying_back},
            {"keep", option_json(study.setup.input.keep, r.keep)},
            {"candidate", option_json(study.setup.input.candidate, r.candidate)},
            {"break_evens", std::move(turns)},
            {"matters", std::move(matters)},
            {"assumptions", std::move(assumptions)},
            {"not_counted", study.setup.not_counted},
            {"working", working_json(cost::case_working(study.setup.input, r))},
            {"charts", std::move(charts)}};
  if (study.with_spare) json["value_with_spare"] = money(*study.with_spare);
  return json;
}

Json troubles_json(const enquiry::Incumbent& seen, const incumbent::GearUnit& unit, const incumbent::UnitDuty& duty) {
  const std::vector<model::Choice>& words = model::choices_of<incumbent::Trouble>();
  Json list = Json::array();
  for (const enquiry::TroubleSeen& trouble : seen.troubles) {
    const incumbent::TroubleReading reading = incumbent::read_trouble(trouble.what, unit, duty);
    const model::Choice& word = words[static_cast<std::size_t>(trouble.what)];
    Json json{{"what", std::string(word.key)},
              {"label", std::string(word.label)},
              {"note", trouble.note},
              {"looked_at", reading.text},
              {"ask", reading.ask}};
    if (reading.explained) json["explained"] = *reading.explained;
    if (reading.value) json["figure"] = quantity_json(*reading.value, reading.quantity);
    if (reading.limit) json["limit"] = quantity_json(*reading.limit, reading.quantity);
    if (trouble.per_year) json["per_year"] = *trouble.per_year;
    list.push_back(std::move(json));
  }
  return list;
}

}  // namespace lobewise::api
