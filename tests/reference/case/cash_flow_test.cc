// Present value and rate of return against the examples of general-purpose financial libraries; the generator against
// its published stream.
#include "engine/case/cash_flow.h"

#include <gtest/gtest.h>

#include <vector>

#include "engine/case/range.h"

namespace lobewise::cost {
namespace {

// Documentation examples of numpy-financial (from memory), the same in the npm library `financial` 0.2.4, where they
// were read and run; the last digits are the library's output.
TEST(CashFlowReference, RateOfReturn) {
  const std::vector<std::pair<std::vector<double>, double>> cases = {
      {{-100, 39, 59, 55, 20}, 0.2809484211599611},
      {{-100, 0, 0, 74}, -0.09549583034897252},
      {{-100, 100, 0, -7}, -0.08329966618495904},
      {{-5, 10.5, 1, -8, 1}, 0.08859833852439172},
  };
  for (const auto& [flows, expected] : cases) {
    const ReturnRate r = internal_rate_of_return(flows);
    ASSERT_TRUE(r.rate.has_value());
    EXPECT_NEAR(*r.rate, expected, 1e-10);
  }
  EXPECT_TRUE(internal_rate_of_return(cases[3].first).ambiguous);
  EXPECT_FALSE(internal_rate_of_return(cases[0].first).ambiguous);
}

TEST(CashFlowReference, PresentValue) {
  EXPECT_NEAR(net_present_value(0.281, std::vector<double>{-100, 39, 59, 55, 20}), -0.00847859163845488, 1e-12);
  EXPECT_NEAR(net_present_value(0.08, std::vector<double>{-40000, 5000, 8000, 12000, 30000}), 3065.2226681795255, 1e-9);
  EXPECT_NEAR(net_present_value(0.05, std::vector<double>{-15000, 1500, 2500, 3500, 4500, 6000}), 122.89485495093959,
              1e-9);
}

TEST(CashFlowReference, AnnuityHasItsClosedForm) {
  // Present value of 1 a year over n years is (1 - (1 + r)^-n) / r; textbook. At 8 % over 10 years 6.7101 (any annuity
  // table, from memory).
  const std::vector<double> flows = {0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1};
  EXPECT_NEAR(net_present_value(0.08, flows), 6.7101, 0.00005);
}

// First outputs of SplitMix64 for the seed 1234567 as printed for the task "Pseudo-random numbers/Splitmix64" of
// Rosetta Code; from memory.
TEST(GeneratorReference, SplitMix64) {
  Generator g(1234567);
  EXPECT_EQ(g.next(), 6457827717110365317ULL);
  EXPECT_EQ(g.next(), 3203168211198807973ULL);
  EXPECT_EQ(g.next(), 9817491932198370423ULL);
  EXPECT_EQ(g.next(), 4593380528125082431ULL);
  EXPECT_EQ(g.next(), 16408922859458223821ULL);
}

}  // namespace
}  // namespace lobewise::cost
