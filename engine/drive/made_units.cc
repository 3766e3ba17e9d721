#include "engine/drive/made_units.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace lobewise::drive {
namespace {

using contact::ElasticSolver;
using tolerance::MadeUnit;
using tolerance::PlayOfUnits;
using tolerance::UnitSampler;
using tolerance::Widths;

/// How much more a disc has grown than its ring at some warmth, above the drawing [m].
class Growth {
 public:
  Growth(const range::Stage& stage, const BodyTemperatures& cold, const BodyTemperatures& warm)
      : cold_(radius_offset_at(stage, cold, {}) - stage.geometry.radius_offset),
        warm_(radius_offset_at(stage, warm, {}) - stage.geometry.radius_offset) {}
  [[nodiscard]] double at(double warmth) const { return cold_ + (warm_ - cold_) * warmth; }

 private:
  double cold_, warm_;
};

std::uint64_t seed_of(std::uint64_t seed, int scramble, int kind) {
  return uncertainty::mixed(seed, static_cast<std::uint64_t>(scramble * 8 + kind));
}

/// Of everything a source stands for, half the width.
Widths tightened(Widths w, tolerance::Source source) {
  using tolerance::Source;
  const auto halve = [](std::initializer_list<double*> list) {
    for (double* width : list) *width /= 2;
  };
  switch (source) {
    case Source::pitch_circle:
      halve({&w.pitch_radius});
      break;
    case Source::roller_place:
      halve({&w.roller_position});
      break;
    case Source::roller_radius:
      halve({&w.roller_radius, &w.roller_radius_batch});
      break;
    case Source::profile:
      halve({&w.profile_form, &w.profile_batch});
      break;
    case Source::holes:
      halve({&w.hole_position, &w.hole_radius, &w.hole_radius_batch});
      break;
    case Source::pins:
      halve({&w.pin_position, &w.pin_radius, &w.pin_radius_batch});
      break;
    case Source::temperature:
      break;
  }
  return w;
}

/// Largest force, lobes that carry, sum of F^p at one solved angle.
struct Pressed {
  double largest = 0, loaded = 0, damage = 0;
};
Pressed pressed(const ElasticSolver& solver) {
  constexpr double kCarries = 1e-3;  // of the largest force
  Pressed out;
  for (const contact::ElasticLoads& disc : solver.discs())
    for (const double force : disc.ring_force) {
      out.largest = std::max(out.largest, force);
      out.damage += std::pow(force, kPairExponent);
    }
  int loaded = 0;
  for (const contact::ElasticLoads& disc : solver.discs())
    for (const double force : disc.ring_force) loaded += force > kCarries * out.largest ? 1 : 0;
  out.loaded = static_cast<double>(loaded) / static_cast<double>(solver.discs().size());
  return out;
}

}  // namespace

double quantile_of(std::vector<double> values, double share) {
  std::sort(values.begin(), values.end());
  return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
}

Result<MadeUnits> made_units(const Drive& drive, const contact::ElasticDisc& disc, const BodyTemperatures& cold,
                             const BodyTemperatures& warm, const MadeOptions& options) {
  const range::Stage& stage = drive.build.last();
  const mechanism::StageGeometry& g = stage.geometry;
  const Result<Widths> widths = tolerance::widths_of(stage.manufacture, g, options.grade);
  if (!widths) return widths.errors();
  const Growth growth(stage, cold, warm);
  const PlayOfUnits play(g);
  const auto play_of = [&](const MadeUnit& unit) {
    return UnitPlay{play.of(unit, 0), play.of(unit, growth.at(unit.warmth))};
  };
  MadeUnits out;
  out.widths = *widths;
  for (int s = 0; s < kScrambles; ++s) {
    const UnitSampler sampler(g, *widths, seed_of(options.seed, s, 0));
    for (int i = 0; i < options.unloaded / kScrambles; ++i)
      out.plays.push_back(play_of(sampler.unit(static_cast<std::uint32_t>(i))));
  }

  std::vector<MadeUnit> units;
  for (int s = 0; s < kScrambles; ++s) {
    const UnitSampler sampler(g, *widths, seed_of(options.seed, s, 1));
    for (int i = 0; i < options.loaded / kScrambles; ++i) {
      MadeUnit unit = sampler.unit(static_cast<std::uint32_t>(i));
      UnitLoads loads;
      loads.play = play_of(unit);
      out.loads.push_back(loads);
      // A disc that has grown is a ring of rollers that stand closer.
      for (double& radial : unit.offsets.roller_radial) radial -= growth.at(unit.warmth);
      const Errors errors = contact::check_offsets(unit.offsets, g);
      if (!errors.empty())
        return model_error("manufacture", fmt::format("{} {}", errors[0].path, errors[0].offending),
                           "lets a part stray by a tenth of its own size; give the tolerances of finished parts.");
      units.push_back(std::move(unit));
    }
  }

  ElasticSolver solver(disc);
  const auto angles = tolerance::stated_angles(g);
  std::vector<double> largest(units.size()), damage(units.size());
  std::vector<int> solved(units.size());
  double perfect_damage = 0;
  const double torque = drive.requirement.torque;
  for (const double angle : angles) {
    solver.set_offsets({});
    solver.forget();
    if (const contact::Outcome outcome = solver.solve(angle, torque); outcome != contact::Outcome::converged)
      return contact::outcome_error(outcome, torque);
    const Pressed perfect = pressed(solver);
    out.perfect_force = std::max(out.perfect_force, perfect.largest);
    out.perfect_loaded += perfect.loaded / tolerance::kAngles;
    perfect_damage += perfect.damage;
    for (std::size_t u = 0; u < units.size(); ++u) {
      tolerance::face_lobes(g, angle, units[u]);
      solver.set_offsets(units[u].offsets);
      contact::Outcome outcome = solver.solve(angle, torque);
      if (outcome != contact::Outcome::converged) {
        solver.forget();
        outcome = solver.solve(angle, torque);
      }
      if (outcome != contact::Outcome::converged) {
        solver.forget();
        continue;
      }
      const Pressed found = pressed(solver);
      ++solved[u];
      largest[u] = std::max(largest[u], found.largest);
      damage[u] += found.damage;
      out.loads[u].loaded += found.loaded / tolerance::kAngles;
    }
  }
  for (std::size_t u = 0; u < units.size(); ++u) {
    out.loads[u].solved = solved[u] == tolerance::kAngles;
    out.loads[u].force_ratio = largest[u] / out.perfect_force;
    out.loads[u].damage_ratio = damage[u] / perfect_damage;
  }
  if (!options.sensitivities) return out;

  constexpr int kBase = 256;
  const UnitSampler sampler(g, *widths, seed_of(options.seed, 0, 2));
  tolerance::Sources all_twin;
  all_twin.fill(true);
  std::vector<double> a, b;
  std::vector<std::vector<double>> ab(tolerance::kSources);
  for (std::uint32_t i = 0; i < kBase; ++i) {
    const auto figure = [&](const tolerance::Sources& twin) {
      const MadeUnit unit = sampler.unit(i, twin);
      return play.of(unit, growth.at(unit.warmth)).lost_motion;
    };
    a.push_back(figure({}));
    b.push_back(figure(all_twin));
    for (std::size_t source = 0; source < tolerance::kSources; ++source) {
      tolerance::Sources twin{};
      twin[source] = true;
      ab[source].push_back(figure(twin));
    }
  }
  out.of_lost_motion = uncertainty::indices_of(a, b, ab);
  for (std::size_t source = 0; source < tolerance::kSources; ++source) {
    const UnitSampler finer(g, tightened(*widths, static_cast<tolerance::Source>(source)), seed_of(options.seed, 0, 3));
    std::vector<double> lost;
    int preloaded = 0;
    for (std::uint32_t i = 0; i < kBase; ++i) {
      const UnitPlay unit = play_of(finer.unit(i));
      lost.push_back(unit.assembled.widest);
      preloaded += unit.running.lost_motion < 0 ? 1 : 0;
    }
    out.tightened_lost_motion.push_back(quantile_of(std::move(lost), 0.95));
    out.tightened_preloaded.push_back(static_cast<double>(preloaded) / kBase);
  }
  return out;
}

}  // namespace lobewise::drive
