#pragma once
// How long every rolling contact of a build lasts on its duty.

#include <string>
#include <vector>

#include "engine/drive/drive.h"

namespace lobewise::drive {

/// One kind of part; `count` equal ones.
struct PartLife {
  std::string id;
  std::string label;
  bool bearing = true;             ///< else a line contact of lobes or pins
  double basic_hours = 0;          ///< of one, over the duty [h]
  double modified_hours = 0;       ///< of one at the reliability asked for [h]; equals basic for line contacts
  double load = 0;                 ///< equivalent dynamic load at full load [N]
  double C = 0, C_0 = 0, C_u = 0;  ///< [N]
  double speed = 0;                ///< relative speed of the rings at full load [rad/s]
  double pitch_diameter = 0;       ///< D_pw of a bearing [m]
  double kappa = 0;                ///< viscosity ratio at the oil temperature
  double contamination = 0;        ///< e_C
  double life_factor = 0;          ///< a_ISO at full load
  bool outside_model = false;      ///< kappa below 0.1: wear decides
  bool overloaded = false;         ///< P > 0.5 C in some block
  double weibull = 0;
  double count = 1;
};

struct Lives {
  std::vector<PartLife> parts;
  double system_hours = 0;  ///< 90 % of units, basic lives [h]
};

/// @param oil_temperature  of the duty [K]
[[nodiscard]] Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c);

/// e_C that the lubrication gives when none is set. Grease or filtered 0.5, splash 0.2.
[[nodiscard]] const Coefficient& contamination_of(const Oil& oil);

}  // namespace lobewise::drive
