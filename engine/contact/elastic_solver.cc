#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "engine/contact/elastic/disc_state.h"
#include "engine/contact/elastic_disc.h"

namespace lobewise::contact {
namespace {

using elastic::Contact;
using elastic::DiscState;
using elastic::Kind;
using mechanism::cross;
using mechanism::norm;
using mechanism::unit;
using mechanism::Vec2;

/// Unbalanced force that is accepted, share of T/Rw; the torque that stands in for none [Nm].
constexpr double kUnbalance = 1e-9;
constexpr double kLeastTorque = 1e-9;

}  // namespace

struct ElasticSolver::Impl {
  explicit Impl(ElasticDisc d)
      : disc(std::move(d)), model(disc.data().model), per_disc(model.bore == BoreModel::rollers ? 3 : 1) {
    for (int i = 0; i < model.stage.discs; ++i) discs.emplace_back(disc.data(), i);
    work.resize(discs.size());
  }

  ElasticDisc disc;
  const ElasticModel& model;
  int per_disc;  ///< unknowns of one disc
  std::vector<DiscState> discs;
  /// Of one disc: rates and forces of its active contacts; their answer to a pose and to what they still lack.
  struct Work {
    Eigen::MatrixXd D, to_pose;
    Eigen::VectorXd F, to_unmet;
  };
  std::vector<Work> work;
  std::vector<ElasticLoads> loads;
  double crank_angle = 0, output = 0, residual = 0;
  bool placed = false, warm = false;
  double warm_torque = 0;
  int steps = 0;
  double largest_offset = 0;  ///< [m]

  [[nodiscard]] int unknowns() const {
    return per_disc * static_cast<int>(discs.size()) + (model.torque_by_pins ? 1 : 0);
  }

  // ---- equilibrium
  /// Unbalanced forces (rotations scaled by the pitch radius), tangent stiffness and potential at the present pose.
  struct Balance {
    Eigen::VectorXd unbalance;
    Eigen::MatrixXd stiffness;
    double potential = 0;
  };

  /// Rows of d delta / d unknowns of a disc's active contacts (rotations scaled), and their forces.
  void load_active(int n, Eigen::MatrixXd& D, Eigen::VectorXd& F) const {
    const DiscState& d = discs[n];
    const double R = model.stage.pitch_radius;
    const int active = static_cast<int>(d.active.size()), size = unknowns();
    D.setZero(active, size);
    F.resize(active);
    for (int a = 0; a < active; ++a) {
      const Contact& c = d.contacts[d.active[a]];
      F[a] = c.force;
      if (per_disc == 3) {
        D(a, 3 * n) = c.rate[0];
        D(a, 3 * n + 1) = c.rate[1];
      }
      D(a, per_disc * (n + 1) - 1) = c.rate[2] / R;
      if (model.torque_by_pins) D(a, size - 1) += c.rate[3] / R;
    }
  }

  /// The torque in place of all unbalanced forces.
  void load_torque(double torque, Eigen::VectorXd& unbalance) const {
    const double R = model.stage.pitch_radius;
    const int size = unknowns(), count = static_cast<int>(discs.size());
    unbalance.setZero(size);
    if (model.torque_by_pins)
      unbalance[size - 1] = torque / R;
    else
      for (int n = 0; n < count; ++n) unbalance[per_disc * (n + 1) - 1] = torque / count / R;
  }

  bool balance(double torque, double reference_force, Balance& b) {
    const int size = unknowns(), count = static_cast<int>(discs.size());
    load_torque(torque, b.unbalance);
    b.stiffness.setZero(size, size);
    b.potential = model.torque_by_pins ? -torque * output : 0;
    for (int n = 0; n < count; ++n) {
      DiscState& d = discs[n];
      d.evaluate(output);
      if (!d.find_forces(reference_force)) return false;
      if (!model.torque_by_pins) b.potential -= torque / count * d.shift.rotation;
      Work& w = work[n];
      load_active(n, w.D, w.F);
      for (const int i : d.active) {
        const Contact& c = d.contacts[i];
        // delta F - F C F / 2 - integral of loc, with C F = delta - loc at the solution
        b.potential += 0.5 * c.force * (c.delta + c.law.approach(c.force)) - c.law.energy(c.force);
      }
      if (d.active.empty()) continue;
      b.unbalance -= w.D.transpose() * w.F;
      b.stiffness += w.D.transpose() * d.factor.solve(w.D);
    }
    return true;
  }

  /// Newton on pose and forces together, without a line search: from a near start a handful of steps. False: it did not
  /// settle, and everything is as it was before.
  bool newton(double torque, double reference_force) {
    constexpr int kMostSteps = 30;
    constexpr int kCautious = 15;  // from this step on contacts join one at a time
    constexpr double kUnmet = 1e-11;
    const int size = unknowns(), count = static_cast<int>(discs.size());
    const Saved start = save();
    std::vector<std::vector<double>> forces;
    for (const DiscState& d : discs) {
      forces.emplace_back();
      for (const Contact& c : d.contacts) forces.back().push_back(c.force);
    }
    const double allowed = allowed_unbalance(torque), longest_step = step_limit(reference_force);
    Eigen::VectorXd unbalance, step;
    Eigen::MatrixXd stiffness;
    for (int number = 0; number < kMostSteps; ++number) {
      load_torque(torque, unbalance);
      bool met = number > 0;
      for (int n = 0; n < count; ++n) {
        DiscState& d = discs[n];
        d.evaluate(output);
        if (number == 0) d.list_active(reference_force);
        if (d.add_pressed(reference_force, number > kCautious)) met = false;
        if (d.active.empty()) break;
        d.linearise();
        load_active(n, work[n].D, work[n].F);
        unbalance -= work[n].D.transpose() * work[n].F;
        met = met && d.unmet.lpNorm<Eigen::Infinity>() <= kUnmet * d.largest_approach();
      }
      if (std::any_of(discs.begin(), discs.end(), [](const DiscState& d) { return d.active.empty(); })) break;
      const double unbalanced = unbalance.lpNorm<Eigen::Infinity>();
      if (!std::isfinite(unbalanced)) break;
      if (met && unbalanced <= allowed) {
        residual = unbalanced * model.stage.pin_circle_radius / std::max(std::abs(torque), kLeastTorque);
        return true;
      }
      ++steps;
      stiffness.setZero(size, size);
      for (int n = 0; n < count; ++n) {
        Work& w = work[n];
        w.to_pose = discs[n].factor.solve(w.D);
        w.to_unmet = discs[n].factor.solve(discs[n].unmet);
        stiffness += w.D.transpose() * w.to_pose;
        unbalance -= w.D.transpose() * w.to_unmet;
      }
      stiffness.diagonal().array() += 1e-12 * std::max(stiffness.trace() / size, 1e-6 / discs[0].compliance());
      step = stiffness.partialPivLu().solve(unbalance);
      const double longest = step.lpNorm<Eigen::Infinity>();
      if (!std::isfinite(longest)) break;
      if (longest > longest_step) step *= longest_step / longest;
      for (int n = 0; n < count; ++n) {
        Work& w = work[n];
        w.to_unmet += w.to_pose * step;
        discs[n].advance(w.to_unmet, w.D * step);
      }
      move(step, 1);
    }
    restore(start);
    for (int n = 0; n < count; ++n)
      for (std::size_t i = 0; i < discs[n].contacts.size(); ++i) discs[n].contacts[i].force = forces[n][i];
    return false;
  }

  void move(const Eigen::VectorXd& step, double share) {
    const double R = model.stage.pitch_radius;
    const int count = static_cast<int>(discs.size());
    for (int n = 0; n < count; ++n) {
      DiscShift& s = discs[n].shift;
      if (per_disc == 3) s.u += share * Vec2{step[3 * n], step[3 * n + 1]};
      s.rotation += share * step[per_disc * (n + 1) - 1] / R;
    }
    if (model.torque_by_pins) output += share * step[step.size() - 1] / R;
  }

  struct Saved {
    std::vector<DiscShift> shifts;
    double output;
  };
  [[nodiscard]] Saved save() const {
    Saved s{{}, output};
    for (const DiscState& d : discs) s.shifts.push_back(d.shift);
    return s;
  }
  void restore(const Saved& s) {
    for (std::size_t n = 0; n < discs.size(); ++n) discs[n].shift = s.shifts[n];
    output = s.output;
  }

  /// A step in a direction without stiffness is kept to what clearances and contacts can explain [m].
  [[nodiscard]] double step_limit(double reference_force) const {
    return 10 *
           (discs[0].contacts[0].law.approach(reference_force) + model.stage.hole_clearance + model.rollers.clearance +
            std::abs(model.stage.roller_offset) + std::abs(model.stage.radius_offset) + largest_offset);
  }
  [[nodiscard]] double allowed_unbalance(double torque) const {
    return kUnbalance * std::max(std::abs(torque), kLeastTorque) / model.stage.pin_circle_radius;
  }

  /// Newton on the pose, the forces found anew at each: slower than `newton`, and finds every equilibrium.
  bool equilibrium(double torque, double reference_force) {
    const double longest_step = step_limit(reference_force), allowed = allowed_unbalance(torque);
    Balance now, next;
    if (!balance(torque, reference_force, now)) return false;
    double levenberg = 1e-12;
    for (int step_number = 0; step_number < 100; ++step_number) {
      residual = now.unbalance.lpNorm<Eigen::Infinity>() * model.stage.pin_circle_radius /
                 std::max(std::abs(torque), kLeastTorque);
      if (now.unbalance.lpNorm<Eigen::Infinity>() <= allowed) return true;
      const double diagonal = std::max(now.stiffness.trace() / unknowns(), 1e-6 / discs[0].compliance());
      bool improved = false;
      for (int attempt = 0; attempt < 12 && !improved; ++attempt) {
        Eigen::MatrixXd K = now.stiffness;
        K.diagonal().array() += levenberg * diagonal;
        Eigen::VectorXd step = K.ldlt().solve(now.unbalance);
        if (const double longest = step.lpNorm<Eigen::Infinity>(); longest > longest_step)
          step *= longest_step / longest;
        const double slope = -now.unbalance.dot(step);  // of the potential along the step
        const Saved start = save();
        for (double share = 1; share > 1e-3 && !improved; share *= 0.4) {
          restore(start);
          move(step, share);
          ++steps;
          if (!balance(torque, reference_force, next)) continue;
          improved = next.potential < now.potential + 1e-4 * share * slope ||
                     next.unbalance.norm() < 0.5 * now.unbalance.norm();
        }
        if (improved) {
          levenberg = std::max(levenberg * 0.1, 1e-12);
        } else {
          restore(start);
          levenberg = std::max(levenberg * 30, 1e-8);
        }
      }
      if (!improved) {
        // Rounding may end the descent a little above the goal.
        if (!balance(torque, reference_force, now)) return false;
        return now.unbalance.lpNorm<Eigen::Infinity>() <= 1e3 * allowed;
      }
      std::swap(now, next);
    }
    return false;
  }

  /// A pose with every contact of the loaded side pressed a little: where a cold solution starts.
  void start(double torque, double reference_force) {
    const auto& stage = model.stage;
    const double side = torque < 0 ? -1 : 1;
    output = 0;
    for (DiscState& d : discs) {
      d.shift = {};
      d.forget();
      d.evaluate(0);
      const double press = d.contacts[0].law.approach(reference_force) * 2;
      const double longest = stage.eccentricity * stage.lobes;
      double touch = 1e300;
      for (std::size_t k = 0; k < d.gaps.gap.size(); ++k) {
        const double arm = -side * d.gaps.arm[k];
        if (arm > 0.3 * longest) touch = std::min(touch, d.gaps.gap[k] / arm);
      }
      if (torque == 0 || touch > 1e299) touch = 0;
      d.shift.rotation = side * (touch + press / longest);
      if (per_disc == 3) {
        // Resultant that the bore must take, by equally stiff contacts.
        Vec2 sum;
        double squares = 0;
        for (std::size_t k = 0; k < d.gaps.gap.size(); ++k) {
          const double arm = std::max(-side * d.gaps.arm[k], 0.0);
          squares += arm * arm;
          sum += arm * Vec2{d.gaps.normal_x[k], d.gaps.normal_y[k]};
        }
        if (squares > 0) sum = (1 / squares) * sum;
        if (model.torque_by_pins) {
          double arms = 0, arms_squared = 0;
          for (int j = 0; j < stage.pins; ++j) {
            const double arm = std::max(side * pin_arm(d, j), 0.0);
            arms += arm;
            arms_squared += arm * arm;
          }
          if (arms_squared > 0) sum += (arms / arms_squared) * -unit(d.crank_angle);
        }
        // The rollers push with -sum: the disc moves along sum until they do.
        if (norm(sum) > 0) d.shift.u = ((model.rollers.clearance + press) / norm(sum)) * sum;
      }
      if (model.torque_by_pins) {
        double longest_arm = 0;
        for (int j = 0; j < stage.pins; ++j) longest_arm = std::max(longest_arm, side * pin_arm(d, j));
        const double turn = side * d.shift.rotation + (stage.hole_clearance + press) / longest_arm;
        output = side * std::max(side * output, turn);
      }
    }
  }
  /// Lever arm of an output pin's force on the flange, ideal pose [m].
  [[nodiscard]] double pin_arm(const DiscState& d, int pin) const {
    return cross(mechanism::pin_centre(model.stage, crank_angle, pin), -unit(d.crank_angle));
  }

  Outcome solve(double angle, double torque) {
    steps = 0;
    const auto& stage = model.stage;
    if (!placed || angle != crank_angle)
      for (DiscState& d : discs) d.place(angle);
    placed = true;
    crank_angle = angle;
    const double reference_force = std::max(std::abs(torque), kLeastTorque) /
                                   (stage.discs * stage.eccentricity * stage.lobes * stage.rollers() / 4.0);
    if (!warm || warm_torque * torque <= 0) {
      start(torque, reference_force);
    } else {
      // Nearly linear: the last forces scaled are closer than the last forces.
      for (DiscState& d : discs)
        for (Contact& c : d.contacts) c.force *= torque / warm_torque;
    }
    warm = false;
    double scale = 0;
    constexpr int kPasses = 8;
    for (int pass = 0; pass < kPasses; ++pass) {
      if (!newton(torque, reference_force) && !equilibrium(torque, reference_force)) return Outcome::no_equilibrium;
      scale = 0;
      for (const DiscState& d : discs)
        for (const int i : d.active) scale = std::max(scale, std::abs(d.contacts[i].delta));
      double most = 0;
      for (DiscState& d : discs) most = std::max(most, d.correct(output));
      if (most <= 1e-5 * scale) break;
    }
    for (const DiscState& d : discs)
      if (!d.within_law()) return Outcome::outside_law;
    warm = true;
    warm_torque = torque;
    report();
    return Outcome::converged;
  }

  void report() {
    loads.clear();
    const double modulus = contact_modulus(model.material, model.material);
    for (const DiscState& d : discs) {
      ElasticLoads l;
      l.crank_angle = d.crank_angle;
      l.shift = d.shift;
      for (const Contact& c : d.contacts) {
        const double pressure = c.force > 0 ? hertz_pressure(c.force / model.stage.width, c.rho, modulus) : 0;
        const Vec2 force = c.force * Vec2{-c.rate[0], -c.rate[1]};
        switch (c.kind) {
          case Kind::ring:
            l.ring_force.push_back(c.force);
            l.ring_pressure.push_back(pressure);
            l.ring_radius.push_back(c.rho);
            l.ring_resultant += force;
            l.ring_moment -= c.force * c.rate[2];
            break;
          case Kind::pin:
            l.pin_force.push_back(c.force);
            l.pin_pressure.push_back(pressure);
            l.pin_resultant += force;
            break;
          case Kind::bearing:
            l.bearing_force.push_back(c.force);
            l.bearing_pressure.push_back(pressure);
            break;
        }
      }
      loads.push_back(std::move(l));
    }
    if (!model.torque_by_pins) {
      output = 0;
      for (const DiscState& d : discs) output += d.shift.rotation / static_cast<double>(discs.size());
    }
  }
};

ElasticSolver::ElasticSolver(ElasticDisc disc) : impl_(std::make_unique<Impl>(std::move(disc))) {}
ElasticSolver::~ElasticSolver() = default;
ElasticSolver::ElasticSolver(ElasticSolver&&) noexcept = default;
ElasticSolver& ElasticSolver::operator=(ElasticSolver&&) noexcept = default;

Outcome ElasticSolver::solve(double crank_angle, double torque) { return impl_->solve(crank_angle, torque); }
void ElasticSolver::set_offsets(const PartOffsets& offsets) {
  impl_->largest_offset = 0;
  for (DiscState& d : impl_->discs) impl_->largest_offset = std::max(impl_->largest_offset, d.set_offsets(offsets));
}
void ElasticSolver::forget() { impl_->warm = false; }
const std::vector<ElasticLoads>& ElasticSolver::discs() const { return impl_->loads; }
double ElasticSolver::output_rotation() const { return impl_->output; }
double ElasticSolver::residual() const { return impl_->residual; }
int ElasticSolver::steps() const { return impl_->steps; }

Equilibrium ElasticSolver::equilibrium(int index) const {
  const DiscState& disc = impl_->discs[index];
  Equilibrium out;
  out.crank_angle = impl_->crank_angle;
  const Eigen::VectorXd bent = disc.bent();
  for (std::size_t a = 0; a < disc.active.size(); ++a) {
    const Contact& c = disc.contacts[disc.active[a]];
    if (c.kind == Kind::bearing) continue;
    PressedContacts& list = c.kind == Kind::ring ? out.ring : out.pins;
    list.force.push_back(c.force);
    list.arm.push_back(-c.rate[2]);
    list.radius.push_back(c.rho);
    list.approach.push_back(c.delta);
    list.local.push_back(c.law.p);
    list.logarithmic = c.law.w;
    list.bent.push_back(bent[static_cast<Eigen::Index>(a)]);
  }
  for (const DiscState& other : impl_->discs)
    for (const int i : other.active)
      if (const Contact& c = other.contacts[i]; c.kind == Kind::pin) {
        out.output_force.push_back(c.force);
        out.output_arm.push_back(c.rate[3]);
      }
  return out;
}

DiscPicture ElasticSolver::picture(int disc) const {
  const Impl& s = *impl_;
  const DiscState& d = s.discs[disc];
  const elastic::BodyMap& map = d.map();
  const double b = s.model.stage.width;
  const double modulus = contact_modulus(s.model.material, s.model.material);
  std::vector<elastic::PointForce> forces;
  for (std::size_t i = 0; i < d.contacts.size(); ++i) {
    const Contact& c = d.contacts[i];
    if (c.force <= 0) continue;
    forces.push_back({d.flexibility.points[i], c.force / b, hertz_half_width(c.force / b, c.rho, modulus)});
  }
  const auto field = d.body().field(forces);
  DiscPicture picture;
  picture.mises = field.mises;
  // Back from the body to the disc: turned, perhaps mirrored.
  const auto back = [&](Vec2 v) { return turned({v.x, map.hand * v.y}, unit(map.turn)); };
  for (const Vec2 p : field.points) picture.points.push_back(back(p));
  for (const Vec2 u : field.displacement) picture.displacement.push_back((1 / s.model.material.modulus) * back(u));
  picture.cells = field.cells;
  if (map.hand < 0)
    for (auto& cell : picture.cells) std::swap(cell[1], cell[3]);
  return picture;
}

Result<double> torsional_stiffness(ElasticSolver& solver, double crank_angle, double torque) {
  if (const auto outcome = solver.solve(crank_angle, 0.5 * torque); outcome != Outcome::converged)
    return outcome_error(outcome, 0.5 * torque);
  const double half = solver.output_rotation();
  if (const auto outcome = solver.solve(crank_angle, torque); outcome != Outcome::converged)
    return outcome_error(outcome, torque);
  return 0.5 * torque / (solver.output_rotation() - half);
}

Result<double> lost_motion(ElasticSolver& solver, double crank_angle, double torque, double share) {
  std::array<double, 2> rotation{};
  for (int side = 0; side < 2; ++side) {
    const double load = (side == 0 ? 1 : -1) * share * torque;
    if (const auto outcome = solver.solve(crank_angle, load); outcome != Outcome::converged)
      return outcome_error(outcome, load);
    rotation[side] = solver.output_rotation();
  }
  return rotation[0] - rotation[1];
}

}  // namespace lobewise::contact
