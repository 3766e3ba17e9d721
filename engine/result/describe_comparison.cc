#include "engine/result/comparison.h"

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const std::vector<Choice>& choices_of<Better>() {
  static const std::vector<Choice> choices{
      {"candidate", "new"}, {"incumbent", "present"}, {"even", "even"}, {"unknown", "open"}};
  return choices;
}

template <>
const std::vector<Choice>& choices_of<FitVerdict>() {
  static const std::vector<Choice> choices{
      {"fits", "fits"}, {"adapter", "adapter"}, {"does_not_fit", "does not fit"}, {"unknown", "unknown"}};
  return choices;
}

template <>
const RecordType& describe<UnitFact>() {
  static const RecordType type{"unit_fact",
                               "",
                               "A figure of the unit in service",
                               {out<&UnitFact::label>("label", "what it is"), out<&UnitFact::value>("value", "likely"),
                                out<&UnitFact::low>("low", "of an estimate: how far down it may lie"),
                                out<&UnitFact::high>("high", "of an estimate: how far up it may lie"),
                                out<&UnitFact::source>("source", "of an estimate")}};
  return type;
}

template <>
const RecordType& describe<result::UnitStage>() {
  static const RecordType type{"unit_stage",
                               "",
                               "A stage of the unit in service",
                               {out<&result::UnitStage::kind>("kind", "of its teeth, or a belt"),
                                out<&result::UnitStage::ratio>("ratio", "of its speeds"),
                                out<&result::UnitStage::facts>("facts", "its figures")}};
  return type;
}

template <>
const RecordType& describe<result::Unit>() {
  static const RecordType type{
      "unit",
      "",
      "The unit in service, as it is modelled",
      {out<&result::Unit::kind>("kind", "word of the enquiry"), out<&result::Unit::name>("name", "in words"),
       out<&result::Unit::geared>("geared", "its gears are known or designed"),
       out<&result::Unit::ratio>("ratio", "from whole numbers of teeth"),
       out<&result::Unit::facts>("facts", "its figures"),
       out<&result::Unit::stages>("stages", "from its input to its output"),
       out<&result::Unit::assumptions>("assumptions", "what was taken of it"),
       out<&result::Unit::trouble>("trouble", "as somebody put it")}};
  return type;
}

template <>
const RecordType& describe<Spread>() {
  static const RecordType type{"spread",
                               "",
                               "A figure over what is not known exactly",
                               {out<&Spread::nominal>("nominal", "likely"), out<&Spread::low>("low", "5 % stay below"),
                                out<&Spread::high>("high", "95 % stay below")}};
  return type;
}

template <>
const RecordType& describe<AxisBeside>() {
  static const RecordType type{
      "axis_beside",
      "",
      "A line of “beside what you have”",
      {out<&AxisBeside::id>("id", "names it"), out<&AxisBeside::question>("question", "asked"),
       out<&AxisBeside::candidate>("candidate", "its figure"), out<&AxisBeside::incumbent>("incumbent", "its figure"),
       out<&AxisBeside::better>("better", "which side, where the ranges lie clear"),
       out<&AxisBeside::remark>("remark", "what the line does not say by itself")}};
  return type;
}

template <>
const RecordType& describe<result::FitLine>() {
  static const RecordType type{
      "fit_line",
      "",
      "A dimension of the place",
      {out<&result::FitLine::field>("field", "of the enquiry"), out<&result::FitLine::label>("label", "what it is"),
       out<&result::FitLine::before>("before", "of the unit in service"),
       out<&result::FitLine::after>("after", "of the new one"),
       out<&result::FitLine::verdict>("verdict", "of this dimension"),
       out<&result::FitLine::work>("work", "that it takes; empty when none")}};
  return type;
}

template <>
const RecordType& describe<result::Fit>() {
  static const RecordType type{
      "fit",
      "",
      "Whether the new unit fits where the old one stood",
      {out<&result::Fit::verdict>("verdict", "of all dimensions"), out<&result::Fit::lines>("lines", "by dimension"),
       out<&result::Fit::missing>("missing", "what was not measured")}};
  return type;
}

template <>
const RecordType& describe<result::Trouble>() {
  static const RecordType type{
      "trouble",
      "",
      "A trouble that was seen, and what the figures say of it",
      {out<&result::Trouble::what>("what", "word of the enquiry"), out<&result::Trouble::label>("label", "in words"),
       out<&result::Trouble::note>("note", "as somebody put it"),
       out<&result::Trouble::looked_at>("looked_at", "what the model says of it"),
       out<&result::Trouble::ask>("ask", "what to ask; empty when nothing"),
       out<&result::Trouble::explained>("explained", "by the model; absent when it cannot tell"),
       out<&result::Trouble::figure>("figure", "that was looked at"),
       out<&result::Trouble::limit>("limit", "that it is held against"),
       out<&result::Trouble::per_year>("per_year", "how often it was seen")}};
  return type;
}

template <>
const RecordType& describe<CaseSide>() {
  static const RecordType type{
      "case_side",
      "",
      "What one way to drive the machine costs over the years, in money of today",
      {out<&CaseSide::name>("name", "in words"), out<&CaseSide::total>("total", "of all that follows"),
       out<&CaseSide::purchase>("purchase", "reducer, motor, installation, adapters, spare"),
       out<&CaseSide::energy>("energy", "that it draws"), out<&CaseSide::carbon>("carbon", "where it is paid for"),
       out<&CaseSide::upkeep>("upkeep", "lubricant and labour"), out<&CaseSide::repairs>("repairs", "expected"),
       out<&CaseSide::standstill>("standstill", "lost production, expected"),
       out<&CaseSide::energy_first_year>("energy_first_year", "that it draws in the first year"),
       out<&CaseSide::carbon_mass>("carbon_mass", "carbon dioxide of its energy"),
       out<&CaseSide::stoppages>("stoppages", "expected over the years"),
       out<&CaseSide::lost_time>("lost_time", "running time lost, expected over the years")}};
  return type;
}

template <>
const RecordType& describe<MoneyBand>() {
  static const RecordType type{
      "money_band",
      "",
      "Money over everything that is uncertain",
      {out<&MoneyBand::nominal>("nominal", "at the likely figures"), out<&MoneyBand::low>("low", "5 % stay below"),
       out<&MoneyBand::median>("median", "half stay below"), out<&MoneyBand::high>("high", "95 % stay below")}};
  return type;
}

template <>
const RecordType& describe<result::OpenBand>() {
  static const RecordType type{"open_band",
                               "",
                               "A figure over everything that is uncertain; an end without a figure is absent",
                               {out<&result::OpenBand::nominal>("nominal", "at the likely figures"),
                                out<&result::OpenBand::low>("low", "5 % stay below"),
                                out<&result::OpenBand::median>("median", "half stay below"),
                                out<&result::OpenBand::high>("high", "95 % stay below")}};
  return type;
}

template <>
const RecordType& describe<result::BreakEven>() {
  static const RecordType type{
      "break_even",
      "",
      "Where the case turns",
      {out<&result::BreakEven::path>("path", "of the figure"), out<&result::BreakEven::label>("label", "of the figure"),
       out<&result::BreakEven::sentence>("sentence", "in words"),
       out<&result::BreakEven::pays_now>("pays_now", "at the likely figures"),
       out<&result::BreakEven::value>("value", "at which it turns; absent when it turns nowhere")}};
  return type;
}

template <>
const RecordType& describe<Matter>() {
  static const RecordType type{
      "matter",
      "",
      "How far one figure moves the case",
      {out<&Matter::path>("path", "of the figure"), out<&Matter::label>("label", "of the figure"),
       out<&Matter::low>("low", "end of it"), out<&Matter::high>("high", "end of it"),
       out<&Matter::value_at_low>("value_at_low", "present value there"),
       out<&Matter::value_at_high>("value_at_high", "present value there")}};
  return type;
}

template <>
const RecordType& describe<Case>() {
  static const RecordType type{
      "case",
      "",
      "Keep what stands, or put the candidate in its place",
      {out<&Case::against>("against", "present or replacement"),
       out<&Case::name>("name", "of what it is set against"),
       out<&Case::currency>("currency", "of all money in it"),
       out<&Case::years>("years", "that it looks ahead"),
       out<&Case::answer>("answer", "one plain sentence"),
       out<&Case::value>("value", "present value of the change"),
       out<&Case::value_with_spare>("value_with_spare", "present value if a spare is put on the shelf as well"),
       out<&Case::payback>("payback", "simple, in years; empty where it hangs on a spare"),
       out<&Case::return_rate>("return_rate", "per year, as a share"),
       out<&Case::hangs_on_spare>("hangs_on_spare", "whether it pays hangs on a spare that nobody spoke of"),
       out<&Case::return_ambiguous>("return_ambiguous", "more than one rate of return solves it"),
       out<&Case::share_paying>("share_paying", "of the draws in which it pays", Quantity::share),
       out<&Case::share_paying_back>("share_paying_back", "of the draws in which it pays back in the years",
                                     Quantity::share),
       out<&Case::keep>("keep", "what is there, or a new one of its kind"),
       out<&Case::candidate>("candidate", "the new drive"),
       out<&Case::break_evens>("break_evens", "where it turns"),
       out<&Case::matters>("matters", "what moves it, most first"),
       out<&Case::assumptions>("assumptions", "what was taken because nobody said it"),
       out<&Case::not_counted>("not_counted", "left at nothing because nobody said it"),
       out<&Case::working>("working", "how it was found"),
       out<&Case::charts>("charts", "money over the years, by part, and what moves it")}};
  return type;
}

template <>
const RecordType& describe<Comparison>() {
  static const RecordType type{
      "comparison", "", "The candidate beside the drive in service",
      asked_and({out<&Comparison::build>("build", "of the candidate"),
                 out<&Comparison::build_name>("build_name", "in words"),
                 out<&Comparison::why_none>("why_none", "why nothing is offered; absent when something is"),
                 out_or_null<&Comparison::incumbent>("incumbent", "null when too little is known of it"),
                 out<&Comparison::axes>("axes", "side by side"), out<&Comparison::fit>("fit", "in its place"),
                 out<&Comparison::cases>("cases", "the one that decides first"),
                 out<&Comparison::troubles>("troubles", "that were seen"),
                 out<&Comparison::verdict>("verdict", "who is better at what, in words"),
                 out<&Comparison::missing>("missing", "what is needed to judge the rest"),
                 out<&Comparison::charts>("charts", "both over the load"),
                 out<&Comparison::working>("working", "how the unit in service was modelled")})};
  return type;
}

}  // namespace lobewise::model
