#include "engine/sizing/size.h"

#include <algorithm>
#include <cmath>

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
  const auto looked_end = std::find_if(out.candidates.begin(), out.candidates.end(),
                                       [](const Candidate& candidate) { return !candidate.fell_out.empty(); });
  if (looked_end != out.candidates.begin() && out.candidates.front().serves()) {
    out.chosen = 0;
    out.candidates.front().why = why_chosen(out.candidates.front(), pointers(out.candidates));
  } else {
    Rescue found = rescue(requirement, range, sources, {out.candidates.begin(), looked_end}, std::move(off_speed));
    out.why_none = std::move(found.why_none);
    out.nearest = std::move(found.nearest);
    if (found.chosen) {
      const auto place = std::find_if(out.candidates.begin(), out.candidates.end(),
                                      [&](const Candidate& c) { return same_build(c, *found.chosen); });
      *place = std::move(*found.chosen);
      std::rotate(out.candidates.begin(), place, place + 1);
      out.chosen = 0;
    }
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

/// Whether rough tables are enough to reject a candidate; it keeps their margins then.
bool Search::far_too_small(Candidate& candidate) const {
  constexpr double kFar = -0.5;
  if (!sources_.rough) return false;
  Candidate guess = candidate;
  look(requirement_, sources_.rough, guess);
  if (!guess.fell_out.empty() || guess.serves() || worst_promise(guess) > kFar) return false;
  candidate = std::move(guess);
  return true;
}

/// Nothing serves: those that rough tables put near the best one are looked at closely after all.
void Search::look_at_closest() {
  constexpr double kNear = 0.5;
  std::stable_sort(rejected_.begin(), rejected_.end(), before);
  for (Candidate& candidate : rejected_) {
    if (!failed_.empty() && worst_promise(candidate) < worst_promise(failed_.front()) - kNear) break;
    look(requirement_, sources_.tables, candidate);
    if (!candidate.fell_out.empty()) continue;
    failed_.push_back(std::move(candidate));
    std::stable_sort(failed_.begin(), failed_.end(), before);
  }
}

/// Every build was looked at.
void Search::finish() {
  finished_ = true;
  std::stable_sort(failed_.begin(), failed_.end(), before);
  if (served_) return;
  if (sources_.rough) look_at_closest();
  Rescue found = rescue(requirement_, range_, sources_, failed_, std::move(off_speed_));
  why_none_ = std::move(found.why_none);
  if (found.chosen)
    failed_.assign(1, std::move(*found.chosen));
  else if (sources_.rough && failed_.size() > 1)
    failed_.erase(failed_.begin() + 1, failed_.end());
}

const Candidate* Search::next() {
  while (looked_ < waiting_.size()) {
    current_ = std::move(waiting_[looked_++]);
    if (far_too_small(current_)) {
      rejected_.push_back(std::move(current_));
      continue;
    }
    look(requirement_, sources_.tables, current_);
    if (!current_.fell_out.empty()) continue;
    if (current_.serves()) {
      served_ = true;
      std::vector<const Candidate*> others = pointers(failed_);
      for (const Candidate& candidate : rejected_) others.push_back(&candidate);
      current_.why = why_chosen(current_, others);
      return &current_;
    }
    failed_.push_back(std::move(current_));
  }
  if (!finished_) finish();
  return handed_ < failed_.size() ? &failed_[handed_++] : nullptr;
}

}  // namespace lobewise::sizing
