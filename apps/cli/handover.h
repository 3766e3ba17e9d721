#pragma once
// `lobewise handover`: parse, gather, write.

#include <string>
#include <vector>

#include "apps/handover/source.h"

namespace lobewise::cli {

struct HandoverOptions {
  std::string out, paper = "a4", date, only, model_size, clearance;
  int valid_days = 60;
};

struct HandedOver {
  std::string report;              ///< what was written, for the screen
  std::vector<std::string> files;  ///< names in the folder
  bool offered = false;            ///< false where no build of the range serves
};

/// Writes the hand-over and says what was written. @param order  enquiry, range, build and units
[[nodiscard]] Result<HandedOver> write_handover(const handover::Ask& ask, handover::Order order,
                                                const HandoverOptions& options);

/// One document of the hand-over for a page, read from its request.
/// @param request  {enquiry, document, range?, build?, units?, paper?, preview?}: `document` is a name of `--only`, a
///                 preview has no PDF files
/// @returns {files: [{name, content}], skipped: [text]} with the contents in base64, or {errors}
[[nodiscard]] std::string answer_handover(const handover::Ask& ask, const std::string& request);

}  // namespace lobewise::cli
