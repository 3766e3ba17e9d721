#include "engine/judge/line.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/enquiry/requirement.h"
#include "engine/evidence/questions.h"

namespace lobewise::judge {
namespace {

/// Efficiency of a train of which nothing is known, as `machine.measured` takes it. Common practice, no source.
constexpr double kUsualTrain = 0.9;

double part(double points, double value, double none, double full) {
  return points * std::clamp((value - none) / (full - none), 0.0, 1.0);
}

bool about_build(const std::string& id) {
  const auto& all = evidence::questions();
  return std::any_of(all.begin(), all.end(),
                     [&](const evidence::Question& question) { return question.about_build && id == question.id; });
}

Text stopped(const LineFacts& facts) {
  Text text{"it stopped for {} a year", {{*facts.stoppage, Quantity::duration}}};
  if (facts.stoppages) {
    text.pattern += " in {} events";
    text.values.push_back({*facts.stoppages, Quantity::number});
  }
  if (facts.stoppage_cost) {
    text.pattern += ", worth {}";
    text.values.push_back({*facts.stoppage_cost * *facts.stoppage / 3600, Quantity::money});
  }
  return text;
}

}  // namespace

Standing standing_of(const std::vector<evidence::Finding>& findings) {
  Standing out;
  for (const evidence::Finding& finding : findings) {
    if (finding.verdict == evidence::Verdict::does_not_hold) {
      out.failing += (out.failing.empty() ? "" : ", ") + finding.id;
      if (about_build(finding.id)) out.serves = false;
    }
    const evidence::Check* check = evidence::worst(finding);
    const bool yardstick = check != nullptr && check->basis == evidence::Basis::yardstick;
    if (finding.verdict == evidence::Verdict::holds_if && !yardstick) ++out.conditions;
  }
  return out;
}

std::optional<double> service_factor(const enquiry::Requirement& requirement) {
  if (requirement.service_factor || !requirement.practice) return requirement.service_factor;
  return 0.5 * (requirement.practice->practice.low + requirement.practice->practice.high);
}

std::optional<double> motor_load(const PresentLoad& load) {
  if (!load.rated_power) return std::nullopt;
  return load.torque * load.speed / load.train_efficiency.value_or(kUsualTrain) / *load.rated_power;
}

std::optional<double> gear_load(const PresentLoad& load) {
  if (!load.rated_torque) return std::nullopt;
  return load.torque * load.service_factor / *load.rated_torque;
}

double energy_saved(double present, double candidate) { return present - candidate; }

const char* result_of(const LineFacts& facts) {
  if (facts.refused) return "refused";
  if (!facts.obstacle.empty()) return "not proved";
  if (!facts.offered) return "not offered";
  if (!facts.serves) return "no build serves";
  return facts.conditions > 0 ? "serves under conditions" : "serves";
}

Ranked rank(const LineFacts& facts, const RankingScale& scale) {
  Ranked out;
  if (facts.refused) {
    out.reasons = {{0, {"refused: " + facts.obstacle, {}}}};
    return out;
  }
  const auto because = [&](double points, Text text) { out.reasons.push_back({points, std::move(text)}); };
  const double motor = facts.motor_load.value_or(0), gear = facts.gear_load.value_or(0);
  out.overload = part(scale.overload_points, std::max(motor, gear), 1, scale.overload_full);
  if (motor > 1)
    because(motor >= gear ? out.overload : 0.0, {"the motor carries {} of its rating", {{motor, Quantity::share}}});
  if (gear > 1)
    because(gear > motor ? out.overload : 0.0,
            {"the present gear unit carries {} of its rating, service factor included", {{gear, Quantity::share}}});
  if (facts.stoppage && *facts.stoppage > 0) {
    out.stoppages = part(scale.stoppage_points, *facts.stoppage, 0, scale.stoppage_full);
    because(out.stoppages, stopped(facts));
  }
  if (facts.energy_saved) {
    out.energy = part(scale.energy_points, *facts.energy_saved, 0, scale.energy_full);
    if (out.energy > 0)
      because(out.energy, {"{} a year less than with the present " + facts.present_gear,
                           {{*facts.energy_saved, Quantity::energy}}});
  }
  const double all = scale.proof_points;
  if (!facts.obstacle.empty()) {
    because(out.proof = all, {"not proved: " + facts.obstacle, {}});
  } else if (!facts.offered) {
    because(out.proof = all, {"not offered for the place it stands in until that is described", {}});
  } else if (!facts.serves) {
    because(out.proof = all, {facts.proved ? "no build of the range serves; the closest fails at " + facts.failing
                                           : "no build of the range has the ratio and the size",
                              {}});
  } else if (facts.conditions > 0) {
    because(out.proof = 0.2 * all, {facts.conditions == 1 ? "{} finding holds under a condition only"
                                                          : "{} findings hold under a condition only",
                                    {{static_cast<double>(facts.conditions), Quantity::number}}});
  }
  std::stable_sort(out.reasons.begin(), out.reasons.end(),
                   [](const Reason& a, const Reason& b) { return a.points > b.points; });
  return out;
}

std::string why(const Ranked& ranked, UnitSystem system) {
  std::string out;
  for (const Reason& reason : ranked.reasons) {
    out += (out.empty() ? "" : "; ") + render(reason.text, system);
    if (reason.points > 0) out += fmt::format(" ({:.1f})", reason.points);
  }
  return out.empty() ? "nothing stands out" : out;
}

}  // namespace lobewise::judge
