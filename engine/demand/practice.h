#pragma once
// The usual service-factor practice beside the computed duty: a cross-check, never the sizing itself.

#include "engine/base/text.h"
#include "engine/demand/duty.h"

namespace lobewise::demand {

enum class PrimeMover { electric, multi_cylinder, single_cylinder };

/// What practice would ask for.
struct Practice {
  double low = 1, high = 1;  ///< service factor on the running torque
  Working working;
};

/// Service factor by load, hours a day, what drives it, starts and reversals (data/service_factor_practice.csv),
/// widened by the machine's own row in data/driven_machine_classes.csv. Above 200 starts an hour practice gives none:
/// the largest one is taken and said so in the working. Errors: the machine's row does not exist (internal).
[[nodiscard]] Result<Practice> practice_factor(const Demand& demand, double hours_per_day, double starts_per_hour,
                                               double reversals_per_hour, PrimeMover prime_mover);

/// The same in terms of the computed duty.
struct CrossCheck {
  Figure life;      ///< (life-equivalent torque / running torque) (hours / 10 h)^(3/10)
  Figure peak;      ///< peak torque / (2 running torque), 3 for the low and 1.6 for the high end
  Figure computed;  ///< the larger
  Practice practice;
  enum class Agreement { agrees, practice_asks_more, duty_asks_more } agreement = Agreement::agrees;
  std::vector<Text> explanation;  ///< why they differ, or why they agree
};

/// Service factor 1 stands for a steady load ten hours a day with peaks of twice the rating at start; common practice,
/// no source.
[[nodiscard]] Result<CrossCheck> cross_check(const Demand& demand, const DutySpectrum& spectrum,
                                             PrimeMover prime_mover);

}  // namespace lobewise::demand
