// What a proof of one machine asks of heat and motion: start, jam, plugging, steady temperature, thermal torque, duty.
#include <benchmark/benchmark.h>

#include "engine/heat/steady.h"
#include "engine/heat/transient.h"
#include "engine/motion/simulate.h"

namespace lobewise {
namespace {

motion::Scenario drive() {
  motion::Scenario s;
  s.chain.size = 3;
  s.chain.inertia = {5.55, 0.3, 3.0};
  s.chain.link[0] = {4e5, 3e8, 100, 2e-4};
  s.chain.link[1] = {3e5, 0, 100, 2e-4};
  s.drive.motor = *motion::MotorCurve::from_catalogue({157.08, 49.4, 151.8, 98.8, 79, 128});
  s.drive.ratio = 17;
  s.drive.efficiency = 0.92;
  s.load.friction = 360;
  s.duration = 0.5;
  return s;
}

void direct_start(benchmark::State& state) {
  motion::Scenario s = drive();
  s.flanks = motion::InitialFlanks::opposite;
  for (auto _ : state) benchmark::DoNotOptimize(motion::simulate(s).ok());
}
BENCHMARK(direct_start)->Unit(benchmark::kMicrosecond);

void jam_within_five_degrees(benchmark::State& state) {
  motion::Scenario s = drive();
  s.speed = 8.93;
  s.flanks = motion::InitialFlanks::wound;
  s.wound_torque = 360;
  s.events = {{motion::EventKind::jam, 0, 0.0873}};
  s.duration = 0.1;
  for (auto _ : state) benchmark::DoNotOptimize(motion::simulate(s).ok());
}
BENCHMARK(jam_within_five_degrees)->Unit(benchmark::kMicrosecond);

void plugging(benchmark::State& state) {
  motion::Scenario s = drive();
  s.speed = 8.93;
  s.flanks = motion::InitialFlanks::wound;
  s.wound_torque = 360;
  s.events = {{motion::EventKind::reversal, 0, 0}};
  for (auto _ : state) benchmark::DoNotOptimize(motion::simulate(s).ok());
}
BENCHMARK(plugging)->Unit(benchmark::kMicrosecond);

heat::Housing housing() {
  heat::Housing h;
  h.diameter = 0.23;
  h.area = 0.221;
  h.ambient_temperature = 293.15;
  h.air_speed = 1.5;
  h.oil_capacity = 6000;
  h.housing_capacity = 14000;
  return h;
}
double loss(double torque, double oil) { return 100 + 0.8 * torque + 2 * (363 - oil); }

void steady_temperature(benchmark::State& state) {
  const auto at_500 = [](double oil) { return loss(500, oil); };
  for (auto _ : state) benchmark::DoNotOptimize(heat::steady_state(housing(), at_500));
}
BENCHMARK(steady_temperature)->Unit(benchmark::kMicrosecond);

void thermal_torque(benchmark::State& state) {
  const auto of_torque = [](double torque, double oil) { return loss(torque, oil); };
  for (auto _ : state) benchmark::DoNotOptimize(heat::thermal_torque(housing(), of_torque, heat::kLimitOil, 2000));
}
BENCHMARK(thermal_torque)->Unit(benchmark::kMicrosecond);

void periodic_duty(benchmark::State& state) {
  const heat::DutyPhase phases[] = {{600, 1.5}, {900, 0}};
  const auto of_phase = [](std::size_t phase, double oil) { return phase == 0 ? loss(500, oil) : 0.0; };
  for (auto _ : state) benchmark::DoNotOptimize(heat::periodic_duty(housing(), phases, of_phase));
}
BENCHMARK(periodic_duty)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace lobewise
