// A proof and its parts, sizing over the whole range, and how both grow with the lobes. Limits on one core: a proof
// with its tables kept 20 ms, sizing with every finding 150 ms, no mesh solution repeated.
#include <benchmark/benchmark.h>

#include "engine/api/registry.h"
#include "engine/api/table_shelf.h"
#include "engine/drive/shocks.h"
#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"
#include "engine/sizing/size.h"

namespace lobewise {
namespace {

constexpr const char* kFrame = "ring-315";

enquiry::Requirement requirement(double torque, double speed) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = speed;
  machine.start_factor = 1.2;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  return *enquiry::require(enquiry);
}

/// The shelf of one session, and builds of the demo range proved with it.
struct Workshop {
  api::TableShelf shelf;
  drive::TableSource rigid = [this](const range::Stage& stage) { return shelf.rigid(stage); };
  drive::TableSource elastic = [this](const range::Stage& stage) { return shelf.elastic(stage); };
};

drive::Build build_with(int lobes) {
  return *drive::find_build(range::demo_range(), {kFrame, lobes, "", std::nullopt});
}
/// Torque and speed that suit a build of that many lobes.
enquiry::Requirement suited(int lobes) { return requirement(900, 150.0 / lobes); }

drive::Drive proved(Workshop& workshop, int lobes) {
  return *drive::assemble(suited(lobes), build_with(lobes), workshop.elastic);
}

void by_lobes(benchmark::internal::Benchmark* bench) {
  bench->ArgName("lobes");
  for (const range::Frame& frame : range::demo_range().frames)
    if (frame.name == kFrame)
      for (const range::Stage& stage : frame.stages) bench->Arg(stage.geometry.lobes);
  bench->Unit(benchmark::kMillisecond);
}

// ---- what is kept
void disc_cold(benchmark::State& state) {
  const drive::Build build = build_with(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(drive::elastic_disc_of(build.last()).ok());
}
BENCHMARK(disc_cold)->Apply(by_lobes);

void table_elastic(benchmark::State& state) {
  const drive::Build build = build_with(static_cast<int>(state.range(0)));
  const auto disc = drive::elastic_disc_of(build.last());
  for (auto _ : state) benchmark::DoNotOptimize(drive::elastic_stage_table(build.last(), *disc).ok());
}
BENCHMARK(table_elastic)->Apply(by_lobes);

void table_rigid(benchmark::State& state) {
  const drive::Build build = build_with(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(drive::rigid_stage_table(build.last()).ok());
}
BENCHMARK(table_rigid)->Apply(by_lobes);

void table_rough(benchmark::State& state) {
  const drive::Build build = build_with(static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(drive::rough_stage_table(build.last()).ok());
}
BENCHMARK(table_rough)->Apply(by_lobes);

// ---- a proof, tables kept
void prove(benchmark::State& state) {
  Workshop workshop;
  const drive::Drive drive = proved(workshop, static_cast<int>(state.range(0)));
  for (auto _ : state) benchmark::DoNotOptimize(evidence::prove(drive, {}).findings.size());
}
BENCHMARK(prove)->Apply(by_lobes);

void prove_without_samples(benchmark::State& state) {
  Workshop workshop;
  const drive::Drive drive = proved(workshop, static_cast<int>(state.range(0)));
  evidence::ProveOptions options;
  options.samples = 0;
  for (auto _ : state) benchmark::DoNotOptimize(evidence::prove(drive, options).findings.size());
}
BENCHMARK(prove_without_samples)->Arg(17)->ArgName("lobes")->Unit(benchmark::kMillisecond);

void part(benchmark::State& state, void (*run)(const drive::Drive&)) {
  Workshop workshop;
  const drive::Drive drive = proved(workshop, 17);
  for (auto _ : state) run(drive);
}
BENCHMARK_CAPTURE(part, quick_look, [](const drive::Drive& drive) {
  benchmark::DoNotOptimize(evidence::quick_look(drive).size());
})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(part, evaluate, [](const drive::Drive& drive) {
  benchmark::DoNotOptimize(evidence::evaluate(drive, {}).slope);
})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(part, start_transient, [](const drive::Drive& drive) {
  benchmark::DoNotOptimize(drive::simulate_start(drive, {}).ok());
})->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(part, jam_transient, [](const drive::Drive& drive) {
  benchmark::DoNotOptimize(drive::simulate_jam(drive, drive.requirement.demand.jam.angle.nominal, {}).ok());
})->Unit(benchmark::kMillisecond);

/// As the page asks: text in, text out, the same session.
void prove_answer(benchmark::State& state) {
  const api::Session session;
  const std::string request =
      R"({"call": "prove", "input": {"enquiry": {"machine": {"measured": {"measured_torque": "900 Nm", "speed": "84 rpm",
          "start_factor": 1.2, "run_up_time": "1 s", "feed": "even", "can_run_back": false}}},
          "build": {"frame": "ring-315", "lobes": 17}}})";
  if (session.answer(request).rfind(R"({"errors")", 0) == 0) state.SkipWithError("no answer");
  for (auto _ : state) benchmark::DoNotOptimize(session.answer(request).size());
}
BENCHMARK(prove_answer)->Unit(benchmark::kMillisecond);

// ---- sizing over the whole range, every finding
void size_whole_range(benchmark::State& state) {
  const auto wanted = requirement(900, static_cast<double>(state.range(0)) / 10);
  for (auto _ : state) {
    Workshop workshop;
    benchmark::DoNotOptimize(sizing::size(wanted, range::demo_range(), {workshop.rigid, nullptr}).chosen);
  }
}
BENCHMARK(size_whole_range)->ArgName("decirad/s")->Arg(10)->Arg(30)->Arg(90)->Unit(benchmark::kMillisecond);

void size_whole_range_kept(benchmark::State& state) {
  const auto wanted = requirement(900, static_cast<double>(state.range(0)) / 10);
  Workshop workshop;
  for (auto _ : state)
    benchmark::DoNotOptimize(sizing::size(wanted, range::demo_range(), {workshop.rigid, nullptr}).chosen);
}
BENCHMARK(size_whole_range_kept)->ArgName("decirad/s")->Arg(10)->Arg(30)->Arg(90)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lobewise
