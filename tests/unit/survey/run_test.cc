#include "apps/survey/run.h"

#include <xlsxwriter.h>

#include "apps/survey/columns.h"
#include "apps/survey/write.h"
#include "engine/api/registry.h"
#include "tests/support/source_dir.h"
#include "tests/unit/survey/temporary.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

const Fields& fields() {
  static const Fields kFields(*api::Session().registry().run("schema", Json{{"of", "enquiry"}}));
  return kFields;
}

/// A prover that needs no engine: what is asked decides the figures, so that mistakes of order show.
Prover fake() {
  return [](const Json& enquiry) -> Result<Json> {
    const Json& drive = enquiry["machine"]["measured"];
    const double speed = *parse_quantity(drive["speed"].get<std::string>(), Quantity::angular_speed, "");
    Json finding{{"id", "life"}, {"verdict", speed > 5 ? "holds" : "does_not_hold"}, {"margin", 0.25}};
    finding["answer"] = {{"si", "x"}, {"us", "y"}};
    return Json{
        {"figures", {{"torque", 1000 / speed}, {"speed", speed}, {"mean_power", 1000}, {"running_per_year", 1e7}}},
        {"findings", Json::array({finding})},
        {"serves", speed > 5},
        {"build_name", "=frame 1"}};
  };
}

struct Job {
  Folder folder;
  Mapping mapping;
  std::string list;

  explicit Job(int count) {
    std::string text = "Tag,Power [kW],n2,Downtime h\n";
    for (int i = 0; i < count; ++i)
      text += "=D" + std::to_string(i) + "," + (i % 7 == 3 ? "bad" : "5") + "," + std::to_string(30 + i % 50) + "," +
              std::to_string(i * 37 % 40) + "\n\n";
    list = folder.write("list.csv", text);
    mapping.columns = {{"Tag", 0, "tag", "", ""},
                       {"Power [kW]", 1, "rated_power", "kW", ""},
                       {"n2", 2, "speed", "rpm", ""},
                       {"Downtime h", 3, "stoppage_hours", "h", ""}};
  }
  [[nodiscard]] Result<Outcome> run(int threads, Slice slice = {}, std::function<bool()> cancelled = {}) const {
    const auto reader = open_table(list, "");
    Row head;
    EXPECT_TRUE(*(*reader)->next(head));
    return survey::run(**reader, {&mapping, &fields(), fake, threads, slice, std::move(cancelled), {}});
  }
  [[nodiscard]] std::string csv(Outcome& outcome) const {
    const Report report{"list", "mapping: x\n", UnitSystem::si, "1", fields().machines()};
    EXPECT_TRUE(write_csv(folder.file("out.csv"), report, outcome).empty());
    return Folder::read(folder.file("out.csv"));
  }
};

TEST(Run, TheNumberOfThreadsChangesNothing) {
  const Job job(200);
  auto one = job.run(1), five = job.run(5);
  ASSERT_TRUE(one.ok() && five.ok());
  EXPECT_TRUE(one->complete);
  EXPECT_EQ(one->lines, 200);
  const std::string csv = job.csv(*one);
  EXPECT_EQ(csv, job.csv(*five));
  EXPECT_EQ(std::count(csv.begin(), csv.end(), '\n'), 201);  // nothing is dropped
}

TEST(Run, MostPointsFirstThenTheOrderOfTheList) {
  const Job job(60);
  auto outcome = job.run(2);
  ASSERT_TRUE(outcome.ok());
  const auto ranking = ranking_of(*outcome);
  ASSERT_TRUE(ranking.ok());
  double last = 1e9;
  long row = 0;
  std::string text;
  for (const std::size_t at : ranking->order) {
    ASSERT_TRUE(outcome->records.read(at, text));
    const Json record = Json::parse(text);
    const double points = record["total"];
    EXPECT_LE(points, last);
    if (points == last) {
      EXPECT_GT(record["row"].get<long>(), row);
    }
    last = points;
    row = record["row"];
  }
}

TEST(Run, SlicesJoinedAreTheWholeList) {
  const Job job(101);
  auto whole = job.run(2);
  ASSERT_TRUE(whole.ok());
  const std::string expected = job.csv(*whole);
  for (const int of : {1, 2, 7, 120}) {
    std::vector<std::string> files;
    for (int part = of; part >= 1; --part) {  // any order
      auto slice = job.run(2, {part, of});
      ASSERT_TRUE(slice.ok());
      files.push_back(job.folder.file("part" + std::to_string(part)));
      const SliceHead head{"list", "1", "mapping: x\n", false, "", "1", {part, of}};
      ASSERT_TRUE(write_slice(files.back(), head, *slice).empty());
    }
    auto joined = join(files);
    ASSERT_TRUE(joined.ok()) << joined.errors().front().message;
    EXPECT_EQ(joined->second.lines, 101);
    EXPECT_EQ(job.csv(joined->second), expected);
  }
}

TEST(Join, RefusesWhatDoesNotBelongTogether) {
  const Job job(9);
  const auto slice = [&](const std::string& name, Slice which, const std::string& list = "1", bool complete = true) {
    auto outcome = job.run(1, which);
    outcome->complete = complete;
    const std::string file = job.folder.file(name);
    EXPECT_TRUE(write_slice(file, {"list", list, "m", false, "", "1", which}, *outcome).empty());
    return file;
  };
  const std::string a = slice("a", {1, 2}), b = slice("b", {2, 2});
  const auto message = [](const std::vector<std::string>& files) {
    const auto joined = join(files);
    return joined.ok() ? std::string() : joined.errors().front().message;
  };
  EXPECT_EQ(message({a, b}), "");
  EXPECT_EQ(message({a}), "slice 2 of 2 is missing");
  EXPECT_NE(message({a, a}).find("once more"), std::string::npos);
  EXPECT_NE(message({a, slice("c", {2, 2}, "2")}).find("another list"), std::string::npos);
  EXPECT_NE(message({a, slice("d", {2, 2}, "1", false)}).find("broken off"), std::string::npos);
  EXPECT_NE(message({a, job.list}).find("no slice"), std::string::npos);
  EXPECT_NE(message({}).find("name the slices"), std::string::npos);
  const std::string text = Folder::read(b);
  EXPECT_NE(message({a, job.folder.write("e", text.substr(0, text.rfind("{\"complete")))}).find("breaks off"),
            std::string::npos);
  // Any damage ends in a join or in an error.
  for (std::size_t cut = 0; cut < text.size(); cut += 31) (void)join({a, job.folder.write("f", text.substr(0, cut))});
}

TEST(Run, CancellingKeepsWhatIsDone) {
  const Job job(500);
  int asked = 0;
  auto outcome = job.run(2, {}, [&] { return ++asked > 100; });
  ASSERT_TRUE(outcome.ok());
  EXPECT_FALSE(outcome->complete);
  EXPECT_EQ(outcome->stopped, kCancelledWord);
  EXPECT_EQ(outcome->records.size(), 100u);
  EXPECT_EQ(outcome->indices.back(), 99);
}

TEST(Run, AListThatBreaksOffKeepsWhatWasRead) {
  const Job job(5);
  const std::string broken = job.folder.write("broken.csv", Folder::read(job.list) + "x,\"y");
  const auto reader = open_table(broken, "");
  Row head;
  ASSERT_TRUE(*(*reader)->next(head));
  const auto outcome = survey::run(**reader, {&job.mapping, &fields(), fake, 1, {}, {}, {}});
  ASSERT_TRUE(outcome.ok());
  EXPECT_EQ(outcome->records.size(), 5u);
  EXPECT_NE(outcome->stopped.find("never closed"), std::string::npos);
}

TEST(Write, CellsNeverBecomeFormulas) {
  EXPECT_EQ(csv_cell("=1+1"), "'=1+1");
  EXPECT_EQ(csv_cell("@SUM(A1)"), "'@SUM(A1)");
  EXPECT_EQ(csv_cell("-2+3, \"x\""), "\"'-2+3, \"\"x\"\"\"");
  EXPECT_EQ(csv_cell("\t=1"), "'=1");
  EXPECT_EQ(csv_cell("a;b"), "\"a;b\"");
  EXPECT_EQ(csv_cell("plain"), "plain");
  const Job job(3);
  auto outcome = job.run(1);
  ASSERT_TRUE(outcome.ok());
  const std::string csv = job.csv(*outcome);
  EXPECT_EQ(csv.find(",=D"), std::string::npos);
  EXPECT_NE(csv.find(",'=D0"), std::string::npos);
  EXPECT_NE(csv.find(",'=frame 1"), std::string::npos);
  const std::string file = job.folder.file("out.xlsx");
  ASSERT_TRUE(write_xlsx(file, {"list", "a: 1\n  b: 2\n", UnitSystem::us, "1", {}}, *outcome).empty());
  for (const char* sheet : {"Ranked", "Findings", "Problems", "Mapping", "Assumptions", "Cautions"})
    EXPECT_TRUE(open_table(file, sheet).ok()) << sheet;
  const auto reader = open_table(file, "Ranked");
  Row row;
  ASSERT_TRUE(*(*reader)->next(row));
  EXPECT_EQ(row.cells[0].text, "Rank");
  ASSERT_TRUE(*(*reader)->next(row));
  EXPECT_EQ(row.cells[2].text.substr(0, 2), "=D");  // as it was, in a cell of type text
  EXPECT_FALSE(row.cells[2].plain);
  EXPECT_TRUE(row.cells[1].plain);
  EXPECT_FALSE(write_csv("/nonexistent/out.csv", {}, *outcome).empty());
}

/// Every row of a list, the first one that is not blank first.
std::vector<Row> rows_of(const std::string& file) {
  std::vector<Row> out;
  const auto reader = open_table(file, "");
  Row row;
  while ((*reader)->next(row).ok() && !row.cells.empty() && (out.empty() || row.number != out.back().number))
    out.push_back(row);
  return out;
}

TEST(ExampleList, SaysTheSameAsWorkbook) {
  const Folder folder;
  const std::string csv = lobewise::test::source_dir() + "/examples/plant_list.csv",
                    xlsx = folder.file("plant_list.xlsx");
  // The list as a spreadsheet would hold it: what is a number there is stored as one.
  lxw_workbook* book = workbook_new(xlsx.c_str());
  lxw_worksheet* sheet = workbook_add_worksheet(book, "Drives");
  for (const Row& row : rows_of(csv))
    for (std::size_t c = 0; c < row.cells.size(); ++c) {
      std::string text = row.cells[c].text;
      std::replace(text.begin(), text.end(), ',', '.');
      const Result<double> number = parse_number(text, "");
      const auto r = static_cast<lxw_row_t>(row.number - 1);
      if (number.ok())
        worksheet_write_number(sheet, r, static_cast<lxw_col_t>(c), *number, nullptr);
      else if (!text.empty())
        worksheet_write_string(sheet, r, static_cast<lxw_col_t>(c), row.cells[c].text.c_str(), nullptr);
    }
  ASSERT_EQ(workbook_close(book), LXW_NO_ERROR);
  const std::vector<Row> from_csv = rows_of(csv), from_xlsx = rows_of(xlsx);
  ASSERT_EQ(from_csv.size(), 14u);
  ASSERT_EQ(from_xlsx.size(), from_csv.size());
  const Result<Mapping> one = propose(from_csv, fields(), ""), other = propose(from_xlsx, fields(), "");
  ASSERT_TRUE(one.ok() && other.ok());
  EXPECT_TRUE(one->decimal_comma);
  EXPECT_FALSE(other->decimal_comma);
  for (std::size_t i = 2; i < from_csv.size(); ++i) {
    const Line a = read_line(from_csv[i], *one, fields()), b = read_line(from_xlsx[i], *other, fields());
    EXPECT_EQ(a.enquiry, b.enquiry) << a.tag;
    EXPECT_EQ(a.obstacle, b.obstacle);
    EXPECT_EQ(a.problems.size(), b.problems.size());
  }
}

}  // namespace
}  // namespace lobewise::survey
