#include "engine/sizing/size.h"

#include <algorithm>
#include <utility>

#include "engine/sizing/price.h"
#include "engine/sizing/rescue.h"
#include "engine/sizing/why.h"

namespace lobewise::sizing {
namespace {

/// Every build at a glance, in the order of the range.
std::vector<Candidate> glance_at_all(const enquiry::Requirement& requirement, const range::Range& range) {
  const double price = price_of_mass(range);
  std::vector<Candidate> out;
  for (drive::Build& build : drive::all_builds(range)) out.push_back(glance(requirement, std::move(build), price));
  return out;
}

bool same_build(const Candidate& a, const Candidate& b) {
  return a.build.pair == b.build.pair && a.build.stages.back().stage == b.build.stages.back().stage;
}

std::vector<const Candidate*> pointers(const std::vector<Candidate>& list) {
  std::vector<const Candidate*> out;
  for (const Candidate& candidate : list) out.push_back(&candidate);
  return out;
}

}  // namespace

Sizing size(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources) {
  Sizing out;
  out.candidates = glance_at_all(requirement, range);
  std::vector<Candidate> off_speed;
  for (Candidate& candidate : out.candidates) {
    if (candidate.off_speed) off_speed.push_back(candidate);
    if (candidate.fell_out.empty()) look(requirement, sources.tables, candidate);
  }
  std::stable_sort(out.candidates.begin(), out.candidates.end(), before);
  const auto choose = [&](Candidate candidate) {
    const auto place = std::find_if(out.candidates.begin(), out.candidates.end(),
                                    [&](const Candidate& other) { return same_build(other, candidate); });
    *place = std::move(candidate);
    std::rotate(out.candidates.begin(), place, place + 1);
    out.chosen = 0;
  };
  const auto looked_end = std::find_if(out.candidates.begin(), out.candidates.end(),
                                       [](const Candidate& candidate) { return !candidate.fell_out.empty(); });
  const std::vector<Candidate> looked(out.candidates.begin(), looked_end);
  const Candidate* best = !looked.empty() && looked.front().serves() ? &looked.front() : nullptr;
  if (std::optional<Candidate> mended = mend(requirement, sources, looked, best)) {
    choose(std::move(*mended));
  } else if (best != nullptr) {
    out.chosen = 0;
    out.candidates.front().why = why_chosen(*best, pointers(looked));
  } else {
    Rescue found = rescue(requirement, range, sources, looked, std::move(off_speed));
    out.why_none = std::move(found.why_none);
    out.nearest = std::move(found.nearest);
    if (found.chosen) choose(std::move(*found.chosen));
  }
  for (Candidate& candidate : out.candidates)
    if (candidate.why.empty()) candidate.why = why_not(candidate);
  // Where it may stand decides before what it carries.
  if (!requirement.not_offered.empty()) {
    out.chosen = -1;
    out.why_none = {requirement.not_offered, {}};
  }
  return out;
}

Search::Search(const enquiry::Requirement& requirement, const range::Range& range, const Sources& sources)
    : requirement_(requirement), range_(range), sources_(sources) {
  for (Candidate& candidate : glance_at_all(requirement, range)) {
    if (candidate.fell_out.empty())
      waiting_.push_back(std::move(candidate));
    else if (candidate.off_speed)
      off_speed_.push_back(std::move(candidate));
  }
  std::stable_sort(waiting_.begin(), waiting_.end(), preferred);
}

/// Every build was looked at and none serves with rigid discs.
void Search::finish() {
  std::stable_sort(failed_.begin(), failed_.end(), before);
  std::optional<Candidate> chosen = mend(requirement_, sources_, failed_, nullptr);
  if (!chosen) {
    Rescue found = rescue(requirement_, range_, sources_, failed_, std::move(off_speed_));
    why_none_ = std::move(found.why_none);
    chosen = std::move(found.chosen);
  }
  if (chosen) failed_.assign(1, std::move(*chosen));
}

const Candidate* Search::serving() {
  while (looked_ < waiting_.size()) {
    Candidate candidate = std::move(waiting_[looked_++]);
    look(requirement_, sources_.tables, candidate);
    if (!candidate.fell_out.empty()) continue;
    if (candidate.serves()) {
      candidate.why = why_chosen(candidate, pointers(failed_));
      current_ = std::move(candidate);
      return &current_;
    }
    failed_.push_back(std::move(candidate));
  }
  return nullptr;
}

const Candidate* Search::next() {
  if (after_mended_) {
    current_ = std::move(*after_mended_);
    after_mended_.reset();
    return &current_;
  }
  if (const Candidate* candidate = serving()) {
    if (std::exchange(served_, true)) return candidate;
    // The first one: those that were refused and cost less may carry with discs that bend.
    std::optional<Candidate> mended = mend(requirement_, sources_, failed_, candidate);
    if (!mended) return candidate;
    after_mended_ = std::exchange(current_, std::move(*mended));
    return &current_;
  }
  if (!std::exchange(finished_, true)) {
    if (served_)
      std::stable_sort(failed_.begin(), failed_.end(), before);
    else
      finish();
  }
  return handed_ < failed_.size() ? &failed_[handed_++] : nullptr;
}

}  // namespace lobewise::sizing
