#pragma once
// What the calls of the main job share: reading a request, the build it is about, and the parts of every answer.

#include <optional>
#include <string>

#include "engine/api/json_io.h"
#include "engine/api/table_shelf.h"
#include "engine/enquiry/requirement.h"
#include "engine/evidence/finding.h"
#include "engine/judge/best_drive.h"
#include "engine/range/demo_range.h"

namespace lobewise::api {

/// Enquiry, requirement and range of a request; the range lives here because builds point into it.
struct Job {
  enquiry::Enquiry enquiry;
  enquiry::Requirement requirement;
  std::optional<range::Range> own_range;
  [[nodiscard]] const range::Range& range() const { return own_range ? *own_range : range::demo_range(); }
};

/// A range of a request, checked.
[[nodiscard]] Result<range::Range> read_range(const Json& json);

/// Reads `enquiry` and `range` of a request into `job`. @param known  members the call knows
/// Errors: all of the record and of the range, members nobody knows.
[[nodiscard]] Errors read_job(const Json& input, std::initializer_list<std::string_view> known, Job& job);

/// The drive of the build that `build` of the request or the enquiry names, else the best one.
[[nodiscard]] Result<drive::Drive> chosen_drive(const Json& input, const Job& job, TableShelf& shelf,
                                                judge::Choice& choice);

}  // namespace lobewise::api
