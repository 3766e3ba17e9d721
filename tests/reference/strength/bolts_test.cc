// Threads and bolts against printed tables, all from memory.
#include "engine/strength/bolts.h"

#include <gtest/gtest.h>

namespace lobewise::strength {
namespace {

TEST(Published, StressAreaOfCoarseThreads_ISO_898_1) {
  // ISO 898-1, table of nominal stress areas [mm2] (from memory); half a unit of the last printed digit.
  const struct {
    double thread, area, half_digit;
  } rows[] = {{5, 14.2, 0.05}, {6, 20.1, 0.05}, {8, 36.6, 0.05}, {10, 58.0, 0.05}, {12, 84.3, 0.05},
              {14, 115, 0.5},  {16, 157, 0.5},  {20, 245, 0.5},  {24, 353, 0.5},   {30, 561, 0.5},
              {36, 817, 0.5},  {42, 1120, 5},   {48, 1470, 5}};
  for (const auto& row : rows) {
    const auto area = stress_area(row.thread * 1e-3);
    ASSERT_TRUE(area.has_value()) << row.thread;
    EXPECT_NEAR(*area * 1e6, row.area, row.half_digit) << row.thread;
  }
  EXPECT_FALSE(stress_area(13e-3).has_value());
}

TEST(Published, PreloadOfATightenedBolt_VDI_2230) {
  // VDI 2230, assembly preload of M16, 8.8, friction 0.12: 80.9 kN (from memory). The scatter of a torque wrench, 1.6,
  // leaves 50.6 kN; our share of R_p A_s gives 50.1 kN.
  const double left = kPreload.nominal * proof_stress(BoltClass::c8_8) * *stress_area(16e-3);
  EXPECT_NEAR(left, 80.9e3 / 1.6, 0.02 * 80.9e3 / 1.6);
}

}  // namespace
}  // namespace lobewise::strength
