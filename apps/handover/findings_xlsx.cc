#include "apps/handover/findings_xlsx.h"

#include <fmt/format.h>
#include <xlsxwriter.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "apps/handover/beside.h"
#include "apps/handover/text.h"
#include "apps/handover/workbook_file.h"
#include "engine/base/quantity.h"

namespace lobewise::handover {
namespace {

/// A cell: text, a number, or a quantity that becomes a number and its unit in two cells.
struct Cell {
  enum class Kind { text, number, share, estimate } kind = Kind::text;
  std::string text;
  double number = 0;
};

/// Blanks that do not break are for paper; a search in a workbook would not find them.
Cell text(const std::string& with_hard_blanks) {
  constexpr std::string_view kHard = "\u00a0";
  std::string_view value = with_hard_blanks;
  std::string out;
  for (std::size_t at = value.find(kHard); at != std::string_view::npos; at = value.find(kHard)) {
    out.append(value.substr(0, at)).push_back(' ');
    value.remove_prefix(at + kHard.size());
  }
  return {Cell::Kind::text, out.append(value), 0};
}
/// Six significant digits: more than any model here is worth, and a cell shows them.
Cell number(double value) {
  if (value == 0) return {Cell::Kind::number, "", 0};
  const double digits = std::pow(10.0, 5 - std::floor(std::log10(std::abs(value))));
  return {Cell::Kind::number, "", std::isfinite(digits) ? std::round(value * digits) / digits : value};
}
Cell share(double value) { return {Cell::Kind::share, "", value}; }
/// A share that a coarser model gave.
Cell estimate(double value) { return {Cell::Kind::estimate, "", value}; }

const QuantityInfo* quantity_named(const std::string& key) {
  for (const QuantityInfo& info : all_quantities())
    if (info.key == key) return &info;
  return nullptr;
}

class Sheet {
 public:
  Sheet(lxw_workbook* book, const char* name, std::vector<std::pair<const char*, double>> columns)
      : columns_(columns.size()) {
    head_ = workbook_add_format(book);
    format_set_bold(head_);
    format_set_bottom(head_, LXW_BORDER_THIN);
    format_set_text_wrap(head_);
    percent_ = workbook_add_format(book);
    format_set_num_format(percent_, "0.0%");
    estimate_ = workbook_add_format(book);
    format_set_num_format(estimate_, "\"≈ \"0.0%");
    wrap_ = workbook_add_format(book);
    format_set_text_wrap(wrap_);
    format_set_align(wrap_, LXW_ALIGN_VERTICAL_TOP);
    sheet_ = headed_sheet(book, name, head_, columns);
  }

  void row(const std::vector<Cell>& cells) {
    ++row_;
    for (std::size_t i = 0; i < cells.size(); ++i) {
      const auto column = static_cast<lxw_col_t>(i);
      const Cell& cell = cells[i];
      if (cell.kind != Cell::Kind::text) {
        worksheet_write_number(sheet_, row_, column, cell.number,
                               cell.kind == Cell::Kind::share      ? percent_
                               : cell.kind == Cell::Kind::estimate ? estimate_
                                                                   : nullptr);
      } else if (!cell.text.empty()) {
        constexpr std::size_t kMost = 32000;  // of a cell of this format: 32767
        worksheet_write_string(sheet_, row_, column, shortened(cell.text, kMost).c_str(), wrap_);
      }
    }
  }
  void filter() { worksheet_autofilter(sheet_, 0, 0, row_, static_cast<lxw_col_t>(columns_ - 1)); }

 private:
  lxw_worksheet* sheet_ = nullptr;
  std::size_t columns_;
  lxw_row_t row_ = 0;
  lxw_format *head_, *percent_, *estimate_, *wrap_;
};

class Book {
 public:
  Book(const Source& source, const std::string& file)
      : source_(source),
        system_(source.units == "us" ? UnitSystem::us : UnitSystem::si),
        book_(dated_workbook(file, clean(source.title()), source.order.date)) {}

  lxw_error write() {
    summary();
    requirement();
    findings();
    checks();
    working();
    candidates();
    assumptions();
    orders();
    if (!source_.compare.is_null()) {
      beside();
      if (!source_.compare["cases"].empty()) cases();
    }
    return workbook_close(book_);
  }

 private:
  /// Number and unit of a quantity in the chosen system.
  [[nodiscard]] std::pair<Cell, Cell> split(const Json& quantity) const {
    // A list of values stands in one cell, as its words.
    if (!quantity.is_object() || !quantity.contains("quantity") || quantity["value"].is_array())
      return {text(source_.shown(quantity)), text("")};
    const QuantityInfo* info = quantity_named(quantity["quantity"].get<std::string>());
    if (info == nullptr) return {number(quantity["value"]), text("SI")};
    return {number(to_display(quantity["value"].get<double>(), info->quantity, system_)),
            text(std::string(display_unit(info->quantity, system_)))};
  }
  [[nodiscard]] std::string shown(const Json& both) const { return source_.shown(both); }

  void summary() {
    Sheet sheet(book_, "Summary", {{"What", 34}, {"Value", 60}, {"Unit", 14}});
    sheet.row({text("Enquiry"), text(source_.title())});
    sheet.row({text("Customer"), text(source_.customer())});
    sheet.row({text(source_.offered_as()), text(source_.build_name())});
    sheet.row({text("Date"), text(source_.order.date)});
    sheet.row({text("Price valid until"), text(source_.order.valid_until)});
    for (const Json& fact : source_.prove["drive"]) {
      const auto [value, unit] = split(fact["value"].is_string() ? Json(source_.fact(fact)) : fact["value"]);
      sheet.row({text(fact["label"]), value, unit});
    }
    const Json& range = source_.offer()["range"];
    sheet.row({text("Range"),
               text(range.value("name", std::string()) + ", version " + range.value("version", std::string()))});
    sheet.row({text("About the range"), text(range.value("note", std::string()))});
    if (!source_.serves()) sheet.row({text("No offer"), text(source_.shown(source_.prove["why_none"]))});
    for (const Json& caution : source_.prove["cautions"])
      sheet.row(
          {text("Caution"), text(fmt::format("{} ({}, {})", caution["text"].get<std::string>(),
                                             caution["who"].get<std::string>(), caution["when"].get<std::string>()))});
  }

  void requirement() {
    Sheet sheet(
        book_, "Asked",
        {{"What", 34}, {"Value", 14}, {"Unit", 12}, {"Assumed", 10}, {"Low", 14}, {"High", 14}, {"Source", 60}});
    for (const Json& line : source_.prove["requirement"]) {
      const auto [value, unit] = split(line["value"]);
      std::vector<Cell> row{text(line["label"]), value, unit, text(line["assumed"].get<bool>() ? "yes" : "no")};
      if (line.contains("low")) {
        row.push_back(split(line["low"]).first);
        row.push_back(split(line["high"]).first);
        row.push_back(text(line.value("source", std::string())));
      }
      sheet.row(row);
    }
    for (const Json& condition : source_.prove["conditions"])
      sheet.row({text(condition["label"]), text(condition["text"]), text(""),
                 text(condition["said"].get<bool>() ? "no" : "yes")});
  }

  void findings() {
    Sheet sheet(book_, "Findings",
                {{"Id", 12},
                 {"Question", 44},
                 {"Verdict", 16},
                 {"Answer", 70},
                 {"Condition", 50},
                 {"Least margin", 12},
                 {"Left out", 60}});
    for (const Json& f : source_.prove["findings"]) {
      std::vector<Cell> row{text(f["id"]), text(f["question"]), text(words(f["verdict"].get<std::string>())),
                            text(shown(f["answer"])), text(f.contains("condition") ? shown(f["condition"]) : "")};
      double least = 1e300;
      for (const Json& check : f["checks"]) least = std::min(least, check["margin"].get<double>());
      row.push_back(least < 1e300 ? share(least) : text(""));
      std::string left;
      for (const Json& gap : f["left_out"])
        left += fmt::format("{}{}", left.empty() ? "" : " ", gap.get<std::string>());
      row.push_back(text(left));
      sheet.row(row);
    }
    sheet.filter();
  }

  void checks() {
    Sheet sheet(book_, "Checks",
                {{"Finding", 12},
                 {"Check", 50},
                 {"Figure", 14},
                 {"Must be", 9},
                 {"Limit", 14},
                 {"Unit", 12},
                 {"Margin", 10},
                 {"5 %", 14},
                 {"95 %", 14}});
    for (const Json& f : source_.prove["findings"])
      for (const Json& check : f["checks"]) {
        const auto [figure, unit] = split(check["figure"]);
        std::vector<Cell> row{text(f["id"]),
                              text(check["name"]),
                              figure,
                              text(check["at_most"].get<bool>() ? "at most" : "at least"),
                              split(check["limit"]).first,
                              unit,
                              share(check["margin"])};
        for (const char* end : {"low", "high"}) row.push_back(check.contains(end) ? split(check[end]).first : text(""));
        sheet.row(row);
      }
    sheet.filter();
  }

  void add_working(Sheet& sheet, const std::string& id, const Json& working) const {
    int step = 0;
    for (const Json& w : working) {
      ++step;
      const auto [value, unit] = split(w["value"]);
      sheet.row({text(id), number(step), text(w["meaning"]), text(w["symbol"]), text(w["formula"]), value, unit,
                 text(w["source"])});
      for (const Json& input : w["inputs"]) {
        const auto [given, given_unit] = split(input["value"]);
        sheet.row({text(id), number(step), text(fmt::format("with {}", input["meaning"].get<std::string>())),
                   text(input["symbol"]), text(""), given, given_unit, text("")});
      }
    }
  }
  void working() {
    Sheet sheet(book_, "Working",
                {{"Finding", 12},
                 {"Step", 6},
                 {"Meaning", 50},
                 {"Symbol", 12},
                 {"Formula", 44},
                 {"Value", 14},
                 {"Unit", 12},
                 {"Source", 50}});
    add_working(sheet, "demand", source_.prove["demand_working"]);
    for (const Json& f : source_.prove["findings"]) add_working(sheet, f["id"], f["working"]);
    sheet.filter();
  }

  void candidates() {
    std::vector<std::pair<const char*, double>> columns{{"Candidate", 26}, {"Ratio", 10},          {"Speed error", 10},
                                                        {"Verdict", 16},   {"Mass", 12},           {"Unit", 6},
                                                        {"Price", 12},     {"Looked at with", 18}, {"Fell out", 60}};
    std::vector<std::string> ids;
    for (const Json& c : source_.size["candidates"])
      if (c["margins"].size() > ids.size()) {
        ids.clear();
        for (const Json& m : c["margins"]) ids.push_back(m["id"]);
      }
    for (const std::string& id : ids) columns.emplace_back(id.c_str(), 11);
    Sheet sheet(book_, "Candidates", columns);
    for (const Json& c : source_.size["candidates"]) {
      const auto [mass, unit] = split(c["mass"]);
      std::vector<Cell> row{text(c["build_name"]),
                            number(c["ratio"]),
                            share(c["ratio_error"]),
                            text(words(c["verdict"].get<std::string>())),
                            mass,
                            unit,
                            split(c["price"]).first,
                            text(c.contains("fell_out") ? "" : c["mesh"].get<std::string>()),
                            text(c.contains("fell_out") ? shown(c["fell_out"]) : "")};
      for (const Json& m : c["margins"])
        row.push_back(!m.contains("margin")       ? text(words(m["verdict"].get<std::string>()))
                      : m["estimate"].get<bool>() ? estimate(m["margin"])
                                                  : share(m["margin"]));
      sheet.row(row);
    }
    sheet.filter();
  }

  void assumptions() {
    Sheet sheet(book_, "Assumptions",
                {{"Field", 26},
                 {"Taken, because it was not said", 60},
                 {"Value", 14},
                 {"Low", 14},
                 {"High", 14},
                 {"Unit", 12},
                 {"Source", 60}});
    for (const Json& a : source_.prove["assumptions"]) {
      const auto [value, unit] = split(a["value"]);
      sheet.row({text(a["path"]), text(a["text"]), value, split(a["low"]).first, split(a["high"]).first, unit,
                 text(a["source"])});
    }
  }

  void orders() {
    Sheet sheet(book_, "Vibration",
                {{"Stage", 16},
                 {"What it comes from", 44},
                 {"Order of motor speed", 12},
                 {"Frequency [Hz]", 14},
                 {"Over the discs", 14}});
    for (const Json& stage : source_.excitations["stages"])
      for (const Json& row : stage["orders"])
        sheet.row({text(stage["frame"]), text(row["name"]), number(row["order"]), number(row["frequency"]["value"]),
                   text(row["sum"])});
  }

  void beside() {
    Sheet sheet(book_, "Beside",
                {{"Question", 40},
                 {"Present", 14},
                 {"Low", 14},
                 {"High", 14},
                 {"New", 14},
                 {"Low", 14},
                 {"High", 14},
                 {"Unit", 12},
                 {"Better", 12},
                 {"Remark", 70}});
    for (const Json& axis : source_.compare["axes"]) {
      std::vector<Cell> row{text(axis["question"])};
      Cell unit = text("");
      for (const char* side : {"incumbent", "candidate"})
        for (const char* end : {"nominal", "low", "high"}) {
          if (!axis.contains(side)) {
            row.push_back(text(""));
            continue;
          }
          const auto [value, of] = split(axis[side][end]);
          row.push_back(value);
          unit = of;
        }
      row.push_back(unit);
      row.push_back(text(better_word(axis["better"].get<std::string>())));
      row.push_back(text(axis["remark"]));
      sheet.row(row);
    }
  }

  /// Costs side by side, what comes of it, and what was taken, for each thing the new drive is set against.
  void cases() {
    Sheet sheet(book_, "Case",
                {{"Set against", 24},
                 {"What", 44},
                 {"Present", 14},
                 {"New", 14},
                 {"Likely", 14},
                 {"5 %", 14},
                 {"Half", 14},
                 {"95 %", 14},
                 {"Unit", 12},
                 {"Source", 60}});
    for (const Json& one : source_.compare["cases"]) {
      const Cell against = text(one["name"]);
      const std::string currency = one["currency"];
      for (const char* part : {"purchase", "energy", "carbon", "upkeep", "repairs", "standstill", "total"})
        sheet.row({against, text(fmt::format("{} over {} years, in money of today", part, one["years"].get<int>())),
                   split(one["keep"][part]).first, split(one["candidate"][part]).first, text(""), text(""), text(""),
                   text(""), text(currency)});
      for (const char* part : {"energy_first_year", "carbon_mass"})
        sheet.row({against, text(words(part)), split(one["keep"][part]).first, split(one["candidate"][part]).first,
                   text(""), text(""), text(""), text(""), split(one["keep"][part]).second});
      sheet.row({against, text("stoppages expected"), number(one["keep"]["stoppages"]),
                 number(one["candidate"]["stoppages"])});
      std::vector<Cell> value{against, text("present value of the change"), text(""), text("")}, payback = value;
      payback[1] = text("pays back after");
      for (const char* key : {"nominal", "low", "median", "high"}) {
        value.push_back(split(one["value"][key]).first);
        payback.push_back(one["hangs_on_spare"] == true  ? text("ask for the spare first")
                          : one["payback"].contains(key) ? number(one["payback"][key])
                                                         : text("not within the years"));
      }
      value.push_back(text(currency));
      payback.push_back(text("years"));
      sheet.row(value);
      sheet.row(payback);
      sheet.row({against, text("share of the draws in which it pays"), text(""), text(""), share(one["share_paying"])});
      for (const Json& turn : one["break_evens"]) sheet.row({against, text(shown(turn["sentence"]))});
      for (const Json& a : one["assumptions"]) {
        const auto [taken, unit] = split(a["value"]);
        sheet.row({against, text(a["text"]), text(""), text(""), taken, split(a["low"]).first, text(""),
                   split(a["high"]).first, unit, text(a["source"])});
      }
    }
    sheet.filter();
  }

  const Source& source_;
  UnitSystem system_;
  lxw_workbook* book_;
};

}  // namespace

Errors write_findings_xlsx(const Source& source, const std::string& file) {
  const lxw_error problem = Book(source, file).write();
  if (problem == LXW_NO_ERROR) return {};
  return {input_error("--out", file, lxw_strerror(problem))};
}

}  // namespace lobewise::handover
