#pragma once
// The drive in service, its place and its case, as they leave.

#include "engine/evidence/case_of.h"
#include "engine/result/comparison.h"

namespace lobewise::result {

[[nodiscard]] Unit of(const incumbent::GearUnit& unit);
[[nodiscard]] std::vector<AxisBeside> of(const std::vector<incumbent::Axis>& axes);
[[nodiscard]] Fit of(const evidence::FitBeside& beside);
[[nodiscard]] Case of(const evidence::CaseStudy& study);
/// The troubles that were seen, each with what the unit's figures say of it.
[[nodiscard]] std::vector<Trouble> troubles_of(const enquiry::Incumbent& seen, const incumbent::GearUnit& unit,
                                               const incumbent::UnitDuty& duty);

}  // namespace lobewise::result
