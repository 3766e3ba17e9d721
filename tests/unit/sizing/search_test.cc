#include <gtest/gtest.h>

#include "engine/enquiry/requirement.h"
#include "engine/range/demo_range.h"
#include "engine/sizing/size.h"
#include "tests/support/kept_tables.h"

namespace lobewise::sizing {
namespace {

enquiry::Requirement asked(double torque, double rpm) {
  enquiry::Enquiry enquiry;
  enquiry.machine.measured.emplace();
  enquiry.machine.measured->measured_torque = torque;
  enquiry.machine.measured->speed = rpm * 0.104719755;
  enquiry.wishes.emplace();
  enquiry.wishes->speed_tolerance = 0.08;
  return *enquiry::require(enquiry);
}

TEST(Search, FindsWhatSizeFinds) {
  drive::KeptTables rigid(drive::rigid_stage_table);
  const drive::TableSource tables = rigid.source();
  int served = 0;
  for (const auto& [torque, rpm] : {std::pair{300.0, 58.0},
                                    {900.0, 34.0},
                                    {1500.0, 83.0},
                                    {6000.0, 21.0},
                                    {40000.0, 6.0},
                                    {90.0, 300.0},
                                    {2e6, 30.0}}) {
    const enquiry::Requirement requirement = asked(torque, rpm);
    const Sources sources{tables, nullptr};
    const Sizing all = size(requirement, range::demo_range(), sources);
    Search search(requirement, range::demo_range(), sources);
    for (std::size_t i = 0; i < 4 && i < all.candidates.size() && all.candidates[i].fell_out.empty(); ++i) {
      const Candidate* next = search.next();
      ASSERT_NE(next, nullptr);
      EXPECT_EQ(next->build.name(), all.candidates[i].build.name()) << torque;
    }
    Search again(requirement, range::demo_range(), sources);
    const Candidate* first = again.next();
    served += all.chosen >= 0 ? 1 : 0;
    EXPECT_EQ(render(again.why_none(), UnitSystem::si), render(all.why_none, UnitSystem::si));
    EXPECT_EQ(first == nullptr, !all.candidates.front().fell_out.empty()) << torque;
  }
  EXPECT_GE(served, 4);
}

}  // namespace
}  // namespace lobewise::sizing
