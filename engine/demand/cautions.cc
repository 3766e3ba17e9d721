#include "engine/demand/cautions.h"

#include <fmt/format.h>

namespace lobewise::demand {

// Sources are listed by key in docs/theory/machines.md, section "Cautions".

Caution runback_caution() {
  return {"runback",
          "The load runs back or runs away when the drive loses power: a backstop, brake or anti-runaway device is "
          "required."};
}

Caution backstop_caution() {
  return {"backstop",
          "A backstop on the fast shaft does not protect against a break between it and the driven shaft; one on the "
          "slow shaft "
          "does. It fixes the direction of rotation: check the phase sequence before coupling the motor and forbid "
          "reversal by "
          "the inverter."};
}

Caution downhill_caution() {
  return {"downhill",
          "The load drives this machine: it needs a brake that stops it without power, and a motor and inverter that "
          "can take "
          "power back. A backstop is no help."};
}

Caution holding_caution() {
  return {"holding",
          "A reducer is no holding device, whatever its ratio or friction: vibration or a warm lubricant can start it "
          "turning "
          "back. Use a spring-applied, power-off brake whose torque path does not pass through a part that can fail."};
}

Caution lifting_caution() {
  return {"lifting",
          "The lifting code in force and the crane or winch maker decide on brakes, ropes, limits, classification and "
          "test loads "
          "(usually 1.25 times static and 1.1 times dynamic). Nobody may stand under the load or ride on it."};
}

Caution no_people_caution() { return {"no_people", "Not for lifting or carrying people, not even now and then."}; }

Caution jam_caution() {
  return {"jam",
          "A rigid jam stores the motor's and reducer's rotation in a few degrees of twist and can exceed any service "
          "factor: "
          "fit a torque limiter, or check the peak."};
}

Caution guard_caution() { return {"guards", "Guard shafts, couplings, chains and nip points before the first start."}; }

Caution lockout_caution() {
  return {"lockout",
          "Isolate, lock out and tag before any work, and prove by a try that nothing starts: a motor may start by "
          "itself when power returns."};
}

Caution stored_energy_caution(const std::string& held, const std::string& release) {
  return {"stored_energy",
          fmt::format("Isolated is not yet safe. Stored in this machine: {}. To release it: {}.", held, release)};
}

}  // namespace lobewise::demand
