#include "engine/api/load_log_text.h"

#include <gtest/gtest.h>

#include <cmath>
#include <vector>

namespace lobewise::api {
namespace {

using demand::Signal;

std::vector<std::pair<double, double>> rows_of(const LogFormat& format, std::string_view text) {
  std::vector<std::pair<double, double>> rows;
  const auto sink = [&](double t, double v) { rows.emplace_back(t, v); };
  LogRows reader(format);
  reader.feed(text, sink);
  reader.finish(sink);
  return rows;
}

LogFormat header(std::string_view line, std::string_view first = "") {
  const auto format = read_log_header(line, first, {});
  EXPECT_TRUE(format.ok()) << (format.ok() ? "" : format.errors()[0].message);
  return format.ok() ? *format : LogFormat{};
}

TEST(LoadLogText, UnitsOfTheHeadingDecide) {
  const LogFormat f = header("Time [ms],Speed [rpm],Torque (kN·m)\r");
  EXPECT_EQ(f.signal, Signal::torque);
  EXPECT_EQ(f.value_column, 2u);
  const auto rows = rows_of(f, "0,10,1.5\r\n250,10,-2e-1\r\n");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_DOUBLE_EQ(rows[1].first, 0.25);
  EXPECT_DOUBLE_EQ(rows[0].second, 1500);
  EXPECT_DOUBLE_EQ(rows[1].second, -200);
  EXPECT_EQ(header("t/s;I/A").signal, Signal::current);
  EXPECT_EQ(header("time s\tpower kW").signal, Signal::power);
}

TEST(LoadLogText, DecimalCommasAndQuotes) {
  const auto rows = rows_of(header("\xEF\xBB\xBFtime [s];current [A]"), "\"0,5\";\"12,25\"\n1.0;+13\n");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_DOUBLE_EQ(rows[0].first, 0.5);
  EXPECT_DOUBLE_EQ(rows[0].second, 12.25);
  EXPECT_DOUBLE_EQ(rows[1].second, 13);
}

TEST(LoadLogText, ClockTimesPassMidnight) {
  const auto rows = rows_of(header("time,power [kW]", "23:59:59.5,1"), "23:59:59.5,1\n00:00:01,2\n");
  ASSERT_EQ(rows.size(), 2u);
  EXPECT_DOUBLE_EQ(rows[1].first - rows[0].first, 1.5);
}

TEST(LoadLogText, Dates) {
  const auto rows = rows_of(header("date,power [W]", "1970-01-02 00:00:00,1"),
                            "1970-01-02 00:00:00,1\n2024-02-29T12:00:00.25Z,2\n2024-03-01T12:00:00.25Z,2\n");
  ASSERT_EQ(rows.size(), 3u);
  EXPECT_DOUBLE_EQ(rows[0].first, 86400);
  EXPECT_DOUBLE_EQ(rows[1].first, 1709208000.25);
  EXPECT_DOUBLE_EQ(rows[2].first - rows[1].first, 86400);
}

TEST(LoadLogText, BadRowsAreHandedOnAsUnreadable) {
  const auto rows =
      rows_of(header("time [s],torque [N·m]"), "0,1\n\nfoo,2\n1\n2,1.2.3\n3,4\n" + std::string(70000, 'x') + "\n4,5");
  ASSERT_EQ(rows.size(), 7u);
  for (const std::size_t i : {1u, 2u, 3u, 5u}) EXPECT_TRUE(std::isnan(rows[i].first)) << i;
  EXPECT_EQ(rows[4], (std::pair{3.0, 4.0}));
  EXPECT_EQ(rows[6], (std::pair{4.0, 5.0}));
}

TEST(LoadLogText, SaysWhatIsMissing) {
  const auto none = read_log_header("a,b", "1,2", {});
  ASSERT_FALSE(none.ok());
  ASSERT_EQ(none.errors().size(), 2u);
  EXPECT_NE(none.errors()[0].message.find("Columns found: a, b"), std::string::npos);
  const auto wrong = read_log_header("time [s],torque [N·m]", "", {"", "moment"});
  ASSERT_FALSE(wrong.ok());
  EXPECT_EQ(wrong.errors()[0].offending, "moment");
  const auto no_unit = read_log_header("time [s],torque", "", {"", "torque"});
  ASSERT_FALSE(no_unit.ok());
  EXPECT_NE(no_unit.errors()[0].message.find("unit of torque"), std::string::npos);
  const auto no_time = read_log_header("time,torque [N·m]", "12,1", {});
  ASSERT_FALSE(no_time.ok());
  EXPECT_NE(no_time.errors()[0].message.find("Time [s]"), std::string::npos);
}

}  // namespace
}  // namespace lobewise::api
