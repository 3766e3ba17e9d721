#include "engine/demand/practice.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "data/driven_machine_classes.h"
#include "data/service_factor_practice.h"
#include "engine/demand/given.h"

namespace lobewise::demand {
namespace {

constexpr double kHour = 3600;
constexpr double kLineExponent = 10.0 / 3;  // ISO 281, roller bearings
constexpr Coefficient kPeakAllowed{2.0, 1.6, 3.0, "common practice, no source: momentary torque at start over rating"};

using formula::Term;
using Row = data::ServiceFactorPracticeRow;

/// @param value  hours or starts; a row covers what lies above its `from` and not above its `to`
const Row* row_of(std::string_view part, std::string_view item, std::optional<double> value = std::nullopt) {
  const auto covers = [&](const Row& row) {
    return row.part == part && row.item == item &&
           (!value || ((*value > *row.from || *row.from == 0) && *value <= *row.to));
  };
  const auto found = std::find_if(data::kServiceFactorPractice.begin(), data::kServiceFactorPractice.end(), covers);
  return found == data::kServiceFactorPractice.end() ? nullptr : &*found;
}

std::string_view mover_word(PrimeMover mover) {
  return mover == PrimeMover::electric         ? "electric motor"
         : mover == PrimeMover::multi_cylinder ? "engine of several cylinders"
                                               : "engine of one cylinder";
}

constexpr std::string_view kByLoad = "load and hours a day", kByStarts = "times starts an hour";
/// Hours a day that the rows of machines stand for, and starts an hour beyond which practice gives no factor.
constexpr double kRowHours = 8, kMostStarts = 200;

/// The two ends of a factor.
struct Ends {
  Term low, high;
};

/// Both ends of a factor, read from a table. @param where  table and row
Ends looked_up(Working& working, const std::string& symbol, const std::string& meaning, double low, double high,
               const std::string& where, const std::vector<WorkingInput>& key, std::string_view source) {
  const auto end = [&](const char* suffix, const char* words, double value) {
    const std::string name = symbol + suffix, text = meaning + words;
    formula::record_looked_up(working, name.c_str(), text.c_str(), Quantity::number, value, where, key,
                              std::string(source));
    return formula::input(name, text, value);
  };
  return {end("_low", ", low end", low), end("_high", ", high end", high)};
}

Ends looked_up(Working& working, const std::string& symbol, const std::string& meaning, const Row& row,
               const std::vector<WorkingInput>& key) {
  std::string where = fmt::format("usual service factors, {}", row.part);
  if (!row.item.empty()) where += fmt::format(": {}", row.item);
  if (row.from && row.to) where += fmt::format(", above {:g} to {:g}", *row.from, *row.to);
  return looked_up(working, symbol, meaning, row.low, row.high, where, key, row.source);
}

/// Both ends of a factor, computed from those of others. @param of  (Ends…) -> one end
template <class Of>
Ends computed(Working& working, const std::string& symbol, const std::string& meaning, const char* source, Of of) {
  const auto end = [&](const char* suffix, const char* words, Term Ends::*which) {
    return formula::record(working, (symbol + suffix).c_str(), (meaning + words).c_str(), Quantity::number, of(which),
                           source);
  };
  return {end("_low", ", low end", &Ends::low), end("_high", ", high end", &Ends::high)};
}

/// The factor that the computed duty asks for.
void write_computed(const DutySpectrum& spectrum, double running_torque, double equivalent, double peak_torque,
                    Working& w) {
  using namespace formula;
  const Term running = input("T", "running torque", running_torque, Quantity::torque),
             exponent = input("p", "exponent of the life of line contacts", kLineExponent);
  Term wears = input("T_e", "no turn, no wear", 0, Quantity::torque);
  if (equivalent > 0) {
    std::vector<double> torques, speeds, shares;
    for (const SpectrumBin& bin : spectrum.bins) {
      torques.push_back(bin.torque);
      speeds.push_back(bin.speed);
      shares.push_back(bin.share);
    }
    const Term turns = inputs("q_i", "shares of the running time", std::move(shares)) *
                       inputs("n_i", "speeds", std::move(speeds), Quantity::angular_speed);
    wears = record(w, "T_e", "steady torque that wears as the day does", Quantity::torque,
                   pow(sum(turns * pow(abs(inputs("T_i", "torques", std::move(torques), Quantity::torque)), exponent)) /
                           sum(turns),
                       1.0 / exponent),
                   "[iso281] exponent for line contact, Palmgren-Miner");
  }
  const Term life =
      record(w, "f_w", "factor of wear, of which ten hours a day are one", Quantity::number,
             wears / running *
                 pow(input("h", "running time a day", spectrum.hours_per_day, Quantity::duration) / (10 * kHour),
                     1.0 / exponent),
             kCommonPractice);
  const Term peak = record(w, "f_p", "factor of the worst moment", Quantity::number,
                           input("T_p", "largest torque", peak_torque, Quantity::torque) / running /
                               input("k_p", "what a rating stands for a moment", kPeakAllowed.nominal),
                           kPeakAllowed.source);
  record(w, "f_c", "factor that the computed duty asks for", Quantity::number, max(life, peak), kDerived);
}

}  // namespace

Result<Practice> practice_factor(const Demand& demand, double hours_per_day, double starts_per_hour,
                                 double reversals_per_hour, PrimeMover prime_mover) {
  Practice practice;
  const std::string_view load = to_string(demand.shock_class);
  const Row* base = row_of(kByLoad, load, std::min(hours_per_day / kHour, 24.0));
  const Row* usual_day = row_of(kByLoad, load, kRowHours);
  const Row* driver = row_of("added by what drives it", mover_word(prime_mover));
  const Row* starts = row_of(kByStarts, "", std::min(starts_per_hour, kMostStarts));
  const Row* reversing = row_of("times reversing under load", "");
  if (!base || !usual_day || !driver || !starts || !reversing)
    return Error{ErrorKind::internal, "practice", "", "The service-factor table lacks a row.", 0};
  Working& w = practice.working;
  const WorkingInput hours{"h", "running time a day", hours_per_day, Quantity::duration};
  const Ends by_load = looked_up(w, "f_1", "by load and hours a day", *base, {hours});
  Ends lowest = by_load;
  if (!demand.practice_machine.empty()) {
    const auto* row = std::find_if(data::kDrivenMachineClasses.begin(), data::kDrivenMachineClasses.end(),
                                   [&](const auto& r) { return r.machine == demand.practice_machine; });
    if (row == data::kDrivenMachineClasses.end())
      return Error{ErrorKind::internal, "practice", demand.practice_machine,
                   "The table of driven machines lacks a row.", 0};
    // The row stands for a usual day; other hours shift it as they shift the load's own factor.
    const Ends usual = looked_up(w, "f_8", "by load on a usual day", *usual_day,
                                 {{"h", "usual day", kRowHours * kHour, Quantity::duration}});
    const Ends own = looked_up(w, "f_k", "the machine's own row", row->low, row->high,
                               fmt::format("driven machines: {}", row->machine), {}, row->source);
    const Ends shifted = computed(w, "f_m", "by the machine's own row", kCommonPractice,
                                  [&](auto end) { return own.*end + by_load.*end - usual.*end; });
    lowest = computed(w, "f_2", "the wider of both", kCommonPractice, [&](auto end) {
      return end == &Ends::low ? min(by_load.*end, shifted.*end) : max(by_load.*end, shifted.*end);
    });
  }
  Ends factor = lowest;
  if (prime_mover != PrimeMover::electric) {
    const Ends added = looked_up(w, "f_d", "added for an engine", *driver, {});
    factor =
        computed(w, "f_3", "with what drives it", kCommonPractice, [&](auto end) { return factor.*end + added.*end; });
  }
  if (starts_per_hour > *row_of(kByStarts, "", 1)->to) {
    const Ends times = looked_up(w, "f_s", "starts an hour (above 200 practice has none: the duty must be worked out)",
                                 *starts, {{"s", "starts", starts_per_hour, Quantity::per_hour}});
    factor = computed(w, "f_4", "with its starts", kCommonPractice, [&](auto end) { return factor.*end * times.*end; });
  }
  if (reversals_per_hour > 0) {
    const Ends times = looked_up(w, "f_r", "reversing under load", *reversing, {});
    factor =
        computed(w, "f_5", "with its reversals", kCommonPractice, [&](auto end) { return factor.*end * times.*end; });
  }
  practice.low = factor.low.value();
  practice.high = factor.high.value();
  return practice;
}

Result<CrossCheck> cross_check(const Demand& demand, const DutySpectrum& spectrum, PrimeMover prime_mover) {
  if (!(demand.torque.value > 0))
    return model_error("machine", "", "A service factor says nothing about a machine that is driven by its load.");
  auto practice = practice_factor(demand, spectrum.hours_per_day, spectrum.starts_per_hour, spectrum.reversals_per_hour,
                                  prime_mover);
  if (!practice) return practice.errors();
  CrossCheck check;
  check.practice = std::move(practice).value();
  const double running = demand.torque.value, hours = spectrum.hours_per_day / kHour;
  const double equivalent = mean_speed(spectrum.bins) > 0 ? equivalent_torque(spectrum.bins, kLineExponent) : 0;
  const double time = std::pow(hours / 10, 1 / kLineExponent);
  const double peak = std::max(peak_torque(spectrum), demand.starting_torque.value);
  // Spread of the running torque itself, for figures that are referred to its nominal value.
  const double low = demand.torque.low / running, high = demand.torque.high / running;
  check.life = {equivalent / running * time, equivalent / running * time * low, equivalent / running * time * high};
  check.peak = {peak / running / kPeakAllowed.nominal, peak / running / kPeakAllowed.high,
                peak / running / kPeakAllowed.low};
  check.computed = {std::max(check.life.value, check.peak.value), std::max(check.life.low, check.peak.low),
                    std::max(check.life.high, check.peak.high)};

  write_computed(spectrum, running, equivalent, peak, check.practice.working);

  using Agreement = CrossCheck::Agreement;
  const double value = check.computed.value;
  constexpr double kSame = 0.05;  // half a step of practice
  check.agreement = value < check.practice.low - kSame    ? Agreement::practice_asks_more
                    : value > check.practice.high + kSame ? Agreement::duty_asks_more
                                                          : Agreement::agrees;
  auto& why = check.explanation;
  const bool one = check.practice.low == check.practice.high;
  std::vector<Value> figures{{value, Quantity::number}, {check.practice.low, Quantity::number}};
  if (!one) figures.push_back({check.practice.high, Quantity::number});
  why.push_back({one ? "The computed duty asks for {} times the running torque, practice for {}."
                     : "The computed duty asks for {} times the running torque, practice for {} to {}.",
                 std::move(figures)});
  if (check.agreement == Agreement::practice_asks_more) {
    if (equivalent < 0.9 * running)
      why.push_back(
          {"Practice knows only the heaviest hour: over this day the wear is that of {} of the running torque.",
           {{equivalent / running, Quantity::share}}});
    if (spectrum.shocks.empty() && demand.shock_class != ShockClass::steady)
      why.push_back(
          {"Practice covers shocks of this kind of machine that nobody has counted here: ask for them before "
           "trusting the lower figure.",
           {}});
    if (spectrum.shocks.empty() && demand.shock_class == ShockClass::steady)
      why.push_back(
          {"The surplus of practice covers what is not known: misuse, poor upkeep, errors of the estimate.", {}});
  }
  if (check.agreement == Agreement::duty_asks_more) {
    if (check.peak.value >= check.life.value)
      why.push_back(
          {"The worst moment decides: {} is {} times the running torque, and a service factor covers about twice "
           "the rating for a moment.",
           {{peak, Quantity::torque}, {peak / running, Quantity::number}}});
    else
      why.push_back({"Wear decides: {} a day at {} of the running torque.",
                     {{spectrum.hours_per_day, Quantity::duration}, {equivalent / running, Quantity::share}}});
    if (demand.starting_torque.value > 2 * running)
      why.push_back({"This machine breaks away at {}, more than practice takes for granted.",
                     {{demand.starting_torque.value, Quantity::torque}}});
  }
  if (demand.torque.high > 1.25 * running)
    why.push_back(
        {"The running torque itself may reach {} under the assumptions made: this outweighs the choice of a factor.",
         {{demand.torque.high, Quantity::torque}}});
  if (spectrum.starts_per_hour > 200)
    why.push_back({"Above {} starts an hour practice has no factor.", {{200, Quantity::per_hour}}});
  return check;
}

}  // namespace lobewise::demand
