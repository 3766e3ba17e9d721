#include "apps/survey/table.h"
#include "tests/unit/survey/temporary.h"

namespace lobewise::survey {
namespace {

using Rows = std::vector<std::string>;

/// Every row as `number:|a|b|c`; the error's message at the end when there is one.
Rows rows_of(const std::string& text) {
  const Folder folder;
  Rows out;
  const auto reader = open_table(folder.write("list.csv", text), "");
  if (!reader.ok()) return {reader.errors().front().message};
  Row row;
  for (;;) {
    const Result<bool> got = (*reader)->next(row);
    if (!got.ok()) {
      out.push_back(got.errors().front().message);
      return out;
    }
    if (!*got) return out;
    std::string line = std::to_string(row.number) + ":";
    for (const Cell& cell : row.cells) line += '|' + cell.text;
    out.push_back(line);
  }
}

TEST(CsvReader, DelimitersAreFound) {
  EXPECT_EQ(rows_of("a,b\n1,2\n"), (Rows{"1:|a|b", "2:|1|2"}));
  EXPECT_EQ(rows_of("a;b\r\n1,5;2,5\r\n"), (Rows{"1:|a|b", "2:|1,5|2,5"}));
  EXPECT_EQ(rows_of("a\tb, c\n1\t2"), (Rows{"1:|a|b, c", "2:|1|2"}));
  EXPECT_EQ(rows_of("sep=|\na|b\n"), (Rows{"2:|a|b"}));
}

TEST(CsvReader, QuotesHoldDelimitersQuotesAndLineBreaks) {
  EXPECT_EQ(rows_of("a,b\n\"x, \"\"y\"\"\",\"two\nlines\"\n3/8\" pitch,z\n"),
            (Rows{"1:|a|b", "2:|x, \"y\"|two lines", "3:|3/8\" pitch|z"}));
}

TEST(CsvReader, RowsAreCountedAsASpreadsheetDoes) { EXPECT_EQ(rows_of("a,b\n\n,\n1,2\n"), (Rows{"1:|a|b", "4:|1|2"})); }

TEST(CsvReader, Encodings) {
  EXPECT_EQ(rows_of("\xEF\xBB\xBF"
                    "a,b\n\xC3\xA4,1\n"),
            (Rows{"1:|a|b", "2:|ä|1"}));
  EXPECT_EQ(rows_of("a,b\n\xE4\x80,1\n"), (Rows{"1:|a|b", "2:|ä€|1"}));  // Windows-1252
  const std::string wide(
      "\xFF\xFE"
      "a\0\t\0b\0\n\0\xE4\0\t\0\x3D\xD8\x00\xDE\n\0",
      20);
  EXPECT_EQ(rows_of(wide), (Rows{"1:|a|b", "2:|ä|\xF0\x9F\x98\x80"}));  // UTF-16 with a pair
}

TEST(CsvReader, RefusesWhatIsNoTable) {
  EXPECT_EQ(rows_of("a,\"b\n1,2\n").back(), "a quotation mark is opened and never closed");
  EXPECT_EQ(rows_of(std::string("a,b\n1,\0\n", 8)).back(), "holds a zero byte: this is no text file");
  EXPECT_EQ(rows_of("a,\"" + std::string(2U << 20U, 'x')).back(),
            "longer than 1 MiB: a quotation mark is opened and never closed");
  EXPECT_EQ(rows_of(std::string(2000, ',') + "x\n").back(), "more than 1024 columns");
  EXPECT_NE(rows_of("\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1").back().find("old binary workbook"), std::string::npos);
  EXPECT_FALSE(open_table("/nonexistent/list.csv", "").ok());
  const Folder folder;
  EXPECT_EQ(open_table(folder.write("l.csv", "a"), "Sheet").errors().front().path, "sheet");
}

TEST(CsvReader, AnyBytesEndInRowsOrOneError) {
  Draw draw(1);
  const std::string alphabet = "a1,;\t\"\n\r \xC3\xA4\xFF|=";
  for (int round = 0; round < 300; ++round) {
    std::string text;
    for (std::size_t i = draw(60); i-- > 0;) text += alphabet[draw(alphabet.size())];
    for (const std::string& row : rows_of(text)) EXPECT_TRUE(is_utf8(row)) << text;
  }
}

TEST(Letters, CountAsASpreadsheetDoes) {
  EXPECT_EQ(letters(0), "A");
  EXPECT_EQ(letters(25), "Z");
  EXPECT_EQ(letters(26), "AA");
  EXPECT_EQ(letters(701), "ZZ");
  EXPECT_EQ(letters(702), "AAA");
}

}  // namespace
}  // namespace lobewise::survey
