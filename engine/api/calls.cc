#include "engine/api/calls.h"

namespace lobewise::api {

void add_calls(Registry& registry) {
  add_heat_calls(registry);
  add_main_calls(registry);
  add_life_calls(registry);
  add_losses_calls(registry);
  add_lube_calls(registry);
  add_motion_calls(registry);
  add_shaft_calls(registry);
  add_unit_calls(registry);
}

}  // namespace lobewise::api
