#pragma once
// The drive in service, its place and its case as JSON; shapes: docs/api.md, `compare`.

#include "engine/api/json_io.h"
#include "engine/evidence/case_of.h"

namespace lobewise::api {

/// {kind, name, ratio, facts, stages, assumptions}
[[nodiscard]] Json gear_unit_json(const incumbent::GearUnit& unit);
[[nodiscard]] Json axes_json(const std::vector<incumbent::Axis>& axes);
[[nodiscard]] Json fit_json(const evidence::FitBeside& beside);
[[nodiscard]] Json case_json(const evidence::CaseStudy& study);
/// The troubles that were seen, each with what the unit's figures say of it.
[[nodiscard]] Json troubles_json(const enquiry::Incumbent& seen, const incumbent::GearUnit& unit,
                                 const incumbent::UnitDuty& duty);

}  // namespace lobewise::api
