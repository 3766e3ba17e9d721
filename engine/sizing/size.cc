#include "engine/sizing/size.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/cycle_forces.h"
#include "engine/contact/hertz.h"

namespace lobewise::sizing {
namespace {

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

/// Why a build is not worth a closer look; empty when it is.
Text obvious_reason(const enquiry::Requirement& requirement, const drive::Build& build, double error) {
  if (std::abs(error) > requirement.speed_tolerance)
    return {error > 0 ? "the shaft would turn {} too fast; {} is allowed"
                      : "the shaft would turn {} too slow; {} is allowed",
            {{std::abs(error), Quantity::share}, {requirement.speed_tolerance, Quantity::share}}};
  const double input = requirement.speed * (1 + error) * build.ratio();
  if (input > build.first().max_input_speed)
    return {"the input would turn at {}; {} is allowed",
            {{input, Quantity::angular_speed}, {build.first().max_input_speed, Quantity::angular_speed}}};
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

int rank(Verdict verdict) {
  switch (verdict) {
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

double worst(const Candidate& candidate) {
  double worst = 1e9;
  for (const Margin& margin : candidate.margins)
    if (margin.margin) worst = std::min(worst, *margin.margin);
  return worst;
}

Text none_text(const Sizing& sizing, const enquiry::Requirement& requirement) {
  const Candidate* closest = nullptr;
  for (const Candidate& candidate : sizing.candidates)
    if (candidate.fell_out.empty() && (closest == nullptr || worst(candidate) > worst(*closest))) closest = &candidate;
  if (closest == nullptr) {
    // Sorted by how near the speed comes: the first that has the wrong ratio only shows what a link or an inverter
    // would have to do.
    for (const Candidate& candidate : sizing.candidates)
      if (std::abs(candidate.ratio_error) > requirement.speed_tolerance)
        return {fmt::format("No frame of this range turns the shaft at {{}} with {{}} directly. Nearest is {} with "
                            "{{}} {}: an inverter, or a chain or belt of that ratio behind it, would do.",
                            candidate.build.name(), candidate.ratio_error > 0 ? "too much" : "too little"),
                {{requirement.speed, Quantity::angular_speed},
                 {requirement.torque, Quantity::torque},
                 {std::abs(candidate.ratio_error), Quantity::share}}};
    return {"No frame of this range can carry {} at {}.",
            {{requirement.torque, Quantity::torque}, {requirement.speed, Quantity::angular_speed}}};
  }
  const Margin* failing = nullptr;
  for (const Margin& margin : closest->margins)
    if (margin.margin && (failing == nullptr || *margin.margin < *failing->margin)) failing = &margin;
  return {fmt::format("No build of this range serves {{}} at {{}}. The closest is {}, which fails at: {}.",
                      closest->build.name(), failing != nullptr ? failing->id : "?"),
          {{requirement.torque, Quantity::torque}, {requirement.speed, Quantity::angular_speed}}};
}

}  // namespace

bool serves(const std::vector<evidence::QuickFinding>& findings) {
  return std::none_of(findings.begin(), findings.end(), [](const evidence::QuickFinding& finding) {
    const std::string_view id = finding.question->id;
    return id != "sharing" && id != "efficiency" && finding.verdict == Verdict::does_not_hold;
  });
}

Sizing size(const enquiry::Requirement& requirement, const range::Range& range, const drive::TableSource& tables) {
  Sizing out;
  for (drive::Build& build : drive::all_builds(range)) {
    Candidate candidate;
    const drive::Speeds speeds = drive::speeds_of(requirement, build.ratio());
    candidate.poles = speeds.poles;
    candidate.ratio_error = speeds.error;
    candidate.fell_out = obvious_reason(requirement, build, candidate.ratio_error);
    candidate.build = std::move(build);
    if (candidate.fell_out.empty()) {
      const Result<drive::Drive> drive = drive::assemble(requirement, candidate.build, tables);
      if (!drive) {
        candidate.fell_out = {drive.errors().front().message, {}};
      } else {
        const std::vector<evidence::QuickFinding> findings = evidence::quick_look(*drive);
        for (const evidence::QuickFinding& quick : findings) {
          Margin margin{quick.question->id, quick.verdict, std::nullopt};
          for (const evidence::Check& check : quick.checks)
            margin.margin = std::min(margin.margin.value_or(1e9), check.margin());
          candidate.margins.push_back(std::move(margin));
        }
        candidate.verdict = serves(findings) ? Verdict::holds : Verdict::does_not_hold;
        candidate.ratio_error = drive->speed_error;
      }
    }
    out.candidates.push_back(std::move(candidate));
  }
  std::stable_sort(out.candidates.begin(), out.candidates.end(), [](const Candidate& a, const Candidate& b) {
    if (a.fell_out.empty() != b.fell_out.empty()) return a.fell_out.empty();
    if (!a.fell_out.empty()) return std::abs(a.ratio_error) < std::abs(b.ratio_error);
    if (rank(a.verdict) != rank(b.verdict)) return rank(a.verdict) < rank(b.verdict);
    if (rank(a.verdict) == 0 && (a.poles == 4) != (b.poles == 4)) return a.poles == 4;
    if (rank(a.verdict) == 0) return a.build.price() < b.build.price();
    return worst(a) > worst(b);
  });
  if (!out.candidates.empty() && out.candidates.front().fell_out.empty() && rank(out.candidates.front().verdict) == 0)
    out.chosen = 0;
  else
    out.why_none = none_text(out, requirement);
  return out;
}

}  // namespace lobewise::sizing
