#include "apps/survey/mapping.h"

#include <fmt/format.h>
#include <yaml-cpp/yaml.h>

#include <algorithm>

#include "engine/base/unit_word.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

bool is_period(const std::string& words) {
  static constexpr std::string_view kPeriods[] = {"year", "yr", "y", "a", "jahr", "month", "week", "day", "d", "tag"};
  return std::find(std::begin(kPeriods), std::end(kPeriods), words) != std::end(kPeriods);
}

bool is_unit(std::string_view text) {
  return std::any_of(all_quantities().begin(), all_quantities().end(), [&](const QuantityInfo& q) {
    return !q.si_display.empty() && lobewise::is_unit(text, q.quantity);
  });
}

/// The unit in `h`, and in `h/year` or `h/a`, where what follows the slash only says for how long; empty when it is
/// none.
std::string unit_in(std::string_view text) {
  std::string unit = clean(text);
  if (is_unit(unit)) return unit;
  const std::size_t slash = unit.find('/');
  if (slash == std::string::npos) return "";
  const std::string per = words_of(std::string_view(unit).substr(slash + 1));
  unit = clean(std::string_view(unit).substr(0, slash));
  return is_period(per) && is_unit(unit) ? unit : "";
}

std::vector<std::string> split(const std::string& words) {
  std::vector<std::string> out;
  for (std::size_t at = 0; at < words.size();) {
    const std::size_t end = std::min(words.find(' ', at), words.size());
    out.push_back(words.substr(at, end - at));
    at = end + 1;
  }
  return out;
}

/// How well the name of a heading fits the name of a field; 0: not at all.
int likeness(const std::vector<std::string>& heading, const std::string& name) {
  const std::vector<std::string> wanted = split(name);
  if (heading == wanted) return 100;
  if (heading.size() == wanted.size() && std::is_permutation(heading.begin(), heading.end(), wanted.begin())) return 95;
  if (std::search(heading.begin(), heading.end(), wanted.begin(), wanted.end()) == heading.end()) return 0;
  if (wanted.size() == 1 && is_unit(name)) return 0;  // `kW` among other words is their unit, not their name
  const int extra = static_cast<int>(heading.size() - wanted.size());
  return 45 + 10 * static_cast<int>(wanted.size()) - 4 * extra;
}

struct Match {
  int score = 0;
  std::string unit;
};

constexpr int kLeastScore = 48;

Match match(const std::vector<Reading>& readings, const std::string& unit_below, const Field& field) {
  Match best;
  const bool measurable = field.kind == Kind::quantity && info(field.quantity).units.size() > 1;
  for (const Reading& reading : readings) {
    const std::vector<std::string> words = split(reading.name);
    int like = 0;
    for (const std::string& name : field.names) like = std::max(like, likeness(words, name));
    if (like == 0) continue;
    const std::string& unit = reading.unit.empty() ? unit_below : reading.unit;
    if (!unit.empty() && !(field.kind == Kind::quantity && lobewise::is_unit(unit, field.quantity))) continue;
    like += !unit.empty() ? 30 : measurable ? -10 : 0;
    if (like > best.score) best = {like, unit};
  }
  return best;
}

struct Candidate {
  int score;
  std::size_t column, field;
  std::string unit;
};

/// Columns of one row of headings. The best pairs of column and field first; each field once.
std::vector<Column> assign(const Row& headings, const Row* units, const Fields& fields, int& total) {
  std::vector<Column> out;
  std::vector<Candidate> candidates;
  const auto unit_below = [&](std::size_t i) -> std::string {
    if (units == nullptr || i >= units->cells.size()) return "";
    std::string text = units->cells[i].text;
    std::erase_if(text, [](char c) { return c == '[' || c == ']' || c == '(' || c == ')'; });
    return is_unit(text) ? text : "";
  };
  for (std::size_t i = 0; i < headings.cells.size(); ++i) {
    out.push_back({headings.cells[i].text, i, "", "", ""});
    if (headings.cells[i].text.empty()) continue;
    const std::vector<Reading> readings = readings_of(headings.cells[i].text);
    const std::string below = unit_below(i);
    for (std::size_t f = 0; f < fields.all().size(); ++f) {
      const Match found = match(readings, below, fields.all()[f]);
      if (found.score >= kLeastScore) candidates.push_back({found.score, i, f, found.unit});
    }
  }
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.score > b.score; });
  std::vector<bool> used(fields.all().size(), false);
  total = 0;
  for (const Candidate& candidate : candidates) {
    Column& column = out[candidate.column];
    if (!column.field.empty() || used[candidate.field]) continue;
    used[candidate.field] = true;
    const Field& field = fields.all()[candidate.field];
    column.field = field.id;
    column.unit = candidate.unit;
    if (column.unit.empty() && field.kind == Kind::quantity && !field.unit.empty()) {
      column.unit = field.unit;
      column.remark = "unit not stated, taken";
    }
    if (candidate.score < 80 && column.remark.empty()) column.remark = "likely";
    total += candidate.score;
  }
  for (Column& column : out)
    if (column.field.empty() && !column.heading.empty()) column.remark = "not used";
  return out;
}

/// A row under the headings that holds units only.
bool is_units_row(const Row& row) {
  int units = 0, others = 0;
  for (const Cell& cell : row.cells) {
    std::string text = cell.text;
    std::erase_if(text, [](char c) { return c == '[' || c == ']' || c == '(' || c == ')'; });
    if (text.empty() || text == "-") continue;
    ++(is_unit(text) ? units : others);
  }
  return units >= 2 && others == 0;
}

/// Cells with a sure decimal mark: other than three digits behind it, or both marks in that order.
struct DecimalMarks {
  int commas = 0, points = 0;
};
DecimalMarks decimal_marks(const std::vector<Row>& sample, std::size_t first) {
  int commas = 0, points = 0;
  for (std::size_t r = first; r < sample.size(); ++r)
    for (const Cell& cell : sample[r].cells) {
      if (cell.plain) continue;
      const std::size_t digits = cell.text.find_first_not_of("0123456789.,' ");
      const std::string number = cell.text.substr(0, digits);
      const std::size_t comma = number.rfind(','), point = number.rfind('.');
      if (number.empty() || number.front() < '0' || number.front() > '9') continue;
      const auto behind = [&](std::size_t mark) {
        std::size_t n = 0;
        while (mark + 1 + n < number.size() && number[mark + 1 + n] >= '0' && number[mark + 1 + n] <= '9') ++n;
        return n;
      };
      if (comma != std::string::npos && behind(comma) != 0 &&
          (behind(comma) != 3 || (point != std::string::npos && point < comma)))
        ++commas;
      if (point != std::string::npos && behind(point) != 0 &&
          (behind(point) != 3 || (comma != std::string::npos && comma < point)))
        ++points;
    }
  return {commas, points};
}

/// A column that nobody could name by its heading, but most of whose cells are kinds of machine.
void name_machine_column(Mapping& mapping, const std::vector<Row>& sample, std::size_t first, const Fields& fields) {
  for (const Column& column : mapping.columns)
    if (column.field == "machine") return;
  for (Column& column : mapping.columns) {
    if (!column.field.empty()) continue;
    std::size_t said = 0, kinds = 0;
    for (std::size_t r = first; r < sample.size(); ++r) {
      if (column.place >= sample[r].cells.size() || sample[r].cells[column.place].text.empty()) continue;
      ++said;
      if (fields.machine_of(sample[r].cells[column.place].text)) ++kinds;
    }
    if (kinds < 2 || 2 * kinds < said) continue;
    column.field = "machine";
    column.remark = "by what its cells say";
    return;
  }
}

}  // namespace

std::vector<Reading> readings_of(std::string_view heading) {
  std::vector<Reading> out{{words_of(heading), ""}};
  const auto add = [&](const std::string& name, std::string_view text) {
    std::string unit = unit_in(text);
    if (!unit.empty()) out.push_back({words_of(name), std::move(unit)});
  };
  for (std::size_t open = heading.find_first_of("[("); open != std::string_view::npos;
       open = heading.find_first_of("[(", open + 1)) {
    const std::size_t close = heading.find_first_of("])", open);
    if (close == std::string_view::npos) break;
    add(std::string(heading.substr(0, open)) + " " + std::string(heading.substr(close + 1)),
        heading.substr(open + 1, close - open - 1));
  }
  for (const char mark : {'/', ',', ' '}) {
    const std::size_t at = heading.rfind(mark);
    if (at == std::string_view::npos || at == 0) continue;
    if (mark == '/' && is_period(words_of(heading.substr(at + 1)))) continue;  // `h/day`: no unit called day
    add(std::string(heading.substr(0, at)), heading.substr(at + 1));
  }
  if (const std::size_t in = heading.rfind(" in "); in != std::string_view::npos)
    add(std::string(heading.substr(0, in)), heading.substr(in + 4));
  add(std::string(heading), heading);
  return out;
}

Result<Mapping> propose(const std::vector<Row>& sample, const Fields& fields, const std::string& sheet) {
  Mapping best;
  int best_total = 0;
  std::size_t best_row = 0;
  for (std::size_t r = 0; r < sample.size() && r < 30; ++r) {
    const Row* units = r + 1 < sample.size() && is_units_row(sample[r + 1]) ? &sample[r + 1] : nullptr;
    int total = 0;
    std::vector<Column> columns = assign(sample[r], units, fields, total);
    const auto named = std::count_if(columns.begin(), columns.end(), [](const Column& c) { return !c.field.empty(); });
    if (named < 2 || total <= best_total) continue;
    best_total = total;
    best_row = r;
    best.columns = std::move(columns);
    best.header_row = sample[r].number;
    best.units_row = units != nullptr ? units->number : 0;
  }
  if (best_total == 0)
    return input_error("", "",
                       "no row looks like the headings of a list of drives (motor power, speed, current …): say which "
                       "columns to use with --mapping");
  best.sheet = sheet;
  const DecimalMarks marks = decimal_marks(sample, best_row + 1);
  best.decimal_comma = marks.commas > marks.points;
  best.decimal_point = marks.points > 0 && marks.commas == 0;
  name_machine_column(best, sample, best_row + 1, fields);
  std::erase_if(best.columns, [](const Column& column) { return column.heading.empty(); });
  const auto used = [&](const char* id) {
    return std::any_of(best.columns.begin(), best.columns.end(), [&](const Column& c) { return c.field == id; });
  };
  // Ratios come in steps; a first look at a plant is not about a few percent of speed.
  if (!used("speed_tolerance")) best.defaults["speed_tolerance"] = "10 %";
  return best;
}

std::string mapping_yaml(const Mapping& mapping, const Fields& fields) {
  const auto quoted = [](const std::string& text) {
    YAML::Emitter out;
    out << YAML::DoubleQuoted << text;
    return std::string(out.c_str());
  };
  std::string out =
      "# Which column of the list says what. Edit it and give it back with --mapping FILE.\n"
      "# `field` is one of the names below or any path of an enquiry (machine.belt_conveyor.lift); `none` leaves a "
      "column out.\n"
      "# `unit` is that of bare numbers; a cell may always say its own, as in `7.5 hp`.\n";
  if (!mapping.sheet.empty()) out += fmt::format("sheet: {}\n", quoted(mapping.sheet));
  out += fmt::format("header_row: {}\n", mapping.header_row);
  if (mapping.units_row > 0) out += fmt::format("units_row: {}\n", mapping.units_row);
  out += mapping.decimal_comma   ? "decimal: comma\n"
         : mapping.decimal_point ? "decimal: point\n"
                                 : "# decimal: point  # or comma; say it where 1,450 is a number of the list\n";
  out += "columns:\n";
  for (const Column& column : mapping.columns) {
    out += fmt::format("  - {{column: {}", quoted(column.heading));
    if (column.place < kMostColumns) out += fmt::format(", place: {}", letters(column.place));
    out += fmt::format(", field: {}", column.field.empty() ? "none" : column.field);
    if (!column.unit.empty()) out += fmt::format(", unit: {}", quoted(column.unit));
    out += "}";
    if (!column.remark.empty()) out += "  # " + column.remark;
    out += '\n';
  }
  out += "# Taken where a line says nothing.\n";
  out += mapping.defaults.empty() ? "defaults: {}\n" : "defaults:\n";
  for (const auto& [field, value] : mapping.defaults) out += fmt::format("  {}: {}\n", field, quoted(value));
  out += ranking_yaml(mapping.ranking);
  out += "# Fields:";
  std::size_t width = 200;
  for (const Field& field : fields.all()) {
    if (field.id.find('.') != std::string::npos) continue;
    if (width + field.id.size() > 90) {
      out += "\n#  ";
      width = 0;
    }
    out += ' ' + field.id;
    width += field.id.size() + 1;
  }
  return out + '\n';
}

Result<Mapping> read_mapping(const Json& json, const Fields& fields) {
  Mapping mapping;
  Errors errors;
  const auto refuse = [&](const std::string& path, const std::string& offending, const std::string& message) {
    errors.push_back(input_error(path, offending, message));
  };
  const auto text_at = [&](const Json& node, const char* key) {
    return node.contains(key) && node[key].is_string() ? node[key].get<std::string>() : std::string();
  };
  const auto row_at = [&](const char* key, long& into) {
    if (!json.contains(key)) return;
    const Result<double> number = parse_number(text_at(json, key), key);
    if (number && *number >= 1 && *number <= kMostRows && *number == static_cast<double>(static_cast<long>(*number)))
      into = static_cast<long>(*number);
    else
      refuse(key, text_at(json, key), "a row number from 1");
  };
  for (const auto& [key, value] : json.items())
    if (key != "sheet" && key != "header_row" && key != "units_row" && key != "decimal" && key != "columns" &&
        key != "defaults" && key != "ranking")
      refuse(key, key, "unknown field; known: sheet, header_row, units_row, decimal, columns, defaults, ranking");
  mapping.sheet = text_at(json, "sheet");
  row_at("header_row", mapping.header_row);
  row_at("units_row", mapping.units_row);
  const std::string decimal = text_at(json, "decimal");
  if (!decimal.empty() && decimal != "comma" && decimal != "point") refuse("decimal", decimal, "comma or point");
  mapping.decimal_comma = decimal == "comma";
  mapping.decimal_point = decimal == "point";
  const auto check_field = [&](const std::string& path, const std::string& id) -> const Field* {
    const Field* field = fields.find(id);
    if (field == nullptr)
      refuse(path, id, "no such field; the end of a proposed mapping lists them, `none` leaves a column out");
    return field;
  };
  if (!json.contains("columns") || !json["columns"].is_array())
    refuse("columns", "", "a list of {column, field, unit} is needed");
  const Json& columns = json.contains("columns") && json["columns"].is_array() ? json["columns"] : Json::array();
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const Json& node = columns[i];
    const std::string path = fmt::format("columns[{}]", i);
    if (node.is_object())
      for (const auto& [key, value] : node.items())
        if (key != "column" && key != "place" && key != "field" && key != "unit")
          refuse(path, key, "unknown field; known: column, place, field, unit");
    Column column;
    column.heading = text_at(node, "column");
    column.field = text_at(node, "field");
    column.unit = text_at(node, "unit");
    const std::string place = text_at(node, "place");
    if (column.heading.empty() && place.empty())
      refuse(path, "", "say which column: `column` with its heading, or `place` with its letters");
    for (const char c : place)
      column.place = c >= 'A' && c <= 'Z' && column.place < kMostColumns
                         ? column.place * 26 + static_cast<std::size_t>(c - 'A' + 1)
                         : kMostColumns + 2;
    if (column.place > kMostColumns) refuse(path + ".place", place, "letters of a column, A to AMJ");
    column.place = place.empty() ? kMostColumns : column.place - 1;
    if (column.field == "none") column.field.clear();
    if (!column.field.empty()) {
      const Field* field = check_field(path + ".field", column.field);
      if (field != nullptr && !column.unit.empty() &&
          (field->kind != Kind::quantity || !lobewise::is_unit(column.unit, field->quantity)))
        refuse(path + ".unit", column.unit, fmt::format("no unit of {}", info(field->quantity).label));
      if (field != nullptr && column.unit.empty() && field->kind == Kind::quantity && !field->unit.empty()) {
        column.unit = field->unit;
        column.remark = "unit not stated, taken";
      }
      for (const Column& other : mapping.columns)
        if (other.field == column.field) refuse(path + ".field", column.field, "two columns say the same field");
    } else {
      column.remark = "not used";
    }
    mapping.columns.push_back(std::move(column));
  }
  if (json.contains("defaults") && json["defaults"].is_object())
    for (const auto& [id, value] : json["defaults"].items())
      if (check_field("defaults." + id, id) != nullptr)
        mapping.defaults[id] = value.is_string() ? value.get<std::string>() : "";
  if (json.contains("ranking")) {
    Result<judge::RankingScale> scale = read_ranking(json["ranking"]);
    if (scale)
      mapping.ranking = *scale;
    else
      errors.insert(errors.end(), scale.errors().begin(), scale.errors().end());
  }
  if (!errors.empty()) return errors;
  return mapping;
}

Errors fit(Mapping& mapping, const Row& headings) {
  Errors errors;
  std::string names;
  for (const Cell& cell : headings.cells)
    if (!cell.text.empty()) names += (names.empty() ? "" : ", ") + cell.text;
  std::vector<bool> known(headings.cells.size(), false);
  for (Column& column : mapping.columns) {
    const auto at = [&](std::size_t i) {
      return i < headings.cells.size() ? words_of(headings.cells[i].text) : std::string();
    };
    std::size_t found = headings.cells.size();
    if (column.heading.empty()) {
      found = column.place;
    } else if (at(column.place) == words_of(column.heading) && column.place < headings.cells.size()) {
      found = column.place;
    } else {
      for (std::size_t i = 0; i < headings.cells.size() && found == headings.cells.size(); ++i)
        if (!known[i] && headings.cells[i].text == column.heading) found = i;
      for (std::size_t i = 0; i < headings.cells.size() && found == headings.cells.size(); ++i)
        if (!known[i] && at(i) == words_of(column.heading)) found = i;
    }
    if (found >= headings.cells.size()) {
      if (!column.field.empty())
        errors.push_back(
            input_error("columns", column.heading.empty() ? letters(column.place) : column.heading,
                        fmt::format("the list has no such column in row {}; there are: {}", headings.number, names)));
      column.place = kMostColumns;
      continue;
    }
    column.place = found;
    column.heading = headings.cells[found].text;
    known[found] = true;
  }
  for (std::size_t i = 0; i < headings.cells.size(); ++i)
    if (!known[i] && !headings.cells[i].text.empty())
      mapping.columns.push_back({headings.cells[i].text, i, "", "", "not used; not in the mapping"});
  std::stable_sort(mapping.columns.begin(), mapping.columns.end(),
                   [](const Column& a, const Column& b) { return a.place < b.place; });
  return errors;
}

}  // namespace lobewise::survey
