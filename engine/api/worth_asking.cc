#include "engine/api/worth_asking.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "engine/enquiry/requirement.h"
#include "engine/evidence/case_of.h"
#include "engine/evidence/prove.h"

namespace lobewise::api {
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
  Asker(const Json& enquiry, const drive::Drive& drive) : enquiry_(enquiry), drive_(drive), nominal_(look(drive)) {}

  Json answer(const demand::Question& question) const {
    if (question.path == "economics.spare_on_shelf") return answer_by_cost(question);
    Json out{{"path", question.path}, {"text", question.text}, {"decides", false}};
    // Decides before any figure whether something may be offered at all: no margin to rank it by.
    if (question.path == "site.explosive_atmosphere") {
      out.update(Json{{"finding", "place"}, {"decides", true}, {"moves", kBeforeAnyFigure}});
      return out;
    }
    double most = 0;
    std::vector<Margins> all{nominal_};
    for (const Json& change : answers(question.path))
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
      if (moved <= most) continue;
      most = moved;
      out["finding"] = check.first;
      out["check"] = check.second;
      out["low"] = low;
      out["high"] = high;
      out["decides"] = decides;
    }
    // The one measurement that settles a bounded load stands before all else.
    const bool settles =
        !drive_.requirement.demand.settled_by.empty() && question.path == "machine.measured.measured_power";
    out["moves"] = settles ? kSettles : most;
    return out;
  }

 private:
  /// Money moves no check of the build: such a question is weighed by what the change costs.
  Json answer_by_cost(const demand::Question& question) const {
    Json out{{"path", question.path}, {"text", question.text}, {"decides", false}, {"moves", 0.0}};
    std::optional<double> low, high;
    const evidence::Evaluation nominal = evidence::evaluate(drive_, {});
    for (const bool there : {true, false}) {
      drive::Drive drive = drive_;
      if (!drive.requirement.economics) return out;
      drive.requirement.economics->spare_on_shelf = there;
      const std::optional<evidence::Check> cost = evidence::likely_cost(drive, nominal);
      if (!cost) return out;
      low = std::min(low.value_or(cost->margin()), cost->margin());
      high = std::max(high.value_or(cost->margin()), cost->margin());
      out["check"] = cost->name;
    }
    const bool decides = *low < 0 && *high >= 0;
    out["finding"] = "cost";
    out["low"] = *low;
    out["high"] = *high;
    out["decides"] = decides;
    // Before every other question: without it no payback is said.
    out["moves"] = std::clamp(*high, -kFar, kFar) - std::clamp(*low, -kFar, kFar) + (decides ? 4 : 0);
    return out;
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
  std::optional<Margins> with(const Json& change) const {
    Json changed = enquiry_;
    changed.merge_patch(change);
    const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(changed, Numbers::si);
    if (!enquiry) return std::nullopt;
    const Result<enquiry::Requirement> requirement = enquiry::require(*enquiry);
    if (!requirement) return std::nullopt;
    return with(*requirement);
  }
  std::optional<Margins> with(const enquiry::Requirement& requirement) const {
    const auto tables = [this](const range::Stage& stage, double) -> Result<std::shared_ptr<const drive::StageTable>> {
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

  /// What the customer might answer, as changes of the enquiry.
  std::vector<Json> answers(const std::string& path) const {
    const auto put = [](const std::string& where, Json value) {
      Json change = std::move(value);
      for (std::size_t end = where.size(); end != std::string::npos && end > 0;) {
        const std::size_t dot = where.rfind('.', end - 1);
        const std::size_t begin = dot == std::string::npos ? 0 : dot + 1;
        change = Json{{where.substr(begin, end - begin), std::move(change)}};
        end = dot == std::string::npos ? 0 : dot;
      }
      return change;
    };
    const auto words = [&](const std::string& where, std::initializer_list<const char*> list) {
      std::vector<Json> out;
      for (const char* word : list) out.push_back(put(where, word));
      return out;
    };
    if (path.starts_with("site.") && (path.ends_with("dusty") || path.ends_with("washed_down")))
      return {put(path, true), put(path, false)};
    if (path.ends_with(".feed")) return words(path, {"even", "uneven", "lumps"});
    if (path == "supply.starting") return words(path, {"direct", "star_delta", "soft_starter", "inverter"});
    if (path == "duty.blocks" || path == "duty.pattern")
      return words("duty.pattern", {"steady", "varying", "batch", "overloads"});
    if (path == "duty.shocks")
      return {
          put(path, Json::array({{{"what", "overload"}, {"torque", kUsualOverload}, {"per_year", kOverloadsAYear}}}))};
    if (path == "connection.link")
      return {put("connection",
                  {{"link", "single_chain"}, {"pitch_diameter", kChainWheel * drive_.build.frame().output.diameter}})};
    for (const Assumption& assumption : drive_.requirement.assumptions)
      if (assumption.path == path) return {put(path, assumption.low), put(path, assumption.high)};
    return {};
  }

  const Json& enquiry_;
  const drive::Drive& drive_;
  Margins nominal_;
};

/// A margin as people say it.
std::string percent(double margin) {
  const double value = std::round(100 * margin);
  return value > 999 ? ">999 %" : fmt::format("{}{:.0f} %", value < 0 ? "−" : "", std::abs(value));
}

}  // namespace

Json worth_asking(const Json& enquiry, const drive::Drive& drive, std::size_t looked_at) {
  const Asker asker(enquiry, drive);
  std::vector<Json> asked;
  for (const demand::Question& question : drive.requirement.questions) {
    const bool twice =
        std::any_of(asked.begin(), asked.end(), [&](const Json& other) { return other["path"] == question.path; });
    if (asked.size() < looked_at && !question.text.empty() && !twice) asked.push_back(asker.answer(question));
  }
  std::stable_sort(asked.begin(), asked.end(), [](const Json& a, const Json& b) { return a["moves"] > b["moves"]; });
  // What stands first whatever it moves takes no place from those that move the evidence.
  std::size_t most = 6;
  for (const Json& question : asked) most += question["moves"] >= kBeforeAnyFigure ? 1 : 0;
  if (asked.size() > most) asked.resize(most);
  Json out = Json::array();
  for (Json& question : asked) {
    question.erase("moves");
    if (question.contains("check"))
      question["effect"] = fmt::format("{}{}: {} … {}", question["decides"].get<bool>() ? "decides " : "",
                                       question["check"].get<std::string>(), percent(question["low"].get<double>()),
                                       percent(question["high"].get<double>()));
    out.push_back(std::move(question));
  }
  return out;
}

std::vector<result::Question> ranked_questions(const Json& enquiry, const drive::Drive& drive, std::size_t looked_at) {
  std::vector<result::Question> out;
  for (const Json& question : worth_asking(enquiry, drive, looked_at))
    out.push_back(*result::read<result::Question>(question));
  return out;
}

}  // namespace lobewise::api
