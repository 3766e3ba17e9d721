#include "engine/drive/torque_path.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/strength/axial_pair.h"
#include "engine/strength/bolts.h"
#include "engine/strength/peak_torque.h"
#include "engine/strength/shaft.h"

namespace lobewise::drive {
namespace {

bool inclined(const range::Bearing& bearing) {
  const bool angled = bearing.kind == range::BearingKind::tapered || bearing.kind == range::BearingKind::angular_ball;
  return angled && bearing.axial_Y.value_or(0) > 0;
}

/// The least torque a share of the working torque may stand for: keeps a part that an axial load alone uses up finite.
constexpr double kLeast = 1e-6;

/// Torque at which something that rises with it passes a limit; bracketed upwards from `from`.
template <class Figure>
double where_passed(Figure figure, double limit, double from) {
  double low = 0, high = from;
  for (int i = 0; i < 60 && figure(high) < limit; ++i) {
    low = high;
    high *= 2;
  }
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (low + high);
    (figure(middle) < limit ? low : high) = middle;
  }
  return low;
}

struct StaticFactors {
  double X_0 = 1, Y_0 = 0;
};
/// X_0 and Y_0 of ISO 76 (from memory), as `output_loads` takes them; a bearing without axial factor holds no thrust.
StaticFactors static_factors(const range::Bearing& bearing) {
  if (!(bearing.axial_Y.value_or(0) > 0)) return {};
  switch (bearing.kind) {
    case range::BearingKind::deep_groove:
      return {0.6, 0.5};
    case range::BearingKind::angular_ball:
      return {0.5, 0.46};
    default:
      return {strength::kStaticX, strength::kStaticYOverY * *bearing.axial_Y};
  }
}

/// Torque of a stage at which a disc bends an output pin to its yield.
double pin_torque(const range::Stage& stage, const StageTable& table, int disc) {
  const double load = table.disc_loads.empty() ? 1 : table.disc_loads[static_cast<std::size_t>(disc)];
  const double force = strength::kPinYield / pin_stress_per_force(stage, disc);
  return load > 0 ? table.torque_at(force, &MeshLevel::pin_force) / load : std::numeric_limits<double>::infinity();
}

void add_mesh(const Drive& drive, const Transmission& passed, std::size_t i, std::vector<PathPart>& out) {
  const range::Stage& stage = *drive.build.stages[i].stage;
  const StageTable& table = *drive.tables[i];
  // The disc that carries most decides for its own contacts and bearing; the pins are bent by each with its own lever.
  const double share = passed.stage[i], hard = share * table.hardest_disc();
  const auto add = [&](Part part, double marks, double routine) {
    out.push_back({part, i, marks, routine, table.solved_to() / hard});
  };
  const double root = std::sqrt(kRoutineSafety);
  const auto pressed = [&](Part part, double MeshLevel::*member) {
    add(part, table.torque_at_pressure(strength::kStaticPressure, member) / hard,
        table.torque_at_pressure(strength::kStaticPressure / root, member) / hard);
  };
  const auto loaded = [&](Part part, double force, double MeshLevel::*member) {
    add(part, table.torque_at(force, member) / hard, table.torque_at(force / kRoutineSafety, member) / hard);
  };
  pressed(Part::lobes, &MeshLevel::lobe_pressure);
  pressed(Part::holes, &MeshLevel::pin_pressure);
  double pins = std::numeric_limits<double>::infinity();
  for (int disc = 0; disc < stage.geometry.discs; ++disc) pins = std::min(pins, pin_torque(stage, table, disc));
  add(Part::pins, pins / share, pins / share);
  loaded(Part::eccentric_bearing, drive.bearings[i].eccentric.rating.C_0, &MeshLevel::bearing_largest);
  loaded(Part::input_bearing, drive.bearings[i].input.rating.C_0 / input_bearing_share(stage),
         &MeshLevel::bearing_largest);
  // As a shock from the machine's side loads it: the motor gives what it gives in running.
  const double running = passed.input * drive.requirement.torque;
  const auto stress = [&](double torque) {
    const double turning =
        i == 0 ? strength::input_torque(torque, passed.input, passed.own_share, running) : torque * passed.stage[i - 1];
    return input_shaft_stress(stage, table.at(torque * hard, &MeshLevel::bearing_largest), turning);
  };
  const double from = drive.requirement.torque;
  out.push_back({Part::input_shaft, i, where_passed(stress, kInputShaftYield.nominal, from),
                 where_passed(stress, kInputShaftYield.nominal / kRoutineSafety, from), table.solved_to() / hard});
}

void add_bolts(const Drive& drive, std::vector<PathPart>& out) {
  const range::Dimensions& d = drive.build.frame().dimensions;
  const bool feet = drive.requirement.mounting == enquiry::MountingKind::foot;
  const std::optional<double>& thread = feet ? d.foot_bolt : d.flange_bolt;
  if (!thread || !d.bolt_class) return;
  const double yield = strength::proof_stress(*d.bolt_class) * strength::stress_area(*thread).value_or(0);
  const double preload = strength::kPreload.nominal * yield;
  const double pull = pull_of(drive), reaction = reaction_of(drive);
  if (feet) {
    if (!(d.foot_holes_across > 0) || !(d.foot_holes_along > 0)) return;
    const auto at = [&](double force, double lever) {
      return strength::foot_torque(force, reaction, d.foot_holes_across, pull, lever);
    };
    const double lever = foot_lever(drive, drive.requirement.pull.value_or(enquiry::PullDirection::along));
    PathPart bolts{Part::feet, 0, at(yield, lever), at(preload, lever)};
    const double lifted = foot_lever(drive, enquiry::PullDirection::away);
    if (!drive.requirement.pull && pull > 0 && lifted > lever) {
      bolts.marks_lifted = at(yield, lifted);
      bolts.routine_lifted = at(preload, lifted);
    }
    out.push_back(bolts);
    return;
  }
  if (d.flange_holes <= 0 || !(d.flange_bolt_circle > 0)) return;
  const double bolts = d.flange_holes, radius = d.flange_bolt_circle / 2;
  double slip = strength::flange_slip_torque(strength::kJointFriction.nominal, bolts, preload, radius, reaction);
  double shear = strength::flange_slip_torque(strength::kShearYield, bolts, yield, radius, reaction);
  const double distance = drive.radial_position;
  if (pull > 0 && distance > 0) {
    slip = std::min(slip, strength::flange_tilt_torque(preload, bolts, radius, pull, distance));
    shear = std::min(shear, strength::flange_tilt_torque(yield, bolts, radius, pull, distance));
  }
  out.push_back({Part::flange, 0, shear, slip});
}

}  // namespace

std::string label(const PathPart& part, const Drive& drive) {
  const auto of_stage = [&](const char* words) {
    if (drive.build.stages.size() == 1) return std::string(words);
    return std::string(words) + (part.stage == 0 ? " of the first stage" : " of the second stage");
  };
  switch (part.part) {
    case Part::lobes:
      return of_stage("contact of lobes and ring rollers");
    case Part::holes:
      return of_stage("contact of output rollers and holes");
    case Part::pins:
      return of_stage("output pins");
    case Part::eccentric_bearing:
      return of_stage("eccentric bearing");
    case Part::input_bearing:
      return of_stage("input bearing");
    case Part::input_shaft:
      return of_stage("input shaft at the eccentric");
    case Part::inside_bearing:
      return "inside output bearing";
    case Part::outside_bearing:
      return "outside output bearing";
    case Part::shaft_seat:
      return "output shaft at the outside bearing";
    case Part::shaft_end:
      return "shoulder of the shaft end";
    case Part::keyed_end:
      return "shaft end behind its keyway";
    case Part::key:
      return "key of the shaft end";
    case Part::link:
      return "what sits on the shaft end";
    case Part::feet:
      return "bolts of the feet";
    case Part::flange:
      break;
  }
  return "bolts of the flange";
}

double pull_of(const Drive& drive) {
  return drive.requirement.torque > 0 ? drive.radial_force / drive.requirement.torque : 0;
}

BearingStatics statics_of(const Drive& drive, Part bearing) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  const bool outside = bearing == Part::outside_bearing;
  const range::Bearing& kind = outside ? shaft.bearing_outside : shaft.bearing_inside;
  const range::Bearing& other = outside ? shaft.bearing_inside : shaft.bearing_outside;
  const double at_inside = std::abs(pull_of(drive) * drive.radial_position / shaft.span);
  const double at_outside = std::abs(pull_of(drive) * (shaft.span + drive.radial_position) / shaft.span);
  BearingStatics out;
  out.rating = (outside ? drive.output_outside : drive.output_inside).rating.C_0;
  out.radial = outside ? at_outside : at_inside;
  // A pair with inclined contacts takes the axial force in its worse direction; else one of them holds it.
  const bool pair = inclined(kind) && inclined(other);
  const bool inside_holds =
      shaft.bearing_outside.axial_Y.value_or(0) == 0 && shaft.bearing_inside.axial_Y.value_or(0) > 0;
  out.axial = pair || outside != inside_holds ? drive.requirement.axial_force : 0;
  if (pair) out.induced = strength::induced_thrust(outside ? at_inside : at_outside, *other.axial_Y);
  const StaticFactors factors = static_factors(kind);
  out.X_0 = factors.X_0;
  out.Y_0 = factors.Y_0;
  return out;
}

PathSection section_of(const Drive& drive, Part section) {
  const range::OutputShaft& shaft = drive.build.frame().output;
  if (section == Part::shaft_seat) return {pull_of(drive) * drive.radial_position, shaft.seat_diameter};
  const double bending = pull_of(drive) * std::max(0.0, drive.radial_position - shaft.overhang);
  return {bending, section == Part::keyed_end ? shaft.diameter - shaft.key_shaft_depth : shaft.diameter};
}

strength::ParallelKey key_of(const range::OutputShaft& shaft) {
  return {shaft.key_width, shaft.key_height, shaft.key_shaft_depth, shaft.key_length, true};
}

double input_lever(const range::Stage& stage) {
  const double spread = stage.geometry.discs > 1 ? stage.pin_lever_far - stage.pin_lever_near : 0;
  return std::max(0.0, 0.5 * (stage.input_span - spread));
}

double input_shaft_stress(const range::Stage& stage, double force, double torque) {
  const double moment = force * input_bearing_share(stage) * input_lever(stage);
  return strength::von_mises(strength::nominal_stress(moment, torque, 0, stage.input_shaft_diameter, 0));
}

double reaction_of(const Drive& drive) { return 1 + 1 / drive.build.ratio(); }

double foot_lever(const Drive& drive, enquiry::PullDirection pull) {
  const range::Dimensions& d = drive.build.frame().dimensions;
  switch (pull) {
    case enquiry::PullDirection::along:
      return d.shaft_height / (2 * d.foot_holes_across);
    case enquiry::PullDirection::toward:
      return 0;
    case enquiry::PullDirection::away:
      break;
  }
  const double to_hole =
      d.shoulder_to_hole + std::max(0.0, drive.radial_position - drive.build.frame().output.overhang);
  return (d.foot_holes_along + to_hole) / (2 * d.foot_holes_along);
}

double pin_stress_per_force(const range::Stage& stage, int disc) {
  const auto support = stage.pins_guided ? strength::PinSupport::guided : strength::PinSupport::cantilever;
  return strength::pin_bending(1, 2 * stage.output_pin_radius, disc_lever(stage, disc), support).stress;
}

std::vector<PathPart> torque_path(const Drive& drive, const Transmission& passed) {
  std::vector<PathPart> out;
  for (std::size_t i = drive.build.stages.size(); i-- > 0;) add_mesh(drive, passed, i, out);
  const range::OutputShaft& shaft = drive.build.frame().output;
  const double least = kLeast * drive.requirement.torque, axial = drive.requirement.axial_force;
  const auto add = [&](Part part, double marks, double routine) {
    out.push_back({part, 0, std::max(least, marks), std::max(least, routine)});
  };
  for (Part bearing : {Part::inside_bearing, Part::outside_bearing}) {
    const BearingStatics b = statics_of(drive, bearing);
    if (b.radial <= 0) continue;  // no torque loads it
    const auto at = [&](double safety) {
      return strength::bearing_static_torque(b.rating, safety, b.radial, b.axial, b.induced, b.X_0, b.Y_0);
    };
    add(bearing, at(1), at(kRoutineSafety));
  }
  const auto add_section = [&](Part part) {
    const PathSection s = section_of(drive, part);
    const double pulled = 4 * axial / (kPi * s.diameter * s.diameter);
    const double marks = pulled < shaft.yield_strength
                             ? strength::section_yield_torque(s.bending, axial, s.diameter, shaft.yield_strength)
                             : 0.0;
    add(part, marks, marks);
  };
  add_section(Part::shaft_seat);
  add_section(Part::shaft_end);
  if (shaft.key_length > shaft.key_width) {
    add_section(Part::keyed_end);
    const strength::ParallelKey key = key_of(shaft);
    const double marks =
        strength::key_torque(strength::kKeyYield.nominal, shaft.diameter,
                             std::min(key.height - key.shaft_depth, key.shaft_depth), key.length - key.width);
    add(Part::key, marks, marks);
  }
  if (drive.requirement.link_torque) add(Part::link, *drive.requirement.link_torque, *drive.requirement.link_torque);
  add_bolts(drive, out);
  return out;
}

std::vector<std::string> not_described(const Drive& drive) {
  std::vector<std::string> out;
  const range::Dimensions& d = drive.build.frame().dimensions;
  const bool feet = drive.requirement.mounting == enquiry::MountingKind::foot;
  if (!(feet ? d.foot_bolt : d.flange_bolt) || !d.bolt_class)
    out.push_back(feet ? "The bolts of the feet: the range names neither their thread nor their property class."
                       : "The bolts of the flange: the range names neither their thread nor their property class.");
  if (drive.build.frame().output.key_length <= drive.build.frame().output.key_width)
    out.emplace_back("The joint of shaft end and hub: the range describes no key.");
  if (!drive.requirement.link_torque)
    out.emplace_back("The coupling, chain or belt on the shaft end: nobody stated what it bears for a moment.");
  out.emplace_back(
      "Seats: of the eccentric on the input shaft, of the pin flange on the output shaft, of the motor's shaft in the "
      "input; no field of a range describes them.");
  out.emplace_back("The hub itself: steel is taken; a hub of cast iron bears about half on its keyway.");
  out.emplace_back("Needles and sleeves inside ring and output rollers; the housing between ring and base.");
  return out;
}

}  // namespace lobewise::drive
