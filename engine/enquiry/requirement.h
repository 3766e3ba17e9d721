#pragma once
// What the enquiry comes down to for the drive: numbers, with every gap filled by a stated assumption.

#include <string>
#include <vector>

#include "engine/demand/practice.h"
#include "engine/enquiry/conditions.h"
#include "engine/enquiry/coupled.h"
#include "engine/enquiry/enquiry.h"

namespace lobewise::enquiry {

/// One line of "what is asked", for people.
struct RequirementLine {
  std::string path;
  std::string label;
  double value = 0;
  Quantity quantity = Quantity::number;
  bool assumed = false;
  double low = 0, high = 0;  ///< of an assumed value
  std::string source;        ///< of an assumed value
};

/// A part of the running time at the driven shaft.
struct Block {
  double time_share = 1;
  double torque = 0;  ///< [N m] >= 0
  double speed = 0;   ///< [rad/s] > 0
};

struct Requirement {
  demand::Demand demand;  ///< at the reducer's output shaft
  demand::DutySpectrum spectrum;
  std::optional<demand::CrossCheck> practice;  ///< what the usual service factors would say
  std::vector<Block> duty;                     ///< shares add up to 1
  double torque = 0;                           ///< at full load [N m]
  double speed = 0;                            ///< at full load [rad/s]
  double life = 0;                             ///< hours of service asked for [s]
  double reliability = 0.9;
  double speed_tolerance = 0;  ///< share
  std::optional<double> service_factor;
  std::optional<double> unit_share;  ///< of the units made, those that must hold
  double running_per_year = 0;       ///< [s]
  double hours_per_day = 0;          ///< [s]
  double starts_per_hour = 0;        ///< [1/h]
  bool reversing = false;
  std::optional<std::pair<double, double>> intermittent;  ///< run and rest time of a cycle [s]

  double ambient_low = 0, ambient_high = 0;  ///< [K]
  double altitude = 0;                       ///< [m]
  double air_speed = 0;                      ///< [m/s]
  bool sun = false;
  bool food_area = false, explosive = false, washed_down = false, dusty = false;
  Site site;                ///< as it was said, with its gaps
  std::string not_offered;  ///< why nothing is offered at this place, whatever the build; empty when it may be

  double radial_force = 0;                        ///< [N]
  double axial_force = 0;                         ///< [N]
  std::optional<AxialDirection> axial_direction;  ///< unknown: the worse one counts
  double position = -1;                           ///< from the shaft shoulder [m]; negative: middle of the shaft end
  std::string link;                               ///< what sits on the shaft, in words
  std::string shaft_load_open;  ///< what must be said before the load on the shaft is known; empty when it is
  bool by_chain_or_belt = false;
  std::optional<PullDirection> pull;  ///< of the radial force
  std::optional<double> link_torque;  ///< that the coupling, chain or belt bears for a moment [N m]
  Coupled coupled;

  double frequency = 50;
  std::optional<double> voltage;  ///< of the supply [V]
  std::optional<int> poles;       ///< of the motor; the one whose speed suits the ratio when nobody asked
  EfficiencyClass motor_class = EfficiencyClass::ie3;
  Starting starting = Starting::direct;
  std::optional<double> motor_power, motor_speed;  ///< of a motor that stands already
  double inverter_low = 0, inverter_high = 0;      ///< [Hz]; equal to `frequency` without an inverter

  MountingKind mounting = MountingKind::foot;
  Orientation orientation = Orientation::horizontal;
  std::optional<double> max_length, max_width, max_height;
  std::optional<double> lifting;

  std::optional<Incumbent> incumbent;
  std::optional<Economics> economics;

  std::vector<RequirementLine> lines;
  std::vector<Condition> conditions;  ///< the same for what is no figure
  std::vector<Assumption> assumptions;
  std::vector<demand::Caution> cautions;
  std::vector<demand::Question> questions;  ///< most worthwhile first
};

/// The line with a path; null when the requirement has none.
[[nodiscard]] const RequirementLine* line_of(const Requirement& requirement, std::string_view path);
/// Whether somebody said the value behind a line: what fails because of it breaks a promise, not an assumption.
[[nodiscard]] bool said(const Requirement& requirement, std::string_view path);

/// Errors: the machine cannot be computed, values that contradict each other, a job that must be refused (people
/// lifting).
[[nodiscard]] Result<Requirement> require(const Enquiry& enquiry);

}  // namespace lobewise::enquiry
