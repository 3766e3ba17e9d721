#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/base/formula/record.h"
#include "engine/case/business_case.h"
#include "engine/case/yearly.h"

namespace lobewise::cost {
namespace {

using namespace formula;

constexpr const char* kDerived = "derived, docs/theory/case.md";

/// What both options share.
struct Shared {
  explicit Shared(const CaseInput& in)
      : running_time(input("t", "running time a year", in.running_time.nominal, Quantity::duration)),
        rate(input("r", "discount rate", in.discount_rate.nominal, Quantity::share)),
        price(input("p", "price of energy", in.energy_price.nominal, Quantity::energy_price)),
        growth(input("g", "growth of that price a year", in.energy_price_growth.nominal, Quantity::share)),
        stop_cost(input("c_s", "cost of an hour of standstill", in.stop_cost.nominal, Quantity::money)),
        last(input("N", "years of the horizon", in.years)),
        years(inputs("y", "years", counted(1, in.years))) {}

  static std::vector<double> counted(int from, int to) {
    std::vector<double> list(static_cast<std::size_t>(to - from + 1));
    std::iota(list.begin(), list.end(), from);
    return list;
  }

  Term running_time, rate, price, growth, stop_cost, last, years;
};

/// The steps of one option; its symbols end on `tag`.
class OptionWorking {
 public:
  OptionWorking(Working& w, const CaseInput& in, const Shared& shared, const Option& option, const char* tag)
      : w_(w), in_(in), s_(shared), o_(option), tag_(tag), today_(discount(s_.rate, s_.years)) {}

  void write() {
    const Term energy = first_year();
    const Stops stops = o_.stoppages.stated ? counted_stops() : renewals();
    Term total = purchase();
    const auto add = [&](const char* base, const char* meaning, const Term& cost) {
      total = total + step(base, meaning, Quantity::money, cost);
    };
    add("C_en", "present cost of energy", sum(energy_cost(energy, s_.price, s_.growth, s_.years) * today_));
    if (in_.carbon_price.nominal != 0) {
      const Term intensity = input("c_g", "carbon of a unit of energy (kg/J)", in_.grid_carbon.nominal),
                 decline = input("d_g", "fall of that a year", in_.grid_decline.nominal, Quantity::share),
                 price = input("p_c", "price of carbon (a kg)", in_.carbon_price.nominal);
      add("C_co", "present cost of carbon", sum(carbon_mass(energy, intensity, decline, s_.years) * price * today_));
    }
    const Term upkeep = upkeep_cost(own("p_l", "lubricant a year", o_.lubricant_cost.nominal, Quantity::money),
                                    own("t_u", "labour a year", o_.upkeep_time.nominal, Quantity::duration),
                                    input("p_h", "labour an hour", in_.labour_rate.nominal, Quantity::money));
    add("C_up", "present cost of lubricant and labour", sum(upkeep * today_));
    add("C_re", "present cost of repairs", sum(stops.repair_cost * today_));
    add("C_st", "present cost of lost production", sum(standstill_cost(stops.lost_time, s_.stop_cost) * today_));
    add("C_di", "present cost of disposal",
        own("D", "disposal at the end", o_.disposal.nominal, Quantity::money) * discount(s_.rate, s_.last));
    step("C", "present cost over the horizon", Quantity::money, total);
  }

 private:
  /// Of each year, lists.
  struct Stops {
    Term repair_cost, lost_time;
  };

  [[nodiscard]] std::string symbol(const std::string& base) const {
    return base + (base.find('_') == std::string::npos ? "_" : "") + tag_;
  }
  Term own(const std::string& base, const std::string& meaning, double value, Quantity quantity) {
    return input(symbol(base), meaning, value, quantity);
  }
  Term step(const std::string& base, const std::string& meaning, Quantity quantity, const Term& result,
            const std::string& source = kDerived) {
    return record(w_, symbol(base).c_str(), fmt::format("{}: {}", o_.name, meaning).c_str(), quantity, result, source);
  }

  static std::vector<WorkingInput> of(std::initializer_list<Term> symbols) {
    std::vector<WorkingInput> list;
    for (const Term& symbol : symbols)
      for (WorkingInput& given : inputs_of(*symbol.node())) list.push_back(std::move(given));
    return list;
  }

  Term first_year() {
    std::vector<double> powers, shares;
    for (const Load& load : in_.duty) {
      powers.push_back(load.output_power);
      shares.push_back(load.time_share);
    }
    if (powers.empty()) return step("W", "electric energy in the first year", Quantity::energy, Term(0.0));
    const Term shaft = shaft_power(inputs("P_i", "output powers of the duty", std::move(powers), Quantity::power),
                                   own("V", "reducer loss without load", o_.losses.idle_power.nominal, Quantity::power),
                                   own("s", "reducer loss per output power", o_.losses.slope.nominal, Quantity::share));
    const Term power =
        motor_input(shaft, own("P", "rated motor power", o_.motor.rated_power, Quantity::power),
                    own("eta", "rated motor efficiency", o_.motor.rated_efficiency.nominal, Quantity::share),
                    own("f", "fixed share of the motor's losses", o_.motor.fixed_loss_share.nominal, Quantity::share));
    return step("W", "electric energy in the first year", Quantity::energy,
                s_.running_time * sum(inputs("q_i", "their shares of the running time", std::move(shares)) * power),
                fmt::format("{}; {}", kDerived, o_.motor.fixed_loss_share.source));
  }

  Term purchase() {
    Term paid = own("p_r", "reducer", o_.price.nominal, Quantity::money);
    const auto add = [&](const char* base, const char* meaning, const Range& amount) {
      if (amount.nominal != 0) paid = paid + own(base, meaning, amount.nominal, Quantity::money);
    };
    add("p_m", "motor", o_.motor_price);
    add("p_i", "installation", o_.installation);
    add("p_a", "adapters", o_.adapters);
    add("p_s", "spare for the shelf", o_.spare_price);
    return step("C_pu", "paid now", Quantity::money, paid);
  }

  /// The plant's own count, the same in each year.
  Stops counted_stops() {
    const StatedStoppages& stated = *o_.stoppages.stated;
    const Term events = own("e", "stoppages a year, as the plant counted", stated.per_year.nominal, Quantity::number);
    step("n", "expected stoppages over the horizon", Quantity::number, events * s_.last,
         "derived, the plant's own count");
    return {events * own("p_e", "repair of each", stated.repair_cost.nominal, Quantity::money),
            events * own("t_e", "running time lost in each", stated.repair_time.nominal, Quantity::duration)};
  }

  /// Parts that fail and are renewed.
  Stops renewals() {
    const Stoppages& stops = o_.stoppages;
    Term events = 0.0, cost = 0.0, lost = 0.0;
    const Term wait =
        stops.spare_on_shelf
            ? Term(0.0)
            : step("t_w", "running time lost while a part is awaited", Quantity::duration,
                   awaited(own("t_c", "time until a part comes", stops.spare_wait.nominal, Quantity::duration),
                           s_.running_time));
    for (std::size_t i = 0; i < stops.modes.size(); ++i) {
      const FailureMode& mode = stops.modes[i];
      const std::string number = std::to_string(i + 1);
      const Term yearly = renewed(mode, number);
      const Term own_cost =
          yearly * own("p_" + number, "repair: " + mode.name, mode.repair_cost.nominal, Quantity::money);
      const Term stands = own("t_" + number, "standstill with the part at hand: " + mode.name, mode.repair_time.nominal,
                              Quantity::duration);
      const Term own_lost = yearly * (stops.spare_on_shelf ? stands : stands + wait);
      events = i == 0 ? sum(yearly) : events + sum(yearly);
      cost = i == 0 ? own_cost : cost + own_cost;
      lost = i == 0 ? own_lost : lost + own_lost;
    }
    if (stops.modes.empty()) {
      cost = lost = inputs(symbol("n_0"), "no failure mode given: stoppages of each year",
                           std::vector<double>(static_cast<std::size_t>(in_.years), 0.0));
      events = sum(cost);
    }
    step("n", "expected stoppages over the horizon", Quantity::number, events,
         stops.modes.empty() ? "derived, no failure mode given" : stops.modes.front().scale.source);
    return {cost, lost};
  }

  /// How often a part fails while each failed one is renewed, between what closed forms allow.
  /// @returns the failures of each year
  Term renewed(const FailureMode& mode, const std::string& number) {
    std::vector<double> yearly = failures_by_year(mode, o_.stoppages.age, in_.running_time.nominal, in_.years);
    const double count = std::accumulate(yearly.begin(), yearly.end(), 0.0);
    const Term served = own("t_0", "running time already served", o_.stoppages.age, Quantity::duration);
    const Term shape = own("beta_" + number, "Weibull shape: " + mode.name, mode.shape.nominal, Quantity::number),
               scale = own("eta_" + number, "Weibull scale: " + mode.name, mode.scale.nominal, Quantity::duration);
    const Term horizon = s_.running_time * s_.last;
    const Term first =
        step("F_" + number, "share of the first ones that fail, the least there can be: " + mode.name, Quantity::share,
             1.0 - exp(pow(served / scale, shape) - pow((served + horizon) / scale, shape)), mode.scale.source);
    const Term mean = step("m_" + number, "mean life: " + mode.name, Quantity::duration,
                           scale * exp(gammaln(1.0 + 1.0 / shape)), "derived, Weibull");
    const Term square = pow(scale, 2.0) * exp(gammaln(1.0 + 2.0 / shape));
    step("B_" + number, "the most there can be: " + mode.name, Quantity::number,
         first * (horizon / mean + square / pow(mean, 2.0)), "from memory: Lorden 1970, renewals after the first");
    record_followed(w_, symbol("M_" + number).c_str(), fmt::format("{}: failures of {}", o_.name, mode.name).c_str(),
                    Quantity::number, count,
                    "M(t) = F_1(t) + integral of F(t - x) dM(x) in midpoint steps, each failed part replaced by a new "
                    "one",
                    of({served, shape, scale, s_.running_time, s_.last}), mode.scale.source);
    return inputs(symbol("n_" + number), "failures of each year: " + mode.name, std::move(yearly));
  }

  Working& w_;
  const CaseInput& in_;
  const Shared& s_;
  const Option& o_;
  std::string tag_;
  Term today_;
};

/// The year in which the sum of the savings turns positive for good, and how far into it.
void write_payback(Working& w, const CaseResult& r) {
  if (!r.payback || !(*r.payback > 0)) return;
  double total = 0;
  std::size_t turn = 0;
  for (std::size_t year = 0; year < r.savings.size(); ++year) {
    total += r.savings[year];
    if (total < 0) turn = year + 1;
  }
  const auto end = r.savings.begin() + static_cast<std::ptrdiff_t>(turn);
  record(w, "y_p", "years until the savings have paid back what was put in", Quantity::number,
         input("y_t", "whole years before", static_cast<double>(turn) - 1) -
             sum(inputs("S_t", "savings up to then", {r.savings.begin(), end}, Quantity::money)) /
                 input("S_1", "saving of the year after", *end, Quantity::money),
         "derived, a year's saving spread evenly over it");
}

}  // namespace

Working case_working(const CaseInput& in, const CaseResult& r) {
  Working w;
  const Shared shared(in);
  OptionWorking(w, in, shared, in.keep, "k").write();
  OptionWorking(w, in, shared, in.candidate, "n").write();
  const Term all = inputs("y_0", "years, from now", Shared::counted(0, in.years));
  const Term savings = inputs("K_y", "cost of keeping in each year", r.keep.flows, Quantity::money) -
                       inputs("C_y", "cost of the candidate in each year", r.candidate.flows, Quantity::money);
  record(w, "NPV", "present value of choosing the candidate", Quantity::money,
         sum(savings * discount(shared.rate, all)), "derived, textbook definition");
  if (r.return_rate.rate) {
    const Term found = input("i", "rate that the money put in returns", *r.return_rate.rate, Quantity::share);
    const Term present = sum(savings * discount(found, all));
    double size = 0;
    for (const double saving : r.savings) size += std::fabs(saving);
    record_solved(w, "i", "rate that the money put in returns: at it the savings are worth nothing today",
                  Quantity::share, *r.return_rate.rate, present, 1e-6 * size, "derived, textbook definition");
  }
  write_payback(w, r);
  return w;
}

}  // namespace lobewise::cost
