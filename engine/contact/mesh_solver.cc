#include "engine/contact/mesh_solver.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/base/constants.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::contact {
namespace {

using mechanism::cross;
using mechanism::dot;
using mechanism::norm;
using mechanism::turned;
using mechanism::unit;
using mechanism::Vec2;

/// Unbalanced load as a share of T / Rw at which a solution is accepted, and what is still accepted when rounding ends
/// progress.
constexpr double kTolerance = 1e-12;
constexpr double kStagnation = 1e-8;
/// Tolerance of the levels that only start another one.
constexpr double kStartTolerance = 1e-3;
/// Share of the longest lever from which on a turn can free a roller that presses.
constexpr double kLeastLever = 0.2;
/// Share of the largest stiffness that stands in for directions nothing resists yet.
constexpr double kFloor = 1e-12;

/// Rotation of the output at which the search for its equilibrium is given up [rad].
constexpr double kFarthestOutput = 0.5;

std::size_t at(int index) { return static_cast<std::size_t>(index); }
bool floats(Level level) { return level == Level::l1f || level == Level::l3; }
bool through_pins(Level level) { return level == Level::l2 || level == Level::l3; }

/// Solves moment(beta) = torque for a moment that never falls with beta: Newton, kept inside the bracket found so far.
/// `probe(beta)` gives a Probe; a rotation beyond `limit` is given up.
template <class Function>
Outcome solve_scalar(Function&& probe, double& rotation, double torque, double tolerance, double reach, double limit) {
  double low = -std::numeric_limits<double>::infinity();
  double high = -low;
  double scale = std::abs(torque);
  double best = std::numeric_limits<double>::infinity();
  double best_rotation = rotation;
  int idle = 0;
  for (int step = 0; step < 200; ++step) {
    const auto found = probe(rotation);
    const double excess = found.moment - torque;
    if (step == 0) scale = std::max(scale, std::abs(found.moment));  // a tight stage without torque
    if (std::abs(excess) <= tolerance * scale) return Outcome::converged;
    idle = std::abs(excess) < 0.5 * best ? 0 : idle + 1;
    if (std::abs(excess) < best) {
      best = std::abs(excess);
      best_rotation = rotation;
    }
    if (idle > 8 && best <= kStagnation * scale) break;
    (excess < 0 ? low : high) = rotation;
    double next = rotation + (found.stiffness > 0 ? -excess / found.stiffness : found.touch);
    if (low > -1 && high < 1) {
      if (!(next > low && next < high)) next = low + (high - low) / 2;
      if (next == low || next == high) break;  // neighbouring numbers
    } else if (std::abs(next - rotation) > reach) {
      next = rotation + std::copysign(reach, next - rotation);
      reach *= 2;
    }
    rotation = next;
    if (std::abs(rotation) > limit) return Outcome::jumps_lobes;
  }
  rotation = best_rotation;
  probe(rotation);
  return best <= kStagnation * scale ? Outcome::converged : Outcome::no_equilibrium;
}

}  // namespace

Error outcome_error(Outcome outcome, double torque) {
  const auto text = fmt::format("{:.6g} N m", torque);
  switch (outcome) {
    case Outcome::outside_law:
      return model_error(
          "torque", text,
          "makes a contact strip as wide as the roller itself, where the contact law no longer holds; a smaller "
          "torque or a wider disc is needed.");
    case Outcome::jumps_lobes:
      return model_error(
          "torque", text,
          "moves a disc by half a lobe or by its eccentricity, so that it would mesh with other lobes; a smaller "
          "torque, stiffer contacts or a closer fit is needed.");
    case Outcome::no_equilibrium:
      return model_error(
          "torque", text,
          "finds no equilibrium: clearances and deflections must stay small against the lobes; a smaller torque, "
          "stiffer contacts or a closer fit is needed.");
    case Outcome::converged:
      break;
  }
  return {ErrorKind::internal, "torque", text, "a solution that was found is no error.", 0};
}

DiscLoads::DiscLoads(int rollers, int pins)
    : ring(rollers),
      ring_force(at(rollers)),
      ring_stiffness(at(rollers)),
      pin_force(at(pins)),
      pin_gap(at(pins)),
      pin_arm(at(pins)),
      output_arm(at(pins)) {}

MeshSolver::MeshSolver(const MeshModel& model)
    : model_(model),
      ring_law_(model.ring_law, model.material, model.stage.width, model.stage.roller_radius),
      pin_law_(model.pin_law, model.material, model.stage.width, model.stage.pin_radius),
      modulus_(lobewise::contact::contact_modulus(model.material, model.material)),
      pin_radius_(effective_radius(1 / model.stage.pin_radius, -1 / model.stage.hole_radius())),
      finders_(at(model.stage.discs), RingGapFinder(model.stage)),
      discs_(at(model.stage.discs), DiscLoads(model.stage.rollers(), model.stage.pins)),
      blocks_(at(model.stage.discs)),
      pin_(at(model.stage.pins)) {
  for (int j = 0; j < model.stage.pins; ++j) pin_start_.push_back(mechanism::pin_centre(model.stage, 0, j));
}

void MeshSolver::set_offsets(const PartOffsets& offsets) {
  const auto& stage = model_.stage;
  warm_ = false;
  for (std::size_t d = 0; d < finders_.size(); ++d) finders_[d].set_offsets(offsets, d);
  pin_offsets_.assign(at(stage.discs), std::vector<PinOffset>(at(stage.pins)));
  largest_offset_ = 0;
  const auto note = [&](Vec2 away, double radius) {
    largest_offset_ = std::max(largest_offset_, norm(away) + std::abs(radius));
  };
  for (std::size_t k = 0; k < at(stage.rollers()); ++k)
    note({PartOffsets::of(offsets.roller_radial, k), PartOffsets::of(offsets.roller_tangential, k)},
         PartOffsets::of(offsets.roller_radius, k));
  for (std::size_t d = 0; d < pin_offsets_.size(); ++d)
    for (std::size_t j = 0; j < pin_.size(); ++j) {
      PinOffset& off = pin_offsets_[d][j];
      const Vec2 outward = (1 / norm(pin_start_[j])) * pin_start_[j];
      off.pin = turned({PartOffsets::of(offsets.pin_radial, j), PartOffsets::of(offsets.pin_tangential, j)}, outward);
      off.hole =
          turned({PartOffsets::of(offsets.hole_radial, d, j), PartOffsets::of(offsets.hole_tangential, d, j)}, outward);
      off.clearance = PartOffsets::of(offsets.hole_radius, d, j) - PartOffsets::of(offsets.pin_radius, j);
      note(off.pin, off.clearance);
      note(off.hole, 0);
    }
  if (largest_offset_ == 0) pin_offsets_.clear();
}

double MeshSolver::ring_pressure(const DiscLoads& disc, int roller) const {
  return hertz_pressure(disc.ring_force[at(roller)] / model_.stage.width, disc.ring.radius[at(roller)], modulus_);
}

double MeshSolver::instant_distance(const DiscLoads& disc, int roller) const {
  const auto& stage = model_.stage;
  const double eZ = stage.eccentricity * stage.rollers();
  return norm(eZ * disc.crank - stage.pitch_radius * finders_.front().roller_direction(roller));
}

double MeshSolver::pin_pressure(double pin_force) const {
  return hertz_pressure(pin_force / model_.stage.width, pin_radius_, modulus_);
}

Equilibrium MeshSolver::equilibrium(int index) const {
  const DiscLoads& disc = discs_[at(index)];
  Equilibrium out;
  out.crank_angle = crank_angle_;
  const auto add = [](PressedContacts& list, double force, double arm, double gap, double radius,
                      const ContactLaw& law) {
    list.force.push_back(force);
    list.arm.push_back(arm);
    list.radius.push_back(radius);
    list.approach.push_back(-gap);
    list.local.push_back(law.local(radius));
    list.bent.push_back(0);
    list.logarithmic = law.logarithmic();
  };
  for (std::size_t k = 0; k < disc.ring_force.size(); ++k)
    if (disc.ring_force[k] > 0)
      add(out.ring, disc.ring_force[k], disc.ring.arm[k], disc.ring.gap[k], disc.ring.radius[k], ring_law_);
  for (std::size_t j = 0; j < disc.pin_force.size(); ++j)
    if (disc.pin_force[j] > 0)
      add(out.pins, disc.pin_force[j], disc.pin_arm[j], disc.pin_gap[j], pin_radius_, pin_law_);
  for (const DiscLoads& other : discs_)
    for (std::size_t j = 0; j < other.pin_force.size(); ++j)
      if (other.pin_force[j] > 0) {
        out.output_force.push_back(other.pin_force[j]);
        out.output_arm.push_back(other.output_arm[j]);
      }
  return out;
}

void MeshSolver::set_crank(double crank_angle) {
  crank_angle_ = crank_angle;
  for (int d = 0; d < model_.stage.discs; ++d) {
    DiscLoads& disc = discs_[at(d)];
    disc.crank_angle = mechanism::disc_crank_angle(model_.stage, crank_angle, d);
    disc.crank = unit(disc.crank_angle);
    finders_[at(d)].set_crank(disc.crank_angle);
  }
  output_ = unit(mechanism::output_rotation(model_.stage, crank_angle));
  for (std::size_t j = 0; j < pin_.size(); ++j) pin_[j] = turned(pin_start_[j], output_);
}

/// Carries the last solution on to a new crank angle: the shift of a disc turns with its eccentric.
void MeshSolver::predict(double crank_angle) {
  const Vec2 turn = unit(crank_angle - crank_angle_);
  for (DiscLoads& disc : discs_) disc.shift.u = turned(disc.shift.u, turn);
}

Outcome MeshSolver::solve(Level level, double crank_angle, double torque) {
  const auto& stage = model_.stage;
  // One unknown step covers at most every clearance and some elastic approaches.
  const double contacts = 0.3 * stage.rollers() * stage.discs;  // about a third of the lobes
  const double force = std::abs(torque) / (contacts * stage.shortening() * stage.pitch_radius);
  const double approach = ring_law_.approach(force, stage.roller_radius) + pin_law_.approach(force, pin_radius_);
  reach_ =
      4 * approach + 2 * (model_.support.clearance + stage.hole_clearance + std::abs(stage.roller_offset) +
                          std::abs(stage.radius_offset) + stage.pitch_radius * stage.flank_relief + largest_offset_);

  const bool warm = warm_ && warm_level_ == level && warm_torque_ * torque > 0;
  warm_ = false;
  if (warm) predict(crank_angle);
  set_crank(crank_angle);
  if (!through_pins(level))
    for (DiscLoads& disc : discs_) std::fill(disc.pin_force.begin(), disc.pin_force.end(), 0.0);
  Outcome outcome = Outcome::no_equilibrium;
  if (warm) outcome = level == Level::l1 ? solve_rotations(torque, kTolerance, false) : solve_joint(level, torque);
  if (outcome != Outcome::converged) outcome = solve_cold(level, torque);
  if (outcome == Outcome::no_equilibrium && floats(level) && torque != 0) outcome = solve_from_above(level, torque);
  if (outcome == Outcome::converged) outcome = finish(level, torque);
  warm_ = outcome == Outcome::converged;
  warm_level_ = level;
  warm_torque_ = torque;
  return outcome;
}

void MeshSolver::unload(double crank_angle) {
  warm_ = false;
  set_crank(crank_angle);
  output_rotation_ = 0;
  for (std::size_t d = 0; d < discs_.size(); ++d) {
    discs_[d].shift = {};
    load_ring(discs_[d], finders_[d]);
  }
}

double MeshSolver::touch_rotation(double crank_angle, int disc, int direction) {
  warm_ = false;
  set_crank(crank_angle);
  DiscLoads& loads = discs_[at(disc)];
  loads.shift = {};
  finders_[at(disc)].evaluate(loads.shift, loads.ring);
  // What presses in the ideal pose where it has hardly a lever no turn frees: it does not count.
  const double least_lever = kLeastLever * model_.stage.eccentricity * model_.stage.lobes;
  std::vector<std::size_t> rollers;
  for (std::size_t k = 0; k < loads.ring.gap.size(); ++k)
    if (const double closing = -direction * loads.ring.arm[k];
        closing > 0 && (loads.ring.gap[k] >= 0 || closing >= least_lever))
      rollers.push_back(k);
  // Newton on the smallest gap; a gap opens with d gap / d beta = arm.
  for (int step = 0; step < 50; ++step) {
    if (step > 0) finders_[at(disc)].evaluate(loads.shift, loads.ring);
    double least = std::numeric_limits<double>::infinity();
    for (const std::size_t k : rollers) {
      const double closing = -direction * loads.ring.arm[k];
      if (closing > 0) least = std::min(least, loads.ring.gap[k] / closing);
    }
    loads.shift.rotation += direction * least;
    if (std::abs(least) <= 1e-15 * std::abs(loads.shift.rotation) || least == 0) break;
  }
  return loads.shift.rotation;
}

void MeshSolver::load_ring(DiscLoads& disc, RingGapFinder& finder) {
  finder.evaluate(disc.shift, disc.ring);
  Vec2 resultant;
  double moment = 0;
  for (std::size_t k = 0; k < disc.ring_force.size(); ++k) {
    const double gap = disc.ring.gap[k];
    if (!(gap < 0)) {
      disc.ring_force[k] = 0;
      disc.ring_stiffness[k] = 0;
      continue;
    }
    const ContactForce contact = ring_law_.force(-gap, disc.ring.radius[k]);
    disc.ring_force[k] = contact.force;
    disc.ring_stiffness[k] = contact.stiffness;
    resultant += contact.force * Vec2{disc.ring.normal_x[k], disc.ring.normal_y[k]};
    moment += contact.force * disc.ring.arm[k];
  }
  disc.ring_resultant = resultant;
  disc.ring_moment = moment;
  disc.pin_resultant = {};
}

/// Pins of one disc: forces, resultant, and their share of the block and of the output's balance.
void MeshSolver::load_pins(std::size_t index) {
  DiscLoads& disc = discs_[index];
  Block& block = blocks_[index];
  const auto& stage = model_.stage;
  const double e = stage.eccentricity;
  // Pin and hole turn by beta_o and beta_d from the same place; e^{ix} - 1 keeps the digits of their difference.
  const auto turn_less_one = [](double x) { return Vec2{-2 * std::sin(x / 2) * std::sin(x / 2), std::sin(x)}; };
  const Vec2 pin_turn = turn_less_one(output_rotation_);
  const Vec2 hole_turn = turn_less_one(disc.shift.rotation);
  Vec2 resultant;
  for (std::size_t j = 0; j < pin_.size(); ++j) {
    const Vec2 ideal = pin_[j];
    Vec2 pin = ideal + turned(ideal, pin_turn);
    Vec2 hole = ideal + turned(ideal, hole_turn);
    // v = s - e crank, |v| - e = (s s - 2 e s crank) / (|v| + e): no digits lost against the eccentricity.
    Vec2 s = turned(ideal, pin_turn - hole_turn) - disc.shift.u;
    double clearance = stage.hole_clearance;
    if (!pin_offsets_.empty()) {
      const PinOffset& off = pin_offsets_[index][j];
      const Vec2 of_pin = turned(off.pin, output_), of_hole = turned(off.hole, output_);
      const Vec2 pin_moved = of_pin + turned(of_pin, pin_turn), hole_moved = of_hole + turned(of_hole, hole_turn);
      pin += pin_moved;
      hole += hole_moved;
      s += pin_moved - hole_moved;
      clearance += off.clearance;
    }
    const Vec2 apart = s - e * disc.crank;
    const double distance = norm(apart);
    const double gap = clearance - (dot(s, s) - 2 * e * dot(s, disc.crank)) / (distance + e);
    disc.pin_gap[j] = gap;
    disc.pin_force[j] = 0;
    if (!(gap < 0)) continue;
    const Vec2 v = (1 / distance) * apart;
    const ContactForce contact = pin_law_.force(-gap, pin_radius_);
    disc.pin_force[j] = contact.force;
    const double pin_arm = cross(pin, v);
    const double hole_arm = cross(hole, v);
    disc.pin_arm[j] = hole_arm;
    disc.output_arm[j] = -pin_arm;
    resultant += contact.force * v;
    const double arm[3] = {v.x, v.y, hole_arm};
    for (int a = 0; a < 3; ++a) {
      for (int b = 0; b < 3; ++b) block.k[a][b] += contact.stiffness * arm[a] * arm[b];
      block.coupling[a] -= contact.stiffness * arm[a] * pin_arm;
      block.load[a] += contact.force * arm[a];
    }
    output_stiffness_ += contact.stiffness * pin_arm * pin_arm;
    output_load_ -= contact.force * pin_arm;
  }
  disc.pin_resultant = resultant;
}

/// Forces, unbalanced loads and tangent of all discs at their present pose.
void MeshSolver::evaluate(Level level, double torque) {
  const double on_disc = through_pins(level) ? 0 : torque / model_.stage.discs;
  output_stiffness_ = 0;
  output_load_ = through_pins(level) ? torque : 0;
  for (std::size_t d = 0; d < discs_.size(); ++d) {
    DiscLoads& disc = discs_[d];
    load_ring(disc, finders_[d]);
    Block& block = blocks_[d];
    for (int a = 0; a < 3; ++a) {
      block.coupling[a] = 0;
      for (int b = 0; b < 3; ++b) block.k[a][b] = 0;
    }
    block.load[0] = disc.ring_resultant.x;
    block.load[1] = disc.ring_resultant.y;
    block.load[2] = disc.ring_moment + on_disc;
    for (std::size_t k = 0; k < disc.ring_force.size(); ++k) {
      const double stiffness = disc.ring_stiffness[k];
      if (stiffness == 0) continue;
      const double arm[3] = {disc.ring.normal_x[k], disc.ring.normal_y[k], disc.ring.arm[k]};
      for (int a = 0; a < 3; ++a)
        for (int b = 0; b < 3; ++b) block.k[a][b] += stiffness * arm[a] * arm[b];
    }
    if (through_pins(level)) load_pins(d);
    if (floats(level)) {
      const double away = norm(disc.shift.u);
      const double clearance = model_.support.clearance;
      if (away > clearance || clearance == 0) {
        const double stiffness = model_.support.stiffness;
        const Vec2 out = away > 0 ? (1 / away) * disc.shift.u : Vec2{1, 0};
        const double across = away > 0 ? stiffness * (1 - clearance / away) : stiffness;
        const double along = stiffness - across;
        block.load[0] -= stiffness * (away - clearance) * out.x;
        block.load[1] -= stiffness * (away - clearance) * out.y;
        block.k[0][0] += across + along * out.x * out.x;
        block.k[1][1] += across + along * out.y * out.y;
        block.k[0][1] += along * out.x * out.y;
        block.k[1][0] += along * out.x * out.y;
      }
    } else {
      for (int a = 0; a < 2; ++a) {  // the centre is held
        for (int b = 0; b < 3; ++b) block.k[a][b] = block.k[b][a] = 0;
        block.k[a][a] = 1;
        block.load[a] = block.coupling[a] = 0;
      }
    }
  }
}

/// Newton step no longer than `reach`: stiffness is added to every direction until it fits, which holds back the
/// directions that nothing resists yet and leaves the stiff ones to themselves. Returns the length of the step.
double MeshSolver::find_step(Level level, double reach) {
  const double R = model_.stage.pitch_radius;
  double stiffest = std::max(model_.support.stiffness, output_stiffness_ / (R * R));
  for (const Block& block : blocks_) stiffest = std::max(stiffest, block.k[2][2] / (R * R));
  double floor = kFloor * stiffest;
  double length = solve_linear(level, floor);
  while (length > reach) {
    floor *= std::max(length / reach, 4.0);
    length = solve_linear(level, floor);
  }
  output_start_ = output_rotation_;
  for (std::size_t d = 0; d < blocks_.size(); ++d) blocks_[d].start = discs_[d].shift;
  return length;
}

void MeshSolver::keep() {
  output_kept_ = output_rotation_;
  for (std::size_t d = 0; d < blocks_.size(); ++d) blocks_[d].kept = discs_[d].shift;
}

void MeshSolver::restore() {
  output_rotation_ = output_kept_;
  for (std::size_t d = 0; d < blocks_.size(); ++d) discs_[d].shift = blocks_[d].kept;
}

/// Step of the linearised equilibrium with `floor` added to the stiffness of every direction. The blocks of the discs
/// hang together by beta_o only, so each is eliminated by itself. Returns the largest part of the step, rotations times
/// R.
double MeshSolver::solve_linear(Level level, double floor) {
  const double R = model_.stage.pitch_radius;
  double output_stiffness = output_stiffness_ + floor * R * R;
  double output_load = output_load_;
  for (Block& block : blocks_) {
    double l[3][3] = {};  // Cholesky factor
    for (int a = 0; a < 3; ++a) {
      for (int b = 0; b <= a; ++b) {
        double sum = block.k[a][b];
        if (a == b) sum += a == 2 ? floor * R * R : floor;
        for (int c = 0; c < b; ++c) sum -= l[a][c] * l[b][c];
        l[a][b] = a == b ? std::sqrt(std::max(sum, (a == 2 ? R * R : 1) * floor)) : sum / l[b][b];
      }
    }
    double to_load[3];      // L^-1 load
    double to_coupling[3];  // L^-1 coupling
    for (int a = 0; a < 3; ++a) {
      double load = block.load[a];
      double coupling = block.coupling[a];
      for (int c = 0; c < a; ++c) {
        load -= l[a][c] * to_load[c];
        coupling -= l[a][c] * to_coupling[c];
      }
      to_load[a] = load / l[a][a];
      to_coupling[a] = coupling / l[a][a];
      output_stiffness -= to_coupling[a] * to_coupling[a];
      output_load -= to_coupling[a] * to_load[a];
    }
    // Backward with the output's step still open: step = own - output_step * follow.
    double own[3];
    double follow[3];
    for (int a = 2; a >= 0; --a) {
      own[a] = to_load[a];
      follow[a] = to_coupling[a];
      for (int c = a + 1; c < 3; ++c) {
        own[a] -= l[c][a] * own[c];
        follow[a] -= l[c][a] * follow[c];
      }
      own[a] /= l[a][a];
      follow[a] /= l[a][a];
    }
    for (int a = 0; a < 3; ++a) {
      block.step[a] = own[a];
      block.follow[a] = follow[a];
    }
  }
  output_step_ = through_pins(level) ? output_load / std::max(output_stiffness, floor * R * R) : 0;
  double longest = std::abs(output_step_) * R;
  for (Block& block : blocks_) {
    for (int a = 0; a < 3; ++a) block.step[a] -= output_step_ * block.follow[a];
    longest = std::max({longest, std::abs(block.step[0]), std::abs(block.step[1]), std::abs(block.step[2]) * R});
  }
  return longest;
}

/// Change of the potential along the step, per unit of it: negative while it still falls.
double MeshSolver::slope() const {
  double sum = -output_load_ * output_step_;
  for (const Block& block : blocks_)
    for (int a = 0; a < 3; ++a) sum -= block.load[a] * block.step[a];
  return sum;
}

void MeshSolver::move(double share) {
  output_rotation_ = output_start_ + share * output_step_;
  for (std::size_t d = 0; d < blocks_.size(); ++d) {
    const Block& block = blocks_[d];
    discs_[d].shift.u = block.start.u + share * Vec2{block.step[0], block.step[1]};
    discs_[d].shift.rotation = block.start.rotation + share * block.step[2];
  }
}

double MeshSolver::unbalance(double torque) const {
  const auto& stage = model_.stage;
  double most = std::abs(output_load_) / stage.pitch_radius;
  double forces = 0;
  for (std::size_t d = 0; d < blocks_.size(); ++d) {
    const double* load = blocks_[d].load;
    most = std::max({most, std::abs(load[0]), std::abs(load[1]), std::abs(load[2]) / stage.pitch_radius});
    for (const double force : discs_[d].ring_force) forces += force;
  }
  // Without torque the preload of a tight stage is the measure.
  const double reference = torque != 0 ? std::abs(torque) / stage.pin_circle_radius : forces;
  return reference > 0 ? most / reference : most;
}

/// A disc that left its place by its eccentricity, or turned half a lobe, meshes with other lobes than the ones solved
/// for.
bool MeshSolver::jumps_lobes() const {
  for (const DiscLoads& disc : discs_)
    if (norm(disc.shift.u) > model_.stage.eccentricity ||
        std::abs(disc.shift.rotation) > kPi / (2 * model_.stage.lobes))
      return true;
  return false;
}

/// Newton on all unknowns at once. The potential of the contacts is convex, so that along every step its slope changes
/// sign once: the line search looks for that place whenever a full step has clearly passed it.
Outcome MeshSolver::solve_joint(Level level, double torque) {
  evaluate(level, torque);
  double reach = reach_;
  double best = std::numeric_limits<double>::infinity();
  int idle = 0;
  for (int step = 0; step < 150; ++step) {
    if (jumps_lobes()) return Outcome::jumps_lobes;
    residual_ = unbalance(torque);
    if (residual_ <= kTolerance) return Outcome::converged;
    if (residual_ < 0.5 * best) {
      best = residual_;
      idle = 0;
    } else if (++idle > 4 && residual_ <= kStagnation) {
      return Outcome::converged;
    }
    const double length = find_step(level, reach);
    const double before = slope();
    double low = 0;
    double high = 1;
    double share = 1;
    for (int trial = 0; trial < 40; ++trial) {
      move(share);
      evaluate(level, torque);
      const double now = slope();
      if (now <= 0 && share == 1) break;
      if (std::abs(now) <= 0.5 * std::abs(before)) break;
      (now < 0 ? low : high) = share;
      share = low + (high - low) / 2;
    }
    reach = share < 1 ? 2 * share * length : std::max(reach, 4 * length);
  }
  return Outcome::no_equilibrium;
}

MeshSolver::Probe MeshSolver::probe_ring(int index, double rotation, double torque) {
  DiscLoads& disc = discs_[at(index)];
  disc.shift.rotation = rotation;
  load_ring(disc, finders_[at(index)]);
  Probe probe;
  probe.moment = disc.torque();
  for (std::size_t k = 0; k < disc.ring_force.size(); ++k)
    probe.stiffness += disc.ring_stiffness[k] * disc.ring.arm[k] * disc.ring.arm[k];
  if (probe.stiffness > 0) return probe;
  const double direction = torque < 0 ? -1 : 1;
  double least = std::numeric_limits<double>::infinity();
  double longest = 0;
  for (std::size_t k = 0; k < disc.ring_force.size(); ++k) {
    const double closing = -direction * disc.ring.arm[k];
    if (closing > 0) least = std::min(least, disc.ring.gap[k] / closing);
    longest = std::max(longest, closing);
  }
  const double force = std::abs(torque) / (0.3 * model_.stage.rollers() * longest);
  probe.touch = direction * (least + ring_law_.approach(force, model_.stage.roller_radius) / longest);
  return probe;
}

MeshSolver::Probe MeshSolver::probe_output(double rotation, double torque) {
  output_rotation_ = rotation;
  output_stiffness_ = 0;
  output_load_ = 0;
  for (std::size_t d = 0; d < discs_.size(); ++d) load_pins(d);
  Probe probe;
  probe.moment = -output_load_;
  probe.stiffness = output_stiffness_;
  if (probe.stiffness > 0) return probe;
  double least = std::numeric_limits<double>::infinity();
  for (const DiscLoads& disc : discs_)
    for (const double gap : disc.pin_gap) least = std::min(least, gap);
  const double Rw = model_.stage.pin_circle_radius;
  const double force = std::abs(torque) / (0.3 * model_.stage.pins * model_.stage.discs * Rw);
  probe.touch = (torque < 0 ? -1 : 1) * (least + pin_law_.approach(force, pin_radius_)) / Rw;
  return probe;
}

Outcome MeshSolver::solve_rotations(double torque, double tolerance, bool from_touch) {
  const double on_disc = torque / model_.stage.discs;
  const double reach = reach_ / (model_.stage.shortening() * model_.stage.pitch_radius);
  for (int d = 0; d < model_.stage.discs; ++d) {
    DiscLoads& disc = discs_[at(d)];
    disc.shift.u = {};
    double rotation = from_touch ? 0 : disc.shift.rotation;
    const auto outcome = solve_scalar([&](double beta) { return probe_ring(d, beta, on_disc); }, rotation, on_disc,
                                      tolerance, reach, kPi / model_.stage.lobes);
    if (outcome != Outcome::converged) return outcome;
  }
  return jumps_lobes() ? Outcome::jumps_lobes : Outcome::converged;
}

/// Without a start: each disc alone under its share of the torque, then the output alone, then all unknowns.
Outcome MeshSolver::solve_cold(Level level, double torque) {
  output_rotation_ = 0;
  Outcome outcome = solve_rotations(torque, level == Level::l1 ? kTolerance : kStartTolerance, true);
  if (outcome != Outcome::converged || level == Level::l1) return outcome;
  if (through_pins(level)) {
    double rotation = discs_[0].shift.rotation;
    outcome = solve_scalar([&](double beta) { return probe_output(beta, torque); }, rotation, torque, kStartTolerance,
                           reach_ / model_.stage.pin_circle_radius, kFarthestOutput);
    if (outcome != Outcome::converged) return outcome;
  }
  return solve_joint(level, torque);
}

/// Under a small torque a disc that floats in its clearances rolls from contact to contact before it finds its place. A
/// larger torque presses it there at once; from that the torque is taken back in steps, each starting from the last,
/// halved when one fails.
Outcome MeshSolver::solve_from_above(Level level, double torque) {
  constexpr double kUp = 8;
  constexpr int kMostUp = 12;
  double present = torque;
  Outcome outcome = Outcome::no_equilibrium;
  for (int step = 0; step < kMostUp && outcome == Outcome::no_equilibrium; ++step) {
    present *= kUp;
    outcome = solve_cold(level, present);
  }
  double ratio = kUp;
  for (int step = 0; step < 200 && outcome == Outcome::converged && present != torque; ++step) {
    keep();
    const double next = std::abs(present) > ratio * std::abs(torque) ? present / ratio : torque;
    if (solve_joint(level, next) == Outcome::converged) {
      present = next;
      continue;
    }
    restore();
    ratio = std::sqrt(ratio);
    if (ratio < 1.01) outcome = Outcome::no_equilibrium;
  }
  return outcome;
}

/// Refuses a solution in which a contact left the range of its law.
Outcome MeshSolver::finish(Level level, double torque) {
  if (level == Level::l1) {
    residual_ = 0;
    for (const DiscLoads& disc : discs_)
      residual_ =
          std::max(residual_, std::abs(disc.ring_moment + torque / model_.stage.discs) / model_.stage.pitch_radius);
    if (torque != 0) residual_ /= std::abs(torque) / model_.stage.pin_circle_radius;
  }
  for (const DiscLoads& disc : discs_) {
    for (std::size_t k = 0; k < disc.ring_force.size(); ++k)
      if (disc.ring_force[k] > 0 && disc.ring_force[k] > ring_law_.limit_force(disc.ring.radius[k]))
        return Outcome::outside_law;
    if (!through_pins(level)) continue;
    for (const double force : disc.pin_force)
      if (force > pin_law_.limit_force(pin_radius_)) return Outcome::outside_law;
  }
  return Outcome::converged;
}

}  // namespace lobewise::contact
