#include "apps/survey/mapping.h"

#include <gtest/gtest.h>
#include <yaml-cpp/yaml.h>

#include "engine/api/registry.h"

namespace lobewise::survey {
namespace {

const Fields& fields() {
  static const Fields kFields(*api::Session().registry().run("schema", nlohmann::json{{"of", "enquiry"}}));
  return kFields;
}

Row row(long number, const std::vector<std::string>& cells) {
  Row out;
  out.number = number;
  for (const std::string& cell : cells) out.cells.push_back({cell, false});
  return out;
}

/// What a heading is taken to say, as `field unit`.
std::string said(const std::string& heading) {
  const auto mapping = propose({row(1, {"Tag", "Driven machine", heading}), row(2, {"1", "x", "5"})}, fields(), "");
  if (!mapping.ok()) return "error";
  const Column& column = mapping->columns.back();
  return column.field + (column.unit.empty() ? "" : " " + column.unit);
}

TEST(Propose, HeadingsInManyWords) {
  EXPECT_EQ(said("Motor rated power [kW]"), "rated_power kW");
  EXPECT_EQ(said("Power (hp)"), "rated_power hp");
  EXPECT_EQ(said("Installed kW"), "rated_power kW");
  EXPECT_EQ(said("n2 rpm"), "speed rpm");
  EXPECT_EQ(said("Output speed (1/min)"), "speed 1/min");
  EXPECT_EQ(said("Abtriebsdrehzahl [min-1]"), "speed min-1");
  EXPECT_EQ(said("n1"), "rated_speed rpm");
  EXPECT_EQ(said("Torque [Nm]"), "measured_torque Nm");
  EXPECT_EQ(said("Gearbox rated torque, lb-in"), "gear_torque lb-in");
  EXPECT_EQ(said("Nennleistung/kW"), "rated_power kW");
  EXPECT_EQ(said("Running amps"), "measured_current A");
  EXPECT_EQ(said("Amps rated"), "rated_current A");
  EXPECT_EQ(said("Power consumption in kW"), "measured_power kW");
  EXPECT_EQ(said("cos φ"), "power_factor");
  EXPECT_EQ(said("hours/day"), "hours_per_day hours");
  EXPECT_EQ(said("Hours/week"), "hours_per_week Hours");
  EXPECT_EQ(said("Operating hours per week [h]"), "hours_per_week h");
  EXPECT_EQ(said("h/wk"), "hours_per_week h");
  EXPECT_EQ(said("Stunden/Woche"), "hours_per_week h");
  EXPECT_EQ(said("Days per week"), "days_per_week");
  EXPECT_EQ(said("Downtime [h/a]"), "stoppage_hours h");
  EXPECT_EQ(said("Downtime h/year"), "stoppage_hours h");
  EXPECT_EQ(said("Max. ambient °F"), "ambient_high °F");
  EXPECT_EQ(said("Starts/h"), "starts_per_hour 1/h");
  EXPECT_EQ(said("Mass flow [t/h]").substr(0, 8), "machine.");
  EXPECT_EQ(said("Colour"), "");
  EXPECT_EQ(said("Torque [kW]"), "");  // the unit says otherwise
}

TEST(Propose, FindsHeadingsBelowATitleAndUnitsBelowHeadings) {
  const auto mapping = propose({row(1, {"List of 2024"}), row(3, {"Pos", "Power", "Speed", "Torque"}),
                                row(4, {"", "[hp]", "[rpm]", "-"}), row(5, {"1", "7,5", "36", ""})},
                               fields(), "S");
  ASSERT_TRUE(mapping.ok());
  EXPECT_EQ(mapping->header_row, 3);
  EXPECT_EQ(mapping->units_row, 4);
  EXPECT_EQ(mapping->columns[1].unit, "hp");
  EXPECT_TRUE(mapping->decimal_comma);
  EXPECT_EQ(mapping->sheet, "S");
  EXPECT_EQ(mapping->columns[3].remark, "unit not stated, taken");
  EXPECT_FALSE(propose({row(1, {"a", "b"}), row(2, {"1", "2"})}, fields(), "").ok());
  EXPECT_FALSE(propose({}, fields(), "").ok());
}

TEST(Propose, EachFieldOnceTheBestHeadingFirst) {
  const auto mapping =
      propose({row(1, {"Motor", "Motor rated power [kW]", "Motor current [A]", "Measured current [A]"})}, fields(), "");
  ASSERT_TRUE(mapping.ok());
  EXPECT_EQ(mapping->columns[0].field, "");
  EXPECT_EQ(mapping->columns[0].remark, "not used");
  EXPECT_EQ(mapping->columns[1].field, "rated_power");
  EXPECT_EQ(mapping->columns[2].field, "rated_current");
  EXPECT_EQ(mapping->columns[3].field, "measured_current");
}

TEST(Propose, DecimalMark) {
  const auto comma = [](const std::string& cell) {
    return propose({row(1, {"Tag", "Power [kW]"}), row(2, {"1", cell})}, fields(), "")->decimal_comma;
  };
  EXPECT_TRUE(comma("7,5"));
  EXPECT_TRUE(comma("1.450,25"));
  EXPECT_FALSE(comma("7.5"));
  EXPECT_FALSE(comma("1,450.25"));
  EXPECT_FALSE(comma("1,450"));  // nobody can know; the cell is refused then
  EXPECT_FALSE(comma("1500"));
}

TEST(Propose, CommasAreThousandsOnlyWhereThePointIsKnown) {
  const auto point = [](const std::string& cell) {
    return propose({row(1, {"Tag", "Power [kW]"}), row(2, {"1", cell})}, fields(), "")->decimal_point;
  };
  EXPECT_TRUE(point("7.5"));
  EXPECT_FALSE(point("7,5"));
  EXPECT_FALSE(point("1,450"));
}

TEST(Propose, AColumnOfMachinesIsKnownByItsCells) {
  const auto mapping = propose({row(1, {"Tag", "Power [kW]", "Bauart"}), row(2, {"1", "3", "belt conveyor"}),
                                row(3, {"2", "4", "agitator"}), row(4, {"3", "4", "press"})},
                               fields(), "");
  ASSERT_TRUE(mapping.ok());
  EXPECT_EQ(mapping->columns[2].field, "machine");
  EXPECT_EQ(mapping->columns[2].remark, "by what its cells say");
}

/// YAML as the command line reads it: every scalar is text.
nlohmann::json json_of(const YAML::Node& node) {
  if (node.IsMap()) {
    nlohmann::json out = nlohmann::json::object();
    for (const auto& item : node) out[item.first.as<std::string>()] = json_of(item.second);
    return out;
  }
  if (node.IsSequence()) {
    nlohmann::json out = nlohmann::json::array();
    for (const auto& item : node) out.push_back(json_of(item));
    return out;
  }
  return node.Scalar();
}

TEST(MappingFile, ComesBackAsItWas) {
  auto mapping = propose({row(1, {"Tag \"x\": #1", "Power [hp]", "n2", "Nothing"}), row(2, {"1", "2", "3", "4"})},
                         fields(), "My: sheet");
  ASSERT_TRUE(mapping.ok());
  mapping->columns[0].field = "tag";
  mapping->defaults["hours_per_day"] = "16 h";
  mapping->ranking.stoppage_full = 100 * 3600;
  const auto back = read_mapping(json_of(YAML::Load(mapping_yaml(*mapping, fields()))), fields());
  ASSERT_TRUE(back.ok()) << back.errors().front().path << back.errors().front().message;
  ASSERT_EQ(back->columns.size(), mapping->columns.size());
  for (std::size_t i = 0; i < back->columns.size(); ++i) {
    EXPECT_EQ(back->columns[i].heading, mapping->columns[i].heading);
    EXPECT_EQ(back->columns[i].place, mapping->columns[i].place);
    EXPECT_EQ(back->columns[i].field, mapping->columns[i].field);
    EXPECT_EQ(back->columns[i].unit, mapping->columns[i].unit);
  }
  EXPECT_EQ(back->sheet, "My: sheet");
  EXPECT_EQ(back->defaults, mapping->defaults);
  EXPECT_DOUBLE_EQ(back->ranking.stoppage_full, 100 * 3600);
}

TEST(MappingFile, SaysWhatIsWrong) {
  const auto errors = [](const char* yaml) {
    const auto mapping = read_mapping(json_of(YAML::Load(yaml)), fields());
    std::string out;
    if (!mapping.ok())
      for (const Error& error : mapping.errors()) out += error.path + " ";
    return out;
  };
  EXPECT_EQ(errors("columns: []"), "");
  EXPECT_EQ(errors("colums: []"), "colums columns ");
  EXPECT_EQ(errors("columns: [{column: a, field: powre}]"), "columns[0].field ");
  EXPECT_EQ(errors("columns: [{column: a, field: speed, unit: kW}]"), "columns[0].unit ");
  EXPECT_EQ(errors("columns: [{field: speed}]"), "columns[0] ");
  EXPECT_EQ(errors("columns: [{column: a, feild: speed}]"), "columns[0] ")
      << "what is not understood is not passed over";
  EXPECT_EQ(errors("columns: [{column: a, field: tag}, {column: b, field: tag}]"), "columns[1].field ");
  EXPECT_EQ(errors("columns: [{place: a1, field: tag}]"), "columns[0].place ");
  EXPECT_EQ(errors("{columns: [], header_row: 0}"), "header_row ");
  EXPECT_EQ(errors("{columns: [], decimal: semicolon}"), "decimal ");
  EXPECT_EQ(errors("{columns: [], defaults: {nonsense: 1}}"), "defaults.nonsense ");
  EXPECT_EQ(errors("{columns: [], ranking: {energy_full: 3 m, nonsense: 1}}"), "ranking.energy_full ranking.nonsense ");
}

TEST(Fit, ColumnsAreFoundAgainInAnyOrder) {
  Mapping mapping;
  mapping.columns = {{"Power [kW]", 0, "rated_power", "kW", ""}, {"n2", 1, "speed", "rpm", ""}, {"Old", 2, "", "", ""}};
  EXPECT_TRUE(fit(mapping, row(1, {"New", "N2", "power [kW]"})).empty());
  const auto place = [&](const char* field) {
    for (const Column& column : mapping.columns)
      if (column.field == field) return column.place;
    return std::size_t{999};
  };
  EXPECT_EQ(place("rated_power"), 2u);
  EXPECT_EQ(place("speed"), 1u);
  EXPECT_EQ(mapping.columns.front().heading, "New");
  EXPECT_EQ(mapping.columns.front().remark, "not used; not in the mapping");
  EXPECT_EQ(fit(mapping, row(1, {"New"})).size(), 2u);
}

}  // namespace
}  // namespace lobewise::survey
