// The elastic disc. Limits on one core: body with table of 17 lobes 1 s, a warm crank angle 1 ms.
#include <benchmark/benchmark.h>

#include "engine/contact/elastic_disc.h"

namespace {
using namespace lobewise::contact;

ElasticModel lobes(int count) {
  ElasticModel model;
  if (count == 59) {
    model.stage = {59, 0.120, 0.0035, 0.0014, 0.018, 1, 12, 0.075, 0.010};
    model.bore_radius = 0.036;
  } else {
    model.stage = {17, 0.080, 0.007, 0.003, 0.014, 2, 10, 0.050, 0.008};
    model.bore_radius = 0.028;
  }
  model.rollers = {16, 0.0035, 0, 0.1, 0};
  model.pin_core_radius = 0.5 * model.stage.pin_radius;
  return model;
}

void elastic_build(benchmark::State& state) {
  ElasticModel model = lobes(static_cast<int>(state.range(0)));
  model.table = state.range(1) != 0;
  for (auto _ : state) {
    auto disc = ElasticDisc::build(model);
    if (!disc) state.SkipWithError("no disc");
    benchmark::DoNotOptimize(disc);
  }
}
BENCHMARK(elastic_build)
    ->ArgNames({"lobes", "table"})
    ->Args({17, 1})
    ->Args({17, 0})
    ->Args({59, 1})
    ->Unit(benchmark::kMillisecond);

void elastic_angle(benchmark::State& state) {
  ElasticModel model = lobes(static_cast<int>(state.range(0)));
  model.table = state.range(1) != 0;
  const auto disc = ElasticDisc::build(model);
  ElasticSolver solver(*disc);
  const double torque = 300 * model.stage.discs;
  double angle = 0;
  for (auto _ : state) {
    if (solver.solve(angle, torque) != Outcome::converged) state.SkipWithError("no equilibrium");
    angle += 0.005;
  }
}
BENCHMARK(elastic_angle)
    ->ArgNames({"lobes", "table"})
    ->Args({17, 1})
    ->Args({17, 0})
    ->Args({59, 1})
    ->Unit(benchmark::kMicrosecond);

void elastic_picture(benchmark::State& state) {
  const auto disc = ElasticDisc::build(lobes(17));
  ElasticSolver solver(*disc);
  if (solver.solve(0.3, 600) != Outcome::converged) state.SkipWithError("no equilibrium");
  for (auto _ : state) benchmark::DoNotOptimize(solver.picture(0));
}
BENCHMARK(elastic_picture)->Unit(benchmark::kMillisecond);

}  // namespace
