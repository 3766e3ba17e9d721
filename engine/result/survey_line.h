#pragma once
// One line of a plant's list, as it leaves; meanings stand in the descriptions.

#include "engine/result/proof.h"

namespace lobewise::result {

struct ShortFinding {
  std::string id;
  Verdict verdict = Verdict::cannot_be_judged;
  Sentence answer;
  std::optional<Sentence> condition;
  std::optional<double> margin;
  std::optional<std::string> check;
  std::optional<Amount> figure, limit;
  std::optional<bool> at_most, estimate;
  std::optional<Basis> basis;
};

struct LineFigures {
  double torque = 0, torque_low = 0, torque_high = 0, speed = 0, mean_power = 0, running_per_year = 0;
  std::optional<double> service_factor, efficiency, present_efficiency, energy_present, energy_candidate, ratio, mass,
      price, motor_power;
};

struct SurveyLine : Gaps {
  bool serves = false;
  int under_condition = 0;
  std::string failing;
  std::optional<Build> build;
  std::optional<std::string> build_name, mesh;
  LineFigures figures;
  std::vector<ShortFinding> findings;
  std::optional<Sentence> why_none;
  std::optional<std::string> not_offered, not_compared;
};

}  // namespace lobewise::result
