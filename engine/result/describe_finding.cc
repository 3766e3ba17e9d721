#include "engine/result/finding.h"

namespace lobewise::model {

using namespace result;  // NOLINT(google-build-using-namespace): the records that are described here

template <>
const std::vector<Choice>& choices_of<StepKind>() {
  static const std::vector<Choice> choices{{"computed", "computed"},
                                           {"solved", "solved"},
                                           {"looked_up", "looked up"},
                                           {"followed_in_time", "followed in time"}};
  return choices;
}

template <>
const RecordType& describe<Check>() {
  static const RecordType type{
      "check",
      "",
      "A figure against its limit",
      {out<&Check::name>("name", "what is compared"), out<&Check::figure>("figure", "what was computed"),
       out<&Check::limit>("limit", "what it is held against"),
       out<&Check::at_most>("at_most", "the figure must stay below the limit; otherwise it must reach it"),
       out<&Check::margin>("margin", "what is left of the limit, as a share of it", Quantity::share),
       out<&Check::low>("low", "of the figure over what is uncertain: 5 % stay below; absent without a bound"),
       out<&Check::high>("high", "of the figure over what is uncertain: 95 % stay below; absent without a bound"),
       out<&Check::basis>("basis", "what a failure means"),
       out<&Check::of_order>("of_order", "mended by the order (fill, motor, heater), not by another build"),
       out<&Check::decides>("decides", "the one that the verdict of its finding hangs on most")}};
  return type;
}

template <>
const RecordType& describe<StepInput>() {
  static const RecordType type{
      "step_input",
      "",
      "A value put into a formula",
      {out<&StepInput::symbol>("symbol", "as in the formula"),
       out<&StepInput::symbol_mathml>("symbol_mathml", "the symbol, set"),
       out<&StepInput::meaning>("meaning", "plain words"), out<&StepInput::value>("value", "what was put in")}};
  return type;
}

template <>
const RecordType& describe<Step>() {
  static const RecordType type{
      "step",
      "",
      "One step of a working: symbol = formula(inputs) = value",
      {out<&Step::symbol>("symbol", "of the result"), out<&Step::symbol_mathml>("symbol_mathml", "the symbol, set"),
       out<&Step::meaning>("meaning", "plain words"), out<&Step::kind>("kind", "what a reader can do with it"),
       out<&Step::formula>("formula", "as text; of one looked up or followed in time: which row, what was followed"),
       out<&Step::inputs>("inputs", "what is put in"), out<&Step::value>("value", "what comes out"),
       out<&Step::source>("source", "where the formula comes from"),
       out<&Step::expression>("expression", "computed: the right-hand side over the inputs, all SI"),
       out<&Step::residual>("residual", "solved: what is nought, over inputs and result, all SI"),
       out<&Step::tolerance>("tolerance", "solved: the residual's size that counts as none"),
       out<&Step::mathml>("mathml", "computed and solved: the formula, set"),
       out<&Step::cells>("cells", "when asked for: the formula for a spreadsheet, every symbol in braces"),
       out<&Step::residual_value>("residual_value", "when asked for: the residual's value")}};
  return type;
}

template <>
const RecordType& describe<Series>() {
  static const RecordType type{"series",
                               "",
                               "A line of a chart; one point alone is marked",
                               {out<&Series::name>("name", "what it is"), out<&Series::x>("x", "SI"),
                                out<&Series::y>("y", "SI"), out<&Series::dashed>("dashed", "a limit or a comparison"),
                                out<&Series::band>("band", "a stretch where another line may lie, drawn behind it")}};
  return type;
}

template <>
const RecordType& describe<AxisUnit>() {
  static const RecordType type{"axis_unit",
                               "",
                               "How an axis is shown: (SI - offset) / factor",
                               {out<&AxisUnit::unit>("unit", "its name; empty for a bare number"),
                                out<&AxisUnit::factor>("factor", "SI units in one of it"),
                                out<&AxisUnit::offset>("offset", "SI value of its zero")}};
  return type;
}

template <>
const RecordType& describe<AxisUnits>() {
  static const RecordType type{
      "axis_units",
      "",
      "The unit that fits the largest figure of an axis",
      {out<&AxisUnits::si>("si", "for readers of SI"), out<&AxisUnits::us>("us", "for readers of US units")}};
  return type;
}

template <>
const RecordType& describe<Chart>() {
  static const RecordType type{
      "chart",
      "",
      "Lines or bars",
      {out<&Chart::id>("id", "names it"), out<&Chart::title>("title", "what it shows"),
       out<&Chart::x_label>("x_label", "what goes to the right"), out<&Chart::y_label>("y_label", "what goes up"),
       out<&Chart::x_quantity>("x_quantity", "kind of its figures"),
       out<&Chart::y_quantity>("y_quantity", "kind of its figures"), out<&Chart::x_unit>("x_unit", "how it is shown"),
       out<&Chart::y_unit>("y_unit", "how it is shown"),
       out<&Chart::bars>("bars", "a bar for every point, named by its series"),
       out<&Chart::log_x>("log_x", "logarithmic"), out<&Chart::log_y>("log_y", "logarithmic"),
       out<&Chart::pair>("pair", "what the first and the second bar of a group are; empty where bars stand alone"),
       out<&Chart::series>("series", "what is drawn")}};
  return type;
}

template <>
const RecordType& describe<Caution>() {
  static const RecordType type{"caution",
                               "",
                               "What can hurt, and who sees to it",
                               {out<&Caution::key>("key", "the same caution is shown once"),
                                out<&Caution::text>("text", "what can happen and what to do"),
                                out<&Caution::rank>("rank", "the gravest has the lowest"),
                                out<&Caution::who>("who", "acts on it"), out<&Caution::when>("when", "it is done")}};
  return type;
}

template <>
const RecordType& describe<Influence>() {
  static const RecordType type{"influence",
                               "",
                               "How far something unknown moves a margin from its low to its high end",
                               {out<&Influence::unknown>("unknown", "plain words"),
                                out<&Influence::change>("change", "of the worst margin", Quantity::share)}};
  return type;
}

template <>
const RecordType& describe<Finding>() {
  static const RecordType type{
      "finding",
      "",
      "A question that a customer asks, answered",
      {out<&Finding::id>("id", "names it"), out<&Finding::question>("question", "as a customer asks it"),
       out<&Finding::verdict>("verdict", "the promise on this machine"),
       out<&Finding::answer>("answer", "one plain sentence"),
       out<&Finding::condition>("condition", "what must be true for it to hold"),
       out<&Finding::checks>("checks", "figures against limits"),
       out<&Finding::notes>("notes", "what a colleague would add"),
       out<&Finding::missing>("missing", "what is needed to judge"),
       out<&Finding::left_out>("left_out", "what the model leaves out"),
       out<&Finding::working>("working", "how it was found; of findings for which it was asked"),
       out<&Finding::charts>("charts", "what a figure hangs on"),
       out<&Finding::cautions>("cautions", "what to take care of"),
       out<&Finding::influences>("influences", "what moves its worst margin, most first")}};
  return type;
}

}  // namespace lobewise::model
