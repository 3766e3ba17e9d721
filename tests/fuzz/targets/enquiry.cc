// An enquiry as YAML: read, its lines noted, checked by the engine; with own range if it has one.

#include "apps/cli/read_file.h"
#include "engine/api/registry.h"
#include "tests/fuzz/target.h"
#include "tests/fuzz/targets/targets.h"

namespace lobewise::fuzz {

void enquiry(std::string_view bytes) {
  const Result<cli::Document> document = cli::parse_document(std::string(bytes), "input");
  if (!document) return;
  static const api::Session kSession;
  const Result<nlohmann::json> checked = kSession.registry().run("check", {{"enquiry", document->json}});
  if (checked) return;
  Errors errors = checked.errors();
  cli::add_lines(errors, document->lines);
  for (const Error& error : errors) require(!error.message.empty(), "an error says what is wrong");
}

}  // namespace lobewise::fuzz
