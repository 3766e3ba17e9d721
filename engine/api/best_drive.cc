#include "engine/api/best_drive.h"

namespace lobewise::api {

Result<drive::Drive> best_drive(const enquiry::Requirement& requirement, const range::Range& range,
                                const ProofTables& tables, Text& none) {
  sizing::Search search(requirement, range, tables.rigid, tables.rough ? &tables.rough : nullptr);
  constexpr int kMostTried = 4;
  std::optional<Result<drive::Drive>> first;
  for (int tried = 0; tried < kMostTried; ++tried) {
    const sizing::Candidate* candidate = search.next();
    if (tried == 0) none = search.why_none();
    if (candidate == nullptr) break;
    Result<drive::Drive> drive = drive::assemble(requirement, candidate->build, tables.proof);
    if (drive && sizing::serves(evidence::quick_look(*drive))) return drive;
    if (!first) first = std::move(drive);
    if (!none.empty()) break;  // nothing serves anyway: the closest one is shown with what fails
  }
  if (!first) return model_error("machine", "", render(none, UnitSystem::si));
  return std::move(*first);
}

}  // namespace lobewise::api
