// XLSX workbooks (ECMA-376 part 1, SpreadsheetML): the values of one sheet, row by row. Formulas are not worked out;
// the value the spreadsheet stored beside each is taken.

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <pugixml.hpp>

#include "apps/survey/spool.h"
#include "apps/survey/table.h"
#include "apps/survey/xml_stream.h"

namespace lobewise::survey {
namespace {

constexpr std::size_t kMostPart = 16U << 20U;  ///< of the small parts: workbook, relations, styles [bytes]

std::string_view local(const char* name) {
  const std::string_view text(name);
  const std::size_t colon = text.find(':');
  return colon == std::string_view::npos ? text : text.substr(colon + 1);
}

/// First child of a local name, whatever its prefix.
pugi::xml_node child(const pugi::xml_node& node, std::string_view name) {
  for (const pugi::xml_node& c : node.children())
    if (local(c.name()) == name) return c;
  return {};
}

template <class Visit>
void each(const pugi::xml_node& node, std::string_view name, Visit visit) {
  for (const pugi::xml_node& c : node.children())
    if (local(c.name()) == name) visit(c);
}

Result<pugi::xml_document> parse(const std::string& text, const std::string& part) {
  pugi::xml_document document;
  if (text.find("<!DOCTYPE") != std::string::npos ||
      !document.load_buffer(text.data(), text.size(), pugi::parse_default | pugi::parse_ws_pcdata_single))
    return input_error("", part, "this part of the workbook is not sound XML");
  return document;
}

Result<pugi::xml_document> read_part(const ZipArchive& archive, const std::string& part) {
  const Result<std::string> text = archive.read_entry(part, kMostPart);
  if (!text) return text.errors();
  return parse(*text, part);
}

/// Text of `si` or `is`: its own, or that of its runs; how it is pronounced does not belong to it.
std::string string_of(const pugi::xml_node& node) {
  std::string text;
  each(node, "t", [&](const pugi::xml_node& t) { text += t.text().get(); });
  each(node, "r",
       [&](const pugi::xml_node& run) { each(run, "t", [&](const pugi::xml_node& t) { text += t.text().get(); }); });
  return text;
}

std::optional<double> number_of(std::string_view text) {
  double value = 0;
  const auto result = fast_float::from_chars(text.data(), text.data() + text.size(), value);
  if (result.ec != std::errc() || result.ptr != text.data() + text.size() || !std::isfinite(value)) return std::nullopt;
  return value;
}

/// Whether a number format shows a date or a time: y, m, d, h or s outside quotes, brackets and escapes.
bool shows_date(std::string_view format) {
  for (std::size_t i = 0; i < format.size(); ++i) {
    const char c = format[i];
    if (c == '\\' || c == '_' || c == '*') {
      ++i;
    } else if (c == '"') {
      i = std::min(format.find('"', i + 1), format.size());
    } else if (c == '[') {
      const std::size_t end = std::min(format.find(']', i), format.size());
      const std::string_view inside = format.substr(i + 1, end - i - 1);
      if (inside == "h" || inside == "hh" || inside == "m" || inside == "mm" || inside == "s" || inside == "ss")
        return true;
      i = end;
    } else if (std::string_view("yYdDhHsSmM").find(c) != std::string_view::npos) {
      return true;
    }
  }
  return false;
}

/// Serial day of a spreadsheet as text. Source of the calendar: Hinnant, chrono-compatible low-level date algorithms.
std::string date_text(double serial, bool from_1904) {
  const double whole = std::floor(serial);
  const long seconds = std::lround((serial - whole) * 86400);
  const std::string clock = fmt::format("{:02}:{:02}:{:02}", seconds / 3600, seconds / 60 % 60, seconds % 60);
  if (whole < 1) return clock;
  // Day 60 of the 1900 system is 29 February 1900, which never was; later days are one too many.
  const long days = std::lround(whole) + (from_1904 ? -24107 : whole < 60 ? -25568 : -25569);
  const long z = days + 719468;
  const long era = (z >= 0 ? z : z - 146096) / 146097;
  const long of_era = z - era * 146097;
  const long year_of_era = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
  const long of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
  const long mp = (5 * of_year + 2) / 153;
  const long day = of_year - (153 * mp + 2) / 5 + 1;
  const long month = mp < 10 ? mp + 3 : mp - 9;
  const std::string date = fmt::format("{:04}-{:02}-{:02}", year_of_era + era * 400 + (month <= 2 ? 1 : 0), month, day);
  return seconds == 0 ? date : date + " " + clock;
}

/// Folder of a part, with the slash.
std::string folder_of(const std::string& part) {
  const std::size_t slash = part.rfind('/');
  return slash == std::string::npos ? "" : part.substr(0, slash + 1);
}

/// Where a relation points, as a name in the archive.
std::string target_of(const std::string& from, std::string target) {
  if (target.starts_with('/')) return target.substr(1);
  std::string folder = folder_of(from);
  while (target.starts_with("../")) {
    target = target.substr(3);
    if (!folder.empty()) folder = folder_of(folder.substr(0, folder.size() - 1));
  }
  return folder + target;
}

struct Relation {
  std::string id, type, target;
};

Result<std::vector<Relation>> relations_of(const ZipArchive& archive, const std::string& part) {
  const std::string folder = folder_of(part);
  const Result<pugi::xml_document> document =
      read_part(archive, folder + "_rels/" + part.substr(folder.size()) + ".rels");
  if (!document) return document.errors();
  std::vector<Relation> out;
  each(child(*document, "Relationships"), "Relationship", [&](const pugi::xml_node& node) {
    const std::string type = node.attribute("Type").value();
    out.push_back({node.attribute("Id").value(), type.substr(type.rfind('/') + 1),
                   target_of(part, node.attribute("Target").value())});
  });
  return out;
}

struct Workbook {
  std::string sheet, sheet_part, strings_part, styles_part;
  bool from_1904 = false;
};

Result<Workbook> read_workbook(const ZipArchive& archive, const std::string& wanted) {
  const Result<std::vector<Relation>> top = relations_of(archive, "");
  std::string part = "xl/workbook.xml";
  if (top)
    for (const Relation& relation : *top)
      if (relation.type == "officeDocument") part = relation.target;
  const Result<pugi::xml_document> document = read_part(archive, part);
  if (!document) return document.errors();
  const Result<std::vector<Relation>> relations = relations_of(archive, part);
  if (!relations) return relations.errors();
  Workbook book;
  const pugi::xml_node root = child(*document, "workbook");
  book.from_1904 = child(root, "workbookPr").attribute("date1904").as_bool();
  std::string id, names;
  each(child(root, "sheets"), "sheet", [&](const pugi::xml_node& node) {
    const std::string name = node.attribute("name").value();
    names += (names.empty() ? "" : ", ") + name;
    if (!id.empty() || (!wanted.empty() && name != wanted)) return;
    for (const pugi::xml_attribute& attribute : node.attributes())
      if (local(attribute.name()) == "id" && std::string_view(attribute.name()) != "id") id = attribute.value();
    book.sheet = name;
  });
  if (id.empty())
    return input_error(
        "sheet", wanted,
        names.empty() ? "this workbook has no sheets" : fmt::format("there is no such sheet; there are: {}", names));
  for (const Relation& relation : *relations) {
    if (relation.id == id && relation.type == "worksheet") book.sheet_part = relation.target;
    if (relation.type == "sharedStrings") book.strings_part = relation.target;
    if (relation.type == "styles") book.styles_part = relation.target;
  }
  if (book.sheet_part.empty()) return input_error("sheet", book.sheet, "this is no sheet of cells");
  return book;
}

class XlsxReader final : public TableReader {
 public:
  static Result<std::unique_ptr<TableReader>> open(const std::string& file, const std::string& sheet) {
    Result<ZipArchive> archive = ZipArchive::open(file);
    if (!archive) return archive.errors();
    const Result<Workbook> book = read_workbook(*archive, sheet);
    if (!book) return book.errors();
    Result<Spool> strings = Spool::open();
    if (!strings) return strings.errors();
    Result<ZipEntry> rows = archive->open_entry(book->sheet_part);
    if (!rows) return rows.errors();
    std::unique_ptr<XlsxReader> reader(
        new XlsxReader(std::move(*archive), *book, std::move(*strings), std::move(*rows)));
    Errors errors = reader->read_styles();
    if (errors.empty()) errors = reader->read_strings();
    if (!errors.empty()) return errors;
    return std::unique_ptr<TableReader>(std::move(reader));
  }

  Result<bool> next(Row& row) override {
    for (;;) {
      const Result<bool> got = rows_.next(element_);
      if (!got || !*got) return got;
      const Errors errors = read_row(row);
      if (!errors.empty()) return errors;
      if (!row.blank()) return true;
    }
  }
  [[nodiscard]] double share_read() const override { return rows_.share_read(); }
  [[nodiscard]] const std::string& sheet() const override { return book_.sheet; }

 private:
  XlsxReader(ZipArchive archive, Workbook book, Spool strings, ZipEntry rows)
      : archive_(std::move(archive)),
        book_(std::move(book)),
        strings_(std::move(strings)),
        rows_(std::move(rows), "row") {}

  Errors read_styles() {
    if (book_.styles_part.empty() || !archive_.has(book_.styles_part)) return {};
    const Result<pugi::xml_document> document = read_part(archive_, book_.styles_part);
    if (!document) return document.errors();
    const pugi::xml_node root = child(*document, "styleSheet");
    std::vector<int> own;  // formats of this workbook that show dates
    each(child(root, "numFmts"), "numFmt", [&](const pugi::xml_node& node) {
      if (shows_date(node.attribute("formatCode").value())) own.push_back(node.attribute("numFmtId").as_int());
    });
    each(child(root, "cellXfs"), "xf", [&](const pugi::xml_node& node) {
      const int id = node.attribute("numFmtId").as_int();
      // Built-in formats 14 to 22 and 45 to 47 are dates and times: ECMA-376 part 1, 18.8.30.
      dates_.push_back((id >= 14 && id <= 22) || (id >= 45 && id <= 47) ||
                       std::find(own.begin(), own.end(), id) != own.end());
    });
    return {};
  }

  Errors read_strings() {
    if (book_.strings_part.empty() || !archive_.has(book_.strings_part)) return {};
    Result<ZipEntry> entry = archive_.open_entry(book_.strings_part);
    if (!entry) return entry.errors();
    ElementStream items(std::move(*entry), "si");
    for (;;) {
      const Result<bool> got = items.next(element_);
      if (!got) return got.errors();
      if (!*got) return {};
      const Result<pugi::xml_document> item = parse(element_, book_.strings_part);
      if (!item) return item.errors();
      if (!strings_.append(clean(string_of(item->first_child()))))
        return {Error{ErrorKind::data, "", "", "the temporary file is full", 0}};
    }
  }

  [[nodiscard]] Error refuse(const std::string& message) const {
    return input_error("", fmt::format("row {}", number_), message);
  }

  /// Column of a reference such as `AB12`; nothing when it is none.
  static std::optional<std::size_t> column_of(std::string_view reference) {
    std::size_t column = 0, i = 0;
    for (; i < reference.size() && reference[i] >= 'A' && reference[i] <= 'Z' && column < 100'000; ++i)
      column = column * 26 + static_cast<std::size_t>(reference[i] - 'A' + 1);
    return i == 0 ? std::nullopt : std::optional<std::size_t>(column - 1);
  }

  Errors read_row(Row& row) {
    const Result<pugi::xml_document> document = parse(element_, book_.sheet_part);
    if (!document) return document.errors();
    const pugi::xml_node node = document->first_child();
    const long number = node.attribute("r") ? static_cast<long>(node.attribute("r").as_llong()) : number_ + 1;
    if (number <= number_) return {refuse("rows are not in order")};
    number_ = row.number = number;
    row.cells.clear();
    Errors errors;
    std::size_t column = 0;
    each(node, "c", [&](const pugi::xml_node& cell) {
      if (!errors.empty()) return;
      column = column_of(cell.attribute("r").value()).value_or(column);
      Cell value = cell_of(cell, errors);
      if (!value.text.empty()) {
        if (column >= kMostColumns) errors.push_back(refuse("more than 1024 columns"));
        if (errors.empty() && row.cells.size() <= column) row.cells.resize(column + 1);
        if (errors.empty()) row.cells[column] = std::move(value);
      }
      ++column;
    });
    return errors;
  }

  Cell cell_of(const pugi::xml_node& cell, Errors& errors) {
    const std::string_view type = cell.attribute("t").value();
    if (type == "inlineStr") return {clean(string_of(child(cell, "is"))), false};
    const std::string value = child(cell, "v").text().get();
    if (value.empty()) return {child(cell, "f") ? "(formula without a stored value)" : "", false};
    if (type == "s") {
      const std::optional<double> index = number_of(value);
      std::string text;
      if (!index || !(*index >= 0 && *index < static_cast<double>(strings_.size())) ||
          !strings_.read(static_cast<std::size_t>(*index), text))
        errors.push_back(
            refuse(fmt::format("refers to the text number '{}', which does not exist", value.substr(0, 20))));
      return {text, false};
    }
    if (type == "b") return {value == "0" ? "no" : "yes", false};
    if (type == "str" || type == "e" || type == "d") return {clean(value), false};
    const std::optional<double> number = number_of(value);
    if (!number) return {clean(value), false};
    const auto style = static_cast<std::size_t>(std::max(0, cell.attribute("s").as_int()));
    if (style < dates_.size() && dates_[style] && *number >= 0 && *number < 2958466)  // to the end of the year 9999
      return {date_text(*number, book_.from_1904), false};
    return {fmt::format("{:.15g}", *number), true};  // spreadsheets keep 15 digits
  }

  ZipArchive archive_;
  Workbook book_;
  Spool strings_;
  ElementStream rows_;
  std::vector<bool> dates_;  ///< by style
  std::string element_;
  long number_ = 0;
};

}  // namespace

Result<std::unique_ptr<TableReader>> open_xlsx(const std::string& file, const std::string& sheet) {
  return XlsxReader::open(file, sheet);
}

}  // namespace lobewise::survey
