#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

#include "engine/contact/elastic/stage_data.h"
#include "engine/contact/elastic_disc.h"
#include "engine/contact/ring_gaps.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::contact {
namespace {

using mechanism::cross;
using mechanism::dot;
using mechanism::norm;
using mechanism::quarter_turn;
using mechanism::unit;
using mechanism::Vec2;

/// Local approach of one contact, delta = F (p - w ln F) with F in newton: every log law is of this form because the
/// half width grows with the root of the force. Everything that is linear in F is folded into p.
struct LocalLaw {
  double p = 0, w = 0;
  [[nodiscard]] double approach(double force) const { return force * (p - w * std::log(force)); }
  [[nodiscard]] double slope(double force) const { return p - w * (std::log(force) + 1); }
  /// Integral of the approach from 0 to F.
  [[nodiscard]] double energy(double force) const {
    return force * force * (0.5 * p - w * (0.5 * std::log(force) - 0.25));
  }
  /// The slope is positive below this force; a contact beyond is as wide as the law's depth.
  [[nodiscard]] double limit() const { return std::exp(p / w - 1.5); }
};

/// Laws of a stage. With q = F/b, cc = (1 - nu^2)/(pi E), nus = nu/(1 - nu), always in plane strain:
///   body down to the depth h: q cc (2 ln(2h/a) - nus); free sleeve, surface to middle: q cc (2 ln(4r/a) - 1).
class Laws {
 public:
  Laws(const ElasticModel& model, double depth)
      : unit_((1 - model.material.poisson * model.material.poisson) /
              (kPi * model.material.modulus * model.stage.width)),
        poisson_(model.material.poisson / (1 - model.material.poisson)),
        force_(kPi * contact_modulus(model.material, model.material) * model.stage.width),
        depth_(depth) {}
  [[nodiscard]] LocalLaw body(double rho) const {
    return {unit_ * (std::log(depth_ * depth_ * force_ / rho) - poisson_), unit_};
  }
  [[nodiscard]] LocalLaw sleeve(double rho, double radius) const {
    return {unit_ * (std::log(4 * radius * radius * force_ / rho) - 1), unit_};
  }

 private:
  double unit_, poisson_, force_, depth_;
};
LocalLaw operator+(LocalLaw a, LocalLaw b) { return {a.p + b.p, a.w + b.w}; }

enum class Kind { ring, pin, bearing };

struct Contact {
  Kind kind = Kind::ring;
  int index = 0;
  LocalLaw law;
  double rho = 0;                ///< effective radius [m]
  double slide_curvature = 0;    ///< k' of the second-order term [1/m]
  Vec2 slide_direction;          ///< i n in the ideal pose, ring frame
  Vec2 point;                    ///< contact point less disc centre in the ideal pose [m]
  double delta = 0;              ///< approach wanted by the pose [m]
  double correction = 0;         ///< second-order term, from the last pass [m]
  double force = 0;              ///< [N]
  std::array<double, 4> rate{};  ///< d delta / d (ux, uy, beta of the disc, beta_o)
  std::array<double, 4> ideal_rate{};
};

}  // namespace

struct ElasticSolver::Impl {
  struct Disc {
    Disc(const mechanism::StageGeometry& stage) : finder(stage), gaps(stage.rollers()), flexibility({}) {}
    double crank_angle = 0;
    mechanism::DiscPose pose;
    DiscShift shift;
    RingGapFinder finder;
    RingGaps gaps;
    std::vector<Contact> contacts;
    elastic::Flexibility flexibility;
    std::vector<int> active;
    Eigen::PartialPivLU<Eigen::MatrixXd> factor;  ///< of C + diag(law') over the active contacts
  };

  explicit Impl(ElasticDisc d)
      : disc(std::move(d)),
        model(disc.data().model),
        laws(model, disc.data().depth),
        per_disc(model.bore == BoreModel::rollers ? 3 : 1),
        compliance(1 / (model.material.modulus * model.stage.width)) {
    for (int i = 0; i < model.stage.discs; ++i) discs.emplace_back(model.stage);
  }

  ElasticDisc disc;
  const ElasticModel& model;
  Laws laws;
  int per_disc;       ///< unknowns of one disc
  double compliance;  ///< 1/(E b): turns the pure numbers of the flexibility into m/N
  std::vector<Disc> discs;
  std::vector<ElasticLoads> loads;
  double crank_angle = 0, output = 0, residual = 0;
  bool placed = false, warm = false;
  double warm_torque = 0;
  int steps = 0;

  [[nodiscard]] int unknowns() const {
    return per_disc * static_cast<int>(discs.size()) + (model.torque_by_pins ? 1 : 0);
  }

  // ---- contact points in the ideal pose
  void place(double angle) {
    crank_angle = angle;
    for (int d = 0; d < static_cast<int>(discs.size()); ++d) place_disc(d);
    placed = true;
  }

  void place_disc(int number) {
    const auto& stage = model.stage;
    const auto& data = disc.data();
    const elastic::BodyMap& map = data.maps[number];
    const elastic::DiscBody& body = data.bodies[map.body];
    Disc& d = discs[number];
    d.crank_angle = mechanism::disc_crank_angle(stage, crank_angle, number);
    d.pose = mechanism::ideal_pose(stage, crank_angle, number);
    d.finder.set_crank(d.crank_angle);
    d.finder.evaluate({}, d.gaps);
    const std::vector<Contact> old = std::move(d.contacts);
    d.contacts.clear();
    std::vector<elastic::SurfacePoint> points;
    const double scale = 1 / (model.material.modulus * stage.width);
    for (int k = 0; k < stage.rollers(); ++k) {
      const auto mesh = mechanism::roller_mesh(stage, d.crank_angle, k);
      Contact c;
      c.kind = Kind::ring;
      c.index = k;
      c.rho = d.gaps.radius[k];
      const Vec2 n = {d.gaps.normal_x[k], d.gaps.normal_y[k]};
      const Vec2 seat = -unit(mechanism::roller_angle(stage, k));  // the force on the roller presses it along -n
      const double gamma = std::atan2(cross(seat, n), dot(seat, n));
      c.law = laws.body(c.rho) + laws.body(c.rho);
      c.law.p += scale * data.seat.constant(gamma, stage.roller_radius / data.depth) + model.ring_compliance;
      c.slide_curvature = (1 - c.rho / stage.roller_radius) / stage.roller_radius;
      c.slide_direction = quarter_turn(n);
      c.point = mesh.contact - d.pose.centre;
      d.contacts.push_back(c);
      points.push_back(body.on_flank(map.angle(mesh.profile_parameter + d.gaps.foot[k])));
    }
    if (model.torque_by_pins)
      for (int j = 0; j < stage.pins; ++j) {
        Contact c;
        c.kind = Kind::pin;
        c.index = j;
        const double rw = stage.pin_radius, rh = stage.hole_radius();
        c.rho = 1 / (1 / rw - 1 / rh);
        if (model.pin_core_radius > 0) {
          c.law = laws.body(c.rho) + laws.body(c.rho);
          c.law.p += scale * data.pin_constant;
        } else {
          c.law = laws.body(c.rho) + laws.sleeve(c.rho, rw);
        }
        c.law.p += model.pin_compliance;
        c.slide_curvature = -1 / (rh - rw);
        const Vec2 n = -unit(d.crank_angle);
        c.slide_direction = quarter_turn(n);
        c.point = mechanism::pin_centre(stage, crank_angle, j) + rh * n;
        d.contacts.push_back(c);
        points.push_back(body.on_hole(map.hole(j, stage.pins), map.angle(d.crank_angle + kPi - d.pose.rotation)));
      }
    if (model.bore == BoreModel::rollers)
      for (int i = 0; i < model.rollers.count; ++i) {
        Contact c;
        c.kind = Kind::bearing;
        c.index = i;
        const double r = model.rollers.radius, rb = model.bore_radius;
        const double outer = 1 / (1 / r - 1 / rb), inner = 1 / (1 / r + 1 / (rb - 2 * r));
        c.rho = inner;
        c.law = laws.body(outer) + laws.sleeve(outer, r) + laws.body(inner) + laws.sleeve(inner, r);
        const double angle = bearing_angle(number, i);
        c.point = rb * unit(angle);
        c.slide_direction = quarter_turn(unit(angle));
        d.contacts.push_back(c);
        points.push_back(body.on_bore(map.angle(angle - d.pose.rotation)));
      }
    d.flexibility = elastic::Flexibility(std::move(points));
    for (std::size_t i = 0; i < std::min(old.size(), d.contacts.size()); ++i) {
      d.contacts[i].force = old[i].force;
      d.contacts[i].correction = old[i].correction;
    }
  }

  [[nodiscard]] double bearing_angle(int number, int roller) const {
    const auto& rollers = model.rollers;
    return rollers.phase + rollers.cage_speed * crank_angle + 2 * kPi * number / model.stage.discs +
           2 * kPi * roller / rollers.count;
  }

  // ---- the pose
  /// Approaches and their rates at the present pose.
  void evaluate() {
    const auto& stage = model.stage;
    for (Disc& d : discs) {
      d.finder.evaluate(d.shift, d.gaps);
      for (Contact& c : d.contacts) switch (c.kind) {
          case Kind::ring: {
            const int k = c.index;
            c.delta = -d.gaps.gap[k];
            c.rate = {-d.gaps.normal_x[k], -d.gaps.normal_y[k], -d.gaps.arm[k], 0};
            break;
          }
          case Kind::pin: {
            const Vec2 ideal = mechanism::pin_centre(stage, crank_angle, c.index);
            const Vec2 pin = turned(ideal, unit(output));
            const Vec2 hole = turned(ideal, unit(d.shift.rotation));
            const Vec2 v = pin - (d.pose.centre + d.shift.u + hole);
            const double length = norm(v);
            const Vec2 n = (1 / length) * v;
            c.delta = length - (stage.hole_radius() - stage.pin_radius);
            c.rate = {-n.x, -n.y, -cross(hole, n), cross(pin, n)};
            break;
          }
          case Kind::bearing: {
            const Vec2 n = -quarter_turn(c.slide_direction);
            c.delta = -model.rollers.clearance - dot(n, d.shift.u);
            c.rate = {-n.x, -n.y, 0, 0};
            break;
          }
        }
      for (Contact& c : d.contacts) c.delta -= c.correction;
    }
  }

  /// Influence of force j on contact i [m/N].
  [[nodiscard]] double influence(const Disc& d, int i, int j) const { return compliance * d.flexibility.normal(i, j); }

  void need(Disc& d, std::span<const int> columns) {
    const auto& data = disc.data();
    const std::size_t number = static_cast<std::size_t>(&d - discs.data());
    data.bodies[data.maps[number].body].fill(d.flexibility, columns, data.depth);
  }

  // ---- forces at a pose: loc(F) + C F = delta, F >= 0
  bool find_forces(Disc& d, double reference_force) {
    const int count = static_cast<int>(d.contacts.size());
    double scale = 0;
    for (const Contact& c : d.contacts) scale = std::max(scale, std::abs(c.delta));
    if (scale == 0) scale = 1;
    const double tolerance = 1e-13 * scale;
    const auto guess = [&](int i, double gap) {
      const Contact& c = d.contacts[i];
      return std::max(gap, tolerance) / (2 * c.law.slope(reference_force));
    };
    d.active.clear();
    for (int i = 0; i < count; ++i)
      if (d.contacts[i].force > 0) d.active.push_back(i);
    if (d.active.empty())
      for (int i = 0; i < count; ++i)
        if (d.contacts[i].delta > 0) {
          d.contacts[i].force = guess(i, d.contacts[i].delta);
          d.active.push_back(i);
        }
    Eigen::MatrixXd C, H;
    Eigen::VectorXd F, r, step;
    for (int round = 0; round < 200; ++round) {
      // Newton over the active contacts.
      const int active = static_cast<int>(d.active.size());
      need(d, d.active);
      // The influences as they come, symmetric to about 0.1 %: active and inactive contacts must see the same ones, or
      // a contact on the verge could neither stay nor leave.
      C.resize(active, active);
      for (int a = 0; a < active; ++a)
        for (int b = 0; b < active; ++b) C(a, b) = influence(d, d.active[a], d.active[b]);
      F.resize(active);
      for (int a = 0; a < active; ++a) F[a] = d.contacts[d.active[a]].force;
      std::vector<char> drop(active, 0);
      bool dropped = false, solved = active == 0;
      for (int step_number = 0; step_number < 40 && !solved && !dropped; ++step_number) {
        r = -C * F;
        H = C;
        for (int a = 0; a < active; ++a) {
          const Contact& c = d.contacts[d.active[a]];
          r[a] += c.delta - c.law.approach(F[a]);
          H(a, a) += std::max(c.law.slope(F[a]), 0.2 * c.law.p);
        }
        d.factor.compute(H);
        if (r.lpNorm<Eigen::Infinity>() <= tolerance) {
          solved = true;
          break;
        }
        step = d.factor.solve(r);
        for (int a = 0; a < active; ++a) {
          if (F[a] + step[a] > 0.1 * F[a]) {
            F[a] += step[a];
            continue;
          }
          // Would it stay in contact with no force of its own?
          const double left = r[a] + d.contacts[d.active[a]].law.approach(F[a]) + C(a, a) * F[a];
          if (left <= 0) {
            drop[a] = 1;
            dropped = true;
          } else {
            F[a] *= 0.1;
          }
        }
      }
      std::vector<int> kept;
      for (int a = 0; a < active; ++a) {
        d.contacts[d.active[a]].force = drop[a] ? 0 : F[a];
        if (!drop[a]) kept.push_back(d.active[a]);
      }
      if (dropped) {
        d.active = std::move(kept);
        continue;
      }
      if (!solved) return false;
      // Contacts that the deflected body still presses together.
      bool added = false;
      double most = 0;
      int worst = -1;
      std::vector<int> next = d.active;
      for (int i = 0; i < count; ++i) {
        if (d.contacts[i].force > 0) continue;
        double gap = d.contacts[i].delta;
        for (int a = 0; a < active; ++a) gap -= influence(d, i, d.active[a]) * F[a];
        if (gap <= 1e3 * tolerance) continue;
        if (gap > most) most = gap, worst = i;
        if (round > 20) continue;
        d.contacts[i].force = guess(i, gap);
        next.push_back(i);
        added = true;
      }
      if (round > 20 && worst >= 0) {
        d.contacts[worst].force = guess(worst, most);
        next.push_back(worst);
        added = true;
      }
      if (!added) return true;
      std::sort(next.begin(), next.end());
      d.active = std::move(next);
    }
    return false;
  }

  // ---- equilibrium
  /// Unbalanced forces (rotations scaled by the pitch radius), tangent stiffness and potential at the present pose.
  struct Balance {
    Eigen::VectorXd unbalance;
    Eigen::MatrixXd stiffness;
    double potential = 0;
  };

  bool balance(double torque, double reference_force, Balance& b) {
    evaluate();
    const int size = unknowns();
    const double R = model.stage.pitch_radius;
    b.unbalance = Eigen::VectorXd::Zero(size);
    b.stiffness = Eigen::MatrixXd::Zero(size, size);
    b.potential = 0;
    const int count = static_cast<int>(discs.size());
    if (model.torque_by_pins) {
      b.unbalance[size - 1] = torque / R;
      b.potential -= torque * output;
    }
    for (int n = 0; n < count; ++n) {
      Disc& d = discs[n];
      if (!find_forces(d, reference_force)) return false;
      if (!model.torque_by_pins) {
        b.unbalance[per_disc * (n + 1) - 1] = torque / count / R;
        b.potential -= torque / count * d.shift.rotation;
      }
      const int active = static_cast<int>(d.active.size());
      Eigen::MatrixXd D(active, size);
      D.setZero();
      Eigen::VectorXd F(active), loc(active);
      for (int a = 0; a < active; ++a) {
        const Contact& c = d.contacts[d.active[a]];
        F[a] = c.force;
        if (per_disc == 3) {
          D(a, 3 * n) = c.rate[0];
          D(a, 3 * n + 1) = c.rate[1];
        }
        D(a, per_disc * (n + 1) - 1) = c.rate[2] / R;
        if (model.torque_by_pins) D(a, size - 1) += c.rate[3] / R;
        // delta F - F C F / 2 - integral of loc, with C F = delta - loc at the solution
        b.potential += 0.5 * F[a] * (c.delta + c.law.approach(F[a])) - c.law.energy(F[a]);
      }
      if (active == 0) continue;
      b.unbalance -= D.transpose() * F;
      b.stiffness += D.transpose() * d.factor.solve(D);
    }
    return true;
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
    for (const Disc& d : discs) s.shifts.push_back(d.shift);
    return s;
  }
  void restore(const Saved& s) {
    for (std::size_t n = 0; n < discs.size(); ++n) discs[n].shift = s.shifts[n];
    output = s.output;
  }

  bool equilibrium(double torque, double reference_force) {
    // A step in a direction without stiffness is kept to what clearances and contacts can explain.
    const double longest_step =
        10 * (discs[0].contacts[0].law.approach(reference_force) + model.stage.hole_clearance +
              model.rollers.clearance + std::abs(model.stage.roller_offset) + std::abs(model.stage.radius_offset));
    const double allowed = 1e-9 * std::max(std::abs(torque), 1e-9) / model.stage.pin_circle_radius;
    Balance now, next;
    if (!balance(torque, reference_force, now)) return false;
    double levenberg = 1e-12;
    for (int step_number = 0; step_number < 100; ++step_number) {
      residual =
          now.unbalance.lpNorm<Eigen::Infinity>() * model.stage.pin_circle_radius / std::max(std::abs(torque), 1e-9);
      if (now.unbalance.lpNorm<Eigen::Infinity>() <= allowed) return true;
      const double diagonal = std::max(now.stiffness.trace() / unknowns(), 1e-6 / compliance);
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

  /// The flank slides along the roller by its rigid and its elastic motion; the rigid pose holds only the first.
  /// Largest change of the terms [m].
  double correct() {
    double most = 0;
    for (std::size_t n = 0; n < discs.size(); ++n) {
      Disc& d = discs[n];
      const double hand = disc.data().maps[n].hand;
      for (std::size_t i = 0; i < d.contacts.size(); ++i) {
        Contact& c = d.contacts[i];
        if (c.kind == Kind::bearing) continue;
        Vec2 motion = d.shift.u + d.shift.rotation * quarter_turn(c.point);
        if (c.kind == Kind::pin)
          motion -= output * quarter_turn(mechanism::pin_centre(model.stage, crank_angle, c.index));
        const double rigid = dot(c.slide_direction, motion);
        double elastic = 0;
        for (const int j : d.active) elastic += d.flexibility.tangential(static_cast<int>(i), j) * d.contacts[j].force;
        elastic *= hand * compliance;
        const double correction = 0.5 * c.slide_curvature * elastic * (2 * rigid + elastic);
        most = std::max(most, std::abs(correction - c.correction));
        c.correction = correction;
      }
    }
    return most;
  }

  /// A pose with every contact of the loaded side pressed a little: where a cold solution starts.
  void start(double torque, double reference_force) {
    const auto& stage = model.stage;
    const double side = torque < 0 ? -1 : 1;
    output = 0;
    for (Disc& d : discs) {
      d.shift = {};
      for (Contact& c : d.contacts) c.force = c.correction = 0;
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
  [[nodiscard]] double pin_arm(const Disc& d, int pin) const {
    return cross(mechanism::pin_centre(model.stage, crank_angle, pin), -unit(d.crank_angle));
  }

  Outcome solve(double angle, double torque) {
    steps = 0;
    const auto& stage = model.stage;
    if (!placed || angle != crank_angle) place(angle);
    const double reference_force =
        std::max(std::abs(torque), 1e-9) / (stage.discs * stage.eccentricity * stage.lobes * stage.rollers() / 4.0);
    if (!warm || warm_torque * torque <= 0) {
      for (Disc& d : discs) d.finder.evaluate({}, d.gaps);
      start(torque, reference_force);
    } else if (warm_torque != torque) {
      // Nearly linear: the last pose scaled is closer than the last pose.
      const double share = torque / warm_torque;
      for (Disc& d : discs)
        for (Contact& c : d.contacts) c.force *= share;
    }
    warm = false;
    double scale = 0;
    constexpr int kPasses = 8;
    for (int pass = 0; pass < kPasses; ++pass) {
      if (!equilibrium(torque, reference_force)) return Outcome::no_equilibrium;
      scale = 0;
      for (const Disc& d : discs)
        for (const int i : d.active) scale = std::max(scale, std::abs(d.contacts[i].delta));
      if (correct() <= 1e-5 * scale) break;
    }
    for (const Disc& d : discs)
      for (const Contact& c : d.contacts)
        if (c.force > c.law.limit()) return Outcome::outside_law;
    warm = true;
    warm_torque = torque;
    report();
    return Outcome::converged;
  }

  void report() {
    loads.clear();
    const double modulus = contact_modulus(model.material, model.material);
    for (const Disc& d : discs) {
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
      for (const Disc& d : discs) output += d.shift.rotation / static_cast<double>(discs.size());
    }
  }
};

ElasticSolver::ElasticSolver(ElasticDisc disc) : impl_(std::make_unique<Impl>(std::move(disc))) {}
ElasticSolver::~ElasticSolver() = default;
ElasticSolver::ElasticSolver(ElasticSolver&&) noexcept = default;
ElasticSolver& ElasticSolver::operator=(ElasticSolver&&) noexcept = default;

Outcome ElasticSolver::solve(double crank_angle, double torque) { return impl_->solve(crank_angle, torque); }
void ElasticSolver::forget() { impl_->warm = false; }
const std::vector<ElasticLoads>& ElasticSolver::discs() const { return impl_->loads; }
double ElasticSolver::output_rotation() const { return impl_->output; }
double ElasticSolver::residual() const { return impl_->residual; }
int ElasticSolver::steps() const { return impl_->steps; }

DiscPicture ElasticSolver::picture(int disc) const {
  const Impl& s = *impl_;
  const Impl::Disc& d = s.discs[disc];
  const elastic::BodyMap& map = s.disc.data().maps[disc];
  const double b = s.model.stage.width;
  const double modulus = contact_modulus(s.model.material, s.model.material);
  std::vector<elastic::PointForce> forces;
  for (std::size_t i = 0; i < d.contacts.size(); ++i) {
    const Contact& c = d.contacts[i];
    if (c.force <= 0) continue;
    forces.push_back({d.flexibility.points[i], c.force / b, hertz_half_width(c.force / b, c.rho, modulus)});
  }
  const auto field = s.disc.data().bodies[map.body].field(forces);
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
