// What an enquiry comes down to: lines say what they carry, gaps are filled as said.
#include "engine/enquiry/requirement.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace lobewise::enquiry {
namespace {

Enquiry plain() {
  Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = 500;
  machine.speed = 5;
  enquiry.machine.measured = machine;
  return enquiry;
}

const RequirementLine& line(const Requirement& requirement, const std::string& path) {
  const auto found = std::find_if(requirement.lines.begin(), requirement.lines.end(),
                                  [&](const RequirementLine& l) { return l.path == path; });
  if (found == requirement.lines.end()) throw std::runtime_error("no line " + path);
  return *found;
}

TEST(Requirement, DaysAYearAreDaysAndHoursAreHours) {
  Enquiry enquiry = plain();
  enquiry.duty = demand::Duty{};
  enquiry.duty->hours_per_day = 16 * 3600.0;
  enquiry.duty->days_per_year = 300;
  const auto said = require(enquiry);
  ASSERT_TRUE(said.ok());
  EXPECT_EQ(line(*said, "duty.days_per_year").value, 300);
  EXPECT_EQ(line(*said, "duty.days_per_year").quantity, Quantity::number);
  EXPECT_FALSE(line(*said, "duty.days_per_year").assumed);
  EXPECT_EQ(line(*said, "duty.running_time").value, 4800 * 3600.0);
  EXPECT_FALSE(line(*said, "duty.running_time").assumed);
  enquiry.duty->days_per_year.reset();
  const auto taken = require(enquiry);
  ASSERT_TRUE(taken.ok());
  const RequirementLine& hours = line(*taken, "duty.running_time");
  EXPECT_TRUE(hours.assumed);
  EXPECT_LT(hours.low, hours.value);
  EXPECT_GT(hours.high, hours.value);
  EXPECT_LE(hours.high, 366 * 86400.0);
}

TEST(Requirement, StartsNobodySaidAreThoseOfTheDay) {
  const auto requirement = require(plain());
  ASSERT_TRUE(requirement.ok());
  EXPECT_DOUBLE_EQ(requirement->starts_per_hour, requirement->spectrum.starts_per_hour);
  EXPECT_LT(requirement->starts_per_hour, 100);
}

}  // namespace
}  // namespace lobewise::enquiry
