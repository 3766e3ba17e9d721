// Contact laws and rigid sharing against finite elements.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <nlohmann/json.hpp>

#include "engine/contact/mesh_solver.h"
#include "tests/support/source_dir.h"

namespace {
using Json = nlohmann::json;
using namespace lobewise::contact;

Json load(const std::string& name) {
  std::ifstream file(lobewise::test::source_dir() + "/tests/oracle/fe/" + name + ".json");
  EXPECT_TRUE(file.good()) << name;
  return Json::parse(file);
}

constexpr double kWidth = 0.014;
constexpr double kRoller = 0.007;

TEST(SingleContact, LogLawMeetsFiniteElements) {
  const Elastic steel;
  LawSettings settings;
  settings.depth = 0.014;
  const ContactLaw log(settings, steel, kWidth, kRoller);
  settings.kind = LawKind::palmgren;
  const ContactLaw palmgren(settings, steel, kWidth, kRoller);
  for (const Json& row : load("single_result")) {
    const std::string name = row["name"];
    const bool concave = name.rfind("concave", 0) == 0;
    const double radius = effective_radius(1 / kRoller, concave ? -50 : 100);
    const double line_load = row["q"].get<double>() * 1e3;
    const double approach = row["approach_fe"].get<double>() * 1e-3;
    EXPECT_NEAR(log.approach(line_load * kWidth, radius) / approach, 1, 0.003) << name;
    const double pressure = hertz_pressure(line_load, radius, contact_modulus(steel, steel)) / 1e6;
    EXPECT_NEAR(pressure / row["syy_max"].get<double>(), 1, 0.005) << name;  // the mesh's own error
    // Palmgren knows no curvature: 8 % off on the conforming side, within 2 % on the convex one.
    const double off = palmgren.approach(line_load * kWidth, radius) / approach - 1;
    if (concave) {
      EXPECT_NEAR(off, 0.08, 0.005) << name;
    } else {
      EXPECT_LT(std::abs(off), 0.025) << name;
    }
  }
}

TEST(Disc, NearlyRigidBodySharesAsTheRigidModel) {
  const Json fe = load("disc_result_D")[0];
  MeshModel model;
  model.stage = {17, 0.080, kRoller, 0.003, kWidth, 1, 10, 0.050, 0.008};
  MeshSolver solver(model);
  ASSERT_EQ(solver.solve(Level::l1, 0.3, fe["T_from_forces"].get<double>() * 1e-3), Outcome::converged);
  const auto& forces = solver.discs()[0].ring_force;
  const auto expected = fe["F_fe"].get<std::vector<double>>();
  const double most = *std::max_element(expected.begin(), expected.end());
  for (std::size_t k = 0; k < forces.size(); ++k) EXPECT_NEAR(forces[k], expected[k], 0.02 * most) << k;
}

}  // namespace
