#include "apps/survey/ranking_scale.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/quantity.h"

namespace lobewise::survey {
namespace {

using judge::RankingScale;

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

}  // namespace

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
