// What scatter does on a bending disc: quantiles of an independent model, 40 samples a row, which are themselves known
// to some ten per cent (and to a lobe); drawn here with 400.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/contact/elastic_disc.h"
#include "engine/uncertainty/distributions.h"
#include "engine/uncertainty/sobol_sequence.h"
#include "tests/support/source_dir.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact;

ElasticModel model_of(const std::string& name) {
  std::ifstream file(test::source_dir() + "/tests/oracle/elastic/cases/" + name + ".json");
  const auto json = nlohmann::json::parse(file);
  const auto& p = json["params"];
  const auto& c = json["config"];
  ElasticModel m;
  const auto mm = [](const nlohmann::json& value) { return value.get<double>() * 1e-3; };
  m.stage.lobes = p["N"];
  m.stage.pitch_radius = mm(p["R"]);
  m.stage.roller_radius = mm(p["r"]);
  m.stage.eccentricity = mm(p["e"]);
  m.stage.width = mm(p["b"]);
  m.stage.discs = 1;
  m.stage.pins = p["M"];
  m.stage.pin_circle_radius = mm(p["Rw"]);
  m.stage.pin_radius = mm(p["rw"]);
  m.stage.hole_clearance = mm(p["cl_hole"]);
  m.stage.roller_offset = mm(p["dr"]);
  m.stage.radius_offset = mm(p["dR"]);
  m.bore_radius = mm(c["rb"]);
  m.rollers.count = c["brg"]["nb"];
  m.rollers.radius = mm(c["brg"]["r"]);
  m.rollers.phase = c["brg"]["phase"];
  m.rollers.clearance = mm(c["brg"]["cl"]);
  if (!c["rc"].is_null()) m.pin_core_radius = mm(c["rc"]);
  m.depth = mm(c["h"]);
  return m;
}

class Draw {
 public:
  explicit Draw(std::uint64_t unit) : unit_(unit) {}
  std::vector<double> normal(int count, double deviation) {
    std::vector<double> list;
    for (int i = 0; i < count; ++i) {
      const double p = (static_cast<double>(uncertainty::mixed(unit_, next_++) >> 11U) + 0.5) * 0x1.0p-53;
      list.push_back(deviation * uncertainty::normal_quantile(p));
    }
    return list;
  }

 private:
  std::uint64_t unit_, next_ = 0;
};

struct Row {
  double torque, deviation;
  double force[3], loaded[3];  ///< 5, 50, 95 %
};

TEST(Scatter, LargestForceAndLoadedLobesOfABendingDisc) {
  const ElasticModel model = model_of("n17_brg");
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok()) << disc.errors()[0].message;
  ElasticSolver solver(*disc);
  for (const Row& row :
       {Row{300, 4e-6, {1.27, 1.86, 2.71}, {8, 10, 13}}, Row{900, 4e-6, {0.99, 1.18, 1.41}, {9, 10, 12}}}) {
    solver.set_offsets({});
    solver.forget();
    ASSERT_EQ(solver.solve(0.3, row.torque), Outcome::converged);
    const auto& perfect = solver.discs()[0].ring_force;
    const double largest = *std::max_element(perfect.begin(), perfect.end());
    EXPECT_EQ(std::count_if(perfect.begin(), perfect.end(), [](double f) { return f > 0; }), 10);
    std::vector<double> ratio, loaded;
    constexpr int kUnits = 400;
    for (int u = 0; u < kUnits; ++u) {
      Draw draw(static_cast<std::uint64_t>(1000 + u));
      const double s = row.deviation;
      const int Z = model.stage.rollers(), M = model.stage.pins;
      PartOffsets unit;
      unit.roller_radial = draw.normal(Z, s);
      unit.roller_tangential = draw.normal(Z, s);
      unit.roller_radius = draw.normal(Z, s / 4);
      unit.hole_radial = {draw.normal(M, s)};
      unit.hole_tangential = {draw.normal(M, s)};
      unit.hole_radius = {draw.normal(M, s / 2)};
      unit.pin_radial = draw.normal(M, s);
      unit.pin_tangential = draw.normal(M, s);
      unit.pin_radius = draw.normal(M, s / 4);
      solver.set_offsets(unit);
      ASSERT_EQ(solver.solve(0.3, row.torque), Outcome::converged) << u;
      const auto& force = solver.discs()[0].ring_force;
      ratio.push_back(*std::max_element(force.begin(), force.end()) / largest);
      loaded.push_back(static_cast<double>(std::count_if(force.begin(), force.end(), [](double f) { return f > 0; })));
    }
    std::sort(ratio.begin(), ratio.end());
    std::sort(loaded.begin(), loaded.end());
    const std::size_t at[] = {kUnits / 20, kUnits / 2, kUnits - kUnits / 20 - 1};
    for (int q = 0; q < 3; ++q) {
      EXPECT_NEAR(ratio[at[q]] / row.force[q], 1, 0.1) << row.torque << " " << q << " " << ratio[at[q]];
      EXPECT_NEAR(loaded[at[q]], row.loaded[q], 1) << row.torque << " " << q;
    }
  }
}

/// A unit solved after another is the unit solved by itself.
TEST(Scatter, WhatWasSolvedBeforeDoesNotMatter) {
  ElasticModel model = model_of("n17_brg");
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok());
  ElasticSolver one(*disc), fresh(*disc);
  Draw draw(5);
  PartOffsets first, second;
  first.roller_radial = draw.normal(18, 4e-6);
  second.roller_radial = draw.normal(18, 4e-6);
  ASSERT_EQ(one.solve(0.3, 300), Outcome::converged);
  one.set_offsets(first);
  ASSERT_EQ(one.solve(0.3, 300), Outcome::converged);
  one.set_offsets(second);
  ASSERT_EQ(one.solve(0.3, 300), Outcome::converged);
  fresh.set_offsets(second);
  ASSERT_EQ(fresh.solve(0.3, 300), Outcome::converged);
  for (std::size_t k = 0; k < 18; ++k)
    EXPECT_NEAR(one.discs()[0].ring_force[k], fresh.discs()[0].ring_force[k], 1e-4 * 3000) << k;
}

}  // namespace
