// The elastic disc against complete contact finite elements (CalculiX, plane strain, elastic seated rollers, elastic
// output pins, the same torque): tests/oracle/fe for the lists; single figures of further runs beside each check, from
// the same study: `F_max` of the largest roller force, `n` loaded rollers. Bounds on dF = largest |F - F_FE| / F_max
// are the ones the independent model reached (0.18, 0.25, 0.33, 0.04 %), plus 0.1 % for a different mesh.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/contact/elastic_disc.h"
#include "tests/support/source_dir.h"

namespace {
using Json = nlohmann::json;
using namespace lobewise::contact;

ElasticModel seventeen(double bore_radius) {
  ElasticModel model;
  model.stage = {17, 0.080, 0.007, 0.003, 0.014, 1, 10, 0.050, 0.008};
  model.bore_radius = bore_radius;
  model.body = BodyState::plane_strain;
  model.table = false;
  return model;
}

struct DiscRun {
  const char* name;
  double bore_radius;
  bool holes;
  bool modified;  ///< +5 um on the roller, -10 um on the pitch radius
  double bound;
};
void PrintTo(const DiscRun& run, std::ostream* out) { *out << run.name; }

class GluedDisc : public testing::TestWithParam<DiscRun> {};

TEST_P(GluedDisc, MeetsFiniteElements) {
  const DiscRun& run = GetParam();
  std::ifstream file(lobewise::test::source_dir() + "/tests/oracle/fe/disc_result_" + run.name + ".json");
  ASSERT_TRUE(file.good());
  const Json fe = Json::parse(file)[0];
  ElasticModel model = seventeen(run.bore_radius);
  model.holes = run.holes;
  model.torque_by_pins = false;
  model.bore = BoreModel::glued;
  if (run.modified) {
    model.stage.roller_offset = 5e-6;
    model.stage.radius_offset = -10e-6;
  }
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok());
  ElasticSolver solver(*disc);
  ASSERT_EQ(solver.solve(0.3, fe["T_from_forces"].get<double>() * 1e-3), Outcome::converged);
  const auto expected = fe["F_fe"].get<std::vector<double>>();
  const double most = *std::max_element(expected.begin(), expected.end());
  for (std::size_t k = 0; k < expected.size(); ++k)
    EXPECT_NEAR(solver.discs()[0].ring_force[k], expected[k], run.bound * most) << k;
  EXPECT_NEAR(solver.output_rotation() / fe["beta"].get<double>(), 1, 0.003);
}

INSTANTIATE_TEST_SUITE_P(Runs, GluedDisc,
                         testing::Values(DiscRun{"A", 0.022, false, false, 0.0028},
                                         DiscRun{"B", 0.022, false, true, 0.0035},
                                         DiscRun{"C", 0.022, true, false, 0.0043},
                                         DiscRun{"D", 0.058, false, false, 0.0014}));

struct PinRun {
  double crank_angle, torque;
  bool modified;
  double largest;  ///< F_max [N], printed to one newton
  int loaded;
};

TEST(DiscOnPins, MeetsFiniteElementsInTheLargestForce) {
  // Bore held in its mean position, torque through ten output pins with rigid cores of 4 mm radius; T printed to 1 N m.
  for (const PinRun& run :
       {PinRun{0.3, 300, false, 1503, 10}, PinRun{0.3, 1501, false, 7800, 10}, PinRun{1.1, 300, false, 1501, 10},
        PinRun{0.3, 300, true, 1904, 6}, PinRun{1.1, 1504, true, 6302, 8}}) {
    ElasticModel model = seventeen(0.022);
    model.bore = BoreModel::mean;
    model.pin_core_radius = 0.004;
    if (run.modified) {
      model.stage.roller_offset = 5e-6;
      model.stage.radius_offset = -10e-6;
    }
    const auto disc = ElasticDisc::build(model);
    ASSERT_TRUE(disc.ok());
    ElasticSolver solver(*disc);
    ASSERT_EQ(solver.solve(run.crank_angle, run.torque), Outcome::converged);
    const auto& forces = solver.discs()[0].ring_force;
    const double most = *std::max_element(forces.begin(), forces.end());
    EXPECT_NEAR(most / run.largest, 1, 0.004) << run.largest;
    EXPECT_EQ(std::count_if(forces.begin(), forces.end(), [&](double force) { return force > 1e-3 * most; }),
              run.loaded)
        << run.largest;
  }
}

TEST(DiscOnPins, BoreModelDecidesTheLargestForce) {
  // 300 N m, bore 22 mm: 1503 N with the mean position held, 1309 N with a glued ring.
  ElasticModel model = seventeen(0.022);
  model.pin_core_radius = 0.004;
  model.bore = BoreModel::glued;
  const auto disc = ElasticDisc::build(model);
  ASSERT_TRUE(disc.ok());
  ElasticSolver solver(*disc);
  ASSERT_EQ(solver.solve(0.3, 300), Outcome::converged);
  const auto& forces = solver.discs()[0].ring_force;
  EXPECT_NEAR(*std::max_element(forces.begin(), forces.end()) / 1309, 1, 0.004);
}

}  // namespace
