#include "engine/demand/given.h"

#include <fmt/format.h>

namespace lobewise::demand {

const char* to_string(ShockClass shock) {
  switch (shock) {
    case ShockClass::steady:
      return "steady";
    case ShockClass::uneven:
      return "uneven";
    case ShockClass::striking:
      return "striking";
  }
  return "";
}

Error outside(const std::string& path, double value, const model::Field& field) {
  const auto text = [&](double x) {
    return std::isfinite(x) ? format_quantity(x, field.quantity, UnitSystem::si) : std::string("not a finite number");
  };
  return input_error(
      path, text(value),
      fmt::format("{} must lie between {} and {}.", field.label, text(field.limits.low), text(field.limits.high)));
}

Error missing(const std::string& path, std::string_view label, const char* question) {
  return input_error(path, "", fmt::format("{} is needed here. {}", label, question));
}

double largest_torque(const Demand& demand) {
  return std::max({std::fabs(demand.torque.value), std::fabs(demand.starting_torque.value),
                   std::fabs(demand.holding_torque.value), std::fabs(demand.overhauling_torque.value)});
}

void rank(std::vector<Question>& questions) {
  std::erase_if(questions, [](const Question& q) { return q.text.empty() || !(q.influence > 0); });
  std::stable_sort(questions.begin(), questions.end(),
                   [](const Question& a, const Question& b) { return a.influence > b.influence; });
}

}  // namespace lobewise::demand
