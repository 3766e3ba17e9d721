#include "engine/evidence/case_of.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/evidence/sampling.h"

namespace lobewise::evidence {
namespace {

using cost::Range;
using drive::Drive;
using enquiry::Economics;

constexpr const char* kPractice = "common practice, no source";
constexpr std::uint64_t kSeed = 20240229;
constexpr double kHour = 3600;
constexpr double kDay = 86400;

// Taken where nobody says it. Common practice, no source.
constexpr Coefficient kDiscount{0.08, 0.05, 0.12, kPractice};
constexpr Coefficient kEnergyGrowth{0, -0.02, 0.03, kPractice};
constexpr Coefficient kGridDecline{0.03, 0, 0.06, kPractice};
constexpr Coefficient kInstallation{0.3, 0.15, 0.6, kPractice};  ///< share of the unit's price
constexpr Coefficient kAdapters{0.1, 0, 0.3, kPractice};         ///< share of the unit's price
constexpr Coefficient kRepair{0.25, 0.1, 0.6, kPractice};        ///< share of the unit's price
constexpr Coefficient kRepairTime{8 * kHour, 3 * kHour, 24 * kHour, kPractice};
constexpr Coefficient kSpareWait{14 * kDay, 3 * kDay, 60 * kDay, kPractice};
constexpr int kYears = 10;

Range range_of(const Span& span) { return cost::range(span.low, span.likely, span.high, "stated"); }

Range scaled(const Coefficient& share, double price) {
  return cost::range(share.low * price, share.nominal * price, share.high * price, share.source);
}

/// Fills a case from the economics; collects what was taken instead.
class Gaps {
 public:
  explicit Gaps(CaseOf& out) : out_(out) {}

  Range take(const std::optional<Span>& said, const char* field, const char* label, Quantity quantity,
             const Range& fallback) {
    if (said) return range_of(*said);
    out_.assumptions.push_back({std::string("economics.") + field, fmt::format("{} taken, not said", label),
                                fallback.nominal, fallback.low, fallback.high, quantity, fallback.source});
    return fallback;
  }
  /// Zero where nobody says it, and that is told.
  Range count(const std::optional<Span>& said, const char* what) {
    if (said) return range_of(*said);
    out_.not_counted.emplace_back(what);
    return cost::stated(0);
  }

 private:
  CaseOf& out_;
};

Range coefficient(const Coefficient& c) { return cost::range(c.low, c.nominal, c.high, c.source); }

/// Code of the country that was said, empty without one.
std::string_view country_of(const Economics& money) { return cost::country_code(money.country).value_or(""); }

/// Price of energy as stated, or of the country's table when the currency agrees.
std::optional<Range> energy_price(const Economics& money) {
  if (money.energy_price) return range_of(*money.energy_price);
  if (money.country.empty() || money.currency.empty()) return std::nullopt;
  for (const cost::EnergyPrice& row : cost::energy_prices(country_of(money)))
    if (row.currency == money.currency) return row.price;
  return std::nullopt;
}

Range running_time(const enquiry::Requirement& requirement) {
  for (const enquiry::RequirementLine& line : requirement.lines)
    if (line.path == "duty.running_time" && line.assumed)
      return cost::range(line.low, line.value, std::min(line.high, cost::kYear), line.source);
  return cost::stated(requirement.running_per_year);
}

/// The geared unit's model: idle losses whatever the load, the rest in proportion to it.
cost::DriveLosses losses_of(const incumbent::GearUnit& unit) {
  const incumbent::UnitLosses& l = unit.losses;
  const double idle = incumbent::loss_power_at(unit, 0);
  const auto slope = [](double share) { return 1 / (1 - share) - 1; };
  return {cost::range(idle * l.idle.low / l.idle.nominal, idle, idle * l.idle.high / l.idle.nominal, l.idle.source),
          cost::range(slope(l.teeth.low + l.bearings.low), slope(l.teeth.nominal + l.bearings.nominal),
                      slope(l.teeth.high + l.bearings.high), l.teeth.source)};
}

/// Axis of money with its currency, where one is known.
std::string in_money(const CaseStudy& study, const char* what) {
  return study.setup.currency.empty() ? what : fmt::format("{}, {}", what, study.setup.currency);
}

double candidate_price(const Drive& drive) {
  const std::optional<Economics>& money = drive.requirement.economics;
  return money && money->candidate_price ? money->candidate_price->likely : drive.build.price();
}

/// Troubles that stop a machine. Noise and pits are seen while it runs.
bool stops(incumbent::Trouble what) { return what != incumbent::Trouble::noise && what != incumbent::Trouble::pitting; }
/// Stoppages a year from the troubles that were seen, where somebody said how often.
std::optional<double> counted_troubles(const enquiry::Incumbent& in) {
  std::optional<double> count;
  for (const enquiry::TroubleSeen& trouble : in.troubles)
    if (trouble.per_year && stops(trouble.what)) count = count.value_or(0) + *trouble.per_year;
  return count;
}

/// The motor that is on the present drive; it stays unless a price of a new one is given.
cost::MotorNameplate present_motor(const Drive& drive) {
  const enquiry::Incumbent& in = *drive.requirement.incumbent;
  cost::MotorNameplate motor;
  motor.rated_power = in.motor_power.value_or(drive.motor->rated_power);
  if (in.motor_efficiency) {
    motor.rated_efficiency = cost::stated(*in.motor_efficiency);
  } else {
    const double eta = drive.motor->efficiency;
    motor.rated_efficiency = cost::range(eta - 0.03, eta, std::min(0.99, eta + 0.01), drive.motor->efficiency_source);
  }
  motor.fixed_loss_share = cost::usual_fixed_loss_share();
  return motor;
}

cost::MotorNameplate candidate_motor(const Drive& drive) {
  cost::MotorNameplate motor = present_motor(drive);
  if (!drive.requirement.economics || !drive.requirement.economics->motor_price) return motor;
  motor.rated_power = drive.motor->rated_power;
  motor.rated_efficiency = cost::stated(drive.motor->efficiency);
  return motor;
}

}  // namespace

std::vector<std::string> missing_for_case(const Drive& drive) {
  std::vector<std::string> missing = missing_of_incumbent(drive.requirement);
  const std::optional<Economics>& money = drive.requirement.economics;
  if (!money) {
    missing.push_back("the price of energy, what an hour of standstill costs, the horizon");
    return missing;
  }
  if (!energy_price(*money)) missing.push_back("the price of electric energy");
  const std::string currency = drive.build.currency();
  if (!money->currency.empty() && !currency.empty() && money->currency != currency && !money->candidate_price)
    missing.push_back(fmt::format("the candidate's price in {}: the range prices it in {}", money->currency, currency));
  if (!drive.motor) missing.push_back("a motor for the candidate");
  return missing;
}

cost::DriveLosses candidate_losses(const Drive& drive, const Evaluation& nominal, int samples) {
  const auto at = [&](double torque, const drive::Coefficients& c) {
    const drive::Running now = drive.running({1, torque, drive.requirement.speed}, c);
    return drive::running_losses(drive.build, drive.tables, drive.oil, now, nominal.oil_temperature, c).places.total();
  };
  const double full = drive.requirement.torque;
  const double power = full * drive.output_speed;
  std::vector<double> idle, slope;
  for (drive::Coefficients c : latin_hypercube(unknowns_of(drive), samples, kSeed)) {
    c.torque_factor = 1;  // the duty itself is the same for both options
    idle.push_back(at(0, c));
    slope.push_back((at(full, c) - idle.back()) / power);
  }
  const auto spread = [](double value, std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const auto end = [&](double share) {
      if (values.empty()) return value;
      return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
    };
    return cost::range(std::min(value, end(0.05)), value, std::max(value, end(0.95)), "docs/theory/losses.md");
  };
  const double none = at(0, nominal.coefficients);
  return {spread(none, idle), spread((at(full, nominal.coefficients) - none) / power, slope)};
}

YearlyEnergy energy_of(const Drive& drive, const incumbent::GearUnit& unit, const cost::DriveLosses& candidate) {
  std::vector<cost::Load> duty;
  for (const enquiry::Block& block : drive.requirement.duty)
    duty.push_back({block.time_share, block.torque * block.speed});
  const double time = drive.requirement.running_per_year;
  return {time * cost::mean_electric_power(losses_of(unit), present_motor(drive), duty),
          time * cost::mean_electric_power(candidate, candidate_motor(drive), duty)};
}

namespace {

/// @param spare_there  of the present unit, where nobody says it
std::optional<CaseOf> set_up(const Drive& drive, const incumbent::GearUnit& unit, const cost::DriveLosses& losses,
                             Against against, std::optional<bool> spare_there) {
  const enquiry::Requirement& r = drive.requirement;
  const Economics& money = *r.economics;
  const enquiry::Incumbent& in = *r.incumbent;
  if (against == Against::replacement && !money.replacement_price) return std::nullopt;
  CaseOf out;
  for (char c : money.currency.empty() ? drive.build.currency() : money.currency)
    if (c != '{' && c != '}') out.currency += c;  // braces would stand for a value in a sentence
  Gaps gaps(out);
  cost::CaseInput& c = out.input;
  const double price = candidate_price(drive);
  const bool belt = unit.belt_in_front();

  cost::Option& keep = c.keep;
  const bool fresh = against == Against::replacement;
  keep.name = fmt::format("{} {} unit", fresh ? "new" : "present", incumbent::name(unit.kind));
  keep.losses = losses_of(unit);
  keep.motor = present_motor(drive);
  keep.lubricant_cost = gaps.count(money.lubricant_cost, "lubricant");
  keep.upkeep_time = gaps.count(money.upkeep_time, "upkeep labour");
  cost::Option& candidate = c.candidate;
  candidate.name = "candidate";
  candidate.price = money.candidate_price ? range_of(*money.candidate_price) : cost::stated(price);
  candidate.losses = losses;
  candidate.motor = candidate_motor(drive);
  if (money.motor_price) candidate.motor_price = range_of(*money.motor_price);
  // Nobody has shown that one of the two needs more oil or care.
  candidate.lubricant_cost = keep.lubricant_cost;
  candidate.upkeep_time = keep.upkeep_time;
  candidate.installation = gaps.take(money.installation, "installation", "Cost of installing it", Quantity::money,
                                     scaled(kInstallation, price));
  const bool fits = fit_beside(drive).fit.verdict == incumbent::FitVerdict::fits;
  candidate.adapters = fits && !money.adapters ? cost::stated(0)
                                               : gaps.take(money.adapters, "adapters", "Cost of adapters",
                                                           Quantity::money, scaled(kAdapters, price));
  if (fresh) {
    keep.price = range_of(*money.replacement_price);
    keep.installation = candidate.installation;
  }

  // Stoppages.
  const double geared_price = money.replacement_price ? money.replacement_price->likely : price;
  const Range wait =
      gaps.take(money.spare_wait, "spare_wait", "Wait for a part", Quantity::lead_time, coefficient(kSpareWait));
  keep.stoppages.modes = cost::usual_modes(geared_price, belt);
  // Where nobody says, both are treated alike.
  const bool spare = money.candidate_spare.value_or(false);
  keep.stoppages.spare_on_shelf = money.spare_on_shelf.value_or(spare_there.value_or(spare));
  if (fresh && spare && !money.spare_on_shelf.value_or(false)) {
    keep.stoppages.spare_on_shelf = true;
    keep.spare_price = keep.price;
  }
  keep.stoppages.spare_wait = wait;
  if (!fresh) {
    keep.stoppages.age = in.running_time.value_or(in.age.value_or(0) * r.running_per_year / cost::kYear);
    const std::optional<double> counted = counted_troubles(in);
    if (money.stops_per_year || counted) {
      if (!money.stops_per_year)
        out.assumptions.push_back({"economics.stops_per_year", "Stoppages counted from the troubles that were seen",
                                   *counted, *counted, *counted, Quantity::number, "stated with the troubles"});
      keep.stoppages.stated =
          cost::StatedStoppages{money.stops_per_year ? range_of(*money.stops_per_year) : cost::stated(*counted),
                                gaps.take(money.repair_time, "repair_time", "Standstill of one stoppage",
                                          Quantity::duration, coefficient(kRepairTime)),
                                gaps.take(money.repair_cost, "repair_cost", "Cost of one repair", Quantity::money,
                                          scaled(kRepair, geared_price))};
    } else {
      // Nobody counted, but somebody knows what one of them takes: waiting is in that time.
      for (cost::FailureMode& mode : keep.stoppages.modes) {
        if (money.repair_time) mode.repair_time = range_of(*money.repair_time);
        if (money.repair_cost) mode.repair_cost = range_of(*money.repair_cost);
      }
      if (money.repair_time) keep.stoppages.spare_wait = cost::stated(0);
    }
  }
  candidate.stoppages.modes = cost::usual_modes(price, false);
  candidate.stoppages.spare_on_shelf = spare;
  if (spare) candidate.spare_price = candidate.price;
  candidate.stoppages.spare_wait = wait;

  // The plant.
  c.years = money.years.value_or(kYears);
  if (!money.years)
    out.assumptions.push_back(
        {"economics.years", "Horizon taken, not said", kYears, 5, 20, Quantity::number, kPractice});
  c.discount_rate =
      gaps.take(money.discount_rate, "discount_rate", "Discount rate", Quantity::share, coefficient(kDiscount));
  c.running_time = running_time(r);
  for (const enquiry::Block& block : r.duty) c.duty.push_back({block.time_share, block.torque * block.speed});
  c.energy_price = *energy_price(money);
  c.energy_price_growth = gaps.take(money.energy_growth, "energy_growth", "Growth of the energy price", Quantity::share,
                                    coefficient(kEnergyGrowth));
  if (money.grid_carbon) {
    c.grid_carbon = range_of(*money.grid_carbon);
  } else if (const std::optional<Range> grid = cost::grid_carbon(country_of(money))) {
    c.grid_carbon = *grid;
  } else {
    out.not_counted.emplace_back("carbon of the grid");
  }
  if (c.grid_carbon.nominal > 0) c.grid_decline = coefficient(kGridDecline);
  c.carbon_price = money.carbon_price ? range_of(*money.carbon_price) : cost::stated(0);
  c.stop_cost = gaps.count(money.stop_cost, "lost production in a standstill");
  c.labour_rate = money.labour_rate ? range_of(*money.labour_rate) : cost::stated(0);
  if (money.upkeep_time && !money.labour_rate) out.not_counted.emplace_back("upkeep labour: its price an hour");
  if (money.carbon_price && !(c.grid_carbon.nominal > 0))
    out.not_counted.emplace_back("the price of carbon: say the country or the carbon of its grid");
  return out;
}

}  // namespace

std::optional<CaseOf> case_of(const Drive& drive, const incumbent::GearUnit& unit, const cost::DriveLosses& losses,
                              Against against) {
  return set_up(drive, unit, losses, against, std::nullopt);
}

std::optional<SpareAnswer> spare_answer(const Drive& drive, const incumbent::GearUnit& unit,
                                        const cost::DriveLosses& losses, Against against) {
  if (against != Against::present || drive.requirement.economics->spare_on_shelf) return std::nullopt;
  SpareAnswer out;
  for (const bool there : {true, false}) {
    const std::optional<CaseOf> setup = set_up(drive, unit, losses, against, there);
    if (!setup) return std::nullopt;
    const Result<cost::CaseResult> result = cost::evaluate(setup->input);
    if (!result) return std::nullopt;
    out.years = setup->input.years;
    (there ? out.with : out.without) = result->net_present_value;
    (there ? out.payback_with : out.payback_without) = result->payback;
  }
  if (out.with == out.without) return std::nullopt;
  return out;
}

std::optional<Check> likely_cost(const Drive& drive, const Evaluation& nominal) {
  if (!missing_for_case(drive).empty()) return std::nullopt;
  const Result<incumbent::GearUnit> unit = unit_beside(drive, nominal);
  if (!unit) return std::nullopt;
  const std::optional<CaseOf> setup =
      case_of(drive, *unit, candidate_losses(drive, nominal, 0), deciding(drive.requirement));
  if (!setup) return std::nullopt;
  const Result<cost::CaseResult> result = cost::evaluate(setup->input);
  if (!result) return std::nullopt;
  return Check{"cost over the years",
               result->candidate.present.total(),
               result->keep.present.total(),
               Quantity::money,
               true,
               {},
               {}};
}

Against deciding(const enquiry::Requirement& requirement) {
  const std::optional<Economics>& money = requirement.economics;
  return money && money->must_be_replaced.value_or(false) ? Against::replacement : Against::present;
}

Result<CaseStudy> study(CaseOf setup, Against against, int samples) {
  CaseStudy out;
  out.against = against;
  out.setup = std::move(setup);
  const cost::CaseInput& input = out.setup.input;
  const Result<cost::CaseResult> result = cost::evaluate(input);
  if (!result) return result.errors();
  const Result<cost::Simulation> spread = cost::simulate(input, samples, kSeed);
  if (!spread) return spread.errors();
  const Result<std::vector<cost::Sensitivity>> sensitivities = cost::sensitivities(input);
  if (!sensitivities) return sensitivities.errors();
  const Result<std::vector<cost::BreakEven>> turns = cost::break_evens(input, out.setup.currency);
  if (!turns) return turns.errors();
  out.result = *result;
  out.spread = *spread;
  out.sensitivities = *sensitivities;
  out.break_evens = *turns;
  if (!input.candidate.stoppages.spare_on_shelf) {
    cost::CaseInput spared = input;
    spared.candidate.stoppages.spare_on_shelf = true;
    spared.candidate.spare_price = spared.candidate.price;
    const Result<cost::CaseResult> with = cost::evaluate(spared);
    if (with) out.with_spare = with->net_present_value;
  }
  return out;
}

Chart cash_flow_chart(const CaseStudy& study) {
  Chart chart{"cash_flow",
              "What the change has saved up to each year, in money of today",
              "Year",
              in_money(study, "Present value"),
              Quantity::number,
              Quantity::money,
              {},
              false,
              false,
              false};
  Series nominal{"at the likely figures", {}, {}, false};
  double present = 0;
  for (std::size_t year = 0; year < study.result.savings.size(); ++year) {
    present +=
        study.result.savings[year] * std::pow(1 + study.setup.input.discount_rate.nominal, -static_cast<double>(year));
    nominal.x.push_back(static_cast<double>(year));
    nominal.y.push_back(present);
  }
  const auto band = [&](const char* name, std::vector<Value> values, double cost::Band::*end) {
    Series s{name, nominal.x, {}, true, std::move(values)};
    for (const cost::Band& b : study.spread.present_by_year) s.y.push_back(b.*end);
    chart.series.push_back(std::move(s));
  };
  chart.series.push_back(nominal);
  band("{} stay below", {{0.05, Quantity::share}}, &cost::Band::low);
  band("half stay below", {}, &cost::Band::median);
  band("{} stay below", {{0.95, Quantity::share}}, &cost::Band::high);
  return chart;
}

Chart sensitivity_chart(const CaseStudy& study) {
  Chart chart{"case_sensitivities",
              "What one figure alone changes",
              "Figure, the most important first",
              in_money(study, "Change of the present value"),
              Quantity::number,
              Quantity::money,
              {},
              true,
              false,
              false,
              {"at its low end", "at its high end"}};
  constexpr std::size_t kMost = 8;
  const double nominal = study.result.net_present_value;
  for (std::size_t i = 0; i < study.sensitivities.size() && i < kMost; ++i) {
    const cost::Sensitivity& s = study.sensitivities[i];
    if (s.swing() <= 0) break;
    const double place = static_cast<double>(i);
    chart.series.push_back({s.label, {place, place + 0.35}, {s.npv_at_low - nominal, s.npv_at_high - nominal}, false});
  }
  return chart;
}

Chart cost_parts_chart(const CaseStudy& study) {
  Chart chart{"cost_parts",
              fmt::format("What both cost over {} years, in money of today", study.setup.input.years),
              "Part of the cost",
              in_money(study, "Present value"),
              Quantity::number,
              Quantity::money,
              {},
              true,
              false,
              false,
              {study.setup.input.keep.name, study.setup.input.candidate.name}};
  struct Part {
    const char* name;
    double cost::CostParts::*member;
  };
  constexpr Part kParts[] = {{"purchase and installation", &cost::CostParts::purchase},
                             {"energy", &cost::CostParts::energy},
                             {"carbon", &cost::CostParts::carbon},
                             {"upkeep", &cost::CostParts::upkeep},
                             {"repairs", &cost::CostParts::repairs},
                             {"standstill", &cost::CostParts::standstill}};
  double place = 0;
  for (const Part& part : kParts) {
    const double keep = study.result.keep.present.*part.member;
    const double candidate = study.result.candidate.present.*part.member;
    if (keep == 0 && candidate == 0) continue;
    chart.series.push_back({part.name, {place, place + 0.35}, {keep, candidate}, false});
    ++place;
  }
  return chart;
}

/// What the answer is with a spare of the present unit, and without.
Text spare_sentence(const CaseStudy& study) {
  const SpareAnswer& spare = *study.spare;
  Text out{fmt::format("Whether it pays against the {} hangs on a spare of the present unit that nobody mentioned:",
                       study.setup.input.keep.name),
           {}};
  const auto say = [&](const char* when, double value, const std::optional<double>& payback) {
    out.pattern += fmt::format(" {} one on the shelf it {} {} over {{}} years", when, value > 0 ? "saves" : "costs",
                               study.amount());
    out.values.push_back({std::abs(value), Quantity::money});
    out.values.push_back({static_cast<double>(spare.years), Quantity::number});
    if (value > 0 && payback) {
      out.pattern += " and pays back after {}";
      out.values.push_back({std::round(10 * *payback) / 10, Quantity::number});
    }
  };
  say("with", spare.with, spare.payback_with);
  out.pattern += ",";
  say("without", spare.without, spare.payback_without);
  out.pattern += ". Ask first.";
  return out;
}

Text case_sentence(const CaseStudy& study) {
  if (study.hangs_on_spare()) return spare_sentence(study);
  const double saved = study.result.net_present_value;
  const std::string& other = study.setup.input.keep.name;
  const std::string amount = study.amount();
  const Value years{static_cast<double>(study.setup.input.years), Quantity::number};
  const Value share{study.spread.share_positive, Quantity::share};
  if (saved > 0 && study.result.payback) {
    if (*study.result.payback == 0)
      return {
          fmt::format("Against the {} it costs no more to put in and saves {} over {{}} years in money of today; over "
                      "all ranges it pays in {{}} of the cases drawn.",
                      other, amount),
          {{saved, Quantity::money}, years, share}};
    const double payback = std::round(10 * *study.result.payback) / 10;
    return {fmt::format("Against the {} it pays back after {{}} years and saves {} over {{}} years in money of today; "
                        "over all ranges it pays in {{}} of the cases drawn.",
                        other, amount),
            {{payback, Quantity::number}, {saved, Quantity::money}, years, share}};
  }
  if (saved > 0)
    return {fmt::format("Against the {} it saves {} over {{}} years in money of today, but what it saves early is lost "
                        "again later; over all ranges it pays in {{}} of the cases drawn.",
                        other, amount),
            {{saved, Quantity::money}, years, share}};
  return {fmt::format("Against the {} it does not pay: over {{}} years it costs {} more in money of today; over all "
                      "ranges it pays in {{}} of the cases drawn.",
                      other, amount),
          {years, {-saved, Quantity::money}, share}};
}

}  // namespace lobewise::evidence
