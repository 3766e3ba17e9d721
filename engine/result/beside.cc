#include "engine/result/beside.h"

#include <fmt/format.h>

#include "engine/result/job.h"

namespace lobewise::result {
namespace {

using Facts = std::vector<UnitFact>;

void add(Facts& facts, std::string label, double value, Quantity quantity) {
  facts.push_back({std::move(label), amount(value, quantity), {}, {}, {}});
}
void add(Facts& facts, std::string label, const Coefficient& c, Quantity quantity) {
  facts.push_back({std::move(label), amount(c.nominal, quantity), amount(c.low, quantity), amount(c.high, quantity),
                   std::string(c.source)});
}

void add_pair(Facts& facts, const incumbent::PairGeometry& g, const char* driving, const char* driven) {
  add(facts, fmt::format("Teeth, {}", driving), g.pair.pinion.teeth, Quantity::number);
  add(facts, fmt::format("Teeth, {}", driven), g.pair.wheel.teeth, Quantity::number);
  add(facts, "Module", g.pair.module, Quantity::length);
  add(facts, "Helix", g.pair.helix, Quantity::angle);
  add(facts, "Face width", g.pair.face_width, Quantity::length);
  add(facts, "Centre distance", g.centre_distance, Quantity::length);
}

Facts facts_of(const incumbent::UnitStage& stage) {
  using incumbent::StageKind;
  Facts facts;
  if (stage.kind == StageKind::helical) add_pair(facts, *stage.pair, "pinion", "wheel");
  if (stage.kind == StageKind::planetary) {
    add_pair(facts, *stage.pair, "sun", "planet");
    add(facts, "Teeth, ring", stage.planetary->planet_ring.pair.wheel.teeth, Quantity::number);
    add(facts, "Planets", stage.planetary->planets, Quantity::number);
  }
  if (stage.kind == StageKind::bevel) {
    add(facts, "Teeth, pinion", stage.bevel->pinion_teeth, Quantity::number);
    add(facts, "Teeth, wheel", stage.bevel->wheel_teeth, Quantity::number);
    add(facts, "Face width", stage.bevel->face_width, Quantity::length);
  }
  if (stage.kind == StageKind::worm) {
    add(facts, "Worm diameter", stage.worm->worm_diameter, Quantity::length);
    add(facts, "Wheel diameter", stage.worm->wheel_diameter, Quantity::length);
    add(facts, "Lead angle", stage.worm->lead_angle, Quantity::angle);
  }
  add(facts, "Driving torque", stage.input_torque, Quantity::torque);
  if (stage.kind == StageKind::belt) return facts;
  add(facts, "Tooth pairs in contact", stage.mean_pairs, Quantity::number);
  add(facts, "Contact stress", stage.contact_stress, Quantity::pressure);
  if (stage.rating) {
    add(facts, "Safety of the flanks", stage.rating->contact_safety, Quantity::number);
    add(facts, "Safety of the roots", stage.rating->bending_safety, Quantity::number);
  }
  if (stage.worm_rating) add(facts, "Safety of the bronze wheel", stage.worm_rating->torque_safety, Quantity::number);
  if (stage.bending_stress) add(facts, "Root bending stress", *stage.bending_stress, Quantity::pressure);
  return facts;
}

std::optional<Spread> spread_of(const std::optional<incumbent::Figure>& figure, Quantity quantity) {
  if (!figure) return std::nullopt;
  return Spread{amount(figure->nominal, quantity), amount(figure->low, quantity), amount(figure->high, quantity)};
}

std::optional<Amount> amount_if_any(const std::optional<double>& si, Quantity quantity) {
  return si ? std::optional<Amount>(amount(*si, quantity)) : std::nullopt;
}

Amount money(double value) { return amount(value, Quantity::money); }

CaseSide of(const cost::Option& option, const cost::OptionResult& result) {
  const cost::CostParts& p = result.present;
  return {option.name,
          money(p.total()),
          money(p.purchase),
          money(p.energy),
          money(p.carbon),
          money(p.upkeep),
          money(p.repairs),
          money(p.standstill),
          amount(result.energy, Quantity::energy),
          amount(result.carbon, Quantity::mass),
          result.stoppages,
          amount(result.lost_time, Quantity::duration)};
}

OpenBand of(const std::optional<double>& nominal, const cost::OpenBand& band) {
  return {nominal, band.low, band.median, band.high};
}

std::vector<Matter> matters_of(const evidence::CaseStudy& study) {
  constexpr std::size_t kMost = 10;
  std::vector<Matter> out;
  for (const cost::Sensitivity& one : study.sensitivities) {
    if (out.size() == kMost || one.swing() <= 0) break;
    out.push_back({one.path, one.label, amount(one.low, one.quantity), amount(one.high, one.quantity),
                   money(one.npv_at_low), money(one.npv_at_high)});
  }
  return out;
}

}  // namespace

Unit of(const incumbent::GearUnit& unit) {
  Unit out;
  out.kind = word(unit.kind);
  out.name = fmt::format("{} unit", incumbent::name(unit.kind));
  out.geared = unit.geared();
  out.ratio = unit.ratio;
  add(out.facts, "Ratio", unit.ratio, Quantity::number);
  add(out.facts, "Made for", unit.design_torque, Quantity::torque);
  add(out.facts, "Efficiency", unit.efficiency, Quantity::share);
  add(out.facts, "Oil temperature", unit.oil_temperature, Quantity::temperature);
  add(out.facts, "Mass without motor", unit.mass, Quantity::mass);
  if (unit.static_ratio) add(out.facts, "Momentary over working torque", *unit.static_ratio, Quantity::number);
  if (unit.belt_pull) add(out.facts, "Pull of the belt on its input shaft", *unit.belt_pull, Quantity::force);
  for (const incumbent::UnitStage& stage : unit.stages)
    out.stages.push_back({incumbent::name(stage.kind), stage.ratio, facts_of(stage)});
  for (const lobewise::Assumption& assumption : unit.assumptions) {
    out.assumptions.push_back(of(assumption));
    out.assumptions.back().path.insert(0, "incumbent.");
  }
  return out;
}

std::vector<AxisBeside> of(const std::vector<incumbent::Axis>& axes) {
  std::vector<AxisBeside> out;
  for (const incumbent::Axis& axis : axes)
    out.push_back({axis.id, axis.question, spread_of(axis.candidate, axis.quantity),
                   spread_of(axis.incumbent, axis.quantity), axis.better, axis.remark});
  return out;
}

Fit of(const evidence::FitBeside& beside) {
  Fit out{beside.fit.verdict, {}, beside.unknown};
  for (const incumbent::FitLine& line : beside.fit.lines)
    if (line.before || line.after)
      out.lines.push_back({line.field, line.label, amount_if_any(line.before, line.quantity),
                           amount_if_any(line.after, line.quantity), line.verdict, line.work});
  return out;
}

Case of(const evidence::CaseStudy& study) {
  const cost::CaseResult& r = study.result;
  const cost::Simulation& s = study.spread;
  Case out;
  out.against = word(study.against);
  out.name = study.setup.input.keep.name;
  out.currency = study.setup.currency;
  out.years = study.setup.input.years;
  out.answer = sentence(evidence::case_sentence(study));
  out.value = {money(r.net_present_value), money(s.npv_low), money(s.npv_median), money(s.npv_high)};
  out.value_with_spare = amount_if_any(study.with_spare, Quantity::money);
  out.hangs_on_spare = study.hangs_on_spare();
  if (!out.hangs_on_spare) out.payback = of(r.payback, s.payback);
  out.return_rate = of(r.return_rate.rate, s.return_rate);
  out.return_ambiguous = r.return_rate.ambiguous;
  out.share_paying = s.share_positive;
  out.share_paying_back = s.share_paying_back;
  out.keep = of(study.setup.input.keep, r.keep);
  out.candidate = of(study.setup.input.candidate, r.candidate);
  for (const cost::BreakEven& turn : study.break_evens)
    out.break_evens.push_back(
        {turn.path, turn.label, sentence(turn.sentence), turn.pays_now, amount_if_any(turn.value, turn.quantity)});
  out.matters = matters_of(study);
  for (const lobewise::Assumption& assumption : study.setup.assumptions) out.assumptions.push_back(of(assumption));
  out.not_counted = study.setup.not_counted;
  out.working = steps_of(cost::case_working(study.setup.input, r));
  out.charts = {of(evidence::cash_flow_chart(study)), of(evidence::cost_parts_chart(study)),
                of(evidence::sensitivity_chart(study))};
  return out;
}

std::vector<Trouble> troubles_of(const enquiry::Incumbent& seen, const incumbent::GearUnit& unit,
                                 const incumbent::UnitDuty& duty) {
  std::vector<Trouble> out;
  for (const enquiry::TroubleSeen& trouble : seen.troubles) {
    const incumbent::TroubleReading reading = incumbent::read_trouble(trouble.what, unit, duty);
    out.push_back({word(trouble.what), label(trouble.what), trouble.note, reading.text, reading.ask, reading.explained,
                   amount_if_any(reading.value, reading.quantity), amount_if_any(reading.limit, reading.quantity),
                   trouble.per_year});
  }
  return out;
}

}  // namespace lobewise::result

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<evidence::Against>() {
  static const std::vector<Choice> choices{{"present", "what stands there"}, {"replacement", "a new one of its kind"}};
  return choices;
}

}  // namespace lobewise::model
