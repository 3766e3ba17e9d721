// Colder never helps: with build, motor and oil held, every figure of `motor` and `lubrication` that depends on the
// coldest day is no better on a colder one, and something moves.

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <memory>

#include "engine/base/constants.h"
#include "engine/drive/cold.h"
#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"

namespace lobewise::evidence {
namespace {

Result<std::shared_ptr<const drive::StageTable>> rough_table(const range::Stage& stage) {
  Result<drive::StageTable> table = drive::rough_stage_table(stage);
  if (!table) return table.errors();
  return std::make_shared<const drive::StageTable>(std::move(*table));
}

enquiry::Requirement requirement_of(double torque, double speed, enquiry::Starting starting) {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = torque;
  machine.speed = speed;
  machine.start_factor = 1.3;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  enquiry.site = enquiry::Site{};
  enquiry.site->ambient_low = kZeroCelsius + 20;
  enquiry.supply = enquiry::Supply{};
  enquiry.supply->starting = starting;
  return *enquiry::require(enquiry);
}

RC_GTEST_PROP(Cold, ColderNeverHelpsAndMovesSomething, ()) {
  static const std::vector<drive::Build> builds = drive::all_builds(range::demo_range());
  const drive::Build& build = builds[*rc::gen::inRange<std::size_t>(0, builds.size())];
  const auto starting = static_cast<enquiry::Starting>(*rc::gen::inRange(0, 4));
  const double share = *rc::gen::inRange(5, 60) / 100.0;
  // A torque of the order that the frame carries: its shaft end at a modest stress.
  const double d = build.frame().output.diameter;
  const double torque = share * 40e6 * kPi * d * d * d / 16;
  const enquiry::Requirement requirement = requirement_of(torque, 1450 * 2 * kPi / 60 / build.ratio(), starting);
  const auto assembled = drive::assemble(requirement, build, rough_table);
  RC_PRE(assembled.ok() && assembled->motor.has_value());
  drive::Drive drive = *assembled;

  double last_ratio = HUGE_VAL, last_time = 0, last_flow = HUGE_VAL;
  for (int celsius = 20; celsius >= -60; celsius -= 5) {
    drive.requirement.ambient_low = kZeroCelsius + celsius;
    bool moved = false;
    for (const QuickFinding& quick : quick_look(drive))
      for (const Check& check : quick.checks) {
        RC_ASSERT(std::isfinite(check.figure) && std::isfinite(check.margin()));
        const auto is = [&](const char* part) { return check.name.find(part) != std::string::npos; };
        if (is("ask, on the coldest day")) {
          RC_ASSERT(check.figure <= last_ratio * (1 + 1e-4));
          moved = moved || check.figure < last_ratio;
          last_ratio = check.figure;
        } else if (is("time of a start on the coldest day")) {
          RC_ASSERT(check.figure >= last_time * (1 - 2e-3));
          last_time = std::max(last_time, check.figure);
        } else if (is("coldest surroundings against")) {
          RC_ASSERT(check.figure < last_flow);
          last_flow = check.figure;
        }
      }
    RC_ASSERT(moved);
  }
}

RC_GTEST_PROP(Cold, WhatIsOfferedDoesNotKnowTheColdestDay, ()) {
  static const std::vector<drive::Build> builds = drive::all_builds(range::demo_range());
  const drive::Build& build = builds[*rc::gen::inRange<std::size_t>(0, builds.size())];
  const double d = build.frame().output.diameter;
  enquiry::Requirement requirement =
      requirement_of(8e6 * kPi * d * d * d / 16, 1450 * 2 * kPi / 60 / build.ratio(), enquiry::Starting::direct);
  const auto warm = drive::assemble(requirement, build, rough_table);
  requirement.ambient_low = kZeroCelsius - *rc::gen::inRange(0, 60);
  const auto cold = drive::assemble(requirement, build, rough_table);
  RC_PRE(warm.ok() && cold.ok() && warm->motor.has_value());
  RC_ASSERT(cold->motor.has_value());
  RC_ASSERT(warm->motor->rated_power == cold->motor->rated_power);
  RC_ASSERT(warm->oil.fill.viscosity_40 == cold->oil.fill.viscosity_40);
  RC_ASSERT(warm->oil.fill.base == cold->oil.fill.base);
}

}  // namespace
}  // namespace lobewise::evidence
