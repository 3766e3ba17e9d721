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

/// `sharing` and `efficiency` are measured against rules of the trade, not against strength.
bool decides(std::string_view id) { return id != "sharing" && id != "efficiency"; }

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

/// As `worst`, of what decides whether a build serves.
double worst_of_strength(const Candidate& candidate) {
  double worst = 1e9;
  for (const Margin& margin : candidate.margins)
    if (margin.margin && decides(margin.id)) worst = std::min(worst, *margin.margin);
  return worst;
}

/// Of two that serve: the one with a usual motor, then the cheaper one.
bool preferred(const Candidate& a, const Candidate& b) {
  if ((a.poles == 4) != (b.poles == 4)) return a.poles == 4;
  return a.build.price() < b.build.price();
}

/// Best first, then those that fell out, the nearest speed first.
bool before(const Candidate& a, const Candidate& b) {
  if (a.fell_out.empty() != b.fell_out.empty()) return a.fell_out.empty();
  if (!a.fell_out.empty()) return std::abs(a.ratio_error) < std::abs(b.ratio_error);
  if (rank(a.verdict) != rank(b.verdict)) return rank(a.verdict) < rank(b.verdict);
  return rank(a.verdict) == 0 ? preferred(a, b) : worst(a) > worst(b);
}

bool off_speed(const Candidate& candidate, const enquiry::Requirement& requirement) {
  return !candidate.fell_out.empty() && std::abs(candidate.ratio_error) > requirement.speed_tolerance;
}
bool nearer_in_speed(const Candidate& candidate, const Candidate* than) {
  return than == nullptr || std::abs(candidate.ratio_error) < std::abs(than->ratio_error);
}

/// The candidate with the wrong ratio that comes nearest to the speed, or null: shows what a link or an inverter would
/// have to do.
const Candidate* off_speed(const std::vector<Candidate>& candidates, const enquiry::Requirement& requirement) {
  const Candidate* nearest = nullptr;
  for (const Candidate& candidate : candidates)
    if (off_speed(candidate, requirement) && nearer_in_speed(candidate, nearest)) nearest = &candidate;
  return nearest;
}

/// @param closest  the best of those that did not fall out, or null
/// @param nearest  the nearest of those that are off speed, or null
Text none_text(const Candidate* closest, const Candidate* nearest, const enquiry::Requirement& requirement) {
  if (closest == nullptr) {
    if (nearest != nullptr)
      return {fmt::format("No frame of this range turns the shaft at {{}} with {{}} directly. Nearest is {} with "
                          "{{}} {}: an inverter, or a chain or belt of that ratio behind it, would do.",
                          nearest->build.name(), nearest->ratio_error > 0 ? "too much" : "too little"),
              {{requirement.speed, Quantity::angular_speed},
               {requirement.torque, Quantity::torque},
               {std::abs(nearest->ratio_error), Quantity::share}}};
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

/// What is obvious, without a mesh table.
Candidate glance(const enquiry::Requirement& requirement, drive::Build build) {
  Candidate candidate;
  const drive::Speeds speeds = drive::speeds_of(requirement, build.ratio());
  candidate.poles = speeds.poles;
  candidate.ratio_error = speeds.error;
  candidate.fell_out = obvious_reason(requirement, build, candidate.ratio_error);
  candidate.build = std::move(build);
  return candidate;
}

/// Every check of a candidate that has not fallen out.
void look(const enquiry::Requirement& requirement, const drive::TableSource& tables, Candidate& candidate) {
  const Result<drive::Drive> drive = drive::assemble(requirement, candidate.build, tables);
  if (!drive) {
    candidate.fell_out = {drive.errors().front().message, {}};
    return;
  }
  const std::vector<evidence::QuickFinding> findings = evidence::quick_look(*drive);
  for (const evidence::QuickFinding& quick : findings) {
    Margin margin{quick.question->id, quick.verdict, std::nullopt};
    for (const evidence::Check& check : quick.checks)
      if (!check.of_order) margin.margin = std::min(margin.margin.value_or(1e9), check.margin());
    candidate.margins.push_back(std::move(margin));
  }
  candidate.verdict = serves(findings) ? Verdict::holds : Verdict::does_not_hold;
  candidate.ratio_error = drive->speed_error;
}

}  // namespace

bool serves(const std::vector<evidence::QuickFinding>& findings) {
  return std::none_of(findings.begin(), findings.end(), [](const evidence::QuickFinding& finding) {
    return decides(finding.question->id) && finding.of_build == Verdict::does_not_hold;
  });
}

Sizing size(const enquiry::Requirement& requirement, const range::Range& range, const drive::TableSource& tables) {
  Sizing out;
  for (drive::Build& build : drive::all_builds(range)) {
    Candidate candidate = glance(requirement, std::move(build));
    if (candidate.fell_out.empty()) look(requirement, tables, candidate);
    out.candidates.push_back(std::move(candidate));
  }
  std::stable_sort(out.candidates.begin(), out.candidates.end(), before);
  const Candidate* first = out.candidates.empty() ? nullptr : &out.candidates.front();
  if (first != nullptr && !first->fell_out.empty()) first = nullptr;
  if (first != nullptr && rank(first->verdict) == 0)
    out.chosen = 0;
  else
    out.why_none = none_text(first, off_speed(out.candidates, requirement), requirement);
  return out;
}

Search::Search(const enquiry::Requirement& requirement, const range::Range& range, const drive::TableSource& tables,
               const drive::TableSource* rough)
    : requirement_(requirement), tables_(tables), rough_(rough) {
  for (drive::Build& build : drive::all_builds(range)) {
    Candidate candidate = glance(requirement, std::move(build));
    if (candidate.fell_out.empty())
      waiting_.push_back(std::move(candidate));
    else if (off_speed(candidate, requirement) && nearer_in_speed(candidate, off_speed_ ? &*off_speed_ : nullptr))
      off_speed_ = std::move(candidate);
  }
  std::stable_sort(waiting_.begin(), waiting_.end(), preferred);
}

/// Whether rough tables are enough to reject a candidate; it keeps their margins then.
bool Search::far_too_small(Candidate& candidate) const {
  constexpr double kFar = -0.5;
  if (rough_ == nullptr) return false;
  Candidate guess = candidate;
  look(requirement_, *rough_, guess);
  if (!guess.fell_out.empty() || rank(guess.verdict) == 0 || worst_of_strength(guess) > kFar) return false;
  candidate = std::move(guess);
  return true;
}

/// Nothing serves: those that rough tables put near the best one are looked at closely after all.
void Search::look_at_closest() {
  constexpr double kNear = 0.5;
  std::stable_sort(rejected_.begin(), rejected_.end(), before);
  for (Candidate& candidate : rejected_) {
    if (!failed_.empty() && worst(candidate) < worst(failed_.front()) - kNear) break;
    candidate.margins.clear();
    look(requirement_, tables_, candidate);
    if (!candidate.fell_out.empty()) continue;
    failed_.push_back(std::move(candidate));
    std::stable_sort(failed_.begin(), failed_.end(), before);
  }
  if (failed_.size() > 1) failed_.erase(failed_.begin() + 1, failed_.end());
}

const Candidate* Search::next() {
  while (looked_ < waiting_.size()) {
    current_ = std::move(waiting_[looked_++]);
    if (far_too_small(current_)) {
      rejected_.push_back(std::move(current_));
      continue;
    }
    look(requirement_, tables_, current_);
    if (!current_.fell_out.empty()) continue;
    if (rank(current_.verdict) == 0) {
      served_ = true;
      return &current_;
    }
    failed_.push_back(std::move(current_));
  }
  if (handed_ == 0) {
    std::stable_sort(failed_.begin(), failed_.end(), before);
    if (rough_ != nullptr && !served_) look_at_closest();
    if (!served_)
      why_none_ =
          none_text(failed_.empty() ? nullptr : &failed_.front(), off_speed_ ? &*off_speed_ : nullptr, requirement_);
  }
  return handed_ < failed_.size() ? &failed_[handed_++] : nullptr;
}

}  // namespace lobewise::sizing
