#pragma once
// What Lobewise says: a question a customer asks, answered with a figure, its limit, the margin, and how it was found.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/text.h"
#include "engine/base/working.h"

namespace lobewise::evidence {

enum class Verdict {
  holds,             ///< the promise holds on this machine over the whole range of what is not known exactly
  holds_if,          ///< holds at nominal values; the condition says what must be true
  does_not_hold,     ///< fails at nominal values
  cannot_be_judged,  ///< something is missing; `missing` says what
};

/// What a check that fails means.
enum class Basis {
  promise,    ///< stated by the customer, or true of the build: the promise does not hold
  assumed,    ///< only because of something that we took and nobody said: it holds if that is not so
  yardstick,  ///< a rule of the trade without a source: reported, refuses nothing
};

/// A figure against its limit.
struct Check {
  std::string name;   ///< what is compared, plain words
  double figure = 0;  ///< SI
  double limit = 0;   ///< SI
  Quantity quantity = Quantity::number;
  bool at_most = true;              ///< figure must stay below the limit; otherwise it must reach it
  std::optional<double> low, high;  ///< of the figure over the range of what is uncertain, 5 % and 95 %
  double zero = 0;                  ///< where the scale of the margin begins: 0, or the surroundings for a temperature
  Basis basis = Basis::promise;
  /// Mended by an option of the order, another fill, motor or a heater: no reason to take another build.
  bool of_order = false;
  std::string about = {};            ///< what stays the same when another event decides; empty: the name
  std::string most_depends_on = {};  ///< the unknown that moves its margin most, plain words; empty without one

  /// Share of the limit left: (limit - figure) / (limit - zero), with the sign turned when the limit is a least value.
  [[nodiscard]] double margin() const { return (at_most ? limit - figure : figure - limit) / (limit - zero); }
};

/// A line; one point alone is marked.
struct Series {
  std::string name;                ///< `{}` stands for the next of `values`
  std::vector<double> x, y;        ///< SI
  bool dashed = false;             ///< a limit or a comparison
  std::vector<Value> values = {};  ///< in its name
  bool band = false;               ///< a stretch of another line, drawn broad behind it: where it may lie
};

struct Chart {
  std::string id;
  std::string title;
  std::string x_label, y_label;
  Quantity x_quantity = Quantity::number, y_quantity = Quantity::number;
  std::vector<Series> series;
  bool bars = false;
  bool log_x = false, log_y = false;
  /// What the first and the second bar of every group are; empty where bars stand alone.
  std::vector<std::string> pair = {};
};

struct Caution {
  std::string key;  ///< the same caution is shown once
  std::string text;
};

/// How much one unknown moves a margin: change from the low to the high end of the unknown.
struct Influence {
  std::string unknown;  ///< plain words
  double change = 0;    ///< of the worst margin, absolute
};

struct Finding {
  std::string id;
  std::string question;
  Verdict verdict = Verdict::cannot_be_judged;
  Text answer;                        ///< one plain sentence
  Text condition;                     ///< for holds_if
  std::vector<Check> checks;          ///< the first one is shown; the worst one decides
  std::vector<Text> notes;            ///< what a colleague would add, good and bad
  std::vector<std::string> missing;   ///< what is needed to judge
  std::vector<std::string> left_out;  ///< what the model leaves out
  Working working;
  std::vector<Chart> charts;
  std::vector<Caution> cautions;
  std::vector<Influence> influences;  ///< what moves its worst margin, largest first; at most three
};

/// The check that decides: of those with the weightiest basis that fails, else of all, the one with the smallest
/// margin; null without checks.
[[nodiscard]] const Check* worst(const Finding& finding);
[[nodiscard]] const Check* worst(const std::vector<Check>& checks);

/// does_not_hold when a promise fails, holds_if when one fails inside its low-high range only, or when an assumed or a
/// yardstick check fails; holds otherwise.
[[nodiscard]] Verdict judge(const std::vector<Check>& checks);

}  // namespace lobewise::evidence
