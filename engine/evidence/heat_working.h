#pragma once
// Workings of the heat balance and of the torques that heat and strength allow.

#include "engine/base/formula/record.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// Losses, where the heat of the housing goes, and that both are equal. Precondition: a steady state.
void record_heat_balance(const drive::Drive& drive, const Evaluation& e, Working& working);

/// The torque that strength carries: where the tightest margin passes zero.
void record_strength(const Context& context, Working& working);

/// The torque that heat allows for ever.
void record_heat_torque(const Context& context, const std::optional<heat::ThermalTorque>& capacity, Working& working);

}  // namespace lobewise::evidence
