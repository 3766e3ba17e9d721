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

/// Writes the hand-over and says what was written. @param order  enquiry, range, build and units
[[nodiscard]] Result<std::string> write_handover(const handover::Ask& ask, handover::Order order,
                                                 const HandoverOptions& options);

}  // namespace lobewise::cli
