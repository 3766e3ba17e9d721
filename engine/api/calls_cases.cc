// Case files of the mesh models and of the elastic disc.

#include "engine/api/calls.h"
#include "engine/api/elastic_case.h"
#include "engine/api/mesh_case.h"
#include "engine/api/perturbed_case.h"

namespace lobewise::api {

void add_case_calls(Registry& registry) {
  registry.add(Call{"mesh", "Solves a case file of the rigid mesh models (mm, N, MPa, rad).",
                    [](const Json& input) { return mesh_case(input); }, nullptr});
  registry.add(Call{"elastic", "Solves a case file of the elastic disc (mm, N, MPa, rad).",
                    [](const Json& input) { return elastic_case(input); }, nullptr});
  registry.add(Call{"mesh.perturbed", "Gaps, play and forces of one unit as it was made (mm, N, rad, N mm).",
                    [](const Json& input) { return perturbed_case(input); }, nullptr});
}

}  // namespace lobewise::api
