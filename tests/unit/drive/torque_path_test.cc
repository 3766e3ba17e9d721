// What each part bears, put back into the figures it came from.
#include "engine/drive/torque_path.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/strength/bolts.h"
#include "engine/strength/shaft.h"
#include "peak_support.h"

namespace lobewise::drive {
namespace {

const BuildName kOne{"ring-265", 27, "", std::nullopt};
const BuildName kTwo{"ring-530", 17, "", 9};

enquiry::Enquiry with_chain() {
  enquiry::Enquiry enquiry = stated_machine();
  enquiry.connection = enquiry::Connection{};
  enquiry.connection->link = demand::Link::single_chain;
  enquiry.connection->pitch_diameter = 0.25;
  enquiry.connection->position = 0.06;
  enquiry.connection->axial_force = 3000;
  enquiry.mounting = enquiry::Mounting{};
  return enquiry;
}

const PathPart& part_of(const PeakCase& peak, Part part, std::size_t stage = 0) {
  const auto found = std::find_if(peak.parts.begin(), peak.parts.end(),
                                  [&](const PathPart& p) { return p.part == part && p.stage == stage; });
  EXPECT_NE(found, peak.parts.end());
  return *found;
}

class BothBuilds : public ::testing::TestWithParam<BuildName> {};

TEST_P(BothBuilds, MeshPartsMeetTheirLimitAtTheirTorque) {
  const Drive drive = assembled(with_chain(), GetParam());
  const PeakCase peak = case_of(drive);
  for (std::size_t i = 0; i < drive.build.stages.size(); ++i) {
    const StageTable& table = *drive.tables[i];
    const range::Stage& stage = *drive.build.stages[i].stage;
    const double v = peak.passed.stage[i] * table.hardest_disc();
    const auto pressure = [&](Part part, double MeshLevel::*member) {
      EXPECT_NEAR(table.pressure_at(part_of(peak, part, i).marks * v, member), 4000e6, 1) << static_cast<int>(part);
      EXPECT_NEAR(table.pressure_at(part_of(peak, part, i).routine * v, member), 4000e6 / std::sqrt(1.5), 1);
    };
    pressure(Part::lobes, &MeshLevel::lobe_pressure);
    pressure(Part::holes, &MeshLevel::pin_pressure);
    EXPECT_NEAR(hardest_pin(stage, table, part_of(peak, Part::pins, i).marks * peak.passed.stage[i]).stress, 1500e6, 1);
    const double B = table.at(part_of(peak, Part::eccentric_bearing, i).marks * v, &MeshLevel::bearing_largest);
    EXPECT_NEAR(drive.bearings[i].eccentric.rating.C_0 / B, 1, 1e-9);
    const double I = table.at(part_of(peak, Part::input_bearing, i).routine * v, &MeshLevel::bearing_largest);
    EXPECT_NEAR(drive.bearings[i].input.rating.C_0 / (I * input_bearing_share(stage)), 1.5, 1e-9);
  }
}
INSTANTIATE_TEST_SUITE_P(One, BothBuilds, ::testing::Values(kOne, kTwo),
                         [](const auto& which) { return which.index == 0 ? "single" : "two_stage"; });

TEST(TorquePath, TheShaftYieldsUnderTorqueAndTheLinksPull) {
  const Drive drive = assembled(with_chain(), kOne);
  const PeakCase peak = case_of(drive);
  const range::OutputShaft& shaft = drive.build.frame().output;
  const auto stress = [&](double torque, double lever, double d) {
    const double pull = 2 * torque / 0.25;  // a chain pulls with what its torque asks for
    return strength::von_mises(strength::nominal_stress(pull * lever, torque, 3000, d, 0));
  };
  EXPECT_NEAR(stress(part_of(peak, Part::shaft_seat).marks, shaft.overhang + 0.06, shaft.seat_diameter),
              shaft.yield_strength, 10);
  EXPECT_NEAR(stress(part_of(peak, Part::shaft_end).marks, 0.06, shaft.diameter), shaft.yield_strength, 10);
  EXPECT_NEAR(stress(part_of(peak, Part::keyed_end).marks, 0.06, shaft.diameter - shaft.key_shaft_depth),
              shaft.yield_strength, 10);
}

TEST(TorquePath, OutputBearingsTakeThePullAndEachOthersThrust) {
  const Drive drive = assembled(with_chain(), kOne);
  const PeakCase peak = case_of(drive);
  const range::OutputShaft& shaft = drive.build.frame().output;
  const double position = shaft.overhang + 0.06;
  // As `overhung` has it, the axial force in the direction that is worse for each.
  for (const Part part : {Part::inside_bearing, Part::outside_bearing}) {
    const double pull = 2 * part_of(peak, part).marks / 0.25;
    double static_load = 0;
    for (const double axial : {3000.0, -3000.0}) {
      const OutputLoads loads = output_loads(shaft, pull, position, axial);
      static_load = std::max(static_load, part == Part::inside_bearing ? loads.static_inside : loads.static_outside);
    }
    EXPECT_NEAR(static_load, drive.output_outside.rating.C_0, 1) << static_cast<int>(part);
  }
}

TEST(TorquePath, WithoutAPullNoOutputBearingIsLoadedByTorque) {
  const PeakCase peak = case_of(assembled(stated_machine(), kOne));
  for (const PathPart& part : peak.parts)
    EXPECT_TRUE(part.part != Part::inside_bearing && part.part != Part::outside_bearing);
}

TEST(TorquePath, WhatTheLinkBearsIsTakenAsStated) {
  enquiry::Enquiry enquiry = with_chain();
  enquiry.connection->largest_torque = 2500;
  const PeakCase peak = case_of(assembled(enquiry, kOne));
  EXPECT_EQ(part_of(peak, Part::link).marks, 2500);
  EXPECT_EQ(peak.parts[peak.weakest].part, Part::link);
  EXPECT_EQ(peak.marks(), 2500);
}

TEST(TorquePath, BoltsAreJudgedWhereTheRangeNamesThem) {
  Drive drive = assembled(with_chain(), kOne);
  const PathPart feet = part_of(case_of(drive), Part::feet);
  EXPECT_LT(feet.routine, feet.marks) << "a joint opens before its bolts yield";
  EXPECT_LT(feet.marks_lifted, feet.marks) << "a pull away from the base is the worse one";
  drive.requirement.mounting = enquiry::MountingKind::flange;
  const PathPart flange = part_of(case_of(drive), Part::flange);
  const range::Dimensions& d = drive.build.frame().dimensions;
  const double yield = strength::proof_stress(*d.bolt_class) * *strength::stress_area(*d.flange_bolt);
  EXPECT_LE(flange.routine * (1 + 1 / 27.0), 0.15 * d.flange_holes * 0.5 * yield * d.flange_bolt_circle / 2 + 1e-6);
  range::Frame frame = drive.build.frame();
  frame.dimensions.bolt_class.reset();
  drive.build.stages.back().frame = &frame;
  const PeakCase without = case_of(drive);
  EXPECT_TRUE(std::none_of(without.parts.begin(), without.parts.end(),
                           [](const PathPart& p) { return p.part == Part::feet || p.part == Part::flange; }));
  const std::vector<std::string> named = not_described(drive);
  EXPECT_TRUE(std::any_of(named.begin(), named.end(),
                          [](const std::string& s) { return s.find("bolts of the flange") != std::string::npos; }));
}

TEST(TorquePath, TheFirstStageCarriesWhatTheSecondLoses) {
  const PeakCase peak = case_of(assembled(stated_machine(), kTwo));
  ASSERT_EQ(peak.passed.stage.size(), 2U);
  EXPECT_EQ(peak.passed.stage[1], 1);
  EXPECT_GT(peak.passed.stage[0] * 17, 1);
  EXPECT_LT(peak.passed.stage[0] * 17, 1.3);
}

TEST(TorquePath, TheWeakestLinkMarksFirst) {
  const PeakCase peak = case_of(assembled(with_chain(), kOne));
  for (const PathPart& part : peak.parts) {
    EXPECT_GE(part.marks, peak.marks());
    EXPECT_LE(part.routine, part.marks);
    EXPECT_GT(part.routine, 0);
  }
}

TEST(StageTable, TorquesAreFoundBackFromTheirFigures) {
  const Drive drive = assembled(stated_machine(), kOne);
  const StageTable& table = *drive.tables.back();
  for (double torque : {3.0, 500.0, 1200.0, 7000.0, 40000.0}) {
    EXPECT_NEAR(table.torque_at(table.at(torque, &MeshLevel::pin_force), &MeshLevel::pin_force), torque, 1e-9 * torque);
    EXPECT_NEAR(
        table.torque_at_pressure(table.pressure_at(torque, &MeshLevel::lobe_pressure), &MeshLevel::lobe_pressure),
        torque, 1e-9 * torque);
  }
}

}  // namespace
}  // namespace lobewise::drive
