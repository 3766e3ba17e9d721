#include "engine/result/proof.h"

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const std::vector<Choice>& choices_of<UnitSystem>() {
  static const std::vector<Choice> choices{{"si", "SI"}, {"us", "US"}};
  return choices;
}

template <>
const RecordType& describe<result::Build>() {
  static const RecordType type{"build",
                               "",
                               "What is taken from the range",
                               {out<&Build::frame>("frame", "of the last stage"),
                                out<&Build::lobes>("lobes", "of its discs: the ratio of the stage"),
                                out<&Build::first_frame>("first_frame", "of the first of two stages"),
                                out<&Build::first_lobes>("first_lobes", "of the first of two stages")}};
  return type;
}

template <>
const RecordType& describe<RequirementLine>() {
  static const RecordType type{
      "requirement_line",
      "",
      "A line of what is asked",
      {out<&RequirementLine::path>("path", "in the enquiry"), out<&RequirementLine::label>("label", "what it is"),
       out<&RequirementLine::value>("value", "that is taken"),
       out<&RequirementLine::assumed>("assumed", "nobody said it"),
       out<&RequirementLine::low>("low", "of an assumed value: how far down it may lie"),
       out<&RequirementLine::high>("high", "of an assumed value: how far up it may lie"),
       out<&RequirementLine::source>("source", "of an assumed value: where it comes from")}};
  return type;
}

template <>
const RecordType& describe<Condition>() {
  static const RecordType type{
      "condition",
      "",
      "What is asked in words",
      {out<&Condition::path>("path", "in the enquiry"), out<&Condition::label>("label", "what it is"),
       out<&Condition::text>("text", "that is taken"),
       out<&Condition::said>("said", "by the customer; otherwise it is taken")}};
  return type;
}

template <>
const RecordType& describe<result::Assumption>() {
  static const RecordType type{
      "assumption",
      "",
      "What was taken because nobody said it",
      {out<&result::Assumption::path>("path", "in the enquiry"), out<&result::Assumption::text>("text", "one sentence"),
       out<&result::Assumption::value>("value", "that is taken"),
       out<&result::Assumption::low>("low", "how far down it may lie"),
       out<&result::Assumption::high>("high", "how far up it may lie"),
       out<&result::Assumption::source>("source", "where it comes from")}};
  return type;
}

template <>
const RecordType& describe<Question>() {
  static const RecordType type{
      "question",
      "",
      "What is worth asking the customer",
      {out<&Question::path>("path", "of the answer in the enquiry"), out<&Question::text>("text", "to ask"),
       out<&Question::decides>("decides", "some check holds with one answer and does not with the other"),
       out<&Question::finding>("finding", "with the check that the answer moves most"),
       out<&Question::check>("check", "that the answer moves most"),
       out<&Question::low>("low", "least margin of that check over the answers", Quantity::share),
       out<&Question::high>("high", "largest margin of that check over the answers", Quantity::share),
       out<&Question::effect>("effect", "the same in words")}};
  return type;
}

template <>
const RecordType& describe<Fact>() {
  static const RecordType type{
      "fact",
      "",
      "A fact of the drive",
      {out<&Fact::id>("id", "names it"), out<&Fact::label>("label", "what it is"),
       out<&Fact::value>("value", "a figure, or words"), or_text<&Fact::words>("value", "a figure, or words")}};
  return type;
}

template <>
const RecordType& describe<MachineFigure>() {
  static const RecordType type{
      "machine_figure",
      "",
      "A torque of the driven machine",
      {out<&MachineFigure::id>("id", "names it"), out<&MachineFigure::label>("label", "words"),
       out<&MachineFigure::value>("value", "likely"), out<&MachineFigure::low>("low", "how far down it may lie"),
       out<&MachineFigure::high>("high", "how far up it may lie")}};
  return type;
}

template <>
const RecordType& describe<Jam>() {
  static const RecordType type{
      "jam",
      "",
      "How the machine jams",
      {out<&Jam::text>("text", "in words"), out<&Jam::sudden>("sudden", "against something hard"),
       out<&Jam::angle>("angle", "of its shaft until it stands"),
       out<&Jam::angle_low>("angle_low", "how far down it may lie"),
       out<&Jam::angle_high>("angle_high", "how far up it may lie"), out<&Jam::source>("source", "of the angle"),
       out<&Jam::slip_torque>("slip_torque", "at which the machine slips instead")}};
  return type;
}

template <>
const RecordType& describe<Practice>() {
  static const RecordType type{
      "practice",
      "",
      "The usual service factors beside the computed duty",
      {out<&Practice::low>("low", "usual factor, from"), out<&Practice::high>("high", "usual factor, to"),
       out<&Practice::computed>("computed", "factor that the duty asks for"),
       out<&Practice::computed_low>("computed_low", "how far down it may lie"),
       out<&Practice::computed_high>("computed_high", "how far up it may lie"),
       out<&Practice::agreement>("agreement", "agrees, practice_asks_more or duty_asks_more"),
       out<&Practice::explanation>("explanation", "why they differ, or why they agree"),
       out<&Practice::source>("source", "of the usual factors"),
       out<&Practice::working>("working", "how the usual factor was found")}};
  return type;
}

template <>
const RecordType& describe<Machine>() {
  static const RecordType type{
      "machine",
      "",
      "What the driven machine is like beyond torque and speed",
      {out<&Machine::figures>("figures", "torques when it runs back, stands or drives"),
       out<&Machine::shock_class>("shock_class", "how it loads its drive: steady, uneven or striking"),
       out<&Machine::shock_reason>("shock_reason", "why"), out<&Machine::jam>("jam", "how it jams"),
       out<&Machine::practice>("practice", "the usual service factors beside it")}};
  return type;
}

template <>
const RecordType& describe<OfferedMotor>() {
  static const RecordType type{
      "offered_motor",
      "",
      "The motor that goes with the build",
      {out<&OfferedMotor::power>("power", "rated"), out<&OfferedMotor::poles>("poles", "number of poles"),
       out<&OfferedMotor::frequency>("frequency", "of the mains"), out<&OfferedMotor::speed>("speed", "at full load"),
       out<&OfferedMotor::torque>("torque", "rated"),
       out<&OfferedMotor::frame>("frame", "standard frame; empty when to be agreed"),
       out<&OfferedMotor::voltage>("voltage", "of the supply"),
       out<&OfferedMotor::current>("current", "rated, estimated")}};
  return type;
}

template <>
const RecordType& describe<Fill>() {
  static const RecordType type{
      "fill",
      "",
      "Lubricant of one housing",
      {out<&Fill::frame>("frame", "of the housing"), out<&Fill::volume>("volume", "that it takes")}};
  return type;
}

template <>
const RecordType& describe<OfferedLubricant>() {
  static const RecordType type{
      "offered_lubricant",
      "",
      "What the build is filled with",
      {out<&OfferedLubricant::kind>("kind", "oil or grease"),
       out<&OfferedLubricant::base>("base", "mineral, polyalphaolefin or polyglycol"),
       out<&OfferedLubricant::viscosity_40>("viscosity_40", "at 40 °C"),
       out<&OfferedLubricant::food_grade>("food_grade", "registered for incidental contact with food"),
       out<&OfferedLubricant::fills>("fills", "by housing, the last stage first")}};
  return type;
}

template <>
const RecordType& describe<Lifting>() {
  static const RecordType type{
      "lifting",
      "",
      "What hangs on the hoist",
      {out<&Lifting::mass>("mass", "with motor, estimated"), out<&Lifting::mass_low>("mass_low", "at least"),
       out<&Lifting::mass_high>("mass_high", "at most"), out<&Lifting::words>("words", "how to lift it"),
       out<&Lifting::centre>("centre", "of mass, from the shoulder of the output shaft towards the motor")}};
  return type;
}

template <>
const RecordType& describe<RangeNamed>() {
  static const RecordType type{
      "range_named",
      "",
      "The range that the build is of",
      {out<&RangeNamed::name>("name", "of the range"), out<&RangeNamed::version>("version", "of the range"),
       out<&RangeNamed::note>("note", "what to know about it")}};
  return type;
}

template <>
const RecordType& describe<Offer>() {
  static const RecordType type{
      "offer",
      "",
      "What is offered",
      {out<&Offer::mounting>("mounting", "foot or flange"),
       out<&Offer::orientation>("orientation", "horizontal, output_down or output_up"),
       out<&Offer::ratio>("ratio", "of the speeds"), out<&Offer::input_speed>("input_speed", "at full load"),
       out<&Offer::output_speed>("output_speed", "at full load"),
       out<&Offer::lubricant>("lubricant", "that it is filled with"), out<&Offer::mass>("mass", "without motor"),
       out<&Offer::price>("price", "without motor"), out<&Offer::currency>("currency", "of the price"),
       out<&Offer::quoted>("quoted", "the price is the one of the enquiry"),
       out<&Offer::offered>("offered", "false: nothing may be offered at this place"),
       out<&Offer::range>("range", "that the build is of"), out<&Offer::lifting>("lifting", "what hangs on the hoist"),
       out<&Offer::motor>("motor", "that goes with it")}};
  return type;
}

}  // namespace lobewise::model

namespace lobewise::result {
namespace {

std::vector<model::Field> joined(std::vector<model::Field> fields, std::vector<model::Field> own) {
  fields.insert(fields.end(), own.begin(), own.end());
  return fields;
}

}  // namespace

std::vector<model::Field> gaps_and(std::vector<model::Field> own) {
  return joined(
      {out<&Gaps::conditions>("conditions", "what is asked, in words"),
       out<&Gaps::assumptions>("assumptions", "what was taken because nobody said it"),
       out<&Gaps::questions>("questions", "what is worth asking, most first; absent when nobody asked for it"),
       out<&Gaps::cautions>("cautions", "what to take care of, the gravest first")},
      std::move(own));
}

std::vector<model::Field> asked_and(std::vector<model::Field> own) {
  return gaps_and(joined({out<&Asked::title>("title", "of the enquiry"),
                          out<&Asked::units>("units", "in which the enquiry wants its reports"),
                          out<&Asked::requirement>("requirement", "what is asked, in figures")},
                         std::move(own)));
}

}  // namespace lobewise::result

namespace lobewise::model {

template <>
const RecordType& describe<Proof>() {
  static const RecordType type{
      "proof", "", "Every question about one build on this machine, answered",
      asked_and({out<&Proof::build>("build", "that is examined"), out<&Proof::build_name>("build_name", "in words"),
                 out<&Proof::drive>("drive", "its facts"), out<&Proof::offer>("offer", "what is offered"),
                 out<&Proof::findings>("findings", "the questions, answered"),
                 out<&Proof::influences>("influences", "what the closest margin of all depends on, most first"),
                 out<&Proof::demand_working>("demand_working", "how the demand was found, when asked for"),
                 out<&Proof::chosen_because>("chosen_because", "why this build"),
                 out<&Proof::why_none>("why_none", "why nothing is offered; absent when something is"),
                 out<&Proof::machine>("machine", "what the driven machine is like")})};
  return type;
}

template <>
const RecordType& describe<Checked>() {
  static const RecordType type{"checked", "", "An enquiry that was read",
                               asked_and({out<&Checked::ok>("ok", "without errors"),
                                          out<&Checked::machine>("machine", "what the driven machine is like")})};
  return type;
}

}  // namespace lobewise::model
