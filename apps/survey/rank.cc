#include "apps/survey/rank.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/base/quantity.h"

namespace lobewise::survey {
namespace {

struct Entry {
  const char* key;
  double RankingScale::*member;
  Quantity quantity;
  double low, high;
};
constexpr Entry kEntries[] = {
    {"overload_points", &RankingScale::overload_points, Quantity::number, 0, 1000},
    {"overload_full", &RankingScale::overload_full, Quantity::share, 1.01, 100},
    {"stoppage_points", &RankingScale::stoppage_points, Quantity::number, 0, 1000},
    {"stoppage_full", &RankingScale::stoppage_full, Quantity::duration, 3600, 3.2e7},
    {"energy_points", &RankingScale::energy_points, Quantity::number, 0, 1000},
    {"energy_full", &RankingScale::energy_full, Quantity::energy, 3.6e6, 1e15},
    {"proof_points", &RankingScale::proof_points, Quantity::number, 0, 1000},
};

std::string percent(double share) { return fmt::format("{:.0f} %", 100 * share); }
std::string shown(double si, Quantity quantity) { return format_quantity(si, quantity, UnitSystem::si, 3); }

double part(double points, double value, double none, double full) {
  return points * std::clamp((value - none) / (full - none), 0.0, 1.0);
}

}  // namespace

Ranked rank(const LineFacts& facts, const RankingScale& scale) {
  Ranked out;
  struct Reason {
    double points;
    std::string text;
  };
  std::vector<Reason> reasons;
  const double motor = facts.motor_load.value_or(0), gear = facts.gear_load.value_or(0);
  out.overload = part(scale.overload_points, std::max(motor, gear), 1, scale.overload_full);
  if (motor > 1)
    reasons.push_back(
        {motor >= gear ? out.overload : 0.0, fmt::format("the motor carries {} of its rating", percent(motor))});
  if (gear > 1)
    reasons.push_back(
        {gear > motor ? out.overload : 0.0,
         fmt::format("the present gear unit carries {} of its rating, service factor included", percent(gear))});
  if (facts.stoppage && *facts.stoppage > 0) {
    out.stoppages = part(scale.stoppage_points, *facts.stoppage, 0, scale.stoppage_full);
    std::string text = fmt::format("it stopped for {} a year", shown(*facts.stoppage, Quantity::duration));
    if (facts.stoppages) text += fmt::format(" in {} events", format_number(*facts.stoppages, 3));
    if (facts.stoppage_cost)
      text += fmt::format(", worth {}", format_number(*facts.stoppage_cost * *facts.stoppage / 3600, 3));
    reasons.push_back({out.stoppages, std::move(text)});
  }
  if (facts.energy_saved) {
    out.energy = part(scale.energy_points, *facts.energy_saved, 0, scale.energy_full);
    if (out.energy > 0)
      reasons.push_back({out.energy, fmt::format("{} a year less than with the present {}",
                                                 shown(*facts.energy_saved, Quantity::energy), facts.present_gear)});
  }
  if (facts.refused) {
    out = {};
    out.why = "refused: " + facts.obstacle;
    return out;
  }
  if (!facts.obstacle.empty()) {
    out.proof = scale.proof_points;
    reasons.push_back({out.proof, "not proved: " + facts.obstacle});
  } else if (!facts.offered) {
    out.proof = scale.proof_points;
    reasons.push_back({out.proof, "not offered for the place it stands in until that is described"});
  } else if (!facts.serves) {
    out.proof = scale.proof_points;
    reasons.push_back({out.proof, facts.proved ? "no build of the range serves; the closest fails at " + facts.failing
                                               : "no build of the range has the ratio and the size"});
  } else if (facts.conditions > 0) {
    out.proof = 0.2 * scale.proof_points;
    reasons.push_back({out.proof, fmt::format("{} finding{} under a condition only", facts.conditions,
                                              facts.conditions == 1 ? " holds" : "s hold")});
  }
  std::stable_sort(reasons.begin(), reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.points > b.points; });
  for (const Reason& reason : reasons) {
    out.why += (out.why.empty() ? "" : "; ") + reason.text;
    if (reason.points > 0) out.why += fmt::format(" ({:.1f})", reason.points);
  }
  if (out.why.empty()) out.why = "nothing stands out";
  return out;
}

std::string ranking_yaml(const RankingScale& scale) {
  std::string out = "# Points for what is worth looking at first; our judgement, change it as you see fit.\nranking:\n";
  for (const Entry& entry : kEntries)
    out +=
        fmt::format("  {}: {}\n", entry.key, format_quantity(scale.*entry.member, entry.quantity, UnitSystem::si, 6));
  return out;
}

Result<RankingScale> read_ranking(const nlohmann::json& json) {
  RankingScale scale;
  Errors errors;
  if (!json.is_object()) return input_error("ranking", "", "fields such as `overload_points: 40`");
  for (const auto& [key, value] : json.items()) {
    const auto* entry = std::find_if(std::begin(kEntries), std::end(kEntries),
                                     [&, name = key](const Entry& e) { return name == e.key; });
    const std::string path = "ranking." + key;
    if (entry == std::end(kEntries)) {
      errors.push_back(input_error(path, key, "no such field of the ranking"));
      continue;
    }
    const std::string text = value.is_string() ? value.get<std::string>() : "";
    const Result<double> read = parse_quantity(text, entry->quantity, path);
    if (!read)
      errors.insert(errors.end(), read.errors().begin(), read.errors().end());
    else if (*read < entry->low || *read > entry->high)
      errors.push_back(
          input_error(path, text,
                      fmt::format("from {} to {}", format_quantity(entry->low, entry->quantity, UnitSystem::si),
                                  format_quantity(entry->high, entry->quantity, UnitSystem::si))));
    else
      scale.*entry->member = *read;
  }
  if (!errors.empty()) return errors;
  return scale;
}

}  // namespace lobewise::survey
