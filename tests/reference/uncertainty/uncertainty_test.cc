// Published figures of uncertainty and sensitivity. Beside each its source; tolerance: half a unit of the last printed
// digit, or the sampling error where samples are drawn.
#include <gsl/gsl_cdf.h>
#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/constants.h"
#include "engine/base/formula/expression.h"
#include "engine/tolerance/iso_286.h"
#include "engine/uncertainty/coverage.h"
#include "engine/uncertainty/propagation.h"

namespace {
using namespace lobewise;
using namespace lobewise::uncertainty;
using Kind = Distribution::Kind;

Distribution normal(double mean, double deviation) { return {Kind::normal, mean, deviation, 0, 0, 0}; }
Distribution rectangular(double low, double high) { return {Kind::rectangular, 0, 0, low, high, 0}; }
Distribution student(double mean, double scale, double degrees) { return {Kind::student, mean, scale, 0, 0, degrees}; }

double sum(const std::vector<double>& x) {
  double s = 0;
  for (const double value : x) s += value;
  return s;
}

TEST(Distributions, MeetTheScientificLibrary) {
  for (const double p : {1e-9, 1e-4, 0.005, 0.3, 0.5, 0.77, 0.975, 0.999999}) {
    EXPECT_NEAR(normal_quantile(p), gsl_cdf_ugaussian_Pinv(p), 1e-9 * (1 + std::abs(gsl_cdf_ugaussian_Pinv(p)))) << p;
    for (const double degrees : {1.0, 2.0, 5.5, 30.0, 1000.0}) {
      const double t = gsl_cdf_tdist_Pinv(p, degrees);
      EXPECT_NEAR(student_quantile(p, degrees), t, 1e-7 * (1 + std::abs(t))) << p << " " << degrees;
      EXPECT_NEAR(student_share(t, degrees), p, 1e-7 * p) << p << " " << degrees;  // the library's own inverse
    }
    for (const double a : {0.5, 3.0, 40.0})
      for (const double b : {1.0, 2.5, 197.0})
        EXPECT_NEAR(incomplete_beta(a, b, beta_quantile(a, b, p)), p, 1e-9) << p << " " << a << " " << b;
  }
  // Closed forms of one and two degrees of freedom.
  for (const double p : {1e-6, 0.01, 0.4, 0.975}) {
    EXPECT_NEAR(student_quantile(p, 1), -1 / std::tan(kPi * p), 1e-12 / p) << p;
    EXPECT_NEAR(student_quantile(p, 2), (2 * p - 1) / std::sqrt(2 * p * (1 - p)), 1e-11 / std::sqrt(p)) << p;
  }
  for (const double x : {0.01, 0.2, 0.5, 0.93})
    for (const double a : {0.5, 3.0, 40.0}) EXPECT_NEAR(incomplete_beta(a, 7, x), gsl_cdf_beta_P(x, a, 7), 1e-12);
}

// JCGM 100:2008, H.1 end gauge: components 25, 9.7, 2.9, 16.6 nm with 18, 25.6, 50, 2 degrees of freedom: u_c 32 nm,
// 16 effective degrees, t_99 2.92, U_99 93 nm.
TEST(Gum, EndGauge) {
  const auto found =
      propagate({student(0, 25, 18), student(0, 9.7, 25.6), student(0, 2.9, 50), student(0, 16.6, 2)}, sum, 1000, 1);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->gum_deviation, 32, 0.5);
  EXPECT_EQ(std::floor(found->gum_degrees), 16);
  const double t = student_quantile(0.995, std::floor(found->gum_degrees));
  EXPECT_NEAR(t, 2.92, 0.005);
  EXPECT_NEAR(t * found->gum_deviation, 93, 0.5);
}

// JCGM 100:2008, G.4 (Welch and Satterthwaite): 0.57 with 9 degrees, 0.25 with infinitely many: 12.8.
TEST(Gum, EffectiveDegrees) {
  const auto found = propagate({student(0, 0.57, 9), normal(0, 0.25)}, sum, 100, 1);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->gum_degrees, 12.8, 0.05);
}

// JCGM 101:2008, 9.2.2: four normal inputs, 9.2.3: four rectangular ones of the same deviation (exact half width
// 3.87941 by the sum's own distribution), 9.2.4: one of them ten times as wide.
TEST(Jcgm101, AdditiveModel) {
  const int samples = 1 << 17;
  auto found = propagate({normal(0, 1), normal(0, 1), normal(0, 1), normal(0, 1)}, sum, samples, 3);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->mean, 0, 0.005);
  EXPECT_NEAR(found->deviation, 2.00, 0.005);
  EXPECT_NEAR(found->high_95, 3.92, 0.04);
  EXPECT_NEAR(found->low_95, -3.92, 0.04);
  EXPECT_NEAR(found->high_95 - found->low_95, 2 * 3.92, 0.02);
  EXPECT_NEAR(found->gum_deviation, 2, 1e-9);

  const double a = std::sqrt(3.0);
  const Distribution one = rectangular(-a, a);
  found = propagate({one, one, one, one}, sum, samples, 3);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->high_95 - found->low_95, 2 * 3.87941, 0.02);
  EXPECT_NEAR(found->deviation, 2.00, 0.005);

  found = propagate({one, one, one, rectangular(-10 * a, 10 * a)}, sum, samples, 3);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->deviation, 10.15, 0.01);
  EXPECT_NEAR(found->high_95 - found->low_95, 2 * 17.0, 0.1);
  EXPECT_NEAR(found->gum_deviation, 10.15, 0.005);
}

// ln x of x uniform in 0.1 … 1.1 (a published teaching example of uncertainty evaluation, NPL report DEM-ES-011): first
// order -0.511 +- 0.481, samples -0.665 +- 0.606, shortest 95 % -1.895 … 0.095. The density of ln x rises, so that the
// shortest interval ends at ln 1.1 = 0.0953 and begins at ln 0.15 = -1.8971: the printed -1.895 was itself drawn.
TEST(Jcgm101, LogarithmOfAUniform) {
  const auto expression = formula::Expression::read("ln(x_1)", {"x_1"});
  ASSERT_TRUE(expression.ok());
  const auto found = propagate(
      {rectangular(0.1, 1.1)}, [&](const auto& x) { return expression->value(x); }, 1 << 16, 5);
  ASSERT_TRUE(found.ok());
  EXPECT_NEAR(found->gum_mean, -0.511, 0.0005);
  EXPECT_NEAR(found->gum_deviation, 0.481, 0.0005);
  EXPECT_NEAR(found->mean, -0.665, 0.0005);
  EXPECT_NEAR(found->deviation, 0.606, 0.0005);
  EXPECT_NEAR(found->low_95, std::log(0.15), 0.0005);
  EXPECT_NEAR(found->low_95, -1.895, 0.003);
  EXPECT_NEAR(found->high_95, std::log(1.1), 0.0005);
}

// Ishigami function, a 7, b 0.1 (closed forms: Saltelli and others, Global Sensitivity Analysis, 2008, from memory).
TEST(Sensitivity, Ishigami) {
  const auto expression =
      formula::Expression::read("sin(x_1) + 7 * sin(x_2) ^ 2 + 0.1 * x_3 ^ 4 * sin(x_1)", {"x_1", "x_2", "x_3"});
  ASSERT_TRUE(expression.ok());
  const std::vector<Interval> ranges(3, {-kPi, kPi});
  const auto found = sobol_indices(
      ranges, [&](const auto& x) { return expression->value(x); }, 1 << 14, 7);
  ASSERT_TRUE(found.ok());
  const double first[] = {0.313905, 0.442411, 0}, total[] = {0.557589, 0.442411, 0.243684};
  EXPECT_NEAR(found->mean, 3.5, 0.002);
  EXPECT_NEAR(found->variance, 13.844588, 0.03);  // a quarter of the error of random points
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(found->first[i], first[i], 0.003) << i;
    EXPECT_NEAR(found->total[i], total[i], 0.003) << i;
  }
}

// Sobol's g function, a = (0, 1, 4.5, 9, 99, 99, 99, 99): V_i = 1 / (3 (1 + a_i)^2), V = prod(1 + V_i) - 1.
TEST(Sensitivity, SobolG) {
  const double a[] = {0, 1, 4.5, 9, 99, 99, 99, 99};
  const auto g = [&](const std::vector<double>& x) {
    double product = 1;
    for (std::size_t i = 0; i < 8; ++i) product *= (std::abs(4 * x[i] - 2) + a[i]) / (1 + a[i]);
    return product;
  };
  const auto found = sobol_indices(std::vector<Interval>(8, {0, 1}), g, 1 << 14, 11);
  ASSERT_TRUE(found.ok());
  const double first[] = {0.716192, 0.179048, 0.023676, 0.007162}, total[] = {0.787144, 0.242198, 0.034317, 0.010460};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(found->first[i], first[i], 0.003) << i;
    EXPECT_NEAR(found->total[i], total[i], 0.003) << i;
  }
  for (std::size_t i = 4; i < 8; ++i) EXPECT_NEAR(found->first[i], 7.16e-5, 5e-4);
}

// Clopper and Pearson: 3 of 200: 0.31 … 4.32 %; none of 200: at most 1.49 %. Wilks: 59 and 93 trials for 95 % with 95 %
// confidence, 299 for 99 % (common figures of the method, from memory).
TEST(Coverage, PublishedFigures) {
  const ShareInterval three = share_interval(3, 200, 0.95);
  EXPECT_NEAR(three.low, 0.0031, 0.00005);
  EXPECT_NEAR(three.high, 0.0432, 0.00005);
  EXPECT_NEAR(share_at_most(0, 200, 0.95), 0.0149, 0.00005);
  EXPECT_EQ(share_interval(0, 200, 0.95).low, 0);
  EXPECT_EQ(share_interval(200, 200, 0.95).high, 1);
  EXPECT_EQ(wilks_trials(0.95, 0.95, false), 59);
  EXPECT_EQ(wilks_trials(0.95, 0.95, true), 93);
  EXPECT_EQ(wilks_trials(0.99, 0.95, false), 299);
}

// ISO 286-1, table of grades 5 … 8 [µm] (from memory): the formula rounds to it within half a micrometre, 63 µm of
// 120–180 mm and 40 µm by the standard's own rounding rules.
TEST(Iso286, FormulaRoundsToTheTable) {
  struct Row {
    double diameter;
    double table[4], formula[4];
  };
  for (const Row& row :
       {Row{0.025, {9, 13, 21, 33}, {9.2, 13.1, 20.9, 32.7}}, Row{0.040, {11, 16, 25, 39}, {10.9, 15.6, 25.0, 39.0}},
        Row{0.100, {15, 22, 35, 54}, {15.2, 21.7, 34.8, 54.3}}, Row{0.150, {18, 25, 40, 63}, {17.7, 25.2, 40.3, 63.0}}})
    for (int grade = 5; grade <= 8; ++grade) {
      const auto found = tolerance::grade_tolerance(row.diameter, grade);
      ASSERT_TRUE(found.ok());
      EXPECT_NEAR(*found * 1e6, row.formula[grade - 5], 0.05) << row.diameter << " " << grade;
      EXPECT_NEAR(*found * 1e6, row.table[grade - 5], 0.5) << row.diameter << " " << grade;
    }
  EXPECT_EQ(*tolerance::grade_tolerance(0.03, 6), *tolerance::grade_tolerance(0.019, 6));  // up to and including
  EXPECT_NE(*tolerance::grade_tolerance(0.03, 6), *tolerance::grade_tolerance(0.0301, 6));
  EXPECT_FALSE(tolerance::grade_tolerance(3.2, 6).ok());
  // Above 500 mm: 44, 70, 110 of 500–630 mm, 56, 90, 140 of 800–1000 mm (from memory), rounded by the standard to 5 %.
  EXPECT_NEAR(*tolerance::grade_tolerance(0.53, 6) * 1e6, 44, 1);
  EXPECT_NEAR(*tolerance::grade_tolerance(0.53, 7) * 1e6, 70, 1);
  EXPECT_NEAR(*tolerance::grade_tolerance(0.53, 8) * 1e6, 110, 2);
  EXPECT_NEAR(*tolerance::grade_tolerance(0.9, 6) * 1e6, 56, 1);
  EXPECT_NEAR(*tolerance::grade_tolerance(0.9, 7) * 1e6, 90, 2);
  EXPECT_FALSE(tolerance::grade_tolerance(0.1, 9).ok());
  EXPECT_TRUE(tolerance::grade_tolerance(0.001, 5).ok());
}

}  // namespace
