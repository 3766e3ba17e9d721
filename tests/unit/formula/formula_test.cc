// The recording scalar, its printers, and steps made from it.

#include <gtest/gtest.h>

#include "engine/base/formula/print.h"
#include "engine/base/formula/record.h"

namespace lobewise::formula {
namespace {

template <class X>
X line_pressure(const X& force, const X& modulus, const X& length, const X& radius) {
  return sqrt(force * modulus / (pi<X>() * length * radius));
}

/// Friction of a bearing, with two values named inside and a branch.
template <class X>
X bearing_loss(const X& f_0, const X& f_1, const X& nu_n, const X& d_m, const X& load, const X& speed) {
  const X none = named("M_0", "without load", Quantity::torque,
                       choose(
                           less(nu_n, X(2000)), [&] { return X(160e-7) * f_0 * pow(d_m, 3); },
                           [&] { return X(1e-7) * f_0 * pow(nu_n, X(2.0 / 3)) * pow(d_m, 3); }));
  const X loaded = named("M_1", "under load", Quantity::torque, f_1 * load * d_m);
  return (none + loaded) * speed;
}

Term a() { return input("a", "first", 3); }
Term b() { return input("b", "second", 5); }
Term c() { return input("c", "third", 2); }

TEST(Formula, OneTemplateServesBothScalars) {
  const Term p = line_pressure(input("F", "force", 1840), input("E*", "modulus", 113.2e9), input("b", "length", 0.019),
                               input("rho", "radius", 0.0063));
  EXPECT_EQ(p.value(), line_pressure(1840.0, 113.2e9, 0.019, 0.0063));
  EXPECT_EQ(plain(*p.node()), "sqrt(F * E* / (pi * b * rho))");
  EXPECT_EQ(text(*p.node()), "√(F · E* / (π · b · ρ))");
}

TEST(Formula, BracketsOnlyWhereTheGrammarNeedsThem) {
  EXPECT_EQ(plain(*(a() - (b() - c())).node()), "a - (b - c)");
  EXPECT_EQ(plain(*(a() - b() - c()).node()), "a - b - c");
  EXPECT_EQ(plain(*(a() / (b() * c())).node()), "a / (b * c)");
  EXPECT_EQ(plain(*(a() / (b() / c())).node()), "a / (b / c)");
  EXPECT_EQ(plain(*((a() + b()) * c()).node()), "(a + b) * c");
  EXPECT_EQ(plain(*(-pow(a(), c())).node()), "-(a ^ c)");
  EXPECT_EQ(plain(*pow(-a(), c()).node()), "(-a) ^ c");
  EXPECT_EQ(plain(*pow(a(), pow(b(), c())).node()), "a ^ (b ^ c)");
  EXPECT_EQ(plain(*pow(Term(-2.0), c()).node()), "(-2) ^ c");
  EXPECT_EQ(plain(*(a() * Term(1e-7)).node()), "a * 1e-07");
}

TEST(Formula, BranchesAreRecordedWhole) {
  const Term low = bearing_loss(input("f_0", "", 2), input("f_1", "", 4e-4), input("x", "", 500), input("d_m", "", 0.1),
                                input("P", "", 9000), input("w", "", 153));
  EXPECT_DOUBLE_EQ(low.value(), bearing_loss(2.0, 4e-4, 500.0, 0.1, 9000.0, 153.0));
  Working working;
  record(working, "P_b", "power lost", Quantity::power, low, "somewhere");
  ASSERT_EQ(working.size(), 3u);
  EXPECT_EQ(working[0].symbol, "M_0");
  EXPECT_EQ(plain(*working[0].tree),
            "if(x < 2000, 1.6e-05 * f_0 * d_m ^ 3, 1e-07 * f_0 * x ^ 0.6666666666666666 * d_m ^ 3)");
  EXPECT_EQ(working[1].symbol, "M_1");
  EXPECT_EQ(plain(*working[2].tree), "(M_0 + M_1) * w");
  ASSERT_EQ(working[2].inputs.size(), 3u);
  EXPECT_EQ(working[2].inputs[0].symbol, "M_0");
  EXPECT_EQ(working[2].inputs[0].value, working[0].value);
  for (const WorkingStep& step : working) EXPECT_EQ(fault_of(step), "");
}

TEST(Formula, ListsWorkElementByElementAndFold) {
  const Term force = inputs("F", "lobe forces", {1, 2, 3}), arm = inputs("l", "lever arms", {4, 5, 6});
  const Term torque = sum(force * arm);
  EXPECT_EQ(torque.value(), 32);
  EXPECT_EQ(plain(*torque.node()), "sum(F * l)");
  EXPECT_EQ(mean(force).value(), 2);
  EXPECT_EQ(largest(abs(force - Term(3.0))).value(), 2);
  Working working;
  record_solved(working, "beta", "rotation", Quantity::angle, 0.1, torque - input("T", "torque", 32), 1e-9, "derived");
  ASSERT_EQ(working.size(), 1u);
  EXPECT_EQ(working[0].inputs[0].list, (std::vector<double>{1, 2, 3}));
}

TEST(Formula, SpreadsheetsGetTheirOwnWords) {
  const auto cell = [](const Symbol& symbol) { return "in_" + symbol.name; };
  EXPECT_EQ(spreadsheet(*(ln(a()) + lg(b()) + pi<Term>()).node(), cell), "LN(in_a) + LOG10(in_b) + PI()");
  EXPECT_EQ(spreadsheet(*atan2(a(), b()).node(), cell), "ATAN2(in_b, in_a)");
  EXPECT_EQ(spreadsheet(*sum(inputs("F", "", {1, 2}) * c()).node(), cell), "SUMPRODUCT(in_F * in_c)");
  EXPECT_EQ(spreadsheet(*choose_between(less(a(), b()), a(), b()).node(), cell), "IF(in_a < in_b, in_a, in_b)");
}

TEST(Formula, MathmlNestsFractionsRootsAndIndices) {
  EXPECT_EQ(mathml(*sqrt(input("F_max", "", 1) / input("rho", "", 2)).node()),
            "<msqrt><mfrac><msub><mi>F</mi><mi>max</mi></msub><mi>ρ</mi></mfrac></msqrt>");
  EXPECT_EQ(mathml(*Term(1e-7).node()), "<mrow><msup><mn>10</mn><mn>−7</mn></msup></mrow>");
}

TEST(Formula, FaultsAreNamed) {
  Working working;
  record(working, "y", "", Quantity::number, input("a", "", 1) + input("a", "", 2), "");
  record(working, "y", "", Quantity::number, input("sqrt", "", 1) + Term(1.0), "");
  record(working, "y", "", Quantity::number, input("a b", "", 1) + Term(1.0), "");
  record(working, "y", "", Quantity::number, input("a", "", 1) / Term(0.0), "");
  EXPECT_EQ(fault_of(working[0]), "a stands for two values");
  EXPECT_EQ(fault_of(working[1]), "'sqrt' cannot be read as a symbol");
  EXPECT_EQ(fault_of(working[2]), "'a b' cannot be read as a symbol");
  EXPECT_EQ(fault_of(working[3]), "y is not finite");
}

}  // namespace
}  // namespace lobewise::formula
