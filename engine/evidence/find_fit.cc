// fit: does it stand where the old one stood.

#include <fmt/format.h>

#include <algorithm>

#include "engine/base/formula/record.h"
#include "engine/evidence/beside.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {
namespace {

using incumbent::FitLine;
using incumbent::FitVerdict;

/// Lines whose new figure must not exceed something; the others must match or be adapted.
Check check_of(const FitLine& line, double limit, const FitBeside& beside) {
  Check check{line.label, *line.after, limit, line.quantity, true, {}, {}};
  if (line.field == "length") {
    check.low = beside.length.low;
    check.high = beside.length.high;
  }
  if (line.field == "mass") {
    check.low = beside.mass.low;
    check.high = beside.mass.high;
  }
  return check;
}

void add_checks(const FitBeside& beside, Finding& out) {
  const auto& room = beside.room;
  for (const FitLine& line : beside.fit.lines) {
    if (line.verdict == FitVerdict::unknown || !line.after) continue;
    std::optional<double> limit;
    if (line.field == "shaft_height" && !room.shaft_may_move) limit = line.before;
    if (line.field == "length") limit = room.length ? room.length : line.before;
    if (line.field == "width") limit = room.width ? room.width : line.before;
    if (line.field == "height") limit = room.height ? room.height : line.before;
    if (line.field == "mass") limit = room.lifting ? room.lifting : line.before;
    if (limit) out.checks.push_back(check_of(line, *limit, beside));
  }
}

Chart dimension_bars(const FitBeside& beside) {
  Chart chart{"dimensions_beside",
              "Dimensions beside what stands there",
              "Dimension",
              "Length",
              Quantity::number,
              Quantity::length,
              {},
              true,
              false,
              false,
              {"what stands there", "candidate"}};
  double index = 0;
  for (const FitLine& line : beside.fit.lines) {
    if (!line.before || !line.after || line.quantity != Quantity::length) continue;
    chart.series.push_back({line.label, {index, index + 0.35}, {*line.before, *line.after}, false});
    ++index;
  }
  return chart;
}

}  // namespace

void write_fit(const Context& context, Finding& out) {
  const drive::Drive& drive = context.drive;
  const FitBeside beside = fit_beside(drive);
  add_checks(beside, out);
  std::size_t known = 0, adapted = 0;
  std::string refused;
  for (const FitLine& line : beside.fit.lines) {
    if (line.verdict == FitVerdict::does_not_fit) refused += (refused.empty() ? "" : ", ") + line.label;
    if (line.before && line.after) {
      ++known;
      formula::record(out.working, ("d_" + line.field).c_str(), line.label.c_str(), line.quantity,
                      formula::input("new", "candidate", *line.after, line.quantity) -
                          formula::input("old", "what stands there", *line.before, line.quantity),
                      "derived, what the visitor measured against the range");
    }
    if (line.verdict == FitVerdict::adapter) ++adapted;
    if (!line.work.empty()) out.notes.push_back({fmt::format("{}: {}", line.label, line.work), {}});
  }
  out.missing = beside.unknown;
  if (drive.motor) {
    using formula::input;
    formula::record(out.working, "L", "overall length with its motor", Quantity::length,
                    input("l_s", "shaft end", drive.build.frame().output.length, Quantity::length) +
                        input("l_r", "reducer, shoulder to motor face", drive.build.length(), Quantity::length) +
                        input("l_m", "motor, estimated", drive::typical_length(*drive.motor).nominal, Quantity::length),
                    beside.length.source);
  }

  switch (beside.fit.verdict) {
    case FitVerdict::fits:
      out.answer = {"It stands where the old one stood: every dimension that was read agrees or is smaller.", {}};
      break;
    case FitVerdict::adapter:
      out.answer = {"It fits with adapter work at {} of the {} dimensions that were read.",
                    {{static_cast<double>(adapted), Quantity::number}, {static_cast<double>(known), Quantity::number}}};
      out.condition = {out.missing.empty() ? "the adapter work named below is done"
                                           : "the adapter work named below is done and what was not read does not "
                                             "stand against it",
                       {}};
      break;
    case FitVerdict::does_not_fit:
      out.answer = {fmt::format("It does not stand where the old one stood: {}.", refused), {}};
      break;
    case FitVerdict::unknown:
      out.answer = {known == 0 ? "Nothing is known of the dimensions of what stands there."
                               : "What was read agrees; the rest of the old unit's dimensions is not known.",
                    {}};
      if (out.missing.empty()) out.missing.push_back("dimensions of what stands there");
      break;
  }
  constexpr Verdict kVerdicts[] = {Verdict::holds, Verdict::holds_if, Verdict::does_not_hold,
                                   Verdict::cannot_be_judged};
  out.verdict = kVerdicts[static_cast<std::size_t>(beside.fit.verdict)];
  // The motor's size is an estimate: its upper end may not fit where the nominal one does.
  if (out.verdict == Verdict::holds && judge(out.checks) == Verdict::holds_if) {
    out.verdict = Verdict::holds_if;
    out.condition = {"the motor that is bought is not longer or heavier than estimated", {}};
  }
  Chart bars = dimension_bars(beside);
  if (!bars.series.empty()) out.charts.push_back(std::move(bars));
  out.left_out = {"Terminal box, fan cover, cable entry and the room to take them off; couplings and guards.",
                  "The motor's size is estimated from its power; read it from the motor that is bought."};
}

}  // namespace lobewise::evidence
