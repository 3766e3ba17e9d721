#include "engine/strength/fatigue_scatter.h"

#include <cmath>

#include "data/fatigue_scatter.h"
#include "engine/base/root.h"

namespace lobewise::strength {
namespace {

FatigueScatter read(std::string_view item) {
  FatigueScatter scatter;
  for (const auto& row : data::kFatigueScatter)
    if (row.item == item)
      scatter = {log_deviation(row.variation),
                 row.share_at_limit,
                 {row.variation, row.variation_low, row.variation_high, row.source.data()}};
  return scatter;
}

}  // namespace

const FatigueScatter& fatigue_scatter(FatiguePart part) {
  static const FatigueScatter shaft = read("shaft of machined steel"), pin = read("hardened output pin");
  return part == FatiguePart::shaft ? shaft : pin;
}

double log_standing(double score) { return std::log1p(-0.5 * std::erfc(score / std::sqrt(2.0))); }

double normal_score(double share) {
  const auto beyond = [&](double score) { return 0.5 * std::erfc(-score / std::sqrt(2.0)) - share; };
  return bracketed_root(beyond, -9, 9, beyond(-9), beyond(9), 1e-13);
}

}  // namespace lobewise::strength
