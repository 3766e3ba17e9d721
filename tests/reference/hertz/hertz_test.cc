// Printed worked examples of Hertz line contact; the source stands beside each.
#include "engine/contact/hertz.h"

#include <gtest/gtest.h>

namespace {
using namespace lobewise::contact;

constexpr double kInch = 0.0254;            // exact
constexpr double kPound = 4.4482216152605;  // lbf in N, exact
constexpr double kPsi = kPound / (kInch * kInch);

// Boresi & Schmidt, Advanced Mechanics of Materials, Ex. 17.3 (p. 621) as transcribed in
// github.com/FOSSEE/Python-Textbook-Companions @d34b2ae: two equal cylinders R = 40 mm, length 20 mm, F = 24.1 kN, E =
// 200 GPa, nu = 0.29. Printed: largest compression with friction 1635.15 MPa = 1.13 p0, largest tension 321.56 MPa =
// 2/9 p0.
TEST(Hertz, EqualCylinders) {
  const Elastic steel{200e9, 0.29};
  const double p0 =
      hertz_pressure(24.1e3 / 0.020, effective_radius(1 / 0.040, 1 / 0.040), contact_modulus(steel, steel));
  EXPECT_NEAR(1.13 * p0 / 1e6, 1635.15, 0.005);
  EXPECT_NEAR(2.0 / 9 * p0 / 1e6, 321.56, 0.005);
  EXPECT_NEAR(p0 / 1e6, 1447.04, 0.1);
}

// Norton, Machine Design, Example 7-2, worksheet EX0702 (read via melakarnets.com, copy of
// scribd.com/document/733678569): cylinder on flat, B = 1/(2 R1) = 0.0833/in, R1 = 6 in, L = 0.875 in, F = 5000 lbf, E
// = 30e6 psi, nu = 0.28 both. F/L was worked back from its average pressure and width: only the half width is an
// independent check.
TEST(Hertz, CylinderOnFlat) {
  const Elastic steel{30e6 * kPsi, 0.28};
  const double line_load = 5000 * kPound / (0.875 * kInch);
  const double radius = effective_radius(1 / (6 * kInch), 0);
  const double modulus = contact_modulus(steel, steel);
  const double a = hertz_half_width(line_load, radius, modulus);
  const double p0 = hertz_pressure(line_load, radius, modulus);
  EXPECT_NEAR(a / kInch, 0.0518, 0.00005);
  EXPECT_NEAR(p0 / kPsi, 70243, 0.5);
  EXPECT_NEAR(line_load / (2 * a) / kPsi, 55169, 0.5);
  EXPECT_NEAR(2 * 0.28 * p0 / kPsi, 39336, 0.5);
}

// Shigley's Mechanical Engineering Design, 9th/10th ed., Prob. 3-142, solution on holooly.com: cast-iron wheel d = 3
// in, w = 1.25 in, F = 250 lbf on a cast-iron flat, E = 14.5e6 psi, nu = 0.211: half width 0.007095 in.
TEST(Hertz, CastIronWheel) {
  const Elastic iron{14.5e6 * kPsi, 0.211};
  const double a = hertz_half_width(250 * kPound / (1.25 * kInch), 1.5 * kInch, contact_modulus(iron, iron));
  EXPECT_NEAR(a / kInch, 0.007095, 0.0000005);
}

// Marks' Calculations for Machine Design (Brown), p. 146 Example 2 (digilib.universitaspertamina.ac.id, page164): wheel
// on flat, d = 1 m, L = 0.1 m, F = 147.5 kN, E = 210 GPa, nu = 0.30: half width squared 8.14e-6 m2; its 0.0028 m
// truncates 0.00285. US version: d = 36 in, L = 4 in, F = 32 500 lbf, E = 30e6 psi: 0.0113 in2.
TEST(Hertz, WheelOnFlat) {
  const Elastic steel{210e9, 0.30};
  const double a = hertz_half_width(147.5e3 / 0.1, 0.5, contact_modulus(steel, steel));
  EXPECT_NEAR(a * a, 8.14e-6, 0.005e-6);
  EXPECT_NEAR(a, 0.0028, 0.0001);
  const Elastic us{30e6 * kPsi, 0.30};
  const double b = hertz_half_width(32500 * kPound / (4 * kInch), 18 * kInch, contact_modulus(us, us)) / kInch;
  EXPECT_NEAR(b * b, 0.0113, 0.00005);
}

// Identity of two printed forms. Carvill, Mechanical Engineer's Data Handbook, p. 52 (digilib page63): roller on
// concave surface, full width w = sqrt(32 F (1-nu^2) / (pi L E (1/r1 - 1/r2))), p_max = 4 F/(pi w L); F = 5 kN, L = 20
// mm, r1 = 8, r2 = 40 mm, E = 206 GPa, nu = 0.3.
TEST(Hertz, RollerInConcaveSurface) {
  const Elastic steel;
  const double radius = effective_radius(1 / 0.008, -1 / 0.040);
  const double modulus = contact_modulus(steel, steel);
  EXPECT_NEAR(2 * hertz_half_width(5e3 / 0.020, radius, modulus) * 1e3, 0.3353954, 0.00000005);
  EXPECT_NEAR(hertz_pressure(5e3 / 0.020, radius, modulus) / 1e6, 949.0585, 0.00005);
}

// en.wikiversity.org/wiki/Introduction_to_Elasticity/Sample_final6 (inputs and concave rule; its answer is an image,
// the value is worked out from them): R = 40 mm inside R = 100 mm, E = 10 GPa, nu = 0.2, 1 kN/m: width 0.255323 mm.
TEST(Hertz, CylinderInCylinder) {
  const Elastic body{10e9, 0.2};
  const double a = hertz_half_width(1e3, effective_radius(1 / 0.040, -1 / 0.100), contact_modulus(body, body));
  EXPECT_NEAR(2 * a * 1e3, 0.255323, 0.000005);
}

}  // namespace
