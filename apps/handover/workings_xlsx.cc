#include "apps/handover/workings_xlsx.h"

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <cmath>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <tuple>
#include <vector>

#include "apps/handover/text.h"
#include "apps/handover/workbook_file.h"
#include "engine/base/quantity.h"

namespace lobewise::handover {
namespace {

const QuantityInfo& quantity_named(const std::string& key) {
  for (const QuantityInfo& info : all_quantities())
    if (info.key == key) return info;
  return info(Quantity::number);
}

/// What a workbook takes for a name: letters, digits and `_`.
std::string plain_name(const std::string& symbol) {
  std::string out;
  for (const char c : symbol) {
    const auto byte = static_cast<unsigned char>(c);
    const bool plain = (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_';
    if (plain)
      out += c;
    else if (c == '*')
      out += "_star";
    else if (c == '\'')
      out += "_prime";
    else
      out += fmt::format("u{:02x}", byte);
  }
  return out;
}

/// A figure with so many digits that another of its kind is the same one.
bool tells_itself(double value) { return std::stod(fmt::format("{:.6g}", value)) != value; }

/// A display unit as a straight line of the SI value: shown = SI scale + shift.
struct Line {
  double scale = 1, shift = 0;
};
Line line_of(Quantity quantity, UnitSystem system) {
  const double shift = to_display(0, quantity, system);
  return {to_display(1, quantity, system) - shift, shift};
}
std::string to_shown(const std::string& cell, const Line& line) {
  const std::string scaled = line.scale == 1 ? cell : fmt::format("{} * {:.17g}", cell, line.scale);
  return line.shift == 0 ? scaled : fmt::format("{} + {:.17g}", scaled, line.shift);
}
std::string to_si(const std::string& cell, const Line& line) {
  const std::string moved = line.shift == 0 ? cell : fmt::format("({} - {:.17g})", cell, line.shift);
  return line.scale == 1 ? moved : fmt::format("{} / {:.17g}", moved, line.scale);
}

class Book {
 public:
  Book(const Source& source, const std::string& file)
      : source_(source),
        system_(source.units == "us" ? UnitSystem::us : UnitSystem::si),
        title_(fmt::format("Workings: {}", clean(source.title()))),
        book_(dated_workbook(file, title_, source.order.date)) {
    bold_ = workbook_add_format(book_);
    format_set_bold(bold_);
    format_set_bottom(bold_, LXW_BORDER_THIN);
    format_set_text_wrap(bold_);
    wrap_ = workbook_add_format(book_);
    format_set_text_wrap(wrap_);
    format_set_align(wrap_, LXW_ALIGN_VERTICAL_TOP);
    typed_ = workbook_add_format(book_);
    format_set_bg_color(typed_, 0xFFF6D6);
    format_set_border(typed_, LXW_BORDER_HAIR);
  }

  lxw_error write() {
    notes_ = workbook_add_worksheet(book_, "Read first");
    given_ = headed_sheet(book_, "Given", bold_,
                          {{"Name", 20},
                           {"What it is", 56},
                           {"Value: change it here", 18},
                           {"Unit", 12},
                           {"SI value", 16},
                           {"SI unit", 12},
                           {"Used by", 34}});
    workings_ = headed_sheet(book_, "Workings", bold_,
                             {{"Finding", 12},
                              {"Step", 6},
                              {"What it is", 56},
                              {"Name", 22},
                              {"SI value", 16},
                              {"SI unit", 10},
                              {"Shown", 16},
                              {"Unit", 12},
                              {"Kind", 16},
                              {"Formula", 60},
                              {"Residual", 14},
                              {"State", 30},
                              {"Source", 50}});
    lists_ = workbook_add_worksheet(book_, "Lists");
    if (source_.prove.contains("demand_working")) working("demand", source_.prove["demand_working"]);
    for (const Json& f : source_.prove["findings"]) working(f["id"], f["working"]);
    for (std::size_t i = 0; i < used_by_.size(); ++i) {
      std::string ids;
      for (const std::string& id : used_by_[i]) ids += (ids.empty() ? "" : ", ") + id;
      string(given_, static_cast<lxw_row_t>(i + 1), 6, ids);
    }
    worksheet_autofilter(workings_, 0, 0, row_, 12);
    notes();
    return workbook_close(book_);
  }

 private:
  void string(lxw_worksheet* sheet, lxw_row_t row, lxw_col_t column, const std::string& text) {
    constexpr std::size_t kMost = 32000;  // of a cell of this format: 32767
    if (!text.empty()) worksheet_write_string(sheet, row, column, shortened(clean(text), kMost).c_str(), wrap_);
  }
  static std::string address(const char* sheet, lxw_row_t row, char column) {
    return fmt::format("{}!${}${}", sheet, column, row + 1);
  }
  /// `name`, with a number behind it when it is taken: workbooks tell no capitals from small letters.
  std::string name(const std::string& wanted, const std::string& cells) {
    const auto taken = [&](std::string made) {
      for (char& c : made) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
      return !names_.insert(made).second;
    };
    std::string made = wanted;
    for (int i = 2; taken(made); ++i) made = fmt::format("{}_{}", wanted, i);
    workbook_define_name(book_, made.c_str(), ("=" + cells).c_str());
    return made;
  }

  struct Value {
    std::string symbol, quantity;
    double value;
    [[nodiscard]] auto key() const { return std::tie(symbol, quantity, value); }
    bool operator<(const Value& other) const { return key() < other.key(); }
  };

  /// Row of *Given*, in the order in which the workings ask for them.
  std::string given(const Value& value, const std::string& meaning, const std::string& id) {
    const auto [place, is_new] = givens_.try_emplace({value, meaning}, used_by_.size());
    if (!is_new) {
      used_by_[place->second].insert(id);
      return given_names_[place->second];
    }
    used_by_.push_back({id});
    const auto row = static_cast<lxw_row_t>(used_by_.size());
    const QuantityInfo& info = quantity_named(value.quantity);
    const Line line = line_of(info.quantity, system_);
    string(given_, row, 1, meaning);
    worksheet_write_number(given_, row, 2, to_display(value.value, info.quantity, system_), typed_);
    string(given_, row, 3, std::string(display_unit(info.quantity, system_)));
    worksheet_write_formula_num(given_, row, 4, ("=" + to_si(fmt::format("C{}", row + 1), line)).c_str(), nullptr,
                                value.value);
    string(given_, row, 5, std::string(info.units.empty() ? "" : info.units.front().name));
    given_names_.push_back(name("given_" + plain_name(value.symbol), address("Given", row, 'E')));
    string(given_, row, 0, given_names_.back());
    return given_names_.back();
  }

  std::string list(const Json& input) {
    const std::vector<double> values = input["value"]["value"];
    const auto [place, is_new] = list_names_.try_emplace({input["symbol"], values}, "");
    if (!is_new) return place->second;
    const auto column = static_cast<lxw_col_t>(list_names_.size() - 1);
    char letters[16]{};
    lxw_col_to_name(letters, column, true);
    place->second =
        name("list_" + plain_name(input["symbol"]), fmt::format("Lists!{0}$4:{0}${1}", letters, values.size() + 3));
    worksheet_set_column(lists_, column, column, 18, nullptr);
    worksheet_write_string(lists_, 0, column, place->second.c_str(), bold_);
    string(lists_, 1, column, input["meaning"]);
    const QuantityInfo& info = quantity_named(input["value"]["quantity"]);
    string(lists_, 2, column, std::string(info.units.empty() ? "" : info.units.front().name));
    for (std::size_t i = 0; i < values.size(); ++i)
      worksheet_write_number(lists_, static_cast<lxw_row_t>(i + 3), column, values[i], typed_);
    return place->second;
  }

  /// A formula of the engine with the names of its cells; array formulas wherever a list takes part.
  struct Formula {
    std::string text;
    bool array = false;
  };
  std::optional<Formula> formula(const Json& step, const std::string& id, const std::string& own) {
    if (!step.contains("cells")) return std::nullopt;
    std::map<std::string, std::string> cells;
    Formula out;
    for (const Json& input : step["inputs"]) {
      const std::string symbol = input["symbol"];
      if (input["value"]["value"].is_array()) {
        cells[symbol] = list(input);
        out.array = true;
        continue;
      }
      const Value value{symbol, input["value"]["quantity"], input["value"]["value"]};
      const std::string* made = !own.empty() && symbol == step["symbol"] ? &own : result(value);
      cells[symbol] = made != nullptr ? *made : given(value, input["meaning"], id);
    }
    const std::string source = step["cells"];
    out.text = "=";
    for (std::size_t i = 0; i < source.size(); ++i) {
      if (source[i] != '{') {
        out.text += source[i];
        continue;
      }
      const std::size_t end = source.find('}', i);
      const auto cell = cells.find(source.substr(i + 1, end - i - 1));
      if (cell == cells.end()) return std::nullopt;
      out.text += cell->second;
      i = end;
    }
    constexpr std::size_t kLongest = 8000;  // of a formula of this format: 8192
    if (out.text.size() > kLongest) return std::nullopt;
    return out;
  }
  void write_formula(lxw_col_t column, const Formula& formula, double value) {
    if (formula.array)
      worksheet_write_array_formula_num(workings_, row_, column, row_, column, ("{" + formula.text + "}").c_str(),
                                        nullptr, value);
    else
      worksheet_write_formula_num(workings_, row_, column, formula.text.c_str(), nullptr, value);
  }

  void working(const std::string& id, const Json& steps) {
    int number = 0;
    for (const Json& step : steps) {
      ++row_;
      ++number;
      const std::string symbol = step["symbol"], kind = step["kind"];
      const Value value{symbol, step["value"]["quantity"], step["value"]["value"]};
      const QuantityInfo& info = quantity_named(value.quantity);
      const Line line = line_of(info.quantity, system_);
      const std::string own = name(id + "_" + plain_name(symbol), address("Workings", row_, 'E'));
      string(workings_, row_, 0, id);
      worksheet_write_number(workings_, row_, 1, number, nullptr);
      string(workings_, row_, 2, step["meaning"]);
      string(workings_, row_, 3, own);
      const std::optional<Formula> cells = formula(step, id, kind == "solved" ? own : "");
      if (cells && kind == "computed") {
        write_formula(4, *cells, value.value);
        ++live_;
      } else {
        worksheet_write_number(workings_, row_, 4, value.value, nullptr);
      }
      string(workings_, row_, 5, std::string(info.units.empty() ? "" : info.units.front().name));
      const std::string shown = to_shown(fmt::format("E{}", row_ + 1), line);
      worksheet_write_formula_num(workings_, row_, 6, ("=" + shown).c_str(), nullptr,
                                  to_display(value.value, info.quantity, system_));
      string(workings_, row_, 7, std::string(display_unit(info.quantity, system_)));
      string(workings_, row_, 8, words(kind));
      string(workings_, row_, 9, step["formula"]);
      if (cells && kind == "solved") {
        write_formula(10, *cells, step["residual_value"]);
        worksheet_write_formula_str(workings_, row_, 11,
                                    fmt::format("=IF(ABS(K{}) <= {:.17g}, \"closes\", \"{}\")", row_ + 1,
                                                1.001 * step["tolerance"].get<double>(), kSolveAgain)
                                        .c_str(),
                                    wrap_, "closes");
      } else if (kind != "computed") {
        string(workings_, row_, 11, "as proved; needs a new proof when something changes");
      }
      string(workings_, row_, 12, step["source"]);
      results_[value] = own;
      figures_[{value.quantity, value.value}] = own;
    }
  }
  /// The cell in which a value was computed before: of the same symbol, or so much its own that it is the same figure
  /// under another one.
  [[nodiscard]] const std::string* result(const Value& value) const {
    const auto made = results_.find(value);
    if (made != results_.end()) return &made->second;
    if (!tells_itself(value.value)) return nullptr;
    const auto same = figures_.find({value.quantity, value.value});
    return same != figures_.end() ? &same->second : nullptr;
  }

  void notes() {
    worksheet_set_column(notes_, 0, 0, 120, nullptr);
    lxw_row_t row = 0;
    worksheet_write_string(notes_, row++, 0, title_.c_str(), bold_);
    for (const std::string& line :
         {source_.customer(),
          fmt::format("{}: {}. Issued {}.", source_.offered_as(), source_.build_name(), source_.order.date),
          fmt::format("{} cells of the sheet Workings are formulas on the sheet Given. Change a value there, in its "
                      "unit, and what follows from it moves.",
                      live_),
          std::string("What solves an equation (which rollers carry, the temperature at which heat balances) or was "
                      "followed in time keeps its value of the proof. The column State says when its equation no "
                      "longer closes: then ask for a new proof."),
          std::string("A figure that comes out of this file after a change is an estimate and no promise. The proposal "
                      "says what was proved, and for what."),
          std::string("Local codes and a licensed engineer decide.")})
      string(notes_, row++, 0, line);
    for (const Json& caution : source_.prove["cautions"])
      string(notes_, row++, 0, fmt::format("Caution: {}", caution["text"].get<std::string>()));
  }

  static constexpr const char* kSolveAgain = "does not close: ask for a new proof";

  const Source& source_;
  UnitSystem system_;
  std::string title_;
  lxw_workbook* book_;
  lxw_format *bold_ = nullptr, *wrap_ = nullptr, *typed_ = nullptr;
  lxw_worksheet *notes_ = nullptr, *given_ = nullptr, *workings_ = nullptr, *lists_ = nullptr;
  lxw_row_t row_ = 0;
  int live_ = 0;
  std::set<std::string> names_;
  std::map<Value, std::string> results_;                           ///< latest cell of a figure
  std::map<std::pair<std::string, double>, std::string> figures_;  ///< by quantity and value alone
  std::map<std::pair<Value, std::string>, std::size_t> givens_;
  std::vector<std::string> given_names_;
  std::vector<std::set<std::string>> used_by_;
  std::map<std::pair<std::string, std::vector<double>>, std::string> list_names_;
};

}  // namespace

Errors write_workings_xlsx(const Source& source, const std::string& file) {
  const lxw_error problem = Book(source, file).write();
  if (problem == LXW_NO_ERROR) return {};
  return {input_error("--out", file, lxw_strerror(problem))};
}

}  // namespace lobewise::handover
