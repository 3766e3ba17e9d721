#include "engine/drive/lives.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/contact/lubricant.h"
#include "engine/strength/line_life.h"
#include "engine/strength/shaft.h"
#include "engine/strength/system_life.h"

namespace lobewise::drive {
namespace {

constexpr double kPerMillion = 1e6;

strength::RollingBearing weakened(strength::RollingBearing bearing, double factor) {
  bearing.rating.C *= factor;
  return bearing;
}

/// What one duty block does to a bearing.
struct BearingBlock {
  double time_share = 0, load = 0, speed = 0;
};

PartLife bearing_part(std::string id, std::string label, const strength::RollingBearing& stated,
                      const std::vector<BearingBlock>& blocks, const BearingBlock& full, double nu, double count,
                      const Drive& drive, const Coefficients& c) {
  const strength::RollingBearing bearing = weakened(stated, c.capacity_factor);
  PartLife part;
  part.id = std::move(id);
  part.label = std::move(label);
  part.count = count;
  part.load = full.load;
  part.speed = full.speed;
  part.pitch_diameter = bearing.pitch_diameter;
  part.C = bearing.rating.C;
  part.C_0 = bearing.rating.C_0;
  part.C_u = bearing.rating.C_u;
  part.kappa = contact::viscosity_ratio(nu, full.speed, bearing.pitch_diameter);
  part.contamination = c.contamination > 0 ? c.contamination : contamination_of(drive.oil).nominal;
  part.weibull = bearing.element == strength::RollingElement::ball ? strength::kWeibullPoint : strength::kWeibullLine;
  std::vector<double> shares, basic, modified;
  for (const BearingBlock& block : blocks) {
    const double kappa = contact::viscosity_ratio(nu, block.speed, bearing.pitch_diameter);
    const strength::BearingLife life = strength::bearing_life(
        bearing, block.load, block.speed, {kappa, part.contamination, drive.requirement.reliability});
    shares.push_back(block.time_share);
    basic.push_back(life.basic_hours);
    modified.push_back(life.modified_hours);
    part.outside_model = part.outside_model || life.factor.outside_model;
    part.overloaded = part.overloaded || life.overloaded;
  }
  part.life_factor =
      strength::life_factor(bearing.element, part.kappa, part.contamination * part.C_u / std::max(1.0, full.load))
          .value;
  part.basic_hours = strength::spectrum_life(shares, basic);
  part.modified_hours = strength::spectrum_life(shares, modified);
  return part;
}

double equivalent(const range::Bearing& bearing, double radial, double axial) {
  return strength::bearing_equivalent(
      radial, axial, bearing.axial_Y ? (bearing.kind == range::BearingKind::deep_groove ? 0.56 : 0.4) : 1.0,
      bearing.axial_Y.value_or(0.0), bearing.axial_e.value_or(1e9));
}

}  // namespace

const Coefficient& contamination_of(const Oil& oil) {
  return oil.grease() ? strength::kContaminationSealed : strength::kContaminationSplash;
}

Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c) {
  const double nu = drive.oil.nu(oil_temperature, c.viscosity_factor);
  const std::size_t stages = drive.build.stages.size();
  // Every block with its losses, so that a first stage sees the torque the second one asks for.
  std::vector<RunningLosses> running;
  std::vector<Running> moments;
  for (const enquiry::Block& block : drive.requirement.duty) {
    moments.push_back(drive.running(block, c));
    running.push_back(running_losses(drive.build, drive.tables, drive.oil, moments.back(), oil_temperature, c));
  }
  const Running full_moment = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  const RunningLosses full = running_losses(drive.build, drive.tables, drive.oil, full_moment, oil_temperature, c);
  const auto& duty = drive.requirement.duty;

  Lives out;
  const double line_factor = std::pow(c.line_factor, 4);  // life goes with the fourth power of the line rating
  for (std::size_t i = stages; i-- > 0;) {
    const range::Stage& stage = *drive.build.stages[i].stage;
    const mechanism::StageGeometry& g = stage.geometry;
    const StageTable& table = *drive.tables[i];
    const std::string which = stages == 1 ? "" : i == 0 ? " of the first stage" : " of the second stage";
    const std::string key = stages == 1 ? "" : fmt::format("_{}", i + 1);
    const double relative = static_cast<double>(g.rollers()) / g.lobes;
    const double share = input_bearing_share(stage);
    std::vector<BearingBlock> eccentric, input;
    for (std::size_t b = 0; b < duty.size(); ++b) {
      const StageRunning& at = running[b].stages[i];
      const double force = table.at(at.torque, &MeshLevel::bearing_equivalent);
      eccentric.push_back({duty[b].time_share, force, at.input_speed * relative});
      input.push_back({duty[b].time_share, force * share, at.input_speed});
    }
    const double force = table.at(full.stages[i].torque, &MeshLevel::bearing_equivalent);
    const double speed = full.stages[i].input_speed;
    out.parts.push_back(bearing_part("eccentric" + key, "eccentric bearing" + which, drive.bearings[i].eccentric,
                                     eccentric, {1, force, speed * relative}, nu, g.discs, drive, c));
    out.parts.push_back(bearing_part("input" + key, "input bearing" + which, drive.bearings[i].input, input,
                                     {1, force * share, speed}, nu, 2, drive, c));

    const auto line_part = [&](const char* id, const char* label, double MeshLevel::*member, double count) {
      PartLife part;
      part.id = id + key;
      part.label = label + which;
      part.bearing = false;
      part.weibull = strength::kWeibullLine;
      part.count = count;
      std::vector<double> shares, hours;
      for (std::size_t b = 0; b < duty.size(); ++b) {
        const StageRunning& at = running[b].stages[i];
        shares.push_back(duty[b].time_share);
        hours.push_back(
            strength::life_hours(line_factor * kPerMillion * table.life_at(at.torque, member), at.input_speed));
      }
      part.basic_hours = part.modified_hours = strength::spectrum_life(shares, hours);
      part.speed = speed;
      part.load = table.at(full.stages[i].torque, &MeshLevel::lobe_force);
      out.parts.push_back(std::move(part));
    };
    line_part("lobes", "lobe flanks of a disc", &MeshLevel::lobe_life, g.discs);
    line_part("rollers", "ring roller", &MeshLevel::roller_life, static_cast<double>(g.rollers()) * g.discs);
    line_part("holes", "hole of a disc", &MeshLevel::hole_life, static_cast<double>(g.pins) * g.discs);
    line_part("sleeves", "output roller", &MeshLevel::sleeve_life, static_cast<double>(g.pins) * g.discs);
  }

  const range::OutputShaft& shaft = drive.build.frame().output;
  std::vector<BearingBlock> inside, outside;
  for (std::size_t b = 0; b < duty.size(); ++b) {
    inside.push_back(
        {duty[b].time_share, equivalent(shaft.bearing_inside, moments[b].radial_inside, 0), moments[b].speed});
    outside.push_back({duty[b].time_share,
                       equivalent(shaft.bearing_outside, moments[b].radial_outside, moments[b].axial),
                       moments[b].speed});
  }
  out.parts.push_back(bearing_part(
      "output_inside", "inside output bearing", drive.output_inside, inside,
      {1, equivalent(shaft.bearing_inside, full_moment.radial_inside, 0), full_moment.speed}, nu, 1, drive, c));
  out.parts.push_back(bearing_part(
      "output_outside", "outside output bearing", drive.output_outside, outside,
      {1, equivalent(shaft.bearing_outside, full_moment.radial_outside, full_moment.axial), full_moment.speed}, nu, 1,
      drive, c));

  std::vector<strength::SystemPart> system;
  for (const PartLife& part : out.parts)
    if (std::isfinite(part.basic_hours)) system.push_back({part.basic_hours, part.weibull, part.count});
  out.system_hours = strength::system_life(system);
  return out;
}

}  // namespace lobewise::drive
