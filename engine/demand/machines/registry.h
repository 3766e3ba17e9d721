#pragma once
// The list of machines. To add one: its file pair in this folder, its include and its line here.

#include "engine/demand/machines/agitator.h"
#include "engine/demand/machines/apron_feeder.h"
#include "engine/demand/machines/belt_conveyor.h"
#include "engine/demand/machines/bucket_elevator.h"
#include "engine/demand/machines/chain_conveyor.h"
#include "engine/demand/machines/curve_machine.h"
#include "engine/demand/machines/hoist.h"
#include "engine/demand/machines/measured_drive.h"
#include "engine/demand/machines/paddle_mixer.h"
#include "engine/demand/machines/roller_conveyor.h"
#include "engine/demand/machines/roller_table.h"
#include "engine/demand/machines/rotary_drum.h"
#include "engine/demand/machines/screw_conveyor.h"
#include "engine/demand/machines/slewing_drive.h"
#include "engine/demand/machines/travel_drive.h"

// X(type, member); the member's name is the machine's id.
#define LOBEWISE_MACHINES(X)         \
  X(BeltConveyor, belt_conveyor)     \
  X(ScrewConveyor, screw_conveyor)   \
  X(BucketElevator, bucket_elevator) \
  X(ChainConveyor, chain_conveyor)   \
  X(RollerConveyor, roller_conveyor) \
  X(RollerTable, roller_table)       \
  X(RotaryDrum, rotary_drum)         \
  X(Agitator, agitator)              \
  X(PaddleMixer, paddle_mixer)       \
  X(Hoist, hoist)                    \
  X(TravelDrive, travel_drive)       \
  X(SlewingDrive, slewing_drive)     \
  X(ApronFeeder, apron_feeder)       \
  X(CurveMachine, curve)             \
  X(MeasuredDrive, measured)

namespace lobewise::demand {

/// The driven machine of an enquiry: exactly one member is set.
struct DrivenMachine {
#define LOBEWISE_MEMBER(Type, member) std::optional<Type> member;
  LOBEWISE_MACHINES(LOBEWISE_MEMBER)
#undef LOBEWISE_MEMBER
};

/// Every machine, in the order it is offered.
[[nodiscard]] const std::vector<MachineInfo>& all_machines();

/// Whether any machine is set.
[[nodiscard]] bool described(const DrivenMachine& machine);

/// Demand of the machine that is set. Errors: none or more than one set; those of the machine.
[[nodiscard]] Result<Demand> compute(const DrivenMachine& machine);

}  // namespace lobewise::demand

namespace lobewise::model {
#define LOBEWISE_DESCRIBE(Type, member) \
  template <>                           \
  const RecordType& describe<demand::Type>();
LOBEWISE_MACHINES(LOBEWISE_DESCRIBE)
#undef LOBEWISE_DESCRIBE
template <>
const RecordType& describe<demand::DrivenMachine>();
}  // namespace lobewise::model
