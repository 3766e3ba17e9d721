#pragma once
// What was said about a machine, and what is taken where nothing was said. The physics of a machine is written once
// against `Given`; `with_ranges` runs it at the nominal assumptions and at both ends of each, so that every figure
// carries its range.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "engine/base/formula/record.h"
#include "engine/demand/contradiction.h"
#include "engine/demand/demand.h"
#include "engine/demand/field.h"

namespace lobewise::model {
template <>
const std::vector<Choice>& choices_of<demand::Feed>();
}  // namespace lobewise::model

namespace lobewise::demand {

/// Sources that recur.
inline constexpr const char* kCommonPractice = "common practice, no source";
inline constexpr const char* kDerived = "derived, docs/theory/machines.md";

/// Error for a value outside its field's range, or for a missing one.
[[nodiscard]] Error outside(const std::string& path, double value, const model::Field& field);
[[nodiscard]] Error missing(const std::string& path, std::string_view label, const char* question);

/// Reads fields of M; collects assumptions and errors. Not for hot paths.
template <class M>
class Given {
 public:
  using Member = std::optional<double> M::*;
  struct Override {
    std::string path;
    double value;
    bool operator==(const Override&) const = default;
  };

  Given(const M& machine, const Fields<M>& fields, const std::vector<Override>* overrides = nullptr)
      : machine_(machine), fields_(fields), overrides_(overrides) {
    for (const Field<M>& field : fields) {
      const auto& value = machine.*field.member;
      if (value && !(*value >= field.described.limits.low && *value <= field.described.limits.high))
        errors_.push_back(outside(path(field.described.key), *value, field.described));
    }
  }

  /// `machine.<id>.<name>`
  [[nodiscard]] static std::string path(std::string_view name) {
    return std::string("machine.") + M::kInfo.id + "." + std::string(name);
  }

  [[nodiscard]] bool said(Member member) const { return (machine_.*member).has_value(); }

  /// The value said, or the field's default as an assumption, or an error (then `1` is returned to keep the physics
  /// running).
  double operator()(Member member) { return (*this)(member, describe(member).fallback); }

  /// As above with a default that depends on other values.
  double operator()(Member member, const Default& fallback) {
    const Field<M>& field = describe(member);
    if (const auto& value = machine_.*member) return *value;
    if (fallback.source == nullptr || *fallback.source == '\0') {
      const std::string where = path(field.described.key);
      if (std::none_of(errors_.begin(), errors_.end(), [&](const Error& e) { return e.path == where; }))
        errors_.push_back(missing(where, field.described.label, field.question));
      return 1;
    }
    return assume({path(field.described.key), std::string(field.described.label) + " not said, taken.",
                   fallback.nominal, fallback.low, fallback.high, field.described.quantity, fallback.source},
                  field.question);
  }

  /// The same as a symbol of a recorded formula, with the field's own words.
  template <class X>
  X term(const char* symbol, Member member) {
    return term<X>(symbol, member, describe(member).fallback);
  }
  template <class X>
  X term(const char* symbol, Member member, const Default& fallback) {
    const double value = (*this)(member, fallback);
    if constexpr (std::is_same_v<X, formula::Term>) {
      const model::Field& field = describe(member).described;
      return formula::input(symbol, lower_case(field.label), value, field.quantity);
    } else {
      return value;
    }
  }

  /// Something taken that is not a field of the machine; `path` must be unique within the machine.
  double assume(Assumption assumption, const std::string& question = "") {
    const auto same = [&](const Assumption& a) { return a.path == assumption.path; };
    double value = assumption.value;
    if (overrides_)
      for (const Override& o : *overrides_)
        if (o.path == assumption.path) value = o.value;
    if (std::none_of(assumptions_.begin(), assumptions_.end(), same)) {
      assumptions_.push_back(std::move(assumption));
      questions_.push_back(question);
    }
    return value;
  }

  /// A question about something that is not a number; `influence` as in Question.
  void ask(Question question) { asked_.push_back(std::move(question)); }
  void fail(Error error) { errors_.push_back(std::move(error)); }
  /// Two fields that cannot both be true. @param why  one sentence with what is allowed
  void contradict(Member first, Member second, const std::string& why) {
    fail(contradiction(said_at(first), said_at(second), why));
  }
  /// What was said in a field, for a message.
  [[nodiscard]] Said said_at(Member member) const {
    const model::Field& field = describe(member).described;
    const auto& value = machine_.*member;
    return {path(field.key), value ? format_quantity(*value, field.quantity, UnitSystem::si) : "not said"};
  }
  /// Refuses a count with a fraction.
  void whole(Member member) {
    if (const auto& value = machine_.*member; value && *value != std::floor(*value)) {
      const Said at = said_at(member);
      fail(input_error(at.path, at.value,
                       std::string(describe(member).described.label) + ": a whole number is needed."));
    }
  }
  [[nodiscard]] bool ok() const { return errors_.empty(); }

  [[nodiscard]] const M& machine() const { return machine_; }
  [[nodiscard]] const Errors& errors() const { return errors_; }
  [[nodiscard]] const std::vector<Assumption>& assumptions() const { return assumptions_; }
  [[nodiscard]] const std::vector<std::string>& questions() const { return questions_; }  ///< one for each assumption
  [[nodiscard]] const std::vector<Question>& asked() const { return asked_; }

 private:
  const Field<M>& describe(Member member) const {
    return *std::find_if(fields_.begin(), fields_.end(), [&](const Field<M>& f) { return f.member == member; });
  }

  /// A label inside a sentence.
  static std::string lower_case(std::string_view label) {
    std::string words(label);
    if (words.size() > 1 && words[0] >= 'A' && words[0] <= 'Z' && words[1] >= 'a' && words[1] <= 'z')
      words[0] = static_cast<char>(words[0] - 'A' + 'a');
    return words;
  }

  const M& machine_;
  const Fields<M>& fields_;
  const std::vector<Override>* overrides_;
  Errors errors_;
  std::vector<Assumption> assumptions_;
  std::vector<std::string> questions_;
  std::vector<Question> asked_;
};

inline constexpr std::array kFigures = {&Demand::torque,      &Demand::starting_torque, &Demand::speed,
                                        &Demand::inertia,     &Demand::runback_torque,  &Demand::holding_torque,
                                        &Demand::radial_load, &Demand::axial_load,      &Demand::overhauling_torque};

/// Largest of the torques that decide a drive [N m].
[[nodiscard]] double largest_torque(const Demand& demand);
/// Sorts questions by influence, drops those without text or without influence.
void rank(std::vector<Question>& questions);

/// Runs `physics(Given<M>&, Demand&)` at nominal assumptions, at each end of each assumption, and, figure by figure, at
/// the corner where every assumption pushes the figure the same way (exact where the figure is monotonic in each
/// assumption). Errors: all fields out of range and all missing ones together.
/// @param physics    leaves the working
/// @param unwritten  the same computed with numbers only, for the ranges
template <class M, class Physics, class Unwritten>
[[nodiscard]] Result<Demand> with_ranges(const M& machine, const Fields<M>& fields, Physics physics,
                                         Unwritten unwritten) {
  using Overrides = std::vector<typename Given<M>::Override>;
  Given<M> given(machine, fields);
  Demand nominal;
  physics(given, nominal);
  if (!given.ok()) return given.errors();
  const auto& assumptions = given.assumptions();

  const auto run = [&](const Overrides& overrides) {
    Given<M> again(machine, fields, &overrides);
    Demand demand;
    unwritten(again, demand);
    return demand;
  };
  // A figure and its ends come from the same arithmetic: a last digit that differs would look like a range.
  const Demand plain = run({});
  for (const auto figure : kFigures) (nominal.*figure).value = (plain.*figure).value;
  std::array<Overrides, kFigures.size()> up, down;
  std::vector<Question> questions = given.asked();
  for (std::size_t i = 0; i < assumptions.size(); ++i) {
    const Assumption& a = assumptions[i];
    const Demand low = run({{a.path, a.low}}), high = run({{a.path, a.high}});
    for (std::size_t f = 0; f < kFigures.size(); ++f) {
      const bool rises = (high.*kFigures[f]).value >= (low.*kFigures[f]).value;
      up[f].push_back({a.path, rises ? a.high : a.low});
      down[f].push_back({a.path, rises ? a.low : a.high});
    }
    const double scale = largest_torque(nominal);
    double change = 0;
    for (const auto figure : {&Demand::torque, &Demand::starting_torque, &Demand::holding_torque})
      change = std::max(change, std::fabs((high.*figure).value - (low.*figure).value));
    questions.push_back({a.path, given.questions()[i], scale > 0 ? change / scale : 0});
  }
  // Most figures are lowest, or highest, at the same corner.
  std::vector<std::pair<Overrides, Demand>> corners;
  const auto at_corner = [&](const Overrides& corner) -> const Demand& {
    for (const auto& [known, demand] : corners)
      if (known == corner) return demand;
    return corners.emplace_back(corner, run(corner)).second;
  };
  for (std::size_t f = 0; f < kFigures.size(); ++f) {
    Figure& figure = nominal.*kFigures[f];
    figure.low = std::min(figure.value, (at_corner(down[f]).*kFigures[f]).value);
    figure.high = std::max(figure.value, (at_corner(up[f]).*kFigures[f]).value);
  }
  rank(questions);
  nominal.assumptions = assumptions;
  nominal.questions = std::move(questions);
  return nominal;
}

/// Sets shock class, its reason and the practice row; asks for the feed when it was not said (uneven is taken then).
/// @param even, uneven  rows of data/driven_machine_classes.csv
template <class M>
void classify_by_feed(Given<M>& in, Demand& out, const std::optional<Feed>& feed, const char* even,
                      const char* uneven) {
  const Feed taken = feed.value_or(Feed::uneven);
  out.shock_class = taken == Feed::even     ? ShockClass::steady
                    : taken == Feed::uneven ? ShockClass::uneven
                                            : ShockClass::striking;
  out.shock_reason = !feed                   ? "evenness of feed not said, uneven taken"
                     : taken == Feed::even   ? "evenly fed"
                     : taken == Feed::uneven ? "unevenly fed"
                                             : "lumps strike the machine";
  out.practice_machine = taken == Feed::even ? even : uneven;
  // A class is worth about a quarter of the running torque in the usual service factors.
  if (!feed) in.ask({Given<M>::path("feed"), "Is it fed evenly, unevenly, or with lumps that strike it?", 0.25});
}

}  // namespace lobewise::demand
