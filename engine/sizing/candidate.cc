#include "engine/sizing/candidate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/contact/hertz.h"
#include "engine/drive/job_motor.h"
#include "engine/sizing/price.h"

namespace lobewise::sizing {
namespace {

using evidence::Basis;
using evidence::Verdict;

/// Closed-form contact pressure of the last stage, rigid discs of equal stiffness, no clearance: lower than the real
/// one, so that nothing falls out wrongly.
double least_pressure(const drive::Build& build, double torque) {
  const mechanism::StageGeometry& g = build.last().geometry;
  // F_max of the closed form is about 4 T / (N e Z) per disc; the flattest convex flank meets the roller with rho < r.
  const double force = 4 * torque / g.discs / (g.lobes * g.eccentricity * g.rollers());
  const contact::Elastic steel;
  return contact::hertz_pressure(force / g.width, g.roller_radius, contact::contact_modulus(steel, steel));
}

/// Why a build is not worth a closer look, apart from its speed; empty when it is.
Text obvious_reason(const enquiry::Requirement& requirement, const drive::Build& build, double input_speed) {
  if (input_speed > build.first().max_input_speed)
    return {"the input would turn at {}; {} is allowed",
            {{input_speed, Quantity::angular_speed}, {build.first().max_input_speed, Quantity::angular_speed}}};
  const double pressure = least_pressure(build, requirement.torque);
  if (pressure > strength::kFatigueLimitPressure)
    return {"too small: even shared ideally the lobes would see {} of {}",
            {{pressure, Quantity::pressure}, {strength::kFatigueLimitPressure, Quantity::pressure}}};
  const double d = build.frame().output.diameter;
  const double shear = 16 * requirement.torque / (kPi * d * d * d);
  if (std::sqrt(3.0) * shear > build.frame().output.yield_strength / 1.5)
    return {"too small: the shaft end would see {} at the working torque",
            {{std::sqrt(3.0) * shear, Quantity::pressure}}};
  // A unit that is far too large is no answer either, but only when smaller ones exist; price sorts it out.
  if (requirement.mounting == enquiry::MountingKind::foot && !build.frame().foot) return {"not made with feet", {}};
  if (requirement.mounting == enquiry::MountingKind::flange && !build.frame().flange)
    return {"not made with a flange", {}};
  if (requirement.orientation != enquiry::Orientation::horizontal && !build.frame().vertical)
    return {"not made for an upright shaft", {}};
  const auto& fills = build.frame().lubricants;
  if (requirement.food_area && std::none_of(fills.begin(), fills.end(), [](const auto& f) { return f.food_grade; }))
    return {"has no fill that is registered for a food area", {}};
  const auto too_big = [&](const std::optional<double>& room, double need, const char* what) -> Text {
    if (!room || need <= *room) return {};
    return {fmt::format("{} {{}}, there is room for {{}}", what),
            {{need, Quantity::length}, {*room, Quantity::length}}};
  };
  for (const Text& text : {too_big(requirement.max_length, build.length(), "length"),
                           too_big(requirement.max_width, build.frame().dimensions.width, "width"),
                           too_big(requirement.max_height, build.frame().dimensions.height, "height")})
    if (!text.empty()) return text;
  return {};
}

std::optional<Deciding> deciding(const std::vector<evidence::Check>& checks) {
  const evidence::Check* check = evidence::worst(checks);
  if (check == nullptr) return std::nullopt;
  return Deciding{check->margin(), check->basis};
}

int rank(const Candidate& candidate) {
  switch (candidate.verdict) {
    case Verdict::holds:
    case Verdict::holds_if:
      return 0;
    case Verdict::cannot_be_judged:
      return 1;
    case Verdict::does_not_hold:
      break;
  }
  return 2;
}

}  // namespace

bool serves(const std::vector<evidence::QuickFinding>& findings) {
  return std::none_of(findings.begin(), findings.end(),
                      [](const evidence::QuickFinding& finding) { return finding.of_build == Verdict::does_not_hold; });
}

Candidate glance(const enquiry::Requirement& requirement, drive::Build build, double price_of_mass) {
  Candidate candidate;
  const drive::JobMotor motor = drive::motor_for(requirement, build);
  candidate.poles = motor.poles;
  candidate.ratio_error = motor.error;
  if (motor.motor) {
    candidate.motor_mass = motor_mass(*motor.motor);
    if (!requirement.motor_power)
      candidate.motor_price = kMotorPriceShare.nominal * price_of_mass * candidate.motor_mass;
  }
  candidate.fell_out = obvious_reason(requirement, build, motor.input_speed);
  if (candidate.fell_out.empty() && std::abs(motor.error) > requirement.speed_tolerance) {
    candidate.off_speed = true;
    candidate.fell_out = {motor.error > 0 ? "the shaft would turn {} too fast; {} is allowed"
                                          : "the shaft would turn {} too slow; {} is allowed",
                          {{std::abs(motor.error), Quantity::share}, {requirement.speed_tolerance, Quantity::share}}};
  }
  candidate.build = std::move(build);
  return candidate;
}

void look(const enquiry::Requirement& requirement, const drive::TableSource& tables, Candidate& candidate) {
  candidate.margins.clear();
  candidate.failure.reset();
  candidate.fell_out = {};
  candidate.off_speed = false;
  const Result<drive::Drive> drive = drive::assemble(requirement, candidate.build, tables);
  if (!drive) {
    candidate.fell_out = {drive.errors().front().message, {}};
    return;
  }
  const std::vector<evidence::QuickFinding> findings = evidence::quick_look(*drive);
  for (const evidence::QuickFinding& quick : findings) {
    Margin margin{quick.question->id, quick.verdict, deciding(quick.checks), std::nullopt};
    margin.estimate = quick.question->reads_mesh && !drive->tables.back()->elastic;
    std::vector<evidence::Check> of_build;
    for (const evidence::Check& check : quick.checks)
      if (!check.of_order) of_build.push_back(check);
    margin.of_build = deciding(of_build);
    for (const evidence::Check& check : of_build)
      if (check.basis == Basis::promise && check.margin() < 0 &&
          (!candidate.failure || check.margin() < candidate.failure->check.margin()))
        candidate.failure = Failure{quick.question, check};
    candidate.margins.push_back(std::move(margin));
  }
  const bool conditional = std::any_of(findings.begin(), findings.end(), [](const evidence::QuickFinding& finding) {
    return finding.of_build == Verdict::holds_if;
  });
  candidate.verdict = !serves(findings) ? Verdict::does_not_hold : conditional ? Verdict::holds_if : Verdict::holds;
  candidate.ratio_error = drive->speed_error;
}

Text why_not(const Candidate& candidate) {
  if (!candidate.failure) return {};
  const evidence::Check& check = candidate.failure->check;
  return {fmt::format("{}: {} {{}}, {} {{}}", candidate.failure->question->id, check.name,
                      check.at_most ? "allowed are" : "needed are"),
          {{check.figure, check.quantity}, {check.limit, check.quantity}}};
}

bool preferred(const Candidate& a, const Candidate& b) {
  const double price_a = std::round(a.price()), price_b = std::round(b.price());
  return price_a != price_b ? price_a < price_b : a.mass() < b.mass();
}

double worst_promise(const Candidate& candidate) {
  double worst = 1e9;
  for (const Margin& margin : candidate.margins)
    if (margin.of_build && margin.of_build->basis == Basis::promise) worst = std::min(worst, margin.of_build->margin);
  return worst;
}

double shortfall(const Candidate& candidate) {
  double sum = 0;
  for (const Margin& margin : candidate.margins)
    if (margin.of_build && margin.of_build->basis == Basis::promise)
      sum += std::clamp(-margin.of_build->margin, 0.0, 1.0);
  return sum;
}

bool before(const Candidate& a, const Candidate& b) {
  if (a.fell_out.empty() != b.fell_out.empty()) return a.fell_out.empty();
  if (!a.fell_out.empty()) return std::abs(a.ratio_error) < std::abs(b.ratio_error);
  if (rank(a) != rank(b)) return rank(a) < rank(b);
  if (rank(a) == 0) return preferred(a, b);
  const double short_a = shortfall(a), short_b = shortfall(b);
  return short_a != short_b ? short_a < short_b : preferred(b, a);
}

}  // namespace lobewise::sizing
