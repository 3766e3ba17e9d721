// A request at the engine's door, as a page or a program sends it. Calls that take long are left to long runs
// (LOBEWISE_FUZZ_LONG=1); what they read is read by `check` too.

#include <algorithm>
#include <cstdlib>

#include "engine/api/registry.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void api(std::string_view bytes) {
  static const lobewise::api::Session kSession;
  static const bool kLong = std::getenv("LOBEWISE_FUZZ_LONG") != nullptr;
  if (!kLong)
    for (const char* slow :
         {"\"prove\"", "\"size\"", "\"compare\"", "\"elastic\"", "\"disc_stress\"", "\"mechanism\"", "\"survey_line\""})
      if (bytes.find(slow) != std::string_view::npos) return;
  const std::string answer = kSession.answer(bytes);
  const Result<nlohmann::json> json = lobewise::api::parse_json(answer);
  require(json.ok() && json->is_object(), "an answer is a JSON object", answer);
  if (json->contains("errors") && (*json)["errors"].is_array())
    for (const auto& error : (*json)["errors"])
      require(error.value("kind", "") != "internal", "no error is our own", answer);
}

}  // namespace lobewise::fuzz
