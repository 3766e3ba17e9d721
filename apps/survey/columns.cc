#include "apps/survey/columns.h"

#include <fmt/format.h>

#include <algorithm>

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

Value text_at(const Json& record, const char* key) {
  const auto found = record.find(key);
  if (found == record.end() || !found->is_string() || found->get_ref<const std::string&>().empty()) return {};
  return found->get<std::string>();
}

}  // namespace

std::string in_units(const Json& both, const Report& report) {
  if (both.is_string()) return both.get<std::string>();
  return both.value(report.units == UnitSystem::us ? "us" : "si", "");
}

std::string problems_text(const Json& record) {
  std::string out;
  for (const Json& problem : record.value("problems", Json::array())) {
    if (!out.empty()) out += "; ";
    out += fmt::format("{} {} '{}': {} ({})", problem["column"].get_ref<const std::string&>(),
                       problem["heading"].get_ref<const std::string&>(), problem["cell"].get_ref<const std::string&>(),
                       problem["message"].get_ref<const std::string&>(), problem["done"].get_ref<const std::string&>());
  }
  return out;
}

std::string list_text(const Json& record, const char* key) {
  std::string out;
  for (const Json& text : record.value(key, Json::array()))
    out += (out.empty() ? "" : " | ") + text.get_ref<const std::string&>();
  return out;
}

std::string verdict_words(const std::string& verdict) {
  std::string text = verdict;
  std::replace(text.begin(), text.end(), '_', ' ');
  return text;
}

std::vector<ResultColumn> ranked_columns(const Report& report, bool estimated) {
  std::vector<ResultColumn> out;
  const auto text = [&](const char* heading, double width, const char* key) {
    out.push_back({heading, width, 0, [key](const Json& record) { return text_at(record, key); }});
  };
  const UnitSystem units = report.units;
  /// A number under `key` of the record or of its figures.
  const auto number = [&](const std::string& heading, const char* key, bool figure, Quantity quantity, int digits = 4) {
    const std::string_view unit = display_unit(quantity, units);
    out.push_back(
        {unit.empty() ? heading : fmt::format("{} [{}]", heading, unit), 11, digits, [=](const Json& record) -> Value {
           const Json* from = &record;
           if (figure) {
             const auto figures = record.find("figures");
             if (figures == record.end()) return {};
             from = &*figures;
           }
           const auto found = from->find(key);
           if (found == from->end() || !found->is_number()) return {};
           return to_display(found->get<double>(), quantity, units);
         }});
  };
  const auto points = [&](const char* heading, std::size_t index) {
    out.push_back(
        {heading, 8, 3, [index](const Json& record) -> Value { return record["points"][index].get<double>(); }});
  };
  number("Row", "row", false, Quantity::number, 7);
  text("Tag", 12, "tag");
  text("Drive", 28, "title");
  text("Area", 12, "area");
  const auto machines = report.machines;
  out.push_back({"Machine", 16, 0, [machines](const Json& record) -> Value {
                   const std::string kind = record.value("kind", "");
                   for (const auto& [key, words] : machines)
                     if (key == kind) return words;
                   return kind.empty() ? Value{} : Value{kind};
                 }});
  number("Points", "total", false, Quantity::number, 3);
  out.push_back({"Worth looking at because (points)", 70, 0, [report](const Json& record) -> Value {
                   std::string why = in_units(record.value("why", Json("")), report);
                   return why.empty() ? Value{} : Value{std::move(why)};
                 }});
  text("Result", 18, "status");
  text("Reducer", 18, "build_name");
  text("Not proved because", 40, "reason");
  out.push_back({"Cells in question", 40, 0, [](const Json& record) -> Value {
                   std::string problems = problems_text(record);
                   return problems.empty() ? Value{} : Value{std::move(problems)};
                 }});
  text("Load known by", 16, "basis");
  number("Torque", "torque", true, Quantity::torque);
  number("Driven speed", "speed", true, Quantity::angular_speed);
  number("Mean shaft power", "mean_power", true, Quantity::power, 3);
  number("Running time a year", "running_per_year", true, Quantity::duration);
  number("Present motor", "rated_power", false, Quantity::power, 3);
  number("Load of the motor", "motor_load", false, Quantity::share, 3);
  text("Present gear unit", 20, "gear");
  number("Load of the gear unit", "gear_load", false, Quantity::share, 3);
  number("Stoppages a year", "stoppage", false, Quantity::duration, 3);
  number("Saved a year", "energy_saved", false, Quantity::energy, 3);
  number("Ratio", "ratio", true, Quantity::number);
  number("New motor", "motor_power", true, Quantity::power, 3);
  number(estimated ? "Efficiency ≈" : "Efficiency", "efficiency", true, Quantity::share, 3);
  number("Mass", "mass", true, Quantity::mass, 3);
  number("Price (invented range)", "price", true, Quantity::money, 4);
  points("Overload", 0);
  points("Stoppages", 1);
  points("Energy", 2);
  points("Proof", 3);
  out.push_back({"Worth asking next", 60, 0, [](const Json& record) -> Value {
                   std::string questions = list_text(record, "questions");
                   return questions.empty() ? Value{} : Value{std::move(questions)};
                 }});
  text("Note of the list", 30, "note");
  text("Proved with", 40, "mesh");
  return out;
}

bool Ranking::estimated() const { return std::find(estimates.begin(), estimates.end(), true) != estimates.end(); }

Result<Ranking> ranking_of(Outcome& outcome) {
  struct Place {
    double points;
    std::size_t record;
  };
  std::vector<Place> places;
  Ranking ranking;
  std::string text;
  for (std::size_t i = 0; i < outcome.records.size(); ++i) {
    const Json record = outcome.records.read(i, text) ? Json::parse(text, nullptr, false) : Json();
    if (!record.is_object() || !record.contains("points") || !record["points"].is_array() ||
        record["points"].size() != 4)
      return Error{ErrorKind::data, "", fmt::format("record {}", i + 1), "this record is damaged", 0};
    places.push_back({record.value("total", 0.0), i});
    for (const Json& finding : record.value("findings", Json::array())) {
      const std::string& id = finding["id"].get_ref<const std::string&>();
      auto place = std::find(ranking.findings.begin(), ranking.findings.end(), id) - ranking.findings.begin();
      if (place == static_cast<std::ptrdiff_t>(ranking.findings.size())) {
        ranking.findings.push_back(id);
        ranking.estimates.push_back(false);
      }
      if (finding.value("estimate", false)) ranking.estimates[static_cast<std::size_t>(place)] = true;
    }
  }
  std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.points > b.points; });
  for (const Place& place : places) ranking.order.push_back(place.record);
  return ranking;
}

}  // namespace lobewise::survey
