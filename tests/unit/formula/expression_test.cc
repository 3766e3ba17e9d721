#include "engine/base/formula/expression.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/formula/print.h"
#include "engine/base/formula/term.h"

namespace {
using lobewise::formula::Expression;

double value(const std::string& text, const std::vector<double>& x = {}) {
  std::vector<std::string> names;
  for (std::size_t i = 1; i <= x.size(); ++i) names.push_back("x_" + std::to_string(i));
  const auto read = Expression::read(text, names);
  EXPECT_TRUE(read.ok()) << text << ": " << (read.ok() ? "" : read.errors()[0].message);
  return read.ok() ? read->value(x) : NAN;
}

std::string fault(const std::string& text) {
  const auto read = Expression::read(text, {"x_1", "E*", "p'"});
  return read.ok() ? std::string("none") : read.errors()[0].message;
}

TEST(Expression, ComputesTheGrammar) {
  EXPECT_DOUBLE_EQ(value("1 + 2 * 3 - 8 / 4 / 2"), 6);
  EXPECT_DOUBLE_EQ(value("-(2 ^ 2) + (-2) ^ 2"), 0);
  EXPECT_DOUBLE_EQ(value("2 * -3"), -6);
  EXPECT_DOUBLE_EQ(value("10 ^ -3 * 1e3"), 1);
  EXPECT_DOUBLE_EQ(value("x_1*x_2 + .5", {2, 3}), 6.5);
  EXPECT_DOUBLE_EQ(value("if(x_1 < 2, 1, ln(-1))", {1}), 1);  // one branch only
  EXPECT_DOUBLE_EQ(value("if(x_1 >= 2, ln(-1), 4)", {1}), 4);
  EXPECT_DOUBLE_EQ(value("if(x_1 > 0, 1, 2) + if(x_1 <= 1, 10, 20)", {1}), 11);
  EXPECT_DOUBLE_EQ(value("lerp(1, 3, 0.25)"), 1.5);
  EXPECT_DOUBLE_EQ(value("min(3, 1, 2) + max(3, 1, 2) + sum(1, 2) + mean(1, 3)"), 9);
  EXPECT_DOUBLE_EQ(value("round(2.5) + floor(-1.5) + ceil(1.2) + abs(-4)"), 7);
  EXPECT_NEAR(value("sin(pi / 6) + cos(0) + tan(0) + exp(ln(2)) + lg(100) + sqrt(9)"), 8.5, 1e-12);
  EXPECT_NEAR(value("asin(1) + acos(1) + atan(1) + atan2(1, -1)"), 1.5 * M_PI, 1e-12);
  EXPECT_NEAR(value("sinh(1) ^ 2 - cosh(1) ^ 2 + tanh(0) + gammaln(5)"), std::log(24) - 1, 1e-12);
  EXPECT_TRUE(std::isnan(value("ln(-1)")));
  const auto marked = Expression::read("E* / p' * x_1", {"x_1", "E*", "p'"});
  ASSERT_TRUE(marked.ok());
  EXPECT_DOUBLE_EQ(marked->value({2, 6, 3}), 4);
}

TEST(Expression, NamesThePlaceOfAFault) {
  EXPECT_NE(fault("1 + ").find("character 5"), std::string::npos);
  EXPECT_NE(fault("2 * y + 1").find("character 5: 'y' is no symbol"), std::string::npos);
  EXPECT_NE(fault("(1 + 2").find("closing bracket"), std::string::npos);
  EXPECT_NE(fault("1 2").find("character 3"), std::string::npos);
  EXPECT_NE(fault("1 < 2").find("character 3"), std::string::npos);
  EXPECT_NE(fault("foo(1)").find("'foo' is no function"), std::string::npos);
  EXPECT_NE(fault("sqrt(1, 2)").find("takes 1 value"), std::string::npos);
  EXPECT_NE(fault("lerp(1, 2)").find("takes 3 values"), std::string::npos);
  EXPECT_NE(fault("if(1, 2, 3)").find("< <= > >="), std::string::npos);
  EXPECT_NE(fault("-x_1 ^ 2").find("two ways"), std::string::npos);
  EXPECT_NE(fault("2 ^ 3 ^ 2").find("two ways"), std::string::npos);
  EXPECT_EQ(fault("-(x_1 ^ 2) + -sqrt(x_1 ^ 2)"), "none");
  EXPECT_NE(fault("1e999").find("no number"), std::string::npos);
  EXPECT_NE(fault("").find("character 1"), std::string::npos);
  EXPECT_NE(fault("1 + \xCF\x80").find("character 5"), std::string::npos);
}

TEST(Expression, IsBounded) {
  EXPECT_NE(fault(std::string(5000, '1')), "none");
  EXPECT_NE(fault(std::string(2000, '(')).find("too many brackets"), std::string::npos);
  EXPECT_NE(fault(std::string(2000, '-') + "1").find("too many signs"), std::string::npos);
  std::string sum = "1";
  for (int i = 0; i < 900; ++i) sum += "+1";
  EXPECT_NE(fault(sum).find("too many operations"), std::string::npos);
}

/// What the printer writes the reader computes.
TEST(Expression, ReadsWhatIsPrinted) {
  using namespace lobewise::formula;
  const Term a = input("a", "", 3.2), b = input("b", "", -0.7);
  const Term result = -pow(a + b, pow(a, Term(0.5))) / (a - (b - 2)) * sqrt(a) -
                      choose(
                          less(a, b), [&] { return a; }, [&] { return max(a, b) * lerp(a, b, Term(0.3)); });
  const auto read = Expression::read(plain(*result.node()), {"a", "b"});
  ASSERT_TRUE(read.ok()) << plain(*result.node()) << read.errors()[0].message;
  EXPECT_NEAR(read->value({3.2, -0.7}), result.value(), 1e-12);
}

}  // namespace
