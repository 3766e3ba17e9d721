#include "engine/result/sizing.h"

#include "engine/result/job.h"

namespace lobewise::result {
namespace {

Candidate candidate_of(const sizing::Candidate& candidate, const enquiry::Requirement& requirement) {
  Candidate out;
  out.build = of(candidate.build);
  out.build_name = candidate.build.name();
  out.ratio = candidate.build.ratio();
  out.ratio_error = candidate.ratio_error;
  out.verdict = candidate.verdict;
  out.poles = candidate.poles;
  out.mesh = candidate.bending ? "discs that bend" : "rigid discs";
  out.mass = amount(candidate.build.mass(), Quantity::mass);
  out.price = price_of(candidate.build.price(), requirement);
  out.price_with_motor = price_of(candidate.price(), requirement);
  out.fell_out = if_any(candidate.fell_out);
  out.why = if_any(candidate.why);
  for (const sizing::Margin& margin : candidate.margins) {
    out.margins.push_back({margin.id, margin.verdict, margin.estimate, {}, {}});
    if (!margin.deciding) continue;
    out.margins.back().margin = margin.deciding->margin;
    out.margins.back().basis = margin.deciding->basis;
  }
  return out;
}

}  // namespace

Sizing of(const sizing::Sizing& sizing, const enquiry::Enquiry& enquiry, const enquiry::Requirement& requirement) {
  Sizing out;
  fill(enquiry, requirement, {}, out);
  for (const sizing::Candidate& candidate : sizing.candidates)
    out.candidates.push_back(candidate_of(candidate, requirement));
  out.chosen = sizing.chosen;
  out.why_none = if_any(sizing.why_none);
  for (const sizing::Candidate& near : sizing.nearest)
    out.nearest.push_back({of(near.build), near.build.name(), near.ratio_error});
  return out;
}

}  // namespace lobewise::result

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const RecordType& describe<result::Margin>() {
  static const RecordType type{
      "margin",
      "",
      "What a build leaves of the limits of a finding",
      {out<&Margin::id>("id", "of the finding"), out<&Margin::verdict>("verdict", "of it"),
       out<&Margin::estimate>("estimate", "rigid discs were taken, and the mesh enters the finding"),
       out<&Margin::basis>("basis", "of the check that decides"),
       out<&Margin::margin>("margin", "of the check that decides", Quantity::share)}};
  return type;
}

template <>
const RecordType& describe<result::Candidate>() {
  static const RecordType type{
      "candidate",
      "",
      "A build against the enquiry",
      {out<&result::Candidate::build>("build", "of the range"),
       out<&result::Candidate::build_name>("build_name", "in words"),
       out<&result::Candidate::ratio>("ratio", "of the speeds"),
       out<&result::Candidate::ratio_error>("ratio_error", "speed off the speed asked for, with sign", Quantity::share),
       out<&result::Candidate::verdict>("verdict", "of all its findings"),
       out<&result::Candidate::poles>("poles", "of the motor it would get"),
       out<&result::Candidate::mesh>("mesh", "what it was looked at with, in words"),
       out<&result::Candidate::mass>("mass", "without motor"), out<&result::Candidate::price>("price", "without motor"),
       out<&result::Candidate::price_with_motor>("price_with_motor", "what candidates are ranked by"),
       out<&result::Candidate::fell_out>("fell_out", "why it was not looked at closer"),
       out<&result::Candidate::why>("why", "why it was chosen, or why another one was"),
       out<&result::Candidate::margins>("margins", "by finding")}};
  return type;
}

template <>
const RecordType& describe<NearBuild>() {
  static const RecordType type{
      "near_build",
      "",
      "A build that would serve at another speed",
      {out<&NearBuild::build>("build", "of the range"), out<&NearBuild::build_name>("build_name", "in words"),
       out<&NearBuild::ratio_error>("ratio_error", "speed off the speed asked for, with sign", Quantity::share)}};
  return type;
}

template <>
const RecordType& describe<result::Sizing>() {
  static const RecordType type{
      "sizing", "", "Every build of the range against an enquiry",
      asked_and({out<&result::Sizing::candidates>("candidates", "best first, then those that fell out"),
                 out<&result::Sizing::chosen>("chosen", "place of the best that serves; -1: none does"),
                 out<&result::Sizing::why_none>("why_none", "why none serves"),
                 out_if_any<&result::Sizing::nearest>("nearest", "the nearest slower and faster build that serves")})};
  return type;
}

}  // namespace lobewise::model
