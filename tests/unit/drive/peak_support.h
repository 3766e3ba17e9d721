#pragma once
#include <gtest/gtest.h>

#include <memory>

#include "engine/base/constants.h"
#include "engine/drive/peak_case.h"
#include "engine/enquiry/requirement.h"
#include "engine/range/demo_range.h"

namespace lobewise::drive {

/// A stated machine: 1200 N m at 50 1/min, two starts an hour, 25 000 h.
inline enquiry::Enquiry stated_machine() {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = 1200;
  machine.speed = 50 * 2 * kPi / 60;
  machine.start_factor = 1.2;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  enquiry.duty = demand::Duty{};
  enquiry.duty->hours_per_day = 16 * 3600;
  enquiry.duty->days_per_year = 250;
  enquiry.duty->starts_per_hour = 2;
  enquiry.wishes = enquiry::Wishes{};
  enquiry.wishes->life = 20000 * 3600.0;
  return enquiry;
}

inline Drive assembled(const enquiry::Requirement& requirement, const BuildName& name) {
  const auto build = find_build(range::demo_range(), name);
  EXPECT_TRUE(build.ok());
  const auto drive = assemble(requirement, *build, [](const range::Stage& stage) {
    Result<StageTable> table = rigid_stage_table(stage);
    EXPECT_TRUE(table.ok());
    return Result<std::shared_ptr<const StageTable>>(std::make_shared<const StageTable>(std::move(*table)));
  });
  EXPECT_TRUE(drive.ok());
  return *drive;
}
inline Drive assembled(const enquiry::Enquiry& enquiry, const BuildName& name) {
  const auto requirement = enquiry::require(enquiry);
  EXPECT_TRUE(requirement.ok());
  return assembled(*requirement, name);
}

/// At 60 degrees, as the evidence would have it.
inline PeakCase case_of(const Drive& drive, const Coefficients& c = {}) {
  const Running now = drive.running({1, drive.requirement.torque, drive.requirement.speed}, c);
  const RunningLosses full = running_losses(drive.build, drive.tables, drive.oil, now, kZeroCelsius + 60, c);
  const Peaks found = peaks(drive, drive.requirement.demand.jam.angle.nominal, full.efficiency(), c);
  return peak_case(drive, found, full, c);
}

}  // namespace lobewise::drive
