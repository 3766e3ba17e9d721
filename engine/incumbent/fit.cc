#include "engine/incumbent/fit.h"

#include <algorithm>
#include <cmath>

namespace lobewise::incumbent {
namespace {

constexpr double kLengthTolerance = 0.5e-3;
constexpr double kShaftTolerance = 0.05e-3;

FitLine line(const char* field, const char* label, std::optional<double> before, std::optional<double> after,
             Quantity quantity = Quantity::length) {
  FitLine l;
  l.field = field;
  l.label = label;
  l.before = before;
  l.after = after;
  l.quantity = quantity;
  return l;
}

/// A dimension that must match; anything else asks for the stated work.
FitLine matching(const char* field, const char* label, std::optional<double> before, std::optional<double> after,
                 double tolerance, const char* work) {
  FitLine l = line(field, label, before, after);
  if (before && after) {
    const bool same = std::abs(*before - *after) <= tolerance;
    l.verdict = same ? FitVerdict::fits : FitVerdict::adapter;
    l.work = same ? "" : work;
  }
  return l;
}

/// A dimension that must stay within the free room.
FitLine inside(const char* field, const char* label, std::optional<double> before, std::optional<double> after,
               std::optional<double> free, Quantity quantity, const char* work) {
  FitLine l = line(field, label, before, after, quantity);
  if (after && free) {
    l.verdict = *after <= *free ? FitVerdict::fits : FitVerdict::does_not_fit;
  } else if (before && after && *after <= *before) {
    l.verdict = FitVerdict::fits;
  }
  l.work = l.verdict == FitVerdict::does_not_fit ? work : "";
  return l;
}

/// What bolts of another size ask for.
const char* foot_bolt_work(const std::optional<double>& before, const std::optional<double>& after) {
  return before && after && *before < *after
             ? "The bolts that stand there are thinner than those the new feet are proved with: drill and tap the base "
               "for the larger ones."
             : "The bolts that stand there do not pass the new feet: bush their threads or tap new ones.";
}

int severity(FitVerdict verdict) {
  switch (verdict) {
    case FitVerdict::fits:
      return 0;
    case FitVerdict::unknown:
      return 1;
    case FitVerdict::adapter:
      return 2;
    case FitVerdict::does_not_fit:
      return 3;
  }
  return 3;
}

}  // namespace

Fit fit(const Dimensions& before, const Dimensions& after, const Room& room) {
  Fit result;
  FitLine height = line("shaft_height", "shaft height over the feet", before.shaft_height, after.shaft_height);
  if (before.shaft_height && after.shaft_height) {
    const double lower = *before.shaft_height - *after.shaft_height;
    if (std::abs(lower) <= kLengthTolerance) {
      height.verdict = FitVerdict::fits;
    } else if (lower > 0) {
      height.verdict = FitVerdict::adapter;
      height.work = "Raise the new unit on a machined plate or base of the difference in shaft height, doweled.";
    } else if (room.shaft_may_move) {
      height.verdict = FitVerdict::adapter;
      height.work = "The new shaft stands higher: chain or belt, its guard and take-up follow.";
    } else {
      height.verdict = FitVerdict::does_not_fit;
      height.work = "The new shaft stands higher: cut down the base or raise the driven machine.";
    }
  }
  result.lines.push_back(height);
  const bool shaft_kind_known = before.hollow_shaft && after.hollow_shaft;
  FitLine diameter =
      matching("shaft_diameter", "output shaft diameter", before.shaft_diameter, after.shaft_diameter, kShaftTolerance,
               "New coupling hub, sprocket or bore: check that the hub has material for the new bore and key.");
  if (shaft_kind_known && *before.hollow_shaft != *after.hollow_shaft) {
    diameter.verdict = FitVerdict::adapter;
    diameter.work = "Solid against hollow shaft: a stub shaft or a coupling is needed, and its room along the axis.";
  }
  result.lines.push_back(diameter);
  result.lines.push_back(matching("shaft_length", "output shaft length", before.shaft_length, after.shaft_length,
                                  kLengthTolerance, "Move the coupling or machine a spacer."));
  result.lines.push_back(matching("foot_length", "foot holes along the axis", before.foot_length, after.foot_length,
                                  kLengthTolerance,
                                  "Adapter plate with both hole patterns, or new holes in the base."));
  result.lines.push_back(matching("foot_width", "foot holes across", before.foot_width, after.foot_width,
                                  kLengthTolerance,
                                  "Adapter plate with both hole patterns, or new holes in the base."));
  if (before.foot_hole)  // bolts follow from the holes: nothing to ask where nobody measured them
    result.lines.push_back(matching("foot_hole", "foot hole diameter", before.foot_hole, after.foot_hole,
                                    kLengthTolerance, foot_bolt_work(before.foot_hole, after.foot_hole)));
  result.lines.push_back(matching("flange_bolt_circle", "flange bolt circle", before.flange_bolt_circle,
                                  after.flange_bolt_circle, kLengthTolerance,
                                  "Flange ring with both patterns; it costs length."));
  result.lines.push_back(matching("flange_spigot", "flange spigot", before.flange_spigot, after.flange_spigot,
                                  kShaftTolerance, "Flange ring with both spigots; it costs length."));
  result.lines.push_back(matching("shaft_end_to_foot", "shaft end to first foot hole", before.shaft_end_to_foot,
                                  after.shaft_end_to_foot, kLengthTolerance,
                                  "The feet move along the axis: plate or new holes."));
  result.lines.push_back(
      matching("axis_offset", "input axis above output axis", before.axis_offset, after.axis_offset, kLengthTolerance,
               "The motor moves: motor support, guard, cable length; a belt drive in front needs new centres."));
  result.lines.push_back(
      inside("length", "overall length", before.length, after.length, room.length, Quantity::length,
             "Longer than the free room: another motor, a shorter coupling or another mounting position."));
  result.lines.push_back(inside("width", "overall width", before.width, after.width, room.width, Quantity::length,
                                "Wider than the free room."));
  result.lines.push_back(inside("height", "overall height", before.height, after.height, room.height, Quantity::length,
                                "Higher than the free room."));
  result.lines.push_back(inside("mass", "mass", before.mass, after.mass, room.lifting, Quantity::mass,
                                "Heavier than the hoist lifts: other lifting gear."));
  int worst = 0;
  bool missing = false;
  for (const FitLine& l : result.lines) {
    // A dimension neither unit has (feet on a flange unit) is no gap; one that only one side states is.
    const bool absent = !l.before && !l.after;
    missing = missing || (!absent && l.verdict == FitVerdict::unknown);
    if (!absent && severity(l.verdict) > worst && l.verdict != FitVerdict::unknown) {
      worst = severity(l.verdict);
      result.verdict = l.verdict;
    }
  }
  if (worst == 0) {
    const bool any = std::any_of(result.lines.begin(), result.lines.end(),
                                 [](const FitLine& l) { return l.verdict == FitVerdict::fits; });
    result.verdict = any && !missing ? FitVerdict::fits : FitVerdict::unknown;
  }
  return result;
}

}  // namespace lobewise::incumbent
