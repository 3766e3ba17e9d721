#pragma once
// A revision made by the engine, and made again.

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "apps/store/outcome.h"
#include "apps/store/records.h"
#include "engine/api/registry.h"

namespace lobewise::store {

/// Proves an enquiry and gathers everything that its document is made from. An enquiry that cannot be proved yet is
/// kept with the errors as its result: at a first visit much is missing.
/// @param input  {"enquiry": …, "build"?: …, "range"?: …}; without a range the demo range is kept whole
/// Problems: input (no enquiry, unknown members, a range that is not sound)
[[nodiscard]] Outcome<Draft> make_draft(const api::Session& session, const nlohmann::json& input, std::string note);

struct Remade {
  bool same_engine = false;
  bool identical = false;                ///< the result, byte for byte
  std::string engine;                    ///< of now
  nlohmann::json result;                 ///< of now
  nlohmann::json moved;                  ///< api::moved of the saved result and of this one
  std::vector<std::string> differences;  ///< `path: was … is …`, at most 20
};
/// Proves a saved revision again from what was kept and compares.
[[nodiscard]] Remade remake(const api::Session& session, const Revision& revision);

}  // namespace lobewise::store
