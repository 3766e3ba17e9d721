#include "engine/evidence/motor_charts.h"

#include <algorithm>
#include <array>

#include "engine/drive/cold.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using motion::MotorCurve;
using motion::Starting;

constexpr int kSteps = 60;  ///< of a curve, besides the points that give it its shape

/// The torque of the motor over its speed, up to a speed, corners included.
template <class Torque>
Series torque_curve(const char* name, const MotorCurve& curve, double to, const Torque& torque,
                    std::vector<Value> values = {}) {
  Series series{name, {}, {}, false, std::move(values)};
  for (int i = 0; i <= kSteps; ++i) series.x.push_back(to * i / kSteps);
  for (const double corner : {curve.pull_up_speed(), curve.breakdown_speed(), curve.catalogue().rated_speed})
    if (corner < to) series.x.push_back(corner);
  std::sort(series.x.begin(), series.x.end());
  for (const double speed : series.x) series.y.push_back(torque(speed));
  return series;
}

/// What the motor gives with its way of starting.
void add_motor(const Context& context, const MotorCurve& curve, Chart& chart) {
  const Drive& drive = context.drive;
  const motion::StartingMethod way = drive::starting_method(drive.requirement.starting);
  const double synchronous = curve.catalogue().synchronous_speed;
  const auto at_full_voltage = [&](double speed) { return curve.torque(speed); };
  switch (way.kind) {
    case Starting::direct:
      chart.series.push_back(torque_curve("motor of today, estimated", curve, synchronous, at_full_voltage));
      break;
    case Starting::star_delta:
      chart.series.push_back(torque_curve("motor of today in delta, estimated", curve, synchronous, at_full_voltage));
      chart.series.push_back(torque_curve(
          "in star, up to {} of its synchronous speed", curve, way.switch_share * synchronous,
          [&](double speed) { return way.star_factor * curve.torque(speed); }, {{way.switch_share, Quantity::share}}));
      break;
    case Starting::soft_start:
      chart.series.push_back(
          torque_curve("motor of today at full voltage, estimated", curve, synchronous, at_full_voltage));
      chart.series.push_back(
          torque_curve("where the ramp begins, at {} of the voltage", curve, synchronous,
                       [&](double speed) { return way.initial_voltage * way.initial_voltage * curve.torque(speed); },
                       {{way.initial_voltage, Quantity::share}}));
      break;
    case Starting::inverter:
      chart.series.push_back(
          torque_curve("on the inverter at its frequency, held below {} times its rating", curve, synchronous,
                       [&](double speed) {
                         return motion::inverter_torque(curve, synchronous, speed,
                                                        way.torque_limit * curve.catalogue().rated_torque);
                       },
                       {{way.torque_limit, Quantity::number}}));
      break;
  }
  // On a ramp no curve holds for long: what the start goes through.
  if ((way.kind == Starting::soft_start || way.kind == Starting::inverter) && context.start) {
    Series path{"as the start goes through it", {}, {}, false};
    const double ratio = drive.build.ratio();
    for (const motion::Sample& sample : context.start->samples) {
      path.x.push_back(sample.motor_speed * ratio);
      path.y.push_back(sample.shaft_torque);
    }
    if (!path.x.empty()) chart.series.push_back(std::move(path));
  }
}

Chart torque_chart(const Context& context, const MotorCurve& curve) {
  const Drive& drive = context.drive;
  const Evaluation& e = context.nominal;
  Chart chart{"motor_torque",
              "Torque of the motor over its speed",
              "Motor speed",
              "Torque at the motor shaft",
              Quantity::angular_speed,
              Quantity::torque,
              {},
              false,
              false,
              false};
  add_motor(context, curve, chart);
  const bool inverter = drive.requirement.starting == enquiry::Starting::inverter;
  drive::Coefficients least = e.coefficients;
  least.motor_torque_factor = drive::kTypicalStartTorque.low;
  if (const Result<MotorCurve> standard = drive::motor_curve_of(drive, least); standard && !inverter) {
    Series line =
        torque_curve("least of its standard, full voltage", *standard, standard->catalogue().synchronous_speed,
                     [&](double speed) { return standard->torque(speed); });
    line.dashed = true;
    chart.series.push_back(std::move(line));
  }
  const double load = e.full.input_power() / drive.input_speed;
  chart.series.push_back({"machine at full load, through the reducer", {0, drive.input_speed}, {load, load}, true});
  const auto point = [&](const char* name, double speed, double torque, std::vector<Value> values) {
    chart.series.push_back({name, {speed}, {torque}, false, std::move(values)});
  };
  const double breaks_away = drive::cold_start(drive, drive::kNormalTemperature, e.coefficients).rest.torque;
  if (breaks_away > 0)
    point("asked for at rest, {} times what breaks it away", 0, drive::kSpareStartTorque * breaks_away,
          {{drive::kSpareStartTorque, Quantity::number}});
  const double left = drive::derating(drive.requirement.ambient_high, drive.requirement.altitude);
  point(left < 1 ? "left of its rating in this air, {}" : "its rating, {}", curve.catalogue().rated_speed,
        left * drive.motor->rated_torque, {{left * drive.motor->rated_power, Quantity::power}});
  point("full load, {}", drive.input_speed, load, {{e.full.input_power(), Quantity::power}});
  return chart;
}

/// @param rated_speed  of the motor, seen at the output [rad/s]
Chart start_chart(double rated_speed, const motion::Outcome& start) {
  Chart chart{"run_up",
              "A start: speeds in time",
              "Time",
              "Speed at the output",
              Quantity::time,
              Quantity::angular_speed,
              {},
              false,
              false,
              false};
  Series motor_side{"motor, seen at the output", {}, {}, false}, machine{"machine", {}, {}, false};
  for (const motion::Sample& sample : start.samples) {
    motor_side.x.push_back(sample.time);
    motor_side.y.push_back(sample.motor_speed);
    machine.x.push_back(sample.time);
    machine.y.push_back(sample.load_speed);
  }
  chart.series = {std::move(motor_side), std::move(machine)};
  if (start.started)
    chart.series.push_back({"at its speed after {}; from {} on a start is long",
                            {*start.started},
                            {motion::kStartedShare * rated_speed},
                            false,
                            {{*start.started, Quantity::time}, {kLongStart, Quantity::time}}});
  return chart;
}

}  // namespace

std::vector<Chart> motor_charts(const Context& context) {
  const Result<MotorCurve> curve = drive::motor_curve_of(context.drive, context.nominal.coefficients);
  if (!curve) return {};
  std::vector<Chart> charts{torque_chart(context, *curve)};
  if (context.start && !context.start->samples.empty())
    charts.push_back(start_chart(curve->catalogue().rated_speed / context.drive.build.ratio(), *context.start));
  return charts;
}

}  // namespace lobewise::evidence
