#pragma once
// What stands there today as evidence: plates that contradict each other are named, plates alone bound the load of a
// machine that nobody described, and a drive that runs bounds what was assumed of one that was.

#include "engine/enquiry/enquiry.h"

namespace lobewise::enquiry {

/// What supply, motor and the drive in service say against each other, every error with both fields.
[[nodiscard]] Errors contradictions(const Enquiry& enquiry);
/// What may be right and would be unusual: to be asked, with both fields.
[[nodiscard]] std::vector<demand::Question> doubts(const Enquiry& enquiry);

/// Where nobody says the mains: 60 Hz where the motor's plate speed can only be one of 60 Hz, else 50 Hz.
[[nodiscard]] double usual_frequency(const Supply& supply);

/// Whether the load comes from the plates of the present drive, because no machine is described.
[[nodiscard]] bool by_plates(const Enquiry& enquiry);

/// Demand at the driven shaft of the machine that is described, else at the output shaft of the present drive as its
/// plates bound it (demand/nameplate.h). Where the kind of the present unit is known its own model says what the train
/// of a measured drive passes on. Errors: those of the machine; which plates are missing.
[[nodiscard]] Result<demand::Demand> demand_of(const Enquiry& enquiry);

/// Service life where nobody asks for one [s]. Common practice, no source.
inline constexpr double kUsualLife = 20000 * 3600.0;

/// What the present train passes on at a torque: its stated efficiency, else what the model of its kind says; nothing
/// where neither is said, or where no such unit can be made. @param input_speed  of the motor
[[nodiscard]] std::optional<Coefficient> present_train(const Enquiry& enquiry, double torque, double output_speed,
                                                       double input_speed);

/// Power that a motor gives for hours before its overload relay ends it, share of its rating. From memory: IEC
/// 60947-4-1, trips at 1.2 times its setting and not at 1.05.
inline constexpr double kRelayTrips = 1.2;

/// Lowers the assumed part of the running torque to what the motor that runs it today can give for hours, T_r times
/// kRelayTrips with the train at its best; what is stated stays. Where that takes something off, the load is known by a
/// bound only and `settled_by` says so. Where even the least that the machine can ask is more, both are named in a
/// question. @param demand  at the output shaft
void bound_by_present(const Enquiry& enquiry, demand::Demand& demand);

}  // namespace lobewise::enquiry
