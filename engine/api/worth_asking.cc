#include "engine/api/worth_asking.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "engine/enquiry/requirement.h"
#include "engine/judge/worth_asking.h"

namespace lobewise::api {
namespace {

/// `{duty: {shocks: [{torque: …}]}}` out of `duty.shocks.0.torque`.
void put(Json& into, const std::string& path, const Json& value) {
  Json* at = &into;
  for (std::size_t from = 0; from < path.size();) {
    const std::size_t dot = std::min(path.find('.', from), path.size());
    const std::string key = path.substr(from, dot - from);
    at = key == "0" ? &(*at)[std::size_t{0}] : &(*at)[key];
    from = dot + 1;
  }
  *at = value;
}

std::optional<enquiry::Requirement> heard(const Json& enquiry, const judge::Answer& answer) {
  Json change;
  for (const judge::Said& said : answer)
    std::visit([&](const auto& value) { put(change, said.path, value); }, said.value);
  Json changed = enquiry;
  changed.merge_patch(change);
  const Result<enquiry::Enquiry> read_again = read<enquiry::Enquiry>(changed, Numbers::si);
  if (!read_again) return std::nullopt;
  Result<enquiry::Requirement> requirement = enquiry::require(*read_again);
  if (!requirement) return std::nullopt;
  return std::move(*requirement);
}

/// A margin as people say it.
std::string percent(double margin) {
  const double value = std::round(100 * margin);
  return value > 999 ? ">999 %" : fmt::format("{}{:.0f} %", value < 0 ? "−" : "", std::abs(value));
}

}  // namespace

std::vector<result::Question> worth_asking(const Json& enquiry, const drive::Drive& drive, std::size_t looked_at) {
  std::vector<result::Question> out;
  const auto hear = [&](const judge::Answer& answer) { return heard(enquiry, answer); };
  for (judge::Asked& asked : judge::worth_asking(drive, hear, looked_at)) {
    result::Question question;
    question.path = std::move(asked.path);
    question.text = std::move(asked.text);
    question.decides = asked.decides;
    if (!asked.finding.empty()) question.finding = std::move(asked.finding);
    if (!asked.check.empty()) {
      question.low = asked.low;
      question.high = asked.high;
      question.effect = fmt::format("{}{}: {} … {}", asked.decides ? "decides " : "", asked.check, percent(asked.low),
                                    percent(asked.high));
      question.check = std::move(asked.check);
    }
    out.push_back(std::move(question));
  }
  return out;
}

}  // namespace lobewise::api
