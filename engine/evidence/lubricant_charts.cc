#include "engine/evidence/lubricant_charts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace lobewise::evidence {
namespace {

using drive::Drive;
using drive::PartLife;

constexpr double kHour = 3600;
constexpr double kStep = 1;  ///< of the curves [K]; small, so that a range does not cut the corner of the renewal

/// Ends of the curves, whole tens of degrees Celsius around the surroundings and the limit [K]. The grade's 40 degC
/// lies inside, on a step.
struct Ends {
  double from, to;
};
Ends ends_of(const Drive& drive) {
  const auto tens = [](double kelvin) { return (kelvin - kZeroCelsius) / 10; };
  const double cold = std::min(drive.requirement.ambient_low, kZeroCelsius);
  return {kZeroCelsius + 10 * std::floor(tens(cold)),
          kZeroCelsius + 10 * std::ceil(tens(drive::lubricant_limit(drive.oil) + 5))};
}

/// A figure of the lubricant over its temperature.
template <class Figure>
void follow(double from, double to, const Figure& figure, Series& into) {
  const int steps = std::max(1, static_cast<int>(std::ceil((to - from) / kStep - 1e-9)));
  for (int i = 0; i <= steps; ++i) {
    into.x.push_back(i == steps ? to : from + kStep * i);
    into.y.push_back(figure(into.x.back()));
  }
}

/// Where this machine runs, in words.
std::string runs_at(const Drive& drive, const Evaluation& e) {
  if (!e.warm || (drive.requirement.intermittent && !e.cycle))
    return "it finds no steady temperature; at the limit, {}";
  return e.cycle ? "at its warmest in the cycle, {}" : "running, {}";
}

/// The bearing that asks for the most viscosity, of those at the output or of the fast ones; null without any.
const PartLife* most_asking(const std::vector<PartLife>& parts, bool output) {
  const PartLife* found = nullptr;
  for (const PartLife& part : parts)
    if (part.bearing && part.kappa > 0 && (part.id.rfind("output", 0) == 0) == output &&
        (found == nullptr || part.kappa < found->kappa))
      found = &part;
  return found;
}

Chart viscosity_chart(const Drive& drive, const Evaluation& e) {
  Chart chart{"viscosity_over_temperature",
              "Viscosity of the lubricant over its temperature",
              "Temperature of the lubricant",
              "Kinematic viscosity",
              Quantity::temperature,
              Quantity::kinematic_viscosity,
              {},
              false,
              false,
              true};
  const Ends ends = ends_of(drive);
  const auto nu = [&](double temperature) { return drive.oil.nu(temperature, 1); };
  Series oil{
      drive.oil.grease() ? "its base oil, {} at {}" : "this oil, {} at {}",
      {},
      {},
      false,
      {{drive.oil.fill.viscosity_40, Quantity::kinematic_viscosity}, {kZeroCelsius + 40, Quantity::temperature}}};
  follow(ends.from, ends.to, nu, oil);
  const double most = oil.y.front(), least = oil.y.back();
  chart.series.push_back(std::move(oil));
  const auto line = [&](Text name, double viscosity) {
    chart.series.push_back(
        {std::move(name.pattern), {ends.from, ends.to}, {viscosity, viscosity}, true, std::move(name.values)});
  };
  if (const PartLife* slow = most_asking(e.lives.parts, true))
    line({"asked for by the " + slow->label, {}}, nu(e.oil_temperature) / slow->kappa);
  if (const PartLife* fast = most_asking(e.lives.parts, false)) {
    const double asked = nu(e.oil_temperature) / fast->kappa;
    line({"asked for by the " + fast->label, {}}, asked);
    line({"least for it, {} of that", {{kLeastViscosityRatio, Quantity::number}}}, kLeastViscosityRatio * asked);
  }
  const double limit = drive::lubricant_limit(drive.oil);
  chart.series.push_back(
      {"limit of lubricant and seals, {}", {limit, limit}, {least, most}, true, {{limit, Quantity::temperature}}});
  const auto point = [&](std::string name, double temperature) {
    chart.series.push_back(
        {std::move(name), {temperature}, {nu(temperature)}, false, {{temperature, Quantity::temperature}}});
  };
  point("cold start, {}", drive.requirement.ambient_low);
  point("warmest surroundings, {}", drive.requirement.ambient_high);
  point(runs_at(drive, e), e.oil_temperature);
  return chart;
}

Chart renewal_chart(const Drive& drive, const Evaluation& e) {
  Chart chart{"renewal_over_temperature",
              "Renewal of the lubricant over its temperature",
              "Temperature of the lubricant",
              "Interval",
              Quantity::temperature,
              Quantity::duration,
              {},
              false,
              false,
              false};
  const auto interval = [&](double temperature) { return renewal_interval(drive.oil, temperature); };
  Series rule{"rule of the trade, halved every {} above {}",
              {},
              {},
              false,
              {{kRenewalHalves, Quantity::temperature_difference}, {kRenewalFalls, Quantity::temperature}}};
  follow(kZeroCelsius + 40, ends_of(drive).to, interval, rule);
  const double limit = drive::lubricant_limit(drive.oil);
  chart.series = {std::move(rule),
                  {"limit of lubricant and seals, {}",
                   {limit, limit},
                   {0, renewal_when_cool(drive.oil)},
                   true,
                   {{limit, Quantity::temperature}}},
                  {runs_at(drive, e),
                   {e.oil_temperature},
                   {interval(e.oil_temperature)},
                   false,
                   {{e.oil_temperature, Quantity::temperature}}}};
  return chart;
}

}  // namespace

double renewal_when_cool(const drive::Oil& oil) {
  return (oil.grease() || oil.fill.base == range::BaseOil::mineral ? 8000 : 16000) * kHour;
}

double renewal_interval(const drive::Oil& oil, double temperature) {
  return renewal_of<double>(renewal_when_cool(oil), temperature, kRenewalFalls, kRenewalHalves);
}

std::vector<Chart> lubricant_charts(const Drive& drive, const Evaluation& e) {
  return {viscosity_chart(drive, e), renewal_chart(drive, e)};
}

void mark_temperature_range(const Drive& drive, double low, double high, std::vector<Chart>& charts) {
  for (Chart& chart : charts) {
    const std::vector<double>& x = chart.series.front().x;
    const double from = std::max(low, x.front()), to = std::min(high, x.back());
    if (!(from < to)) continue;
    Series range{
        "may be {} to {} (5–95 %)", {}, {}, false, {{low, Quantity::temperature}, {high, Quantity::temperature}}, true};
    const bool renewal = chart.y_quantity == Quantity::duration;
    follow(
        from, to, [&](double t) { return renewal ? renewal_interval(drive.oil, t) : drive.oil.nu(t, 1); }, range);
    chart.series.push_back(std::move(range));
  }
}

}  // namespace lobewise::evidence
