// One ring pitch of 64 crank angles, 17 lobes, two discs. Limits on one core: l1 0.5 ms, l2 5 ms, l3 6 ms.
#include <benchmark/benchmark.h>

#include "engine/base/constants.h"
#include "engine/contact/mesh_solver.h"

namespace {
using namespace lobewise::contact;

MeshModel model_with(LawKind kind, double clearance) {
  MeshModel model;
  model.stage = {17, 0.080, 0.007, 0.003, 0.014, 2, 10, 0.050, 0.008, clearance, clearance / 2, -clearance / 2, 0};
  model.ring_law.kind = model.pin_law.kind = kind;
  model.support.clearance = clearance / 2;
  return model;
}

void cycle(benchmark::State& state, Level level, LawKind kind, double clearance) {
  MeshSolver solver(model_with(kind, clearance));
  for (auto _ : state) {
    for (int i = 0; i < 64; ++i) {
      if (solver.solve(level, 2 * lobewise::kPi / 18 * i / 64, 600) != Outcome::converged)
        state.SkipWithError("no equilibrium");
      benchmark::DoNotOptimize(solver.discs().front().ring_force.data());
    }
    solver.forget();
  }
}

BENCHMARK_CAPTURE(cycle, l1, Level::l1, LawKind::log, 0.0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l1_palmgren, Level::l1, LawKind::palmgren, 0.0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l1_clearance, Level::l1, LawKind::log, 1e-5)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l1f, Level::l1f, LawKind::log, 0.0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l2, Level::l2, LawKind::log, 0.0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l2_clearance, Level::l2, LawKind::log, 1e-5)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l3, Level::l3, LawKind::log, 0.0)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(cycle, l3_clearance, Level::l3, LawKind::log, 1e-5)->Unit(benchmark::kMillisecond);

}  // namespace
