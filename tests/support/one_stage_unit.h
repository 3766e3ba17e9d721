#pragma once
// A unit of one stage around forces that a test states, put together by the functions that the program uses.
#include <gtest/gtest.h>

#include <utility>

#include "engine/drive/drive.h"

namespace lobewise::drive {

/// A table that holds just these torques of the stage [N m] and the forces on one disc.
inline StageTable table_of(const range::Stage& stage, std::vector<std::pair<double, contact::CycleForces>> solved) {
  std::vector<MeshLevel> levels;
  for (auto& [torque, forces] : solved) {
    MeshLevel level;
    level.torque = torque;
    level.forces = std::move(forces);
    level.lobe_force = *std::max_element(level.forces.flank.begin(), level.forces.flank.end());
    complete(stage, level);
    levels.push_back(std::move(level));
  }
  StageTable table;
  table.levels = std::move(levels);
  return table;
}

/// Frame and stage stay where they are: builds point at them.
struct OneStageUnit {
  range::Frame frame;
  range::Stage stage;
  std::shared_ptr<const StageTable> table;

  explicit OneStageUnit(const range::Stage& of) : stage(of) {
    range::Bearing bearing;  // input and output bearings: sizes that friction and life can be computed for
    bearing.kind = range::BearingKind::deep_groove;
    bearing.pitch_diameter = 0.06;
    bearing.dynamic_capacity = 30e3;
    bearing.static_capacity = 20e3;
    stage.input_bearing = bearing;
    stage.input_span = 0.1;
    frame.output.bearing_inside = frame.output.bearing_outside = bearing;
    frame.output.span = 0.1;
    frame.output.diameter = 0.05;
    frame.output.seat_diameter = 0.055;
    frame.output.tensile_strength = 900e6;
    frame.lubricants = {{range::LubricantKind::oil, range::BaseOil::mineral, 220e-6, 95.0, false}};
  }
  OneStageUnit(const OneStageUnit&) = delete;
  OneStageUnit& operator=(const OneStageUnit&) = delete;

  [[nodiscard]] Build build() const {
    Build build;
    build.stages = {{&frame, &stage}};
    return build;
  }
  [[nodiscard]] Oil oil() const { return *oil_of(frame.lubricants.front()); }
  /// @param input_speed  [rad/s]
  [[nodiscard]] LossPlaces losses(double torque, double input_speed, double oil_temperature,
                                  const Coefficients& c = {}) const {
    Running running;
    running.torque = torque;
    running.speed = input_speed / stage.geometry.lobes;
    return running_losses(build(), {table}, oil(), running, oil_temperature, c).places;
  }
  /// On a duty, full load first, with a motor that turns just so fast.
  [[nodiscard]] Drive on(const std::vector<enquiry::Block>& duty, double input_speed) const {
    enquiry::Requirement requirement;
    requirement.torque = duty.front().torque;
    requirement.speed = input_speed / stage.geometry.lobes;
    requirement.duty = duty;
    requirement.motor_power = 7500;
    requirement.motor_speed = input_speed;
    requirement.poles = 4;
    requirement.inverter_low = requirement.inverter_high = requirement.frequency;
    const Result<Drive> drive = assemble(requirement, build(), [&](const range::Stage&) { return table; });
    EXPECT_TRUE(drive.ok());
    EXPECT_NEAR(drive->input_speed, input_speed, 1e-9);
    return *drive;
  }
};

/// The stage that tests of losses and life share; invented.
inline range::Stage stage_of_seventeen(range::Carried carried = range::Carried::sleeve) {
  range::Stage stage;
  mechanism::StageGeometry& g = stage.geometry;
  g.lobes = 17;
  g.pitch_radius = 0.08;
  g.roller_radius = 0.007;
  g.eccentricity = 0.003;
  g.width = 0.014;
  g.discs = 2;
  g.pins = 10;
  g.pin_circle_radius = 0.05;
  g.pin_radius = 0.008;
  stage.ring_rollers = stage.output_rollers = carried;
  stage.ring_pin_radius = carried == range::Carried::fixed ? 0 : 0.004;
  stage.output_pin_radius = 0.005;
  stage.eccentric_bearing.kind = range::BearingKind::full_complement;
  stage.eccentric_bearing.elements = 14;
  stage.eccentric_bearing.element_diameter = 0.009;
  stage.eccentric_bearing.element_length = 0.013;
  stage.eccentric_bearing.pitch_diameter = 0.05;
  return stage;
}

}  // namespace lobewise::drive
