#include "engine/motion/run_up.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/quantity.h"

namespace lobewise::motion {
namespace {

// Gauss-Kronrod 7-15 on [-1, 1]: nodes from the middle outwards; every second one belongs to Gauss's rule.
// QUADPACK, R. Piessens et al. (1983), public domain.
constexpr std::array<double, 8> kNode{0.000000000000000000000000000000000, 0.207784955007898467600689403773245,
                                      0.405845151377397166906606412076961, 0.586087235467691130294144691693013,
                                      0.741531185599394439863864773280788, 0.864864423359769072789712788640926,
                                      0.949107912342758524526189684047851, 0.991455371120812639206854697526329};
constexpr std::array<double, 8> kKronrod{0.209482141084727828012999174891714, 0.204432940075298892414161999234649,
                                         0.190350578064785409913256402421014, 0.169004726639267902826583426598550,
                                         0.140653259715525918745189590510238, 0.104790010322250183839876322541518,
                                         0.063092092629978553290700663189204, 0.022935322010529224963732008058970};
constexpr std::array<double, 4> kGauss{0.417959183673469387755102040816327, 0.381830050505118944950369775488975,
                                       0.279705391489276667901467771423780, 0.129484966168869693270611432679082};

struct Integrands {
  double time = 0;
  double heat = 0;
  Integrands& operator+=(const Integrands& other) {
    time += other.time;
    heat += other.heat;
    return *this;
  }
};

struct Accelerating {
  double inertia;
  const MotorCurve& motor;
  const SpeedLoad& load;
  double factor;
  double stuck_at = -1;  // lowest speed found at which the motor does not exceed the load

  Integrands at(double speed) {
    const double torque = factor * motor.torque(speed);
    const double against = load.torque * std::pow(speed / load.reference_speed, load.exponent);
    if (!(torque > against)) {
      stuck_at = stuck_at < 0 ? speed : std::min(stuck_at, speed);
      return {};
    }
    const double time = inertia / (torque - against);
    return {time, time * torque * (motor.catalogue().synchronous_speed - speed)};
  }

  Integrands integrate(double a, double b, int depth) {
    const double centre = 0.5 * (a + b);
    const double half = 0.5 * (b - a);
    Integrands middle = at(centre);
    double gauss = kGauss[0] * middle.time;
    Integrands sum{kKronrod[0] * middle.time, kKronrod[0] * middle.heat};
    for (std::size_t i = 1; i < kNode.size(); ++i) {
      Integrands pair = at(centre - half * kNode[i]);
      pair += at(centre + half * kNode[i]);
      sum += {kKronrod[i] * pair.time, kKronrod[i] * pair.heat};
      gauss += i % 2 == 0 ? kGauss[i / 2] * pair.time : 0;
    }
    if (stuck_at >= 0 || depth == 0 || std::abs(sum.time - gauss) < 1e-10 * sum.time) {
      return {half * sum.time, half * sum.heat};
    }
    Integrands parts = integrate(a, centre, depth - 1);
    parts += integrate(centre, b, depth - 1);
    return parts;
  }
};

}  // namespace

double kloss_run_up_time(double inertia, double synchronous_speed, double breakdown_torque, double breakdown_slip,
                         double slip_end) {
  return inertia * synchronous_speed / (2 * breakdown_torque) *
         ((1 - slip_end * slip_end) / (2 * breakdown_slip) - breakdown_slip * std::log(slip_end));
}

Result<RunUp> run_up(double inertia, const MotorCurve& motor, const SpeedLoad& load, double final_speed,
                     double torque_factor) {
  Accelerating body{inertia, motor, load, torque_factor};
  Integrands sum;
  double from = 0;
  for (const double corner : {motor.pull_up_speed(), motor.breakdown_speed(), final_speed}) {
    const double to = std::min(corner, final_speed);
    if (to > from) {
      body.at(to);
      sum += body.integrate(from, to, 24);
      from = to;
    }
  }
  if (body.stuck_at >= 0) {
    return model_error("motor", format_number(body.stuck_at, 4),
                       "the motor does not exceed the load torque near " + format_number(body.stuck_at, 4) +
                           " rad/s and sticks there: a stronger motor, an easier start or less load is needed");
  }
  return RunUp{sum.time, sum.heat};
}

BrakeStop brake_stop(double inertia, double speed, double brake_torque, double load_torque) {
  const double time = inertia * speed / (brake_torque + load_torque);
  return {time, 0.5 * speed * time, 0.5 * brake_torque * speed * time};
}

}  // namespace lobewise::motion
