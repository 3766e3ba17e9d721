#include "engine/result/survey_line.h"

#include "engine/result/job.h"

namespace lobewise::result {

ShortFinding short_of(const evidence::Finding& finding, bool estimate) {
  ShortFinding out;
  out.id = finding.id;
  out.verdict = finding.verdict;
  out.answer = sentence(finding.answer);
  out.condition = if_any(finding.condition);
  if (const evidence::Check* check = evidence::worst(finding)) {
    out.margin = check->margin();
    out.check = check->name;
    out.figure = amount(check->figure, check->quantity);
    out.limit = amount(check->limit, check->quantity);
    out.at_most = check->at_most;
    out.basis = check->basis;
    out.estimate = estimate;
  }
  return out;
}

}  // namespace lobewise::result

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const RecordType& describe<ShortFinding>() {
  static const RecordType type{
      "short_finding",
      "",
      "A question answered in short: its worst check",
      {out<&ShortFinding::id>("id", "names it"), out<&ShortFinding::verdict>("verdict", "the promise on this machine"),
       out<&ShortFinding::answer>("answer", "one plain sentence"),
       out<&ShortFinding::condition>("condition", "what must be true for it to hold"),
       out<&ShortFinding::margin>("margin", "of the check that decides", Quantity::share),
       out<&ShortFinding::check>("check", "that decides"), out<&ShortFinding::figure>("figure", "that was computed"),
       out<&ShortFinding::limit>("limit", "that it is held against"),
       out<&ShortFinding::at_most>("at_most", "the figure must stay below the limit; otherwise it must reach it"),
       out<&ShortFinding::basis>("basis", "what a failure of that check means"),
       out<&ShortFinding::estimate>("estimate", "rigid discs were taken, and the mesh enters the finding")}};
  return type;
}

template <>
const RecordType& describe<LineFigures>() {
  static const RecordType type{
      "line_figures",
      "",
      "What a list is ranked and added up by",
      {out<&LineFigures::torque>("torque", "at full load", Quantity::torque),
       out<&LineFigures::torque_low>("torque_low", "how far down it may lie", Quantity::torque),
       out<&LineFigures::torque_high>("torque_high", "how far up it may lie", Quantity::torque),
       out<&LineFigures::speed>("speed", "of the driven shaft", Quantity::angular_speed),
       out<&LineFigures::mean_power>("mean_power", "of the driven shaft over the duty", Quantity::power),
       out<&LineFigures::running_per_year>("running_per_year", "time", Quantity::duration),
       out<&LineFigures::service_factor>("service_factor", "asked for, else the usual one"),
       out<&LineFigures::efficiency>("efficiency", "of the candidate", Quantity::share),
       out<&LineFigures::present_efficiency>("present_efficiency", "of the unit in service", Quantity::share),
       out<&LineFigures::energy_present>("energy_present", "that the unit in service takes a year", Quantity::energy),
       out<&LineFigures::energy_candidate>("energy_candidate", "that the candidate takes a year", Quantity::energy),
       out<&LineFigures::ratio>("ratio", "of the candidate"),
       out<&LineFigures::mass>("mass", "of the candidate without motor", Quantity::mass),
       out<&LineFigures::price>("price", "of the candidate without motor", Quantity::money),
       out<&LineFigures::motor_power>("motor_power", "rated", Quantity::power)}};
  return type;
}

template <>
const RecordType& describe<SurveyLine>() {
  static const RecordType type{
      "survey_line", "", "One line of a plant's list",
      gaps_and({out<&SurveyLine::serves>("serves", "no finding about the build says that it does not hold"),
                out<&SurveyLine::under_condition>("under_condition", "findings that hold under a condition"),
                out<&SurveyLine::failing>("failing", "findings that fail, `life, heat`; empty: none"),
                out<&SurveyLine::build>("build", "the best, or the closest"),
                out<&SurveyLine::build_name>("build_name", "in words"),
                out<&SurveyLine::mesh>("mesh", "what it was proved with, in words"),
                out<&SurveyLine::figures>("figures", "what the list is ranked by"),
                out<&SurveyLine::findings>("findings", "in short"),
                out<&SurveyLine::why_none>("why_none", "why nothing is offered"),
                out<&SurveyLine::not_offered>("not_offered", "why nothing may be offered at this place"),
                out<&SurveyLine::not_compared>("not_compared", "why the unit in service is not set beside it")})};
  return type;
}

}  // namespace lobewise::model
