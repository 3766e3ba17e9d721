#include "engine/drive/lives.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/contact/film.h"
#include "engine/drive/lobe_film.h"
#include "engine/strength/fatigue_scatter.h"
#include "engine/strength/line_life.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::drive {
namespace {

constexpr double kPerMillion = 1e6;
constexpr double kHour = 3600;
constexpr double kInfinite = std::numeric_limits<double>::infinity();
const double kLogNine = std::log(0.9);

double contamination(const Drive& drive, const Coefficients& c) {
  return c.contamination > 0 ? c.contamination : contamination_of(drive.oil).nominal;
}

/// Life of blocks together (Palmgren and Miner), and what stands of full load.
void close(PartLife& part, const PartBlock& full, double reliability) {
  double basic = 0, modified = 0;
  for (const PartBlock& block : part.blocks) {
    basic += block.time_share / block.basic_hours;
    modified += block.time_share / (block.life_factor * block.basic_hours);
    part.outside_model = part.outside_model || (block.load > 0 && block.kappa < strength::kKappaMin);
  }
  part.basic_hours = 1 / basic;
  part.hours_90 = 1 / modified;
  part.modified_hours = strength::life_share(reliability, part.weibull, part.least) * part.hours_90;
  part.load = full.load;
  part.speed = full.speed;
  part.kappa = full.kappa;
  part.life_factor = full.life_factor;
}

/// A bearing whose load in each block is given; the last block, without time, is full load.
PartLife bearing_part(std::string id, std::string label, const DutyBearing& on, const std::vector<double>& loads,
                      double count, double reliability) {
  PartLife part;
  part.id = std::move(id);
  part.label = std::move(label);
  part.ball = on.bearing.element == strength::RollingElement::ball;
  part.count = count;
  part.pitch_diameter = on.bearing.pitch_diameter;
  part.C = on.bearing.rating.C;
  part.C_0 = on.bearing.rating.C_0;
  part.C_u = on.bearing.rating.C_u;
  part.contamination = on.contamination;
  part.weibull = strength::kWeibullModified;
  part.least = strength::kLeastLifeModified;
  for (std::size_t b = 0; b < loads.size(); ++b) {
    PartBlock block{on.blocks[b].time_share, loads[b], on.blocks[b].speed, on.blocks[b].kappa, 0, 1, kInfinite};
    if (block.load > 0) {
      block.limit_ratio = on.contamination * part.C_u / block.load;
      block.life_factor = on.factor(b, block.load).value;
      block.basic_hours = strength::life_hours(strength::basic_life(part.C, block.load, on.exponent()), block.speed);
    }
    part.overloaded = part.overloaded || (block.time_share > 0 && block.load > strength::kLoadRatioMax * part.C);
    part.blocks.push_back(block);
  }
  const PartBlock full = part.blocks.back();
  part.blocks.pop_back();
  close(part, full, reliability);
  return part;
}

/// The lubricant in the line contacts of a stage.
struct LineOil {
  FilmOil film;
  double contamination = 0;
};

/// What the lubricant is worth to a line contact.
PartBlock line_block(double time_share, double force, double input_speed, double film_ratio, double pressure,
                     double e_C) {
  PartBlock block{time_share, force, input_speed, contact::viscosity_ratio_of_film(film_ratio), 0, 1, kInfinite};
  block.limit_ratio = strength::contact_limit_ratio(pressure, e_C);
  block.life_factor = strength::life_factor(strength::RollingElement::roller, block.kappa, block.limit_ratio).value;
  return block;
}

/// Torque and input speed of a stage in every block, full load last.
struct StageBlock {
  double time_share = 0, torque = 0, input_speed = 0;
};

/// Lobes, rollers, holes and output rollers under one disc.
void add_lines(const range::Stage& stage, const StageTable& table, const std::vector<StageBlock>& blocks, double share,
               double discs, const LineOil& oil, const Coefficients& c, double reliability, const std::string& key,
               const std::string& disc, const std::string& which, std::vector<PartLife>& out) {
  const mechanism::StageGeometry& g = stage.geometry;
  const double line_factor = std::pow(c.line_factor, 4);  // life goes with the fourth power of the line rating
  const double Z = g.rollers(), M = g.pins;
  const struct {
    const char *id, *label, *of_disc;
    double MeshLevel::*life;
    bool at_lobe;
    double count;
  } kinds[] = {{"lobes", "lobe flanks of a disc", "lobe flanks of ", &MeshLevel::lobe_life, true, discs},
               {"rollers", "ring roller", "ring roller under ", &MeshLevel::roller_life, true, Z * discs},
               {"holes", "hole of a disc", "hole of ", &MeshLevel::hole_life, false, M * discs},
               {"sleeves", "output roller", "output roller under ", &MeshLevel::sleeve_life, false, M * discs}};
  std::vector<PartBlock> at_lobe, at_pin;
  double lobe_film = 0, pin_film = 0, lobe_pressure = 0, pin_pressure = 0;
  for (const StageBlock& block : blocks) {
    const double torque = share * block.torque;
    if (!(torque > 0)) {
      at_lobe.push_back({block.time_share, 0, block.input_speed, 0, 0, 1, kInfinite});
      at_pin.push_back(at_lobe.back());
      continue;
    }
    lobe_film = lobe_film_ratio(stage, table, torque, block.input_speed, oil.film);
    lobe_pressure = table.pressure_at(torque, &MeshLevel::lobe_pressure);
    at_lobe.push_back(line_block(block.time_share, table.at(torque, &MeshLevel::lobe_force), block.input_speed,
                                 lobe_film, lobe_pressure, oil.contamination));
    pin_film = pin_film_ratio(stage, table, torque, block.input_speed, oil.film);
    pin_pressure = table.pressure_at(torque, &MeshLevel::pin_pressure);
    at_pin.push_back(line_block(block.time_share, table.at(torque, &MeshLevel::pin_force), block.input_speed, pin_film,
                                pin_pressure, oil.contamination));
  }
  for (const auto& kind : kinds) {
    PartLife part;
    part.id = kind.id + key;
    part.label = (disc.empty() ? kind.label : kind.of_disc + disc) + which;
    part.bearing = false;
    part.count = kind.count;
    part.weibull = strength::kWeibullLine;
    part.contamination = oil.contamination;
    part.film_ratio = kind.at_lobe ? lobe_film : pin_film;
    part.pressure = kind.at_lobe ? lobe_pressure : pin_pressure;
    part.blocks = kind.at_lobe ? at_lobe : at_pin;
    for (std::size_t b = 0; b < blocks.size(); ++b)
      if (blocks[b].torque > 0)
        part.blocks[b].basic_hours = strength::life_hours(
            line_factor * kPerMillion * table.life_at(share * blocks[b].torque, kind.life), blocks[b].input_speed);
    const PartBlock full = part.blocks.back();
    part.blocks.pop_back();
    close(part, full, reliability);
    out.push_back(std::move(part));
  }
}

std::vector<double> loads_of(const Drive& drive, std::size_t stage) {
  const std::vector<double>& loads = drive.tables[stage]->disc_loads;
  return loads.empty() ? std::vector<double>{1.0} : loads;
}

/// Empty for the disc that carries most, which stands for all that carry like it.
const char* disc_name(std::size_t disc, std::size_t discs) {
  if (disc == 0) return "";
  return disc + 1 == discs ? "the far disc" : "the middle disc";
}

void add_stage(const Drive& drive, std::size_t i, const std::vector<StageBlock>& blocks, double nu, const LineOil& oil,
               const Coefficients& c, Lives& out) {
  const range::Stage& stage = *drive.build.stages[i].stage;
  const mechanism::StageGeometry& g = stage.geometry;
  const StageTable& table = *drive.tables[i];
  const double reliability = drive.requirement.reliability;
  const bool one = drive.build.stages.size() == 1;
  const std::string which = one ? "" : i == 0 ? " of the first stage" : " of the second stage";
  const std::string key = one ? "" : fmt::format("_{}", i + 1);
  const double relative = static_cast<double>(g.rollers()) / g.lobes;

  // One set of parts for discs that carry alike, else one for each.
  const std::vector<double> loads = loads_of(drive, i);
  const double alike = loads.size() == 1 ? g.discs : 1;
  DutyBearing eccentric(drive.bearings[i].eccentric, oil.contamination, nu, c);
  DutyBearing input(drive.bearings[i].input, oil.contamination, nu, c);
  for (const StageBlock& block : blocks) {
    eccentric.add(block.time_share, block.input_speed * relative);
    input.add(block.time_share, block.input_speed);
  }
  std::vector<std::vector<double>> forces;  // of each disc on its eccentric, in every block
  for (const double share : loads) {
    forces.emplace_back();
    for (const StageBlock& block : blocks)
      forces.back().push_back(table.at(share * block.torque, &MeshLevel::bearing_equivalent));
  }
  for (std::size_t d = 0; d < loads.size(); ++d) {
    const std::string disc = disc_name(d, loads.size());
    const std::string of_disc = d == 0 ? key : fmt::format("{}_disc_{}", key, d + 1);
    const std::size_t first = out.parts.size();
    out.parts.push_back(bearing_part("eccentric" + of_disc,
                                     "eccentric bearing" + (disc.empty() ? "" : " of " + disc) + which, eccentric,
                                     forces[d], alike, reliability));
    if (d == 0) {
      // Opposed discs push with a couple; what one pushes more than the other both bearings share.
      std::vector<double> reaction;
      for (std::size_t b = 0; b < blocks.size(); ++b) {
        const double mean = table.at(blocks[b].torque, &MeshLevel::bearing_equivalent);
        reaction.push_back(mean * input_bearing_share(stage) +
                           (loads.size() == 2 ? 0.5 * std::abs(forces[0][b] - forces[1][b]) : 0));
      }
      out.parts.push_back(bearing_part("input" + key, "input bearing" + which, input, reaction, 2, reliability));
    }
    add_lines(stage, table, blocks, loads[d], alike, oil, c, reliability, of_disc, disc, which, out.parts);
    for (std::size_t p = first; p < out.parts.size(); ++p) {
      out.parts[p].stage = static_cast<int>(i);
      out.parts[p].disc = static_cast<int>(d);
    }
  }

  double torque = 0;
  for (const StageBlock& block : blocks) torque = std::max(torque, block.torque);
  const strength::FatigueScatter& scatter = strength::fatigue_scatter(strength::FatiguePart::output_pin);
  StandingPart pins;
  pins.id = "pins" + key;
  pins.label = "output pins" + which;
  pins.stress = hardest_pin(stage, table, torque).stress;
  pins.limit = strength::kPinBendingLimit.nominal;
  pins.median = strength::median_limit(pins.limit, strength::normal_score(scatter.share_at_limit), scatter.deviation);
  pins.count = g.pins;
  if (pins.stress > 0)
    pins.log_share =
        pins.count * strength::log_standing(strength::fatigue_score(pins.median, pins.stress, scatter.deviation));
  out.standing.push_back(std::move(pins));
}

void add_output(const Drive& drive, const OutputDuty& output, double radial, Lives& out) {
  const double reliability = drive.requirement.reliability;
  std::vector<double> inside, outside;
  for (std::size_t b = 0; b < drive.requirement.duty.size(); ++b) {
    const OutputLoads at = output.loads(b, radial);
    inside.push_back(at.inside);
    outside.push_back(at.outside);
  }
  // Full load stands behind the blocks.
  DutyBearing on_inside = output.inside(), on_outside = output.outside();
  const double speed = drive.running({1, drive.requirement.torque, drive.requirement.speed}, {}).speed;
  on_inside.add(0, speed);
  on_outside.add(0, speed);
  const OutputLoads full = output.full_loads(radial);
  inside.push_back(full.inside);
  outside.push_back(full.outside);
  out.parts.push_back(bearing_part("output_inside", "inside output bearing", on_inside, inside, 1, reliability));
  out.parts.push_back(bearing_part("output_outside", "outside output bearing", on_outside, outside, 1, reliability));
  for (const ShaftSection* section : {&output.seat(), &output.end()}) {
    StandingPart part;
    part.id = section->id;
    part.label = section->label;
    part.stress = section->endurance_needed(radial);
    part.limit = part.median = section->median_endurance;
    part.log_share = section->log_standing(radial);
    part.of_shaft = true;
    out.standing.push_back(std::move(part));
  }
}

bool of_output(const PartLife& part) { return part.id.rfind("output_", 0) == 0; }

std::vector<strength::SystemPart> system_of(const Lives& lives) {
  std::vector<strength::SystemPart> parts;
  for (const PartLife& part : lives.parts) parts.push_back(part.in_system());
  return parts;
}

double log_standing(const Lives& lives) {
  double sum = 0;
  for (const StandingPart& part : lives.standing) sum += part.log_share;
  return sum;
}

}  // namespace

const Coefficient& contamination_of(const Oil& oil) {
  if (oil.exposed) return oil.grease() ? strength::kContaminationSealedWet : strength::kContaminationSplashWet;
  return oil.grease() ? strength::kContaminationSealed : strength::kContaminationSplash;
}

double Lives::log_rest(double at) const {
  double sum = 0;
  for (const PartLife& part : parts) {
    if (of_output(part)) continue;
    const strength::SystemPart one = part.in_system();
    sum += kLogNine * strength::system_hazard(at, {&one, 1});
  }
  for (const StandingPart& part : standing)
    if (!part.of_shaft) sum += part.log_share;
  return sum;
}

double Lives::reliability_at(double at) const {
  return strength::system_reliability(at, system_of(*this)) * std::exp(log_standing(*this));
}

double Lives::hours_of(double share) const {
  const double rolling = std::log(share) - log_standing(*this);  // what is left for the rolling contacts
  return rolling < 0 ? strength::system_life(system_of(*this), std::exp(rolling)) : 0;
}

OutputDuty output_duty(const Drive& drive, double oil_temperature, const Coefficients& c, double position,
                       double life) {
  return {drive, drive.oil.nu(oil_temperature, c.viscosity_factor), contamination(drive, c), c, position, life};
}

Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c) {
  return lives(drive, oil_temperature, c,
               output_duty(drive, oil_temperature, c, drive.radial_position, drive.requirement.life));
}

Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c, const OutputDuty& output) {
  const double nu = drive.oil.nu(oil_temperature, c.viscosity_factor);
  const LineOil oil{{drive.oil.eta(oil_temperature, c.viscosity_factor), drive.oil.pressure_viscosity},
                    contamination(drive, c)};
  const enquiry::Requirement& requirement = drive.requirement;
  // Every block with its losses, so that a first stage sees the torque the second one asks for; full load last.
  std::vector<std::vector<StageBlock>> blocks(drive.build.stages.size());
  const auto add = [&](const enquiry::Block& block) {
    const RunningLosses running =
        running_losses(drive.build, drive.tables, drive.oil, drive.running(block, c), oil_temperature, c);
    for (std::size_t i = 0; i < blocks.size(); ++i)
      blocks[i].push_back({block.time_share, running.stages[i].torque, running.stages[i].input_speed});
  };
  for (const enquiry::Block& block : requirement.duty) add(block);
  add({0, requirement.torque, requirement.speed});

  Lives out;
  out.hours = requirement.life / kHour;
  for (std::size_t i = blocks.size(); i-- > 0;) add_stage(drive, i, blocks[i], nu, oil, c, out);
  add_output(drive, output, drive.radial_force * c.torque_factor, out);
  out.reliability = out.reliability_at(out.hours);
  return out;
}

}  // namespace lobewise::drive
