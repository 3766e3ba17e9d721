#pragma once
// What was asked and what is offered, as it leaves.

#include "engine/drive/drive.h"
#include "engine/result/sizing.h"
#include "engine/result/survey_line.h"
#include "engine/sizing/size.h"

namespace lobewise::result {

[[nodiscard]] Build of(const drive::Build& build);
[[nodiscard]] Assumption of(const lobewise::Assumption& assumption);
[[nodiscard]] Machine machine_of(const enquiry::Requirement& requirement);
[[nodiscard]] Offer offer_of(const drive::Drive& drive, const range::Range& range);
/// Of what is not offered whatever the build, no price is named. @param currency  of the range
[[nodiscard]] std::vector<Fact> facts_of(const drive::Drive& drive, const std::string& currency);
/// No price where nothing is offered whatever the build.
[[nodiscard]] Amount price_of(double price, const enquiry::Requirement& requirement);
/// Assumptions, open questions and cautions, those of the findings too.
void fill(const enquiry::Requirement& requirement, const std::vector<evidence::Finding>& findings, Gaps& out);
/// And what was asked.
void fill(const enquiry::Enquiry& enquiry, const enquiry::Requirement& requirement,
          const std::vector<evidence::Finding>& findings, Asked& out);
[[nodiscard]] Sizing of(const sizing::Sizing& sizing, const enquiry::Enquiry& enquiry,
                        const enquiry::Requirement& requirement);
/// @param estimate  rigid discs were taken, and the mesh enters the finding
[[nodiscard]] ShortFinding short_of(const evidence::Finding& finding, bool estimate);

}  // namespace lobewise::result
