#pragma once
// A hand-over: every document of one enquiry in one folder.

#include <string>
#include <vector>

#include "apps/handover/source.h"

namespace lobewise::handover {

struct Written {
  std::vector<std::string> files;    ///< names in the folder
  std::vector<std::string> skipped;  ///< what could not be made here, and why
};

/// Writes everything into a folder, which is made when it is not there.
/// @param only  names of documents (`proposal`, `drawing`, `order`, `commissioning`, `findings`, `model`, `step`,
///              `offline`); all when empty
/// Errors: the folder cannot be written, a document that was asked for by name cannot be made.
[[nodiscard]] Result<Written> hand_over(const Source& source, const std::string& folder,
                                        const std::vector<std::string>& only);

}  // namespace lobewise::handover
