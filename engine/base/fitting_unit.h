#pragma once
// The unit in which people say a figure of a certain size.

#include "engine/base/quantity.h"

namespace lobewise {

/// The display unit of the system or its neighbouring size, e.g. W below 1 kW, kN from 10 kN on.
/// @param si  the figure, or the largest of several that share the unit
[[nodiscard]] const Unit& fitting_unit(double si, Quantity quantity, UnitSystem system);

}  // namespace lobewise
