#include "engine/judge/worth_asking.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "engine/enquiry/requirement.h"
#include "engine/evidence/case_of.h"
#include "engine/evidence/prove.h"

namespace lobewise::judge {
namespace {

/// Margin of every check, by finding and name.
using Margins = std::map<std::pair<std::string, std::string>, double>;

/// Answers to questions about words, and about what no number was taken for. Common practice, no source.
constexpr double kChainWheel = 3;     ///< pitch diameter of a usual chain wheel over the diameter of its shaft
constexpr double kUsualOverload = 2;  ///< a jam or overload nobody mentioned, over the running torque
constexpr double kOverloadsAYear = 10;
constexpr double kBeforeAnyFigure = 50, kSettles = 100;  ///< ranks above every margin
constexpr double kFar = 0.5;                             ///< margins beyond this decide nothing

class Asker {
 public:
  Asker(const drive::Drive& drive, Hear hear) : drive_(drive), hear_(hear), nominal_(look(drive)) {}

  Asked answer(const demand::Question& question) const {
    if (question.path == "economics.spare_on_shelf") return answer_by_cost(question);
    Asked out{question.path, question.text};
    // Decides before any figure whether something may be offered at all: no margin to rank it by.
    if (question.path == "site.explosive_atmosphere") {
      out.finding = "place";
      out.decides = true;
      out.moves = kBeforeAnyFigure;
      return out;
    }
    std::vector<Margins> all{nominal_};
    for (const Answer& change : answers(question.path))
      if (std::optional<Margins> margins = with(change)) all.push_back(std::move(*margins));
    if (all.size() == 1) all = by_torque(question.influence);
    for (const auto& [check, margin] : nominal_) {
      double low = margin, high = margin;
      for (const Margins& margins : all)
        if (const auto found = margins.find(check); found != margins.end()) {
          low = std::min(low, found->second);
          high = std::max(high, found->second);
        }
      const bool decides = low < 0 && high >= 0;
      const double moved = std::clamp(high, -kFar, kFar) - std::clamp(low, -kFar, kFar) + (decides ? 2 : 0);
      if (moved <= out.moves) continue;
      out = {question.path, question.text, decides, check.first, check.second, low, high, moved};
    }
    // The one measurement that settles a bounded load stands before all else.
    const bool settles =
        !drive_.requirement.demand.settled_by.empty() && question.path == "machine.measured.measured_power";
    if (settles) out.moves = kSettles;
    return out;
  }

 private:
  /// Money moves no check of the build: such a question is weighed by what the change costs.
  Asked answer_by_cost(const demand::Question& question) const {
    const Asked unmoved{question.path, question.text};
    std::string name;
    std::optional<double> low, high;
    const evidence::Evaluation nominal = evidence::evaluate(drive_, {});
    for (const bool there : {true, false}) {
      drive::Drive drive = drive_;
      if (!drive.requirement.economics) return unmoved;
      drive.requirement.economics->spare_on_shelf = there;
      const std::optional<evidence::Check> cost = evidence::likely_cost(drive, nominal);
      if (!cost) return unmoved;
      low = std::min(low.value_or(cost->margin()), cost->margin());
      high = std::max(high.value_or(cost->margin()), cost->margin());
      name = cost->name;
    }
    const bool decides = *low < 0 && *high >= 0;
    // Before every other question: without it no payback is said.
    const double moves = std::clamp(*high, -kFar, kFar) - std::clamp(*low, -kFar, kFar) + (decides ? 4 : 0);
    return {question.path, question.text, decides, "cost", name, *low, *high, moves};
  }

  static Margins look(const drive::Drive& drive) {
    Margins out;
    for (const evidence::QuickFinding& finding : evidence::quick_look(drive))
      for (const evidence::Check& check : finding.checks)
        if (check.basis != evidence::Basis::yardstick && std::isfinite(check.margin()))
          out[{finding.question->id, check.about.empty() ? check.name : check.about}] = check.margin();
    return out;
  }

  /// Same build, same tables, another enquiry.
  std::optional<Margins> with(const Answer& answer) const {
    const std::optional<enquiry::Requirement> requirement = hear_(answer);
    return requirement ? with(*requirement) : std::nullopt;
  }
  std::optional<Margins> with(const enquiry::Requirement& requirement) const {
    const auto tables = [this](const range::Stage& stage) -> Result<std::shared_ptr<const drive::StageTable>> {
      for (std::size_t i = 0; i < drive_.tables.size(); ++i)
        if (drive_.build.stages[i].stage == &stage) return drive_.tables[i];
      return model_error("build", "", "no table");
    };
    enquiry::Requirement same = requirement;
    // The motor that was chosen is part of what is proved.
    if (drive_.motor && !same.motor_power) {
      same.motor_power = drive_.motor->rated_power;
      same.poles = drive_.motor->poles;
    }
    const Result<drive::Drive> again = drive::assemble(same, drive_.build, tables);
    if (!again) return std::nullopt;
    return look(*again);
  }

  std::vector<Margins> by_torque(double influence) const {
    std::vector<Margins> out{nominal_};
    for (const double sign : {-0.5, 0.5}) {
      enquiry::Requirement requirement = drive_.requirement;
      const double factor = std::max(0.1, 1 + sign * influence);
      requirement.torque *= factor;
      requirement.demand.torque.value *= factor;
      requirement.demand.starting_torque.value *= factor;
      requirement.radial_force *= factor;
      for (enquiry::Block& block : requirement.duty) block.torque *= factor;
      for (demand::Cycle& cycle : requirement.spectrum.cycles) cycle.range *= factor;
      if (std::optional<Margins> margins = with(requirement)) out.push_back(std::move(*margins));
    }
    return out;
  }

  /// What the customer might answer.
  std::vector<Answer> answers(const std::string& path) const {
    const auto words = [](const std::string& where, std::initializer_list<const char*> list) {
      std::vector<Answer> out;
      for (const char* word : list) out.push_back({{where, std::string(word)}});
      return out;
    };
    if (path.starts_with("site.") && (path.ends_with("dusty") || path.ends_with("washed_down")))
      return {{{path, true}}, {{path, false}}};
    if (path.ends_with(".feed")) return words(path, {"even", "uneven", "lumps"});
    if (path == "supply.starting") return words(path, {"direct", "star_delta", "soft_starter", "inverter"});
    if (path == "duty.blocks" || path == "duty.pattern")
      return words("duty.pattern", {"steady", "varying", "batch", "overloads"});
    if (path == "duty.shocks")
      return {{{path + ".0.what", std::string("overload")},
               {path + ".0.torque", kUsualOverload},
               {path + ".0.per_year", kOverloadsAYear}}};
    if (path == "connection.link")
      return {{{path, std::string("single_chain")},
               {"connection.pitch_diameter", kChainWheel * drive_.build.frame().output.diameter}}};
    for (const Assumption& assumption : drive_.requirement.assumptions)
      if (assumption.path == path) return {{{path, assumption.low}}, {{path, assumption.high}}};
    return {};
  }

  const drive::Drive& drive_;
  Hear hear_;
  Margins nominal_;
};

}  // namespace

std::vector<Asked> worth_asking(const drive::Drive& drive, Hear hear, std::size_t looked_at) {
  const Asker asker(drive, hear);
  std::vector<Asked> asked;
  for (const demand::Question& question : drive.requirement.questions) {
    const bool twice =
        std::any_of(asked.begin(), asked.end(), [&](const Asked& other) { return other.path == question.path; });
    if (asked.size() < looked_at && !question.text.empty() && !twice) asked.push_back(asker.answer(question));
  }
  std::stable_sort(asked.begin(), asked.end(), [](const Asked& a, const Asked& b) { return a.moves > b.moves; });
  // What stands first whatever it moves takes no place from those that move the evidence.
  std::size_t most = 6;
  for (const Asked& question : asked) most += question.moves >= kBeforeAnyFigure ? 1 : 0;
  if (asked.size() > most) asked.resize(most);
  return asked;
}

}  // namespace lobewise::judge
