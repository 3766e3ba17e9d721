#include "engine/result/job.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "engine/drive/lifting.h"

namespace lobewise::result {
namespace {

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

OfferedMotor motor_of(const drive::Drive& drive, const drive::Motor& motor) {
  OfferedMotor out;
  out.power = amount(motor.rated_power, Quantity::power);
  out.poles = motor.poles;
  out.frequency = amount(motor.frequency, Quantity::frequency);
  out.speed = amount(motor.rated_speed, Quantity::angular_speed);
  out.torque = amount(motor.rated_torque, Quantity::torque);
  out.frame = motor.frame;
  if (const auto& voltage = drive.requirement.voltage) {
    out.voltage = amount(*voltage, Quantity::voltage);
    out.current = amount(drive::rated_current(motor, *voltage), Quantity::current);
  }
  return out;
}

OfferedLubricant lubricant_of(const drive::Drive& drive) {
  const range::Lubricant& fill = drive.oil.fill;
  OfferedLubricant out;
  out.kind = result::word(fill.kind);
  out.base = word(fill.base);
  out.viscosity_40 = amount(fill.viscosity_40, Quantity::kinematic_viscosity);
  out.food_grade = fill.food_grade;
  for (auto stage = drive.build.stages.rbegin(); stage != drive.build.stages.rend(); ++stage)
    out.fills.push_back({stage->frame->name, amount(stage->frame->housing.oil_volume, Quantity::volume)});
  return out;
}

Practice practice_of(const demand::CrossCheck& check) {
  Practice out;
  out.low = check.practice.low;
  out.high = check.practice.high;
  out.computed = check.computed.value;
  out.computed_low = check.computed.low;
  out.computed_high = check.computed.high;
  out.agreement = result::word(check.agreement);
  out.explanation = sentences(check.explanation);
  out.source =
      "usual service factors, common practice, no source: data/service_factor_practice.csv, "
      "data/driven_machine_classes.csv";
  out.working = steps_of(check.practice.working);
  return out;
}

std::vector<Caution> cautions_of(const enquiry::Requirement& requirement,
                                 const std::vector<evidence::Finding>& findings) {
  std::set<std::string> shown;
  std::vector<Caution> out;
  const auto add = [&](const std::string& key, const std::string& text) {
    if (shown.insert(key).second) out.push_back(caution(key, text));
  };
  for (const demand::Caution& one : requirement.cautions) add(one.key, one.text);
  for (const evidence::Finding& finding : findings)
    for (const evidence::Caution& one : finding.cautions) add(one.key, one.text);
  add("estimate",
      "These are engineering estimates. Local codes and a licensed engineer decide; guards, lock-out and the risk "
      "assessment of the machine are the plant's own.");
  // The gravest first: a document prints the first three at its top.
  std::stable_sort(out.begin(), out.end(), [](const Caution& a, const Caution& b) { return a.rank < b.rank; });
  return out;
}

RequirementLine of(const enquiry::RequirementLine& line) {
  RequirementLine out{line.path, line.label, amount(line.value, line.quantity), line.assumed, {}, {}, {}};
  if (line.assumed) {
    out.low = amount(line.low, line.quantity);
    out.high = amount(line.high, line.quantity);
    out.source = line.source;
  }
  return out;
}

}  // namespace

Build of(const drive::Build& build) {
  const drive::BuildName name = drive::name_of(build);
  Build out{name.frame, *name.lobes, {}, name.first_lobes};
  if (name.first_lobes) out.first_frame = name.first_frame;
  return out;
}

Assumption of(const lobewise::Assumption& assumption) {
  const auto figure = [&](double si) { return amount(si, assumption.quantity); };
  return {assumption.path,        assumption.text,         figure(assumption.value),
          figure(assumption.low), figure(assumption.high), assumption.source};
}

Machine machine_of(const enquiry::Requirement& requirement) {
  const demand::Demand& demand = requirement.demand;
  Machine out;
  const auto add = [&](const char* id, const char* label, const demand::Figure& of) {
    if (of.high > 0)
      out.figures.push_back({id, label, amount(of.value, Quantity::torque), amount(of.low, Quantity::torque),
                             amount(of.high, Quantity::torque)});
  };
  add("runback_torque", "Runs back with", demand.runback_torque);
  add("holding_torque", "To be held by a backstop or brake", demand.holding_torque);
  add("overhauling_torque", "Drives the reducer with", demand.overhauling_torque);
  out.shock_class = demand::to_string(demand.shock_class);
  out.shock_reason = demand.shock_reason;
  const Coefficient& angle = demand.jam.angle;
  out.jam = {demand.jam.text,
             demand.jam.sudden,
             amount(angle.nominal, Quantity::angle),
             amount(angle.low, Quantity::angle),
             amount(angle.high, Quantity::angle),
             angle.source,
             {}};
  if (demand.jam.slip_torque) out.jam.slip_torque = amount(*demand.jam.slip_torque, Quantity::torque);
  if (requirement.practice) out.practice = practice_of(*requirement.practice);
  return out;
}

Amount price_of(double price, const enquiry::Requirement& requirement) {
  if (requirement.not_offered.empty()) return amount(price, Quantity::money);
  return {0, {}, std::string(info(Quantity::money).key), "not offered", "not offered"};
}

Offer offer_of(const drive::Drive& drive, const range::Range& range) {
  Offer out;
  out.mounting = result::word(drive.requirement.mounting);
  out.orientation = result::word(drive.requirement.orientation);
  out.ratio = drive.build.ratio();
  out.input_speed = amount(drive.input_speed, Quantity::angular_speed);
  out.output_speed = amount(drive.output_speed, Quantity::angular_speed);
  out.lubricant = lubricant_of(drive);
  out.mass = amount(drive.build.mass(), Quantity::mass);
  out.price = price_of(drive.build.price(), drive.requirement);
  out.currency = range.currency;
  out.range = {range.name, range.version, range.note};
  out.offered = drive.requirement.not_offered.empty();
  if (const auto& money = drive.requirement.economics; out.offered && money && money->candidate_price) {
    out.price = amount(money->candidate_price->likely, Quantity::money);
    out.quoted = true;
    if (!money->currency.empty()) out.currency = money->currency;
  }
  const drive::Lifted lifted = drive::lifted(drive);
  out.lifting = {amount(lifted.mass.nominal, Quantity::mass),
                 amount(lifted.mass.low, Quantity::mass),
                 amount(lifted.mass.high, Quantity::mass),
                 drive::lifting_words(lifted),
                 {}};
  if (lifted.centre) out.lifting.centre = amount(*lifted.centre, Quantity::length);
  if (drive.motor) out.motor = motor_of(drive, *drive.motor);
  return out;
}

std::vector<Fact> facts_of(const drive::Drive& drive, const std::string& currency) {
  std::vector<Fact> facts;
  const auto add = [&](const char* id, const char* label, double value, Quantity quantity) {
    facts.push_back({id, label, amount(value, quantity), ""});
  };
  const auto say = [&](const char* id, const char* label, std::string words) {
    facts.push_back({id, label, {}, std::move(words)});
  };
  const enquiry::Requirement& requirement = drive.requirement;
  add("ratio", "Ratio", drive.build.ratio(), Quantity::number);
  add("input_speed", "Input speed", drive.input_speed, Quantity::angular_speed);
  add("output_speed", "Output speed", drive.output_speed, Quantity::angular_speed);
  add("output_torque", "Torque at full load", requirement.torque, Quantity::torque);
  if (drive.motor)
    say("motor", "Motor",
        fmt::format("{}, {} poles{}", format_quantity(drive.motor->rated_power, Quantity::power, UnitSystem::si),
                    drive.motor->poles, drive.motor->frame.empty() ? "" : ", frame " + drive.motor->frame));
  const range::Lubricant& fill = drive.oil.fill;
  say("lubricant", "Lubricant",
      fmt::format("{} {}, {} at 40 °C", fill.base == range::BaseOil::mineral ? "mineral" : "synthetic",
                  result::word(fill.kind),
                  format_quantity(fill.viscosity_40, Quantity::kinematic_viscosity, UnitSystem::si)));
  add("output_shaft", "Output shaft", drive.build.frame().output.diameter, Quantity::length);
  add("length", "Length", drive.build.length(), Quantity::length);
  add("mass", "Mass without motor", drive.build.mass(), Quantity::mass);
  if (requirement.service_factor)
    add("service_factor", "Service factor asked for", *requirement.service_factor, Quantity::number);
  if (drive.motor) {
    add("mass_with_motor", "Mass with motor (estimated)", drive::lifted(drive).mass.nominal, Quantity::mass);
    if (requirement.voltage)
      add("motor_current", "Rated current of the motor (estimated)",
          drive::rated_current(*drive.motor, *requirement.voltage), Quantity::current);
  }
  if (requirement.not_offered.empty())
    say("price", "Price without motor", fmt::format("{} {}", format_number(drive.build.price(), 4), currency));
  return facts;
}

void fill(const enquiry::Requirement& requirement, const std::vector<evidence::Finding>& findings, Gaps& out) {
  for (const enquiry::Condition& one : requirement.conditions)
    out.conditions.push_back({one.path, one.label, one.text, one.said});
  for (const lobewise::Assumption& assumption : requirement.assumptions) out.assumptions.push_back(of(assumption));
  constexpr std::size_t kMostQuestions = 6;
  out.questions.emplace();
  for (const demand::Question& question : requirement.questions)
    if (out.questions->size() < kMostQuestions && !question.text.empty())
      out.questions->push_back({question.path, question.text, {}, {}, {}, {}, {}, {}});
  out.cautions = cautions_of(requirement, findings);
}

void fill(const enquiry::Enquiry& enquiry, const enquiry::Requirement& requirement,
          const std::vector<evidence::Finding>& findings, Asked& out) {
  out.title = enquiry.title.empty() ? "Enquiry without a title" : enquiry.title;
  out.units = enquiry.units == enquiry::Units::us ? UnitSystem::us : UnitSystem::si;
  for (const enquiry::RequirementLine& line : requirement.lines) out.requirement.push_back(of(line));
  fill(requirement, findings, static_cast<Gaps&>(out));
}

}  // namespace lobewise::result

namespace lobewise::model {

template <>
const std::vector<Choice>& choices_of<demand::CrossCheck::Agreement>() {
  static const std::vector<Choice> choices{
      {"agrees", "agrees"}, {"practice_asks_more", "practice asks more"}, {"duty_asks_more", "the duty asks more"}};
  return choices;
}

}  // namespace lobewise::model
