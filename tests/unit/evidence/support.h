#pragma once
#include <gtest/gtest.h>

#include <memory>
#include <stdexcept>
#include <string>

#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"

namespace lobewise::evidence {

/// A stated demand, everything else given so that nothing is assumed.
inline enquiry::Requirement stated(double torque, double speed) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = speed;
  machine.start_factor = 1.2;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  const auto requirement = enquiry::require(enquiry);
  EXPECT_TRUE(requirement.ok());
  return *requirement;
}

inline Result<std::shared_ptr<const drive::StageTable>> rigid_table(const range::Stage& stage) {
  Result<drive::StageTable> table = drive::rigid_stage_table(stage);
  if (!table) return table.errors();
  return std::make_shared<const drive::StageTable>(std::move(*table));
}

inline drive::Build build_named(const char* frame, int lobes) {
  const auto build = drive::find_build(range::demo_range(), {frame, lobes, "", std::nullopt});
  EXPECT_TRUE(build.ok());
  return *build;
}

inline drive::Drive drive_of(const enquiry::Requirement& requirement, const char* frame, int lobes) {
  const auto drive = drive::assemble(requirement, build_named(frame, lobes), rigid_table);
  EXPECT_TRUE(drive.ok());
  return *drive;
}

inline const Finding& finding(const Evidence& evidence, const std::string& id) {
  for (const Finding& f : evidence.findings)
    if (f.id == id) return f;
  throw std::runtime_error("no finding " + id);
}

}  // namespace lobewise::evidence
