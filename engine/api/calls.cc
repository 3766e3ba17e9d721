#include "engine/api/calls.h"

namespace lobewise::api {

void add_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf) {
  add_main_calls(registry, shelf);
  add_compare_calls(registry, shelf);
  add_made_calls(registry, shelf);
  add_mechanism_calls(registry, shelf);
  add_case_calls(registry);
  add_drawing_calls(registry);
  add_heat_calls(registry);
  add_life_calls(registry);
  add_losses_calls(registry);
  add_lube_calls(registry);
  add_motion_calls(registry);
  add_rate_calls(registry, shelf);
  add_shaft_calls(registry);
  add_survey_calls(registry, shelf);
  add_uncertainty_calls(registry);
  add_unit_calls(registry);
}

}  // namespace lobewise::api
