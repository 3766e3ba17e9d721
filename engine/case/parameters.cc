#include "engine/case/parameters.h"

#include <limits>
#include <utility>

namespace lobewise::cost {
namespace {

constexpr double kAny = std::numeric_limits<double>::infinity();

bool same(const Range& a, const Range& b) {
  return a.low == b.low && a.nominal == b.nominal && a.high == b.high && a.logarithmic == b.logarithmic;
}

class Collector {
 public:
  std::vector<Parameter> list;

  void amount(const std::string& path, const std::string& label, Quantity quantity, Range& r) {
    list.push_back({path, label, quantity, {&r}, 0, false, kAny, "It is not negative."});
  }
  void signed_amount(const std::string& path, const std::string& label, Quantity quantity, Range& r) {
    list.push_back({path, label, quantity, {&r}, -kAny, false, kAny, "Any finite amount."});
  }
  void rate(const std::string& path, const std::string& label, Range& r) {
    list.push_back(
        {path, label, Quantity::share, {&r}, -0.5, false, 1, "A rate per year lies between -50 % and 100 %."});
  }
  void positive(const std::string& path, const std::string& label, Quantity quantity, Range& r) {
    list.push_back({path, label, quantity, {&r}, 0, true, kAny, "It must be positive."});
  }
  void share(const std::string& path, const std::string& label, Range& r, bool above_zero) {
    list.push_back({path, label, Quantity::share, {&r}, 0, above_zero, 1, "A share lies between 0 and 1."});
  }

  void option(const std::string& path, const std::string& who, Option& o) {
    amount(path + ".price", "price, " + who, Quantity::money, o.price);
    amount(path + ".motor_price", "motor price, " + who, Quantity::money, o.motor_price);
    amount(path + ".installation", "installation, " + who, Quantity::money, o.installation);
    amount(path + ".adapters", "adapters, " + who, Quantity::money, o.adapters);
    amount(path + ".spare_price", "spare on the shelf, " + who, Quantity::money, o.spare_price);
    amount(path + ".lubricant_cost", "lubricant a year, " + who, Quantity::money, o.lubricant_cost);
    amount(path + ".upkeep_time", "upkeep time a year, " + who, Quantity::duration, o.upkeep_time);
    signed_amount(path + ".disposal", "disposal, " + who, Quantity::money, o.disposal);
    amount(path + ".losses.idle_power", "idle loss, " + who, Quantity::power, o.losses.idle_power);
    amount(path + ".losses.slope", "loss per output power, " + who, Quantity::share, o.losses.slope);
    share(path + ".motor.rated_efficiency", "motor efficiency, " + who, o.motor.rated_efficiency, true);
    share(path + ".motor.fixed_loss_share", "fixed share of motor losses, " + who, o.motor.fixed_loss_share, false);
    amount(path + ".stoppages.spare_wait", "wait for a spare, " + who, Quantity::lead_time, o.stoppages.spare_wait);
    if (o.stoppages.stated) {
      StatedStoppages& s = *o.stoppages.stated;
      amount(path + ".stoppages.per_year", "stoppages a year, " + who, Quantity::number, s.per_year);
      amount(path + ".stoppages.repair_time", "time of a stoppage, " + who, Quantity::duration, s.repair_time);
      amount(path + ".stoppages.repair_cost", "cost of a repair, " + who, Quantity::money, s.repair_cost);
      return;
    }
    for (FailureMode& m : o.stoppages.modes) {
      const std::string base = path + ".stoppages." + m.name;
      positive(base + ".shape", "Weibull shape of " + m.name + ", " + who, Quantity::number, m.shape);
      positive(base + ".scale", "life of " + m.name + ", " + who, Quantity::duration, m.scale);
      amount(base + ".repair_time", "repair time of " + m.name + ", " + who, Quantity::duration, m.repair_time);
      amount(base + ".repair_cost", "repair cost of " + m.name + ", " + who, Quantity::money, m.repair_cost);
    }
  }

  /// A figure both options take from the same row is one uncertainty, not two.
  void join(const std::string& keep, const std::string& candidate, const std::string& path, const std::string& label) {
    std::size_t first = list.size();
    std::size_t second = list.size();
    for (std::size_t i = 0; i < list.size(); ++i) {
      first = list[i].path == keep ? i : first;
      second = list[i].path == candidate ? i : second;
    }
    if (first == list.size() || second == list.size() || !same(*list[first].ranges[0], *list[second].ranges[0])) {
      return;
    }
    list[first].path = path;
    list[first].label = label;
    list[first].ranges.push_back(list[second].ranges[0]);
    list.erase(list.begin() + static_cast<std::ptrdiff_t>(second));
  }
};

}  // namespace

std::vector<Parameter> parameters(CaseInput& in) {
  Collector c;
  c.rate("discount_rate", "discount rate", in.discount_rate);
  c.positive("running_time", "running time a year", Quantity::duration, in.running_time);
  c.amount("energy_price", "energy price", Quantity::energy_price, in.energy_price);
  c.rate("energy_price_growth", "growth of the energy price", in.energy_price_growth);
  c.amount("grid_carbon", "carbon of the grid", Quantity::carbon_intensity, in.grid_carbon);
  c.rate("grid_decline", "decline of the grid's carbon", in.grid_decline);
  c.amount("carbon_price", "price of carbon", Quantity::carbon_price, in.carbon_price);
  c.amount("stop_cost", "cost of an hour of standstill", Quantity::money_rate, in.stop_cost);
  c.amount("labour_rate", "labour per hour", Quantity::money_rate, in.labour_rate);
  c.option("keep", in.keep.name, in.keep);
  c.option("candidate", in.candidate.name, in.candidate);
  if (!in.keep.stoppages.stated && !in.candidate.stoppages.stated) {
    for (const FailureMode& m : in.keep.stoppages.modes) {
      for (const char* field : {".shape", ".scale", ".repair_time"}) {
        c.join("keep.stoppages." + m.name + field, "candidate.stoppages." + m.name + field,
               "stoppages." + m.name + field,
               (std::string(field) == ".scale"   ? "life of "
                : std::string(field) == ".shape" ? "Weibull shape of "
                                                 : "repair time of ") +
                   m.name);
      }
    }
  }
  // Equal figures of both options are the same figure: one motor that stays, one crane, one oil.
  constexpr std::pair<const char*, const char*> kShared[] = {{"motor.rated_efficiency", "motor efficiency"},
                                                             {"motor.fixed_loss_share", "fixed share of motor losses"},
                                                             {"installation", "installation"},
                                                             {"lubricant_cost", "lubricant a year"},
                                                             {"upkeep_time", "upkeep time a year"}};
  for (const auto& [path, label] : kShared) {
    c.join(std::string("keep.") + path, std::string("candidate.") + path, path, label);
  }
  c.join("keep.stoppages.spare_wait", "candidate.stoppages.spare_wait", "stoppages.spare_wait", "wait for a spare");
  return c.list;
}

}  // namespace lobewise::cost
