#include "engine/motion/simulate.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "engine/base/constants.h"
#include "engine/base/dopri5.h"
#include "engine/base/quantity.h"
#include "engine/base/root.h"

namespace lobewise::motion {
namespace {

constexpr int kStates = 2 * kMaxInertias + 3;
constexpr int kEvents = 2 * kMaxInertias;  // links, star-delta, dry friction at every inertia
constexpr int kMostSteps = 400000;
constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr double kEnergyLimit = 1e-6;
// A start is followed over at least this many swings of its stiffest link once it is at speed.
constexpr double kSwings = 10;
// A start counts as stuck when two looks in turn, this many in a duration, find every speed where it was.
constexpr int kLooks = 40;
constexpr double kUnchanged = 2e-4;  // of the speed that motor and torques let expect

using Integrator = Dopri5<kStates>;
using State = Integrator::State;
using PerInertia = std::array<double, kMaxInertias>;
using Triggers = std::array<double, kEvents>;

std::size_t at(int i) { return static_cast<std::size_t>(i); }
int sign_of(double value) { return (value > 0) - (value < 0); }

/// Deflection beyond the play at which k x + k3 x^3 carries `torque` >= 0; Newton from above, the curve is convex.
double deflection_under(const Link& link, double torque) {
  double x = torque / link.stiffness;
  for (int i = 0; i < 60 && link.cubic > 0; ++i) {
    const double step =
        (x * (link.stiffness + link.cubic * x * x) - torque) / (link.stiffness + 3 * link.cubic * x * x);
    x -= step;
    if (std::abs(step) <= 1e-16 * x) break;
  }
  return x;
}

/// One run: state layout angles, speeds, work of drive and load, dissipated energy, rotor heat.
class Run {
 public:
  /// @param pace  speed the tolerance refers to [rad/s]; 0: what motor, torques and initial speed let expect
  Run(const Scenario& scenario, double pace)
      : scenario_(scenario),
        pace_(pace),
        chain_(scenario.chain),
        load_(scenario.load),
        n_(scenario.chain.size),
        last_(n_ - 1),
        work_(at(2 * n_)),
        lost_(at(2 * n_ + 1)),
        heat_(at(2 * n_ + 2)),
        integrator_(2 * n_ + 3) {}

  Result<Outcome> go();
  /// Speed at which all inertias together hold the largest energy that occurred [rad/s].
  [[nodiscard]] double largest_speed() const { return std::sqrt(2 * largest_energy_ / inertia_sum_); }

 private:
  // A flank that is open, or touches above (+1) or below (-1) the middle. Links without play are never open.
  static constexpr int kLower = -1;
  static constexpr int kOpen = 0;
  static constexpr int kUpper = 1;
  struct LinkTorque {
    double total = 0;
    double spring = 0;
  };
  struct Pull {
    double torque = 0;  // at the output, before the reducer's loss
    double heat = 0;    // in the rotor, per second
  };
  enum class Star { star, pause, full };

  [[nodiscard]] const Link& link(int l) const { return chain_.link[at(l)]; }
  [[nodiscard]] double inertia(int i) const { return chain_.inertia[at(i)]; }
  [[nodiscard]] bool kinematic(int i) const { return i == last_ && jammed_; }
  [[nodiscard]] double speed(const State& y, int i) const { return y[at(n_ + i)]; }
  [[nodiscard]] double deflection(const State& y, int l) const { return y[at(l)] - y[at(l + 1)]; }
  [[nodiscard]] double rate(const State& y, int l) const { return y[at(n_ + l)] - y[at(n_ + l + 1)]; }

  [[nodiscard]] LinkTorque link_torque(int l, double d, double v) const;
  [[nodiscard]] double opening(int l, double d, double v) const;
  [[nodiscard]] double frequency(double t) const;
  [[nodiscard]] Pull pull(double t, double output_speed) const;
  struct Loads {
    PerInertia net{};       // torque on each inertia without dry friction
    PerInertia friction{};  // dry friction it can meet
    double lost = 0;        // in dampers and reducer, per second, without dry friction
    double work = 0;        // of drive and load, per second
    double heat = 0;
  };
  [[nodiscard]] Loads loads(double t, const State& y) const;
  void slopes(double t, const State& y, State& dy) const;
  void triggers(double t, const State& y, Triggers& g) const;
  [[nodiscard]] double drive_torque(double t, const State& y) const;
  [[nodiscard]] double elastic(const State& y, int l) const;
  [[nodiscard]] double energy(const State& y) const;

  void begin();
  void restart(const State& y) {
    integrator_.start(integrator_.time(), y, [this](double t, const State& s, State& ds) { slopes(t, s, ds); });
  }
  double attempt(double h) {
    return integrator_.attempt(
        h, [this](double t, const State& s, State& ds) { slopes(t, s, ds); }, weight_);
  }
  [[nodiscard]] std::pair<int, double> first_trigger();
  void commit();
  void fire(int event);
  [[nodiscard]] bool nothing_follows();
  [[nodiscard]] double next_break() const;
  void pass_breaks();
  void apply(const Event& event, State& y);
  void stick_or_slip(int i, double t, const State& y);
  void note_torque(int l, double torque, double time);
  void note_state(double time, const State& y);
  void take_samples();

  const Scenario& scenario_;
  double pace_;
  const Chain& chain_;
  Load load_;
  int n_, last_;
  std::size_t work_, lost_, heat_;
  Integrator integrator_;
  State weight_{};
  double longest_step_ = 0;
  std::array<int, kMaxInertias> flank_{};
  std::array<int, kMaxInertias> slip_{};  // direction of sliding, 0 held fast; only where rubs_
  std::array<bool, kMaxInertias> rubs_{};
  double brake_ = 0;
  double mean_ = 1, half_ = 0;  // of eta and 1/eta: half their sum and half their difference
  bool driven_ = true;
  int direction_ = 1;  // of the supply's phase sequence
  Star star_ = Star::full;
  bool ramping_ = false;
  double reversed_at_ = kNever;
  double reversed_from_ = 0;  // frequency share at the reversal
  double pause_end_ = kNever;
  double ramp_end_ = kNever;
  bool jammed_ = false;
  double jam_end_ = kNever;
  double jam_acceleration_ = 0;
  std::size_t next_event_ = 0;
  PerInertia looked_at_{};  // speeds when it was last asked whether anything follows
  double next_look_ = 0;
  int unchanged_ = 0;
  bool moved_ = false;
  double first_energy_ = 0, largest_energy_ = 0;
  double inertia_sum_ = 0;
  Outcome out_;
};

Run::LinkTorque Run::link_torque(int l, double d, double v) const {
  const Link& k = link(l);
  if (k.play == 0) {
    const double spring = d * (k.stiffness + k.cubic * d * d);
    return {spring + k.damping * v, spring};
  }
  const int side = flank_[at(l)];
  if (side == kOpen) return {};
  const double x = side * d - k.play;
  const double spring = side * x * (k.stiffness + k.cubic * x * x);
  return {spring + k.damping * v, spring};
}

/// Above zero once open flanks meet: on the nearer side both the overlap and the torque it would carry are positive.
double Run::opening(int l, double d, double v) const {
  const Link& k = link(l);
  double most = -kNever;
  for (const int side : {-1, 1}) {
    const double x = side * d - k.play;
    const double carried = x * (k.stiffness + k.cubic * x * x) + k.damping * side * v;
    most = std::max(most, x > 0 ? std::min(k.stiffness * x, carried) : k.stiffness * x);
  }
  return most;
}

double Run::frequency(double t) const {
  if (t >= reversed_at_)
    return std::max(-1.0, reversed_from_ - (t - reversed_at_) / scenario_.drive.starting.ramp_time);
  return ramping_ ? std::min(1.0, t / scenario_.drive.starting.ramp_time) : 1.0;
}

Run::Pull Run::pull(double t, double output_speed) const {
  const Drive& drive = scenario_.drive;
  if (!driven_) return {};
  if (!drive.motor) return {direction_ * drive.torque, 0};
  const StartingMethod& method = drive.starting;
  const MotorCatalogue& motor = drive.motor->catalogue();
  const double w = output_speed * drive.ratio;
  double supply = direction_ * motor.synchronous_speed;
  double torque = 0;
  if (method.kind == Starting::inverter) {
    supply = frequency(t) * motor.synchronous_speed;
    torque = inverter_torque(*drive.motor, supply, w, method.torque_limit * motor.rated_torque);
  } else {
    double factor = 1;
    if (star_ == Star::pause) return {};
    if (star_ == Star::star) factor = method.star_factor;
    if (method.kind == Starting::soft_start && ramping_) {
      const double voltage =
          std::min(1.0, method.initial_voltage + (1 - method.initial_voltage) * t / method.ramp_time);
      factor = voltage * voltage;
    }
    torque = factor * direction_ * drive.motor->torque(direction_ * w);
  }
  return {torque * drive.ratio, torque * (supply - w)};
}

Run::Loads Run::loads(double t, const State& y) const {
  Loads out;
  for (int l = 0; l < last_; ++l) {
    const double v = rate(y, l);
    const LinkTorque torque = link_torque(l, deflection(y, l), v);
    out.net[at(l)] -= torque.total;
    out.net[at(l + 1)] += torque.total;
    out.lost += (torque.total - torque.spring) * v;
  }
  const Pull drive = pull(t, speed(y, 0));
  // T i eta while it drives and T i / eta while it brakes are a mean torque and a dry friction in proportion to |T i|.
  out.net[0] += mean_ * drive.torque;
  out.friction[0] = brake_ + half_ * std::abs(drive.torque);
  out.lost += (1 - mean_) * drive.torque * speed(y, 0);
  out.work += drive.torque * speed(y, 0);
  out.heat = drive.heat;
  const double w = speed(y, last_);
  if (jammed_) {
    out.work += (inertia(last_) * jam_acceleration_ - out.net[at(last_)]) * w;
  } else {
    double against = load_.active;
    if (load_.curve_torque != 0) {
      against += std::copysign(load_.curve_torque * std::pow(std::abs(w) / load_.curve_speed, load_.curve_exponent), w);
    }
    out.net[at(last_)] -= against;
    out.friction[at(last_)] += load_.friction;
    out.work -= against * w;
  }
  return out;
}

void Run::slopes(double t, const State& y, State& dy) const {
  const Loads now = loads(t, y);
  double lost = now.lost;
  for (int i = 0; i < n_; ++i) {
    const double w = speed(y, i);
    dy[at(i)] = w;
    double& acceleration = dy[at(n_ + i)];
    if (kinematic(i)) {
      acceleration = jam_acceleration_;
    } else if (rubs_[at(i)]) {
      const int slip = slip_[at(i)];
      acceleration = slip == 0 ? 0 : (now.net[at(i)] - slip * now.friction[at(i)]) / inertia(i);
      lost += slip * now.friction[at(i)] * w;
    } else {
      acceleration = now.net[at(i)] / inertia(i);
    }
  }
  dy[work_] = now.work;
  dy[lost_] = lost;
  dy[heat_] = now.heat;
}

/// Event functions: each fires when it becomes positive.
void Run::triggers(double t, const State& y, Triggers& g) const {
  g.fill(-1);
  bool held = false;
  for (int l = 0; l < last_; ++l) {
    if (link(l).play == 0) continue;
    const double d = deflection(y, l);
    const double v = rate(y, l);
    g[at(l)] = flank_[at(l)] == kOpen ? opening(l, d, v) : -flank_[at(l)] * link_torque(l, d, v).total;
  }
  for (int i = 0; i < n_; ++i) {
    if (!rubs_[at(i)] || kinematic(i)) continue;
    if (slip_[at(i)] == 0) {
      held = true;
    } else {
      g[at(kMaxInertias + i)] = -slip_[at(i)] * speed(y, i);
    }
  }
  if (held) {
    const Loads now = loads(t, y);
    for (int i = 0; i < n_; ++i) {
      if (rubs_[at(i)] && slip_[at(i)] == 0 && !kinematic(i)) {
        g[at(kMaxInertias + i)] = std::abs(now.net[at(i)]) - now.friction[at(i)];
      }
    }
  }
  const Drive& drive = scenario_.drive;
  if (star_ == Star::star) {
    g[at(kMaxInertias - 1)] =
        speed(y, 0) * drive.ratio - drive.starting.switch_share * drive.motor->catalogue().synchronous_speed;
  }
}

/// Energy in the spring of a link whose flanks touch.
double Run::elastic(const State& y, int l) const {
  const Link& k = link(l);
  if (k.play > 0 && flank_[at(l)] == kOpen) return 0;
  const double x = k.play > 0 ? flank_[at(l)] * deflection(y, l) - k.play : deflection(y, l);
  return x * x * (0.5 * k.stiffness + 0.25 * k.cubic * x * x);
}

/// Of the drive on inertia 0, behind the reducer's loss.
double Run::drive_torque(double t, const State& y) const {
  const double torque = pull(t, speed(y, 0)).torque;
  return mean_ * torque - slip_[0] * half_ * std::abs(torque);
}

double Run::energy(const State& y) const {
  double sum = y[lost_] - y[work_];
  for (int i = 0; i < n_; ++i) sum += 0.5 * inertia(i) * speed(y, i) * speed(y, i);
  for (int l = 0; l < last_; ++l) sum += elastic(y, l);
  return sum;
}

void Run::note_torque(int l, double torque, double time) {
  LinkResult& result = out_.links[at(l)];
  if (torque > result.highest_torque) {
    result.highest_torque = torque;
    result.highest_time = time;
  }
  if (torque < result.lowest_torque) {
    result.lowest_torque = torque;
    result.lowest_time = time;
  }
}

void Run::note_state(double time, const State& y) {
  for (int l = 0; l < last_; ++l) {
    const LinkTorque torque = link_torque(l, deflection(y, l), rate(y, l));
    note_torque(l, torque.total, time);
    out_.links[at(l)].spring_peak = std::max(out_.links[at(l)].spring_peak, std::abs(torque.spring));
  }
  const double now = energy(y);
  double kinetic = 0;
  for (int i = 0; i < n_; ++i) kinetic += 0.5 * inertia(i) * speed(y, i) * speed(y, i);
  largest_energy_ = std::max({largest_energy_, kinetic, std::abs(y[work_]), y[lost_]});
  out_.energy_error = std::max(out_.energy_error, std::abs(now - first_energy_));
}

void Run::take_samples() {
  const double interval = scenario_.sample_interval;
  const double end = integrator_.time() + integrator_.step();
  if (interval <= 0) return;
  for (;;) {
    const double time = static_cast<double>(out_.samples.size()) * interval;
    // The last sample lies at the end itself, which rounding may put on either side of the last step.
    if (time > end + 1e-6 * interval || out_.samples.size() >= out_.samples.capacity()) return;
    const State y = integrator_.at((time - integrator_.time()) / integrator_.step());
    const double shaft_torque = pull(time, speed(y, 0)).torque / scenario_.drive.ratio;
    Sample sample{time, speed(y, 0), speed(y, last_), drive_torque(time, y), shaft_torque, {}};
    for (int l = 0; l < last_; ++l) sample.link_torque[at(l)] = link_torque(l, deflection(y, l), rate(y, l)).total;
    out_.samples.push_back(sample);
  }
}

/// Takes the tried step: extremes inside it, samples, marks, balance.
void Run::commit() {
  const State& y0 = integrator_.state();
  const State& y1 = integrator_.tried_state();
  for (int l = 0; l < last_; ++l) {
    const double v0 = rate(y0, l);
    const double v1 = rate(y1, l);
    if (v0 * v1 >= 0) continue;
    const auto rate_at = [&](double share) {
      return integrator_.at(share, n_ + l) - integrator_.at(share, n_ + l + 1);
    };
    const double share = bracketed_root(rate_at, 0.0, 1.0, v0, v1, 1e-10);
    const LinkTorque torque = link_torque(l, integrator_.at(share, l) - integrator_.at(share, l + 1), 0);
    note_torque(l, torque.total, integrator_.time() + share * integrator_.step());
    out_.links[at(l)].spring_peak = std::max(out_.links[at(l)].spring_peak, std::abs(torque.spring));
  }
  const auto crossing = [&](int component, double level) {
    const auto above = [&](double share) { return integrator_.at(share, component) - level; };
    return integrator_.time() + integrator_.step() * bracketed_root(above, 0.0, 1.0, y0[at(component)] - level,
                                                                    y1[at(component)] - level, 1e-10);
  };
  if (scenario_.drive.motor && !out_.started) {
    const double done = kStartedShare * scenario_.drive.motor->catalogue().rated_speed / scenario_.drive.ratio;
    if (speed(y0, 0) < done && speed(y1, 0) >= done) out_.started = crossing(n_, done);
  }
  if (moved_ && !out_.standstill && speed(y0, last_) * speed(y1, last_) < 0) out_.standstill = crossing(n_ + last_, 0);
  moved_ = moved_ || speed(y1, last_) != 0;
  take_samples();
  integrator_.accept();
  ++out_.steps;
  note_state(integrator_.time(), integrator_.state());
}

void Run::stick_or_slip(int i, double t, const State& y) {
  const Loads now = loads(t, y);
  const double net = now.net[at(i)];
  slip_[at(i)] = std::abs(net) <= now.friction[at(i)] ? 0 : sign_of(net);
}

/// What changes when an event function has become positive at the present state.
void Run::fire(int event) {
  State y = integrator_.state();
  const double t = integrator_.time();
  if (event >= kMaxInertias) {
    const int i = event - kMaxInertias;
    y[at(n_ + i)] = 0;
    stick_or_slip(i, t, y);
    if (i == last_ && moved_ && !out_.standstill) out_.standstill = t;
  } else if (event == kMaxInertias - 1) {
    star_ = Star::pause;
    pause_end_ = t + scenario_.drive.starting.pause;
  } else if (flank_[at(event)] == kOpen) {
    flank_[at(event)] = deflection(y, event) > 0 ? kUpper : kLower;
    y[lost_] -= elastic(y, event);  // flanks that parted unrelaxed and meet again
    LinkResult& result = out_.links[at(event)];
    result.hardest_impact = std::max(result.hardest_impact, std::abs(rate(y, event)));
    ++result.impacts;
  } else {
    y[lost_] += elastic(y, event);  // what the damper held back when the flanks part is spent in it
    flank_[at(event)] = kOpen;
  }
  restart(y);
}

void Run::apply(const Event& event, State& y) {
  switch (event.kind) {
    case EventKind::jam: {
      if (jammed_) return;
      const double w = speed(y, last_);
      jammed_ = true;
      if (event.value > 0 && w != 0) {
        jam_acceleration_ = -0.5 * w * std::abs(w) / event.value;
        jam_end_ = integrator_.time() + 2 * event.value / std::abs(w);
      } else {
        y[work_] -= 0.5 * inertia(last_) * w * w;
        y[at(n_ + last_)] = 0;
        if (!out_.standstill && moved_) out_.standstill = integrator_.time();
      }
      return;
    }
    case EventKind::motor_off:
      driven_ = false;
      star_ = Star::full;
      pause_end_ = kNever;
      return;
    case EventKind::brake:
      brake_ += event.value;
      rubs_[0] = true;
      slip_[0] = sign_of(speed(y, 0));
      if (slip_[0] == 0) stick_or_slip(0, integrator_.time(), y);
      return;
    case EventKind::reversal:
      if (scenario_.drive.starting.kind == Starting::inverter) {
        reversed_from_ = frequency(integrator_.time());
        reversed_at_ = integrator_.time();
        ramp_end_ = reversed_at_ + (1 + reversed_from_) * scenario_.drive.starting.ramp_time;
      } else {
        direction_ = -direction_;
        star_ = Star::full;
        ramping_ = false;
        pause_end_ = ramp_end_ = kNever;
      }
      return;
    case EventKind::load_drop:
      load_ = {};
      return;
  }
}

/// A start that is over: at speed for long enough, or standing or crawling where the motor gives no more.
bool Run::nothing_follows() {
  if (scenario_.after_start == 0 || next_event_ < scenario_.events.size()) return false;
  const double now = integrator_.time();
  if (std::min({pause_end_, ramp_end_, jam_end_}) < kNever) return false;
  if (out_.started)
    return now >= std::max(scenario_.after_start * *out_.started, *out_.started + kSwings * 2 * kPi * longest_step_);
  if (now < next_look_) return false;
  bool same = true;
  for (int i = 0; i < n_; ++i) {
    const double speed = this->speed(integrator_.state(), i);
    same = same && std::abs(speed - looked_at_[at(i)]) < kUnchanged * pace_;
    looked_at_[at(i)] = speed;
  }
  unchanged_ = same && next_look_ > 0 ? unchanged_ + 1 : 0;
  next_look_ = now + scenario_.duration / kLooks;
  return unchanged_ >= 2;
}

double Run::next_break() const {
  double next = std::min({scenario_.duration, pause_end_, ramp_end_, jam_end_});
  if (next_event_ < scenario_.events.size()) next = std::min(next, scenario_.events[next_event_].time);
  return next;
}

/// Everything that is due at the present time.
void Run::pass_breaks() {
  const double due = integrator_.time() * (1 + 1e-13);
  State y = integrator_.state();
  if (pause_end_ <= due) {
    star_ = Star::full;
    pause_end_ = kNever;
  }
  if (ramp_end_ <= due) ramp_end_ = kNever;
  if (jam_end_ <= due) {
    jam_end_ = kNever;
    jam_acceleration_ = 0;
    y[at(n_ + last_)] = 0;
    if (!out_.standstill) out_.standstill = integrator_.time();
  }
  while (next_event_ < scenario_.events.size() && scenario_.events[next_event_].time <= due) {
    apply(scenario_.events[next_event_++], y);
  }
  restart(y);
}

void Run::begin() {
  State y{};
  for (int i = last_ - 1; i >= 0; --i) {
    const Link& k = link(i);
    double d = 0;
    flank_[at(i)] = kOpen;
    switch (scenario_.flanks) {
      case InitialFlanks::middle:
        break;
      case InitialFlanks::opposite:
        d = -k.play;
        break;
      case InitialFlanks::touching:
        d = k.play;
        flank_[at(i)] = kUpper;
        break;
      case InitialFlanks::wound: {
        const int side = scenario_.wound_torque < 0 ? -1 : 1;
        d = side * (k.play + deflection_under(k, std::abs(scenario_.wound_torque)));
        flank_[at(i)] = side < 0 ? kLower : kUpper;
        break;
      }
    }
    y[at(i)] = y[at(i + 1)] + d;
  }
  double fastest = 0;
  double pace = std::abs(scenario_.speed);
  for (int i = 0; i < n_; ++i) {
    y[at(n_ + i)] = scenario_.speed;
    inertia_sum_ += inertia(i);
  }
  const Drive& drive = scenario_.drive;
  if (drive.motor) pace = std::max(pace, drive.motor->catalogue().synchronous_speed / drive.ratio);
  const double effort = std::max({std::abs(drive.torque), std::abs(scenario_.wound_torque), std::abs(load_.active)});
  for (int l = 0; l < last_; ++l) {
    const double mode = std::sqrt(link(l).stiffness * (1 / inertia(l) + 1 / inertia(l + 1)));
    fastest = std::max(fastest, mode);
    pace = std::max(pace, effort * mode / link(l).stiffness);
  }
  if (last_ == 0) {
    fastest = 20 / scenario_.duration;
    pace = std::max(pace, effort * scenario_.duration / inertia_sum_);
  }
  pace_ = pace_ > 0 ? pace_ : std::max(pace, 1e-9);
  for (int i = 0; i < n_; ++i) {
    weight_[at(i)] = scenario_.tolerance * pace_ / fastest;
    weight_[at(n_ + i)] = scenario_.tolerance * pace_;
  }
  weight_[work_] = weight_[lost_] = weight_[heat_] = scenario_.tolerance * 0.5 * inertia_sum_ * pace_ * pace_;
  longest_step_ = 1 / fastest;

  if (drive.motor && drive.efficiency < 1) {
    rubs_[0] = true;
    mean_ = 0.5 * (drive.efficiency + 1 / drive.efficiency);
    half_ = 0.5 * (1 / drive.efficiency - drive.efficiency);
  }
  rubs_[at(last_)] = rubs_[at(last_)] || load_.friction > 0;
  slip_.fill(sign_of(scenario_.speed));
  moved_ = scenario_.speed != 0;
  if (scenario_.speed == 0) {
    if (drive.starting.kind == Starting::star_delta && drive.motor) star_ = Star::star;
    ramping_ = drive.starting.kind == Starting::soft_start || drive.starting.kind == Starting::inverter;
    if (ramping_) ramp_end_ = drive.starting.ramp_time;
  }
  first_energy_ = energy(y);
  largest_energy_ = std::abs(first_energy_);
  if (scenario_.sample_interval > 0) {
    out_.samples.reserve(static_cast<std::size_t>(scenario_.duration / scenario_.sample_interval * (1 + 1e-12)) + 1);
  }
  for (int i = 0; i < n_ && scenario_.speed == 0; ++i) {
    if (rubs_[at(i)]) stick_or_slip(i, 0, y);
  }
  restart(y);
  for (int l = 0; l < last_; ++l) {
    out_.links[at(l)].highest_torque = out_.links[at(l)].lowest_torque =
        link_torque(l, deflection(y, l), rate(y, l)).total;
  }
  note_state(0, y);
  pass_breaks();
}

/// First event inside the tried step, and its share of the step; -1 when there is none.
std::pair<int, double> Run::first_trigger() {
  std::array<Triggers, 3> g{};
  const double t = integrator_.time();
  const double h = integrator_.step();
  triggers(t + h, integrator_.tried_state(), g[2]);
  triggers(t + 0.5 * h, integrator_.at(0.5), g[1]);
  std::pair<int, double> first{-1, 1};
  bool evaluated = false;
  for (int e = 0; e < kEvents; ++e) {
    if (g[1][at(e)] <= 0 && g[2][at(e)] <= 0) continue;
    if (!std::exchange(evaluated, true)) triggers(t, integrator_.state(), g[0]);
    const std::size_t right = g[1][at(e)] > 0 ? 1 : 2;
    const double from = right == 1 ? 0 : 0.5;
    double share = 1e-3;  // already positive at the left: a small step, then the change, so that time goes on
    if (g[right - 1][at(e)] < 0) {
      const auto value = [&](double part) {
        Triggers now{};
        triggers(t + part * h, integrator_.at(part), now);
        return now[at(e)];
      };
      share = bracketed_root(value, from, from + 0.5, g[right - 1][at(e)], g[right][at(e)], 1e-13);
    } else if (right == 2) {
      share = 0.5;
    }
    if (first.first < 0 || share < first.second) first = {e, std::max(share, 1e-9)};
  }
  return first;
}

Result<Outcome> Run::go() {
  begin();
  double h = 0.02 * longest_step_;
  while (integrator_.time() < scenario_.duration * (1 - 1e-13)) {
    if (out_.steps >= kMostSteps) {
      return model_error("duration", format_number(scenario_.duration, 4),
                         fmt::format("{} steps reached only {} s; simulate a shorter time or a softer chain",
                                     kMostSteps, format_number(integrator_.time(), 4)));
    }
    const double rest = next_break() - integrator_.time();
    const bool reaches = h >= rest * (1 - 1e-9);
    const double tried = reaches ? rest : h;
    const double error = attempt(tried);
    if (!(error <= 1)) {
      h = std::isfinite(error) ? Integrator::next_step(tried, error) : 0.1 * tried;
      if (h > 1e-15 * scenario_.duration) continue;
    }
    const auto [event, share] = first_trigger();
    if (event < 0) {
      h = std::min(std::max(Integrator::next_step(tried, error), h * 0.2), longest_step_);
      commit();
      if (reaches) pass_breaks();
      if (nothing_follows()) break;
    } else {
      attempt(share * tried);
      commit();
      fire(event);
    }
  }
  out_.rotor_heat = integrator_.state()[heat_];
  out_.dissipated = integrator_.state()[lost_];
  out_.energy_error /= std::max(largest_energy_, 1e-300);
  for (int i = 0; i < n_; ++i) out_.final_speed.push_back(speed(integrator_.state(), i));
  return std::move(out_);
}

}  // namespace

Result<Outcome> simulate(const Scenario& scenario) {
  Errors errors = check_scenario(scenario);
  if (!errors.empty()) return errors;
  Run run(scenario, 0);
  Result<Outcome> outcome = run.go();
  if (outcome.ok() && outcome->energy_error > kEnergyLimit) {
    // Far less happens than motor and torques let expect: measured with what did happen.
    outcome = Run(scenario, 0.1 * run.largest_speed()).go();
  }
  if (outcome.ok() && !(outcome->energy_error <= kEnergyLimit)) {
    return Error{
        ErrorKind::internal, "", format_number(outcome->energy_error, 3),
        "the energy balance of the simulation does not close to one part in a million; its peaks are not to be "
        "trusted and are not shown",
        0};
  }
  return outcome;
}

}  // namespace lobewise::motion
