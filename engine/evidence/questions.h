#pragma once
// The questions about a drive. Each has its checks, cheap figures against limits that sampling repeats, and its
// finding, the checks with words, working and charts.

#include <optional>
#include <vector>

#include "engine/evidence/evaluation.h"
#include "engine/evidence/finding.h"
#include "engine/motion/simulate.h"

namespace lobewise::evidence {

/// What a finding is written from.
struct Context {
  const drive::Drive& drive;
  const Evaluation& nominal;
  Result<motion::Outcome> start;          ///< simulated, up to its speed
  Result<motion::Outcome> first_moments;  ///< of the same start
  Result<motion::Outcome> jam;
  std::vector<drive::ShockRun> events;
  bool in_time = true;         ///< events and temperatures are followed in time, see ProveOptions
  double strength_torque = 0;  ///< largest torque that contact, life and shaft carry here, heat set apart [N m]
};

struct Question {
  const char* id;
  const char* text;
  std::vector<Check> (*checks)(const drive::Drive& drive, const Evaluation& evaluation);
  /// Fills everything but id, question, checks and verdict, which are there already.
  void (*write)(const Context& context, Finding& finding);
  /// About the build on this machine: sampled, and a reason to rule a build out. A question that is not (fit, cost)
  /// sets its own checks with their ranges and its own verdict when it is written.
  bool about_build = true;
  /// Figures of the loaded mesh enter its checks: with rigid discs they are a quick look, see StageTable::elastic.
  bool reads_mesh = true;
};

/// In the order in which they are shown.
[[nodiscard]] const std::vector<Question>& questions();

// One pair per question, in find_*.cc.
std::vector<Check> ratio_checks(const drive::Drive&, const Evaluation&);
void write_ratio(const Context&, Finding&);
std::vector<Check> sharing_checks(const drive::Drive&, const Evaluation&);
void write_sharing(const Context&, Finding&);
std::vector<Check> clearance_checks(const drive::Drive&, const Evaluation&);
void write_clearance(const Context&, Finding&);
std::vector<Check> contact_checks(const drive::Drive&, const Evaluation&);
void write_contact(const Context&, Finding&);
std::vector<Check> shock_checks(const drive::Drive&, const Evaluation&);
void write_shock(const Context&, Finding&);
std::vector<Check> life_checks(const drive::Drive&, const Evaluation&);
void write_life(const Context&, Finding&);
std::vector<Check> overhung_checks(const drive::Drive&, const Evaluation&);
void write_overhung(const Context&, Finding&);
std::vector<Check> efficiency_checks(const drive::Drive&, const Evaluation&);
void write_efficiency(const Context&, Finding&);
std::vector<Check> heat_checks(const drive::Drive&, const Evaluation&);
void write_heat(const Context&, Finding&);
std::vector<Check> lubrication_checks(const drive::Drive&, const Evaluation&);
void write_lubrication(const Context&, Finding&);
std::vector<Check> motion_checks(const drive::Drive&, const Evaluation&);
void write_motion(const Context&, Finding&);
std::vector<Check> motor_checks(const drive::Drive&, const Evaluation&);
void write_motor(const Context&, Finding&);
void write_place(const Context&, Finding&);
void write_service(const Context&, Finding&);
void write_fit(const Context&, Finding&);
void write_cost(const Context&, Finding&);

}  // namespace lobewise::evidence
