#pragma once
// One function per group of calls; each lives in its own calls_*.cc. A new group is declared here and added in
// calls.cc.

#include "engine/api/registry.h"

namespace lobewise::api {

/// @param shelf  where calls of the main job keep their mesh tables
void add_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);

void add_drawing_calls(Registry& registry);
void add_heat_calls(Registry& registry);
void add_life_calls(Registry& registry);
void add_losses_calls(Registry& registry);
void add_lube_calls(Registry& registry);
void add_motion_calls(Registry& registry);
void add_rate_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_shaft_calls(Registry& registry);
void add_case_calls(Registry& registry);
void add_main_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_compare_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_made_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_mechanism_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_survey_calls(Registry& registry, const std::shared_ptr<TableShelf>& shelf);
void add_uncertainty_calls(Registry& registry);
void add_unit_calls(Registry& registry);

}  // namespace lobewise::api
