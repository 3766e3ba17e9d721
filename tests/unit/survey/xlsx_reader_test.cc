#include <xlsxwriter.h>
#include <zip.h>

#include <map>

#include "apps/survey/table.h"
#include "apps/survey/zip_archive.h"
#include "tests/unit/survey/temporary.h"

namespace lobewise::survey {
namespace {

using Rows = std::vector<std::string>;

/// Every row as `number:|a|b#`, `#` behind what is stored as a number; the error at the end when there is one.
Rows rows_of(const std::string& file, const std::string& sheet = "") {
  Rows out;
  const auto reader = open_table(file, sheet);
  if (!reader.ok()) return {"error: " + reader.errors().front().message};
  Row row;
  for (;;) {
    const Result<bool> got = (*reader)->next(row);
    if (!got.ok()) {
      out.push_back("error: " + got.errors().front().message);
      return out;
    }
    if (!*got) return out;
    std::string line = std::to_string(row.number) + ":";
    for (const Cell& cell : row.cells) line += '|' + cell.text + (cell.plain ? "#" : "");
    out.push_back(line);
  }
}

TEST(XlsxReader, ReadsWhatASpreadsheetStores) {
  const Folder folder;
  const std::string file = folder.file("book.xlsx");
  lxw_workbook* book = workbook_new(file.c_str());
  workbook_add_worksheet(book, "Cover");
  lxw_worksheet* sheet = workbook_add_worksheet(book, "Drives & more");
  lxw_format* date = workbook_add_format(book);
  format_set_num_format(date, "dd/mm/yyyy");
  lxw_format* clock = workbook_add_format(book);
  format_set_num_format(clock, "[h]:mm");
  lxw_format* days = workbook_add_format(book);
  format_set_num_format(days, "#,##0.00 \"days\"");
  worksheet_write_string(sheet, 1, 0, " Tag ", nullptr);
  worksheet_write_string(sheet, 1, 2, "Größe <1> & \"2\"", nullptr);
  worksheet_write_number(sheet, 3, 0, 5.5, nullptr);
  worksheet_write_number(sheet, 3, 1, 0.1 + 0.2, nullptr);
  worksheet_write_number(sheet, 3, 2, 45413.5, date);
  worksheet_write_number(sheet, 3, 3, 0.75, clock);
  worksheet_write_number(sheet, 3, 4, 1450, days);
  worksheet_write_boolean(sheet, 3, 5, 1, nullptr);
  worksheet_write_formula_num(sheet, 3, 6, "=1+1", nullptr, 2);
  worksheet_write_formula_str(sheet, 3, 7, "=A1", nullptr, "text");
  worksheet_write_number(sheet, 4, 27, 7, nullptr);
  ASSERT_EQ(workbook_close(book), LXW_NO_ERROR);
  const Rows rows = rows_of(file, "Drives & more");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_EQ(rows[0], "2:|Tag||Größe <1> & \"2\"");
  EXPECT_EQ(rows[1], "4:|5.5#|0.3#|2024-05-01 12:00:00|18:00:00|1450#|yes|2#|text");
  EXPECT_EQ(rows[2], "5:" + std::string(27, '|') + "|7#");
  EXPECT_TRUE(rows_of(file).empty());  // the first sheet has no rows
  EXPECT_EQ(rows_of(file, "No")[0], "error: there is no such sheet; there are: Cover, Drives & more");
}

/// A workbook of parts written by hand.
class Book {
 public:
  Book() {
    part("xl/workbook.xml", "<workbook xmlns:r='r'><sheets><sheet name='S' r:id='a'/></sheets></workbook>");
    part("xl/_rels/workbook.xml.rels",
         "<Relationships><Relationship Id='a' Type='t/worksheet' Target='worksheets/s.xml'/>"
         "<Relationship Id='b' Type='t/sharedStrings' Target='/xl/strings.xml'/></Relationships>");
    part("xl/strings.xml",
         "<sst><si><t>zero</t></si><si><r><t>o</t></r><r><t>ne</t></r><rPh><t>no</t></rPh></si></sst>");
  }
  void part(const std::string& name, std::string text) { parts_[name] = std::move(text); }
  void sheet(const std::string& rows) {
    part("xl/worksheets/s.xml", "<?xml version='1.0'?><worksheet><sheetData>" + rows + "</sheetData></worksheet>");
  }

  [[nodiscard]] Rows rows() const {
    const Folder folder;
    return rows_of(write(folder));
  }
  [[nodiscard]] std::string write(const Folder& folder) const {
    const std::string file = folder.file("book.xlsx");
    int code = 0;
    zip_t* archive = zip_open(file.c_str(), ZIP_CREATE | ZIP_TRUNCATE, &code);
    for (const auto& [name, text] : parts_)
      zip_file_add(archive, name.c_str(), zip_source_buffer(archive, text.data(), text.size(), 0), ZIP_FL_OVERWRITE);
    EXPECT_EQ(zip_close(archive), 0);
    return file;
  }

 private:
  std::map<std::string, std::string> parts_;
};

TEST(XlsxReader, ReadsOtherWritersToo) {
  Book book;
  // No references, prefixes, comments, CDATA, inline text, an error value, a formula nobody worked out.
  book.sheet(
      "<!-- <row> --><x:row xmlns:x='x'><x:c t='s'><x:v>1</x:v></x:c><x:c "
      "t='inlineStr'><x:is><x:t>in</x:t></x:is></x:c></x:row>"
      "<row r='7'><c r='B7' t='e'><v>#DIV/0!</v></c><c><f>1+1</f></c><c t='str'><v><![CDATA[a<b]]></v></c></row>"
      "<row r='9'/>");
  EXPECT_EQ(book.rows(), (Rows{"1:|one|in", "7:||#DIV/0!|(formula without a stored value)|a<b"}));
}

/// Letters that do not pack well.
std::string noise(std::size_t size) {
  std::string out(size, ' ');
  Draw draw(3);
  for (char& c : out) c = static_cast<char>('a' + draw(26));
  return out;
}

TEST(XlsxReader, RefusesWhatIsDamaged) {
  const auto problem = [](const std::string& rows) {
    Book book;
    book.sheet(rows);
    return book.rows().back();
  };
  EXPECT_NE(problem("<row r='2'/><row r='2'><c><v>1</v></c></row>").find("not in order"), std::string::npos);
  EXPECT_NE(problem("<row><c t='s'><v>99</v></c></row>").find("does not exist"), std::string::npos);
  EXPECT_NE(problem("<row><c t='s'><v>-1</v></c></row>").find("does not exist"), std::string::npos);
  EXPECT_NE(problem("<row><c r='ZZZ1'><v>1</v></c></row>").find("1024 columns"), std::string::npos);
  EXPECT_NE(problem("<row><row></row></row>").find("within each other"), std::string::npos);
  EXPECT_NE(problem("</row>").find("without a beginning"), std::string::npos);
  EXPECT_NE(problem("<row><c").find("error"), std::string::npos);
  EXPECT_NE(problem("<row a='1" + noise(9U << 20U) + "'/>").find("8 MiB"), std::string::npos);
  Book entities;
  entities.part("xl/worksheets/s.xml",
                "<!DOCTYPE w [<!ENTITY a 'b'>]><worksheet><row><c><v>&a;</v></c></row></worksheet>");
  EXPECT_NE(entities.rows()[0].find("document type"), std::string::npos);
  const Book lost;
  EXPECT_NE(lost.rows()[0].find("it is missing"), std::string::npos);
}

TEST(XlsxReader, StopsBombs) {
  Book rows;  // unpacks a thousandfold
  rows.sheet(std::string(20U << 20U, ' ') + "<row><c><v>1</v></c></row>");
  EXPECT_NE(rows.rows().back().find("far more than a list"), std::string::npos);
  Book strings;
  strings.sheet("");
  std::string many = "<sst>";
  for (int i = 0; i < 600'000; ++i) many += "<si><t>a</t></si>";
  strings.part("xl/strings.xml", many + "</sst>");
  EXPECT_NE(strings.rows().back().find("far more than a list"), std::string::npos);
  Book names;
  names.part("xl/workbook.xml", noise(17U << 20U));
  EXPECT_NE(names.rows().back().find("too large"), std::string::npos);
}

TEST(XlsxReader, AnyDamageEndsInRowsOrOneError) {
  const Folder folder;
  Book book;
  book.sheet(
      "<row r='1'><c r='A1' t='s'><v>0</v></c><c r='B1'><v>1450</v></c></row>"
      "<row r='2'><c r='A2' t='s'><v>1</v></c></row>");
  const std::string sound = Folder::read(book.write(folder));
  Draw draw(7);
  for (int round = 0; round < 200; ++round) {
    std::string bytes = sound;
    if (round % 4 == 0) bytes.resize(draw(bytes.size()));
    for (int k = 0; k < 3 && !bytes.empty(); ++k) bytes[draw(bytes.size())] = static_cast<char>(draw(256));
    EXPECT_LE(rows_of(folder.write("damaged.xlsx", bytes)).size(), 1000u);
  }
  // The parts are sound entries of the archive here, their XML is not.
  const std::string xml =
      "<worksheet><sheetData><row r='1'><c r='A1' t='s'><v>0</v></c><c r='B1'><v>1450</v></c></row></sheetData>"
      "</worksheet>";
  for (int round = 0; round < 150; ++round) {
    Book broken;
    std::string text = xml;
    for (int k = 0; k < 3; ++k) text[draw(text.size())] = "<>/'&!-[a1"[draw(10)];
    broken.part("xl/worksheets/s.xml", text);
    EXPECT_LE(broken.rows().size(), 10u);
  }
}

}  // namespace
}  // namespace lobewise::survey
