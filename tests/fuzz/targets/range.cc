// A range of reducers as JSON; one that is taken is looked through for a small drive.

#include "engine/api/registry.h"
#include "engine/api/survey_line.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void range(std::string_view bytes) {
  const Result<nlohmann::json> json = api::parse_json(bytes);
  if (!json) return;
  static const api::Session kSession;
  if (!kSession.registry().run("check", {{"range", *json}})) return;
  Result<api::LineProver> prover = api::LineProver::open(*json, api::LineMesh::rigid);
  require(prover.ok(), "a range that `check` takes is taken");
  const nlohmann::json enquiry{{"machine", {{"measured", {{"measured_torque", "40 N·m"}, {"speed", "57 rpm"}}}}}};
  const Result<nlohmann::json> answer = prover->prove(enquiry);
  if (answer) require(api::find_not_finite(*answer).empty(), "every number of an answer is finite", answer->dump());
}

}  // namespace lobewise::fuzz
