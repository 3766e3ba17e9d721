#pragma once
// How long a unit lasts on its duty: every rolling contact by its modified life, every pin and shaft by its fatigue
// limit, and the share of whole units that reach a life. Theory: docs/theory/life.md.

#include <string>
#include <vector>

#include "engine/drive/output_shaft.h"
#include "engine/strength/system_life.h"

namespace lobewise::drive {

/// What a duty block does to a part.
struct PartBlock {
  double time_share = 0;
  double load = 0;         ///< equivalent dynamic load P of a bearing, largest force of a line contact [N]
  double speed = 0;        ///< relative speed of a bearing's rings, input speed of a line contact [rad/s]
  double kappa = 0;        ///< viscosity ratio
  double limit_ratio = 0;  ///< e_C C_u/P, or what stands for it
  double life_factor = 0;  ///< a_ISO
  double basic_hours = 0;  ///< were it always so [h]
};

/// One kind of part; `count` equal ones.
struct PartLife {
  std::string id;
  std::string label;
  bool bearing = true;             ///< else a line contact of lobes or pins
  bool ball = false;               ///< balls, else rollers
  double basic_hours = 0;          ///< of one, over the duty, 90 % [h]
  double hours_90 = 0;             ///< modified life of one, over the duty, 90 % [h]
  double modified_hours = 0;       ///< of one at the reliability asked for [h]
  double load = 0;                 ///< equivalent dynamic load (largest force of a line contact) at full load [N]
  double C = 0, C_0 = 0, C_u = 0;  ///< [N]
  double speed = 0;                ///< relative speed of the rings at full load [rad/s]
  double pitch_diameter = 0;       ///< D_pw of a bearing [m]
  double kappa = 0;                ///< viscosity ratio at the oil temperature, full load
  double contamination = 0;        ///< e_C
  double life_factor = 0;          ///< a_ISO at full load
  double pressure = 0;             ///< of a line contact at full load [Pa]
  double film_ratio = 0;           ///< Lambda of a line contact at full load
  bool outside_model = false;      ///< kappa below 0.1 in some block: wear decides
  bool overloaded = false;         ///< P > 0.5 C in some block
  double weibull = 0;              ///< slope e
  double least = 0;                ///< share of `hours_90` that every one reaches
  double count = 1;
  int stage = -1;  ///< it belongs to, from the input on; -1: output shaft
  int disc = 0;    ///< of several that carry unlike, from the flange on: 0 carries most
  std::vector<PartBlock> blocks;

  [[nodiscard]] strength::SystemPart in_system() const { return {hours_90, weibull, count, least}; }
};

/// Parts that last for ever below a fatigue limit that scatters.
struct StandingPart {
  std::string id;
  std::string label;
  double stress = 0;  ///< bending of a pin; endurance limit that the shaft's load needs [Pa]
  double limit = 0;   ///< that `share_at_limit` of the parts stand [Pa]
  double median = 0;  ///< that half of them stand [Pa]
  double count = 1;
  double log_share = 0;  ///< ln of the share of units in which all of them stand it
  bool of_shaft = false;
};

struct Lives {
  std::vector<PartLife> parts;
  std::vector<StandingPart> standing;
  double hours = 0;        ///< life asked for [h]
  double reliability = 0;  ///< share of whole units that reach it

  /// ln of the share of units in which every part but output bearings and output shaft reaches `hours`.
  [[nodiscard]] double log_rest(double hours) const;
  /// Share of whole units that reach `hours`.
  [[nodiscard]] double reliability_at(double hours) const;
  /// Life that `share` of whole units reach [h]; 0 when pins or shaft alone fail more, infinite without load.
  [[nodiscard]] double hours_of(double share) const;
};

/// @param oil_temperature  of the duty [K]
[[nodiscard]] Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c);
/// The same around an output shaft that is there already.
[[nodiscard]] Lives lives(const Drive& drive, double oil_temperature, const Coefficients& c, const OutputDuty& output);

/// The output shaft with the force at `position` from the outside bearing [m], for a life [s].
[[nodiscard]] OutputDuty output_duty(const Drive& drive, double oil_temperature, const Coefficients& c, double position,
                                     double life);

/// e_C that the lubrication gives when none is set. Grease or filtered 0.5, splash 0.2.
[[nodiscard]] const Coefficient& contamination_of(const Oil& oil);

}  // namespace lobewise::drive
