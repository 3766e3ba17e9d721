#pragma once
// What a drive is joined to, as far as it swings with it.
#include <optional>

#include "engine/demand/connection.h"

namespace lobewise::enquiry {

struct Coupled {
  demand::Link link = demand::Link::coupling;  ///< on the output shaft
  std::optional<double> link_stiffness;        ///< of coupling, chain or belt, at the output shaft [N m/rad]
  std::optional<double> motor_coupling;        ///< stiffness of a coupling between motor and reducer [N m/rad]
  std::optional<double> teeth;                 ///< of the wheel on the output shaft
  std::optional<double> machine_pulses;        ///< of blades, lobes or buckets, per turn of the output shaft
  bool speeds_said = true;                     ///< false: an inverter whose range was taken
};

}  // namespace lobewise::enquiry
