#include "apps/survey/line.h"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/api/people.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

/// Kinds of present gear unit as the ranked list names them.
constexpr std::pair<std::string_view, const char*> kGearNames[] = {
    {"worm", "worm gear unit"},
    {"bevel_helical", "bevel-helical gear unit"},
    {"helical_in_line", "helical gear unit"},
    {"parallel_shaft", "parallel-shaft gear unit"},
    {"planetary", "planetary gear unit"},
    {"belt_and_gear", "belt and gear unit"},
    {"cycloidal", "cycloidal reducer"},
};

/// A number as people of this list write it -> with a decimal point, nothing between thousands. A list whose decimal
/// mark nobody knows is taken as it is. With a decimal comma a
/// point stands between thousands, unless other than three digits follow it: `7.5 kW` was copied from a nameplate.
std::string pointed(const std::string& text, const Mapping& mapping) {
  if (!mapping.decimal_comma && !mapping.decimal_point) return text;
  const std::size_t end = std::min(text.find_first_not_of("0123456789.,'+- "), text.size());
  std::string number = text.substr(0, end);
  if (mapping.decimal_point) {  // a comma that is not followed by three digits stays and is judged by the parser
    for (std::size_t at = number.find(','); at != std::string::npos; at = number.find(',', at + 1)) {
      const std::size_t behind = number.find_first_not_of("0123456789", at + 1);
      if ((behind == std::string::npos ? number.size() : behind) - at - 1 != 3) return text;
    }
    std::erase(number, ',');
    return number + text.substr(end);
  }
  const std::size_t point = number.rfind('.');
  const std::size_t digits = point == std::string::npos ? 0 : number.find_first_not_of("0123456789", point + 1);
  const std::size_t behind = (digits == std::string::npos ? number.size() : digits) - point - 1;
  if (number.find(',') == std::string::npos && number.find('.') == point && point != std::string::npos && behind != 3)
    return text;
  std::erase(number, '.');
  std::replace(number.begin(), number.end(), ',', '.');
  return number + text.substr(end);
}

/// What a cell says about a quantity, as text with a unit.
Result<std::string> quantity_text(const Cell& cell, const std::string& unit, const Field& field,
                                  const Mapping* mapping) {
  std::string text = cell.plain || mapping == nullptr ? cell.text : pointed(cell.text, *mapping);
  for (const std::string_view about : {"~", "ca.", "ca ", "approx.", "approx ", "about "})
    if (text.starts_with(about)) text = clean(std::string_view(text).substr(about.size()));
  const Result<double> bare = parse_number(text, "");
  if (bare && !unit.empty()) text += " " + unit;
  const Result<double> value = parse_quantity(text, field.quantity, "");
  if (!value) return value.errors();
  return text;
}

void set_path(Json& root, const std::string& path, Json value) {
  Json* node = &root;
  for (std::size_t at = 0; at < path.size();) {
    const std::size_t dot = std::min(path.find('.', at), path.size());
    node = &(*node)[path.substr(at, dot - at)];
    at = dot + 1;
  }
  *node = std::move(value);
}

/// Removes a path and the records it leaves empty.
bool remove_path(Json& root, const std::string& path) {
  const std::size_t dot = path.find('.');
  const std::string key = path.substr(0, dot);
  if (!root.is_object() || !root.contains(key)) return false;
  if (dot == std::string::npos) return root.erase(key) == 1;
  const bool removed = remove_path(root[key], path.substr(dot + 1));
  if (root[key].empty()) root.erase(key);
  return removed;
}

const Json* get_path(const Json& root, const std::string& path) {
  const Json* node = &root;
  for (std::size_t at = 0; at < path.size();) {
    const std::size_t dot = std::min(path.find('.', at), path.size());
    const auto found = node->find(path.substr(at, dot - at));
    if (found == node->end()) return nullptr;
    node = &*found;
    at = dot + 1;
  }
  return node;
}

/// The field of the row's own kind of machine that a machine column means: `machine.belt_conveyor.lift` says the lift
/// of a bucket elevator too. Empty when that kind has no such field.
std::string path_for(const std::string& path, const std::string& kind, const Fields& fields) {
  if (!path.starts_with("machine.")) return path;
  const std::size_t dot = path.find('.', 8);
  if (dot == std::string::npos || path.substr(8, dot - 8) == kind) return path;
  const Field* mapped = fields.find(path);
  const std::string own = "machine." + kind + path.substr(dot);
  const Field* there = fields.find(own);
  return there != nullptr && mapped != nullptr && there->kind == mapped->kind && there->quantity == mapped->quantity
             ? own
             : "";
}

std::string joined(const std::vector<std::string>& list) {
  std::string out;
  for (const std::string& text : list) out += (out.empty() ? "" : ", ") + text;
  return out;
}

/// Why so many hours or days do not fit into a week or a year; null when they do.
const char* beyond_the_calendar(std::string_view id, double si) {
  constexpr double kHour = 3600;
  if (id == "hours_per_week" && !(si > 0 && si <= 168 * kHour)) return "above 0 h and at most the 168 h of a week";
  if (id == "days_per_week" && !(si > 0 && si <= 7)) return "above 0 and at most the 7 days of a week";
  if (id == "hours_per_year" && !(si > 0 && si <= 8784 * kHour)) return "above 0 h and at most the 8784 h of a year";
  return nullptr;
}

/// One value of a line, from a cell or a default.
struct Value {
  const Field* field = nullptr;
  const Column* column = nullptr;  ///< null for a default
  Cell cell;
  std::string unit;
};

class Builder {
 public:
  Builder(const Row& row, const Mapping& mapping, const Fields& fields)
      : row_(row), mapping_(mapping), fields_(fields) {
    for (const Column& column : mapping.columns) {
      if (column.field.empty() || column.place >= row.cells.size()) continue;
      const Cell& cell = row.cells[column.place];
      if (says_nothing(cell.text)) continue;
      values_.push_back({fields.find(column.field), &column, cell, column.unit});
    }
    for (const auto& entry : mapping.defaults) {
      if (find(entry.first) != nullptr) continue;
      // What the line says of a week or a year rules over a default for the day.
      if (entry.first == "hours_per_day" && (find("hours_per_week") != nullptr || find("hours_per_year") != nullptr))
        continue;
      Value value;
      value.field = fields.find(entry.first);
      value.cell.text = entry.second;
      values_.push_back(std::move(value));
    }
  }

  Line build() {
    line_.row = row_.number;
    line_.tag = words("tag");
    line_.title = words("title");
    line_.area = words("area");
    line_.note = words("note");
    choose_kind();
    set_path(line_.enquiry, "title", line_.title.empty() ? fmt::format("Row {} of the list", line_.row) : line_.title);
    refuse_people();
    for (const Value& value : values_) take(value);
    describe_present();
    derive();
    doubt_ratio();
    if (line_.obstacle.empty() && line_.kind == "measured") judge_basis();
    if (!set_aside_.empty())
      line_.notes.push_back("left aside, the line is computed from its machine: " + joined(set_aside_));
    return std::move(line_);
  }

 private:
  const Value* find(std::string_view id) const {
    for (const Value& value : values_)
      if (value.field->id == id) return &value;
    return nullptr;
  }
  std::string words(std::string_view id) const {
    const Value* value = find(id);
    return value != nullptr ? value->cell.text : "";
  }

  void problem(const Value& value, std::string message, std::string done) {
    line_.problems.push_back({value.column != nullptr ? letters(value.column->place) : "",
                              value.column != nullptr ? value.column->heading : "default", value.cell.text,
                              std::move(message), std::move(done)});
  }

  /// People are refused by words in any column, whether it is used or not.
  void refuse_people() {
    std::vector<std::string_view> texts;
    for (const Cell& cell : row_.cells) texts.push_back(cell.text);
    const api::WhoRides who = api::who_rides(texts);
    if (who.aboard == api::Aboard::unclear && line_.kind == "bucket_elevator") return;
    if (const std::optional<Error> refused = api::people_refused(who, "")) {
      line_.refused = true;
      line_.obstacle = refused->message;
    } else if (who.aboard == api::Aboard::goods) {
      line_.lifts = who.words;
    }
  }

  /// The kind a machine column names, if the line also says something about that kind; else what was measured.
  void choose_kind() {
    line_.kind = "measured";
    const Value* said = find("machine");
    if (said == nullptr) return;
    const std::optional<std::string> kind = fields_.machine_of(said->cell.text);
    if (!kind) {
      line_.notes.push_back(
          fmt::format("'{}' is no kind of machine known here: judged by what was measured", said->cell.text));
      return;
    }
    if (*kind == "measured") return;
    const bool described = std::any_of(values_.begin(), values_.end(), [&](const Value& v) {
      return v.column != nullptr && v.field->path.starts_with("machine.") &&
             !v.field->path.starts_with("machine.measured.") && !path_for(v.field->path, *kind, fields_).empty();
    });
    if (described) line_.kind = *kind;
  }

  void take(const Value& value) {
    const Field& field = *value.field;
    if (field.path.empty() && field.kind == Kind::text) return;
    const std::string path = field.path.empty() ? "" : path_for(field.path, line_.kind, fields_);
    Json json;
    if (field.kind == Kind::quantity) {
      const Result<std::string> text =
          quantity_text(value.cell, value.unit, field, value.column != nullptr ? &mapping_ : nullptr);
      if (!text) {
        refuse(value, text.errors().front().message);
        return;
      }
      const double si = *parse_quantity(*text, field.quantity, "");
      if (const char* limit = beyond_the_calendar(field.id, si)) {
        refuse(value, limit);
        return;
      }
      keep(field.id, si);
      // Counts of the schema are numbers, quantities stay as they were written.
      json = field.quantity == Quantity::number || field.quantity == Quantity::share ? Json(si) : Json(*text);
      if (field.id == "poles") json = static_cast<int>(si);
      read_[field.id] = json;
    } else if (field.kind == Kind::choice) {
      const std::optional<std::string> choice = choice_of(field, value.cell.text);
      if (!choice) {
        std::string allowed;
        for (const std::string& label : field.labels) allowed += (allowed.empty() ? "" : ", ") + label;
        refuse(value, "one of: " + allowed);
        return;
      }
      json = *choice;
    } else if (field.kind == Kind::flag) {
      const std::optional<bool> flag = flag_of(value.cell.text);
      if (!flag) {
        refuse(value, "yes or no");
        return;
      }
      json = *flag;
    } else {
      json = value.cell.text;
    }
    if (field.path.empty()) return;
    if (path.empty()) {
      if (field.path.starts_with("machine.measured.")) set_aside_.push_back(field.label);
      return;
    }
    set_path(line_.enquiry, path, std::move(json));
    if (value.column != nullptr) {
      line_.sources[path] = {value.column->place, value.column->heading, value.cell.text, field.essential};
    }
  }

  void refuse(const Value& value, const std::string& message) {
    if (value.field->essential) {
      problem(value, message, "the line is not proved");
      if (line_.obstacle.empty())
        line_.obstacle = fmt::format("{} cannot be read: '{}'", value.field->label, value.cell.text);
    } else {
      problem(value, message, "left out");
    }
  }

  void keep(const std::string& id, double si) {
    if (id == "rated_power") line_.rated_power = si;
    if (id == "gear_torque") line_.gear_torque = si;
    if (id == "stoppage_hours") line_.stoppage = si;
    if (id == "stoppages") line_.stoppages = si;
    if (id == "stoppage_cost") line_.stoppage_cost = si * 3600;
    if (id == "train_efficiency") line_.train_efficiency = si;
    if (id == "ratio") ratio_ = si;
    if (id == "hours_per_week") hours_per_week_ = si;
    if (id == "days_per_week") days_per_week_ = si;
    if (id == "hours_per_year") hours_per_year_ = si;
    if (id == "rated_speed") rated_speed_ = si;
    if (id == "speed") speed_ = si;
  }

  /// What the list says of the present drive, as the enquiry says it: survey and comparison have one model of it.
  void describe_present() {
    const Value* gear = find("gear");
    if (gear != nullptr) {
      if (const std::optional<std::string> kind = gear_of(gear->cell.text)) {
        for (const auto& [key, name] : kGearNames)
          if (key == *kind) line_.gear = name;
        say_of_present("kind", *kind, gear);
      } else {
        line_.notes.push_back(
            fmt::format("'{}' is no kind of gear unit known here: nothing is compared with it", gear->cell.text));
      }
    }
    const auto copy = [&](const char* id, const char* field) {
      const Value* value = find(id);
      if (value == nullptr) return;
      const Json* said = value->field->path.empty() ? nullptr : get_path(line_.enquiry, value->field->path);
      if (said != nullptr) {
        say_of_present(field, *said, value);
      } else if (const auto kept = read_.find(id); kept != read_.end()) {
        say_of_present(field, kept->second, value);
      }
    };
    copy("rated_power", "motor_power");
    copy("efficiency", "motor_efficiency");
    copy("train_efficiency", "efficiency");
    copy("gear_torque", "rated_torque");
    copy("ratio", "ratio");
  }

  void say_of_present(const char* field, Json value, const Value* from) {
    const std::string path = std::string("incumbent.") + field;
    if (get_path(line_.enquiry, path) != nullptr) return;  // a column of its own rules
    set_path(line_.enquiry, path, std::move(value));
    if (from->column != nullptr)
      line_.sources[path] = {from->column->place, from->column->heading, from->cell.text, false};
  }

  void say(const char* path, const char* field, double si, Quantity quantity, const std::string& why) {
    set_path(line_.enquiry, path, format_quantity(si, quantity, UnitSystem::si, 8));
    line_.notes.push_back(fmt::format("{} {}: {}", field, format_quantity(si, quantity, UnitSystem::si), why));
  }

  /// Hours and days of a week into those of a day and a year: 52 weeks, on as many days as are said or as the hours
  /// need, at least five. Hours a year rule over hours a week.
  void derive_week() {
    constexpr double kWeeks = 52;
    const Json* days_said = get_path(line_.enquiry, "duty.days_per_year");
    std::optional<double> days = days_per_week_;
    const bool by_hours =
        hours_per_week_ && !hours_per_year_ && get_path(line_.enquiry, "duty.hours_per_day") == nullptr;
    if (!days && by_hours)
      days = days_said != nullptr && days_said->is_number() ? days_said->get<double>() / kWeeks
                                                            : std::clamp(std::ceil(*hours_per_week_ / 86400), 5.0, 7.0);
    if (!days) return;
    if (days_said == nullptr) {
      set_path(line_.enquiry, "duty.days_per_year", kWeeks * *days);
      line_.notes.push_back(fmt::format("Days a year {}: {} days a week in {:.0f} weeks",
                                        format_number(kWeeks * *days, 3), format_number(*days, 2), kWeeks));
    }
    if (by_hours)
      say("duty.hours_per_day", "Running time a day", *hours_per_week_ / *days, Quantity::duration,
          fmt::format("running time a week over {} days", format_number(*days, 2)));
  }

  void derive() {
    derive_week();
    if (hours_per_year_ && get_path(line_.enquiry, "duty.hours_per_day") == nullptr) {
      double days = 365.25;
      if (const Json* said = get_path(line_.enquiry, "duty.days_per_year"); said != nullptr && said->is_number())
        days = said->get<double>();
      else
        set_path(line_.enquiry, "duty.days_per_year",
                 days = std::clamp(std::ceil(*hours_per_year_ / 86400), 250.0, 366.0));
      say("duty.hours_per_day", "Running time a day", *hours_per_year_ / days, Quantity::duration,
          fmt::format("running time a year over {:.0f} days", days));
    }
    if (line_.kind != "measured") return;
    const bool by_motor = get_path(line_.enquiry, "machine.measured.measured_torque") == nullptr;
    if (ratio_ && *ratio_ > 0 && rated_speed_ && !speed_)
      say("machine.measured.speed", "Driven speed", *rated_speed_ / *ratio_, Quantity::angular_speed,
          "motor speed over the ratio of the present gear unit");
    else if (ratio_ && *ratio_ > 0 && !rated_speed_ && speed_ && by_motor)
      say("machine.measured.rated_speed", "Motor speed", *speed_ * *ratio_, Quantity::angular_speed,
          "driven speed times the ratio of the present gear unit");
    if (by_motor && get_path(line_.enquiry, "machine.measured.rated_speed") == nullptr) {
      constexpr double kFourPoles = 151.8;  // 1450 rpm; torque at the driven shaft does not depend on it
      say("machine.measured.rated_speed", "Motor speed", kFourPoles, Quantity::angular_speed,
          "not said, a 4-pole motor at 50 Hz taken; the torque at the driven shaft does not depend on it");
    }
  }

  /// Speeds that do not go with the ratio: a chain or belt stands between, or one of the three is another drive's.
  void doubt_ratio() {
    if (!ratio_ || !rated_speed_ || !speed_ || !(*speed_ > 0)) return;
    constexpr double kReading = 0.1;
    const double between = *rated_speed_ / *speed_;
    if (std::abs(between / *ratio_ - 1) <= kReading) return;
    problem(*find("ratio"),
            fmt::format("'{}' over '{}' is {}, not {}: a chain or belt between them, or one of the three is misread",
                        find("rated_speed")->column != nullptr ? find("rated_speed")->column->heading : "motor speed",
                        find("speed")->column != nullptr ? find("speed")->column->heading : "driven speed",
                        format_number(between, 3), format_number(*ratio_, 3)),
            "the driven speed rules");
  }

  /// One of the ways to know the load rules; the better one is kept when a list gives several.
  void judge_basis() {
    struct Way {
      const char* path;
      const char* words;
    };
    constexpr std::array<Way, 3> kWays{{{"machine.measured.measured_torque", "torque"},
                                        {"machine.measured.measured_power", "measured power"},
                                        {"machine.measured.measured_current", "measured current"}}};
    for (const Way& way : kWays) {
      if (get_path(line_.enquiry, way.path) == nullptr) continue;
      if (line_.basis.empty()) {
        line_.basis = way.words;
        continue;
      }
      remove_path(line_.enquiry, way.path);
      line_.notes.push_back(fmt::format("{} left aside: the {} rules", way.words, line_.basis));
    }
    if (!line_.basis.empty()) {
      remove_path(line_.enquiry, "machine.measured.load_share");
      return;
    }
    if (line_.rated_power)
      line_.basis = get_path(line_.enquiry, "machine.measured.load_share") != nullptr ? "share of the motor's rating"
                                                                                      : "motor's rating";
    else
      line_.obstacle = "neither torque, power, current nor the motor's rating is said";
  }

  const Row& row_;
  const Mapping& mapping_;
  const Fields& fields_;
  std::vector<Value> values_;
  std::vector<std::string> set_aside_;
  std::map<std::string, Json> read_;  ///< quantities as the enquiry says them, by field
  std::optional<double> ratio_, hours_per_week_, days_per_week_, hours_per_year_, rated_speed_, speed_;
  Line line_;
};

Json problem_json(const Problem& problem) {
  return Json{{"column", problem.column},
              {"heading", problem.heading},
              {"cell", problem.cell},
              {"message", problem.message},
              {"done", problem.done}};
}

/// Takes cells out that the engine refuses and that are no essential ones; true when it is worth another try.
bool leave_out(Line& line, const Errors& errors) {
  bool again = true;
  for (const Error& error : errors) {
    const auto source = line.sources.find(error.path);
    const bool essential = source == line.sources.end() || source->second.essential;
    if (source != line.sources.end())
      line.problems.push_back({letters(source->second.place), source->second.heading, source->second.cell,
                               error.message, essential ? "the line is not proved" : "left out"});
    if (essential) {
      if (line.obstacle.empty()) line.obstacle = error.message;
      again = false;
    } else {
      remove_path(line.enquiry, error.path);
    }
  }
  return again;
}

/// Loads and energies of the present drive.
judge::LineFacts facts_of(const Line& line, const Json& figures) {
  judge::LineFacts facts;
  facts.stoppage = line.stoppage;
  facts.stoppages = line.stoppages;
  facts.stoppage_cost = line.stoppage_cost;
  facts.present_gear = line.gear;
  facts.obstacle = line.obstacle;
  facts.refused = line.refused;
  if (!line.obstacle.empty()) return facts;
  judge::PresentLoad load{figures["torque"], figures["speed"], line.train_efficiency, line.rated_power,
                          line.gear_torque};
  if (!load.train_efficiency && figures.contains("present_efficiency"))
    load.train_efficiency = figures["present_efficiency"].get<double>();
  if (line.basis == "motor's rating") load.rated_power.reset();
  load.service_factor = figures.value("service_factor", 1.0);
  facts.motor_load = judge::motor_load(load);
  facts.gear_load = judge::gear_load(load);
  if (figures.contains("energy_present"))
    facts.energy_saved = judge::energy_saved(figures["energy_present"], figures["energy_candidate"]);
  return facts;
}

}  // namespace

bool says_nothing(std::string_view cell) {
  static constexpr std::array<std::string_view, 16> kNothing{"",     "-",     "--",        "–",       "—",   "?",
                                                             "n/a",  "na",    "n.a.",      "unknown", "tbd", "none",
                                                             "k.a.", "k. a.", "unbekannt", "#n/a"};
  std::string lower(cell);
  for (char& c : lower)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return std::find(kNothing.begin(), kNothing.end(), lower) != kNothing.end();
}

Line read_line(const Row& row, const Mapping& mapping, const Fields& fields) {
  return Builder(row, mapping, fields).build();
}

Json answer_line(Line line, const Mapping& mapping, const Prover& prove) {
  Json answer{{"findings", Json::array()}, {"figures", Json::object()}};
  for (int attempt = 0; attempt < 3 && line.obstacle.empty(); ++attempt) {
    Result<Json> result = prove(line.enquiry);
    if (result) {
      answer = std::move(*result);
      break;
    }
    if (!leave_out(line, result.errors())) break;
    if (attempt == 2) line.obstacle = result.errors().front().message;
  }
  if (answer.contains("not_compared")) {
    const std::string why = answer["not_compared"];
    for (const auto& [path, source] : line.sources)
      if (why.starts_with(path + ":"))
        line.problems.push_back({letters(source.place), source.heading, source.cell, why.substr(path.size() + 2),
                                 "the present unit is not compared"});
    line.notes.push_back("the present unit is not compared: " + why);
  }
  judge::LineFacts facts = facts_of(line, answer["figures"]);
  facts.serves = answer.value("serves", false);
  facts.offered = !answer.contains("not_offered");
  facts.proved = !answer["findings"].empty();
  facts.conditions = answer.value("under_condition", 0);
  facts.failing = answer.value("failing", std::string());
  const judge::Ranked ranked = judge::rank(facts, mapping.ranking);

  Json problems = Json::array();
  for (const Problem& problem : line.problems) problems.push_back(problem_json(problem));
  Json record{{"row", line.row},
              {"tag", line.tag},
              {"title", line.title},
              {"area", line.area},
              {"note", line.note},
              {"kind", line.kind},
              {"basis", line.kind == "measured" ? line.basis : "computed from the machine"},
              {"status", judge::result_of(facts)},
              {"reason", line.obstacle},
              {"points", {ranked.overload, ranked.stoppages, ranked.energy, ranked.proof}},
              {"total", ranked.total()},
              {"why", {{"si", judge::why(ranked, UnitSystem::si)}, {"us", judge::why(ranked, UnitSystem::us)}}},
              {"problems", std::move(problems)},
              {"notes", line.notes}};
  if (!line.gear.empty()) record["gear"] = line.gear;
  const auto add = [&](const char* key, const std::optional<double>& value) {
    if (value) record[key] = *value;
  };
  add("rated_power", line.rated_power);
  add("motor_load", facts.motor_load);
  add("gear_load", facts.gear_load);
  add("energy_saved", facts.energy_saved);
  add("stoppage", line.stoppage);
  if (answer.contains("why_none") && line.obstacle.empty()) record["why_none"] = answer["why_none"];
  constexpr std::size_t kMostQuestions = 3;
  for (const Json& question : answer.value("questions", Json::array()))
    if (record["questions"].size() < kMostQuestions) record["questions"].push_back(question["text"]);
  if (!line.lifts.empty()) {
    record["cautions"].push_back(fmt::format("'{}': {}", line.lifts, api::lifting_caution().text));
    record["questions"].push_back("Does anybody ever ride on it? Then it is refused.");
  }
  for (const Json& caution : answer.value("cautions", Json::array())) record["cautions"].push_back(caution["text"]);
  for (const char* key : {"figures", "findings", "assumptions", "build", "build_name", "mesh"})
    if (answer.contains(key)) record[key] = std::move(answer[key]);
  return record;
}

std::string enquiry_yaml(const Line& line) {
  YAML::Emitter out;
  const std::function<void(const Json&)> emit = [&](const Json& json) {
    if (json.is_object()) {
      out << YAML::BeginMap;
      for (const auto& [key, value] : json.items()) {
        out << YAML::Key << key << YAML::Value;
        emit(value);
      }
      out << YAML::EndMap;
    } else if (json.is_boolean()) {
      out << (json.get<bool>() ? "yes" : "no");
    } else if (json.is_number()) {
      out << format_number(json.get<double>(), 12);
    } else {
      out << json.get<std::string>();
    }
  };
  emit(line.enquiry);
  return fmt::format("# Row {} of a plant's list.\n{}\n", line.row, out.c_str());
}

}  // namespace lobewise::survey
