#include "apps/survey/line.h"

#include <gtest/gtest.h>

#include "engine/api/registry.h"
#include "engine/api/survey_line.h"

namespace lobewise::survey {
namespace {

using Json = nlohmann::json;

const Fields& fields() {
  static const Fields kFields(*api::Session().registry().run("schema", Json{{"of", "enquiry"}}));
  return kFields;
}

/// One cell of a line: field, unit of its column, text.
struct Given {
  std::string field, unit, cell;
  bool plain = false;
};
Line line_of(const std::vector<Given>& given, bool decimal_comma = false,
             const std::map<std::string, std::string>& defaults = {}) {
  Mapping mapping;
  mapping.decimal_comma = decimal_comma;
  mapping.defaults = defaults;
  Row row;
  row.number = 9;
  for (const Given& g : given) {
    mapping.columns.push_back({"h" + g.field, row.cells.size(), g.field, g.unit, ""});
    row.cells.push_back({g.cell, g.plain});
  }
  return read_line(row, mapping, fields());
}

Json measured(const Line& line) {
  return line.enquiry.value("machine", Json::object()).value("measured", Json::object());
}

TEST(Line, UnitsOfTheHeadingAndOfTheCell) {
  const Line line = line_of({{"rated_power", "kW", "5.5"},
                             {"rated_speed", "rpm", "1 450"},
                             {"measured_power", "kW", "6 hp"},
                             {"speed", "rpm", "ca. 36"},
                             {"efficiency", "%", "91"}});
  EXPECT_EQ(measured(line)["rated_power"], "5.5 kW");
  EXPECT_EQ(measured(line)["rated_speed"], "1 450 rpm");
  EXPECT_EQ(measured(line)["measured_power"], "6 hp");
  EXPECT_EQ(measured(line)["speed"], "36 rpm");
  EXPECT_DOUBLE_EQ(measured(line)["efficiency"].get<double>(), 0.91);
  EXPECT_EQ(line.basis, "measured power");
  EXPECT_TRUE(line.problems.empty());
  EXPECT_EQ(line.obstacle, "");
}

TEST(Line, CommasBetweenThousandsWhereThePointIsTheDecimalMark) {
  const auto torque = [](const std::string& cell) {
    Mapping mapping;
    mapping.decimal_point = true;
    mapping.columns = {{"T", 0, "measured_torque", "lbf·in", ""}, {"n", 1, "speed", "rpm", ""}};
    Row row;
    row.number = 2;
    row.cells = {{cell, false}, {"20", false}};
    return read_line(row, mapping, fields());
  };
  EXPECT_EQ(measured(torque("11,500"))["measured_torque"], "11500 lbf·in");
  EXPECT_EQ(measured(torque("1,011,500.5"))["measured_torque"], "1011500.5 lbf·in");
  EXPECT_EQ(measured(torque("7,5"))["measured_torque"], "7,5 lbf·in");  // a slip nobody can take for thousands
}

TEST(Line, DecimalComma) {
  const auto power = [](const std::string& cell, bool plain = false) {
    return measured(line_of({{"rated_power", "kW", cell, plain}, {"speed", "rpm", "36"}}, true))
        .value("rated_power", "");
  };
  EXPECT_EQ(power("7,5"), "7.5 kW");
  EXPECT_EQ(power("1.450,5"), "1450.5 kW");
  EXPECT_EQ(power("1.450"), "1450 kW");
  EXPECT_EQ(power("7.5 kW"), "7.5 kW");
  EXPECT_EQ(power("1.45", true), "1.45 kW");  // a number of a workbook
}

TEST(Line, WhatSaysNothingIsNoProblem) {
  for (const char* cell : {"-", "n/a", "?", "", "k.A.", "#N/A"}) {
    const Line line = line_of({{"rated_power", "kW", "5"}, {"speed", "rpm", "36"}, {"power_factor", "", cell}});
    EXPECT_TRUE(line.problems.empty()) << cell;
    EXPECT_FALSE(measured(line).contains("power_factor"));
    EXPECT_EQ(line.basis, "motor's rating");
  }
}

TEST(Line, BadCellsAreNamedAndEssentialOnesStopTheLine) {
  const Line line = line_of({{"rated_power", "kW", "5"},
                             {"speed", "rpm", "36"},
                             {"power_factor", "", "high"},
                             {"starting", "", "by hand"},
                             {"dusty", "", "a bit"}});
  ASSERT_EQ(line.problems.size(), 3u);
  EXPECT_EQ(line.problems[0].column, "C");
  EXPECT_EQ(line.problems[0].cell, "high");
  EXPECT_EQ(line.problems[0].done, "left out");
  EXPECT_NE(line.problems[1].message.find("soft starter"), std::string::npos);
  EXPECT_EQ(line.obstacle, "");
  const Line stopped = line_of({{"rated_power", "kW", "3 to 4"}, {"speed", "rpm", "1,450"}});
  ASSERT_EQ(stopped.problems.size(), 2u);
  EXPECT_EQ(stopped.problems[1].column, "B");
  EXPECT_NE(stopped.problems[1].message.find("ambiguous"), std::string::npos);
  EXPECT_EQ(stopped.obstacle, "Rated power cannot be read: '3 to 4'");
}

TEST(Line, WordsOfPlants) {
  const Line line = line_of({{"rated_power", "kW", "5"},
                             {"speed", "rpm", "36"},
                             {"starting", "", "VFD"},
                             {"place", "", "Outdoor"},
                             {"link", "", "Chain"},
                             {"washed_down", "", "x"},
                             {"efficiency_class", "", "IE3"}});
  EXPECT_EQ(line.enquiry["supply"]["starting"], "inverter");
  EXPECT_EQ(line.enquiry["supply"]["efficiency_class"], "ie3");
  EXPECT_EQ(line.enquiry["site"]["place"], "outdoors_sun");
  EXPECT_EQ(line.enquiry["site"]["washed_down"], true);
  EXPECT_EQ(line.enquiry["connection"]["link"], "single_chain");
}

TEST(Line, OneWayToKnowTheLoadRules) {
  const Line line = line_of({{"rated_power", "kW", "5"},
                             {"speed", "rpm", "36"},
                             {"measured_torque", "Nm", "900"},
                             {"measured_power", "kW", "4"},
                             {"measured_current", "A", "8"},
                             {"load_share", "%", "70"}});
  EXPECT_EQ(line.basis, "torque");
  EXPECT_FALSE(measured(line).contains("measured_power"));
  EXPECT_FALSE(measured(line).contains("measured_current"));
  EXPECT_FALSE(measured(line).contains("load_share"));
  EXPECT_EQ(line_of({{"speed", "rpm", "36"}}).obstacle,
            "neither torque, power, current nor the motor's rating is said");
}

TEST(Line, SpeedsFromTheRatioAndHoursFromTheYear) {
  const Line line = line_of({{"rated_power", "kW", "5"},
                             {"rated_speed", "rpm", "1450"},
                             {"ratio", "", "40"},
                             {"hours_per_year", "h", "6000"}});
  EXPECT_EQ(measured(line)["speed"], "36.25 rpm");
  EXPECT_EQ(line.enquiry["duty"]["hours_per_day"], "24 h");
  EXPECT_DOUBLE_EQ(line.enquiry["duty"]["days_per_year"].get<double>(), 250);
  const Line no_speed = line_of({{"rated_power", "kW", "5"}, {"speed", "rpm", "36"}});
  EXPECT_NEAR(*parse_quantity(measured(no_speed)["rated_speed"].get<std::string>(), Quantity::angular_speed, ""), 151.8,
              1e-3);
}

TEST(Line, HoursOfAWeek) {
  const auto duty_of = [](std::vector<Given> said) {
    said.push_back({"rated_power", "kW", "5"});
    said.push_back({"speed", "rpm", "36"});
    return line_of(said).enquiry.value("duty", Json::object());
  };
  // 80 h a week: five days of 16 h, 52 weeks; 120 h on six days said; 168 h are seven days of 24 h.
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "80"}})["hours_per_day"], "16 h");
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "80"}})["days_per_year"], 260);
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "120"}, {"days_per_week", "", "6"}})["hours_per_day"], "20 h");
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "120"}, {"days_per_week", "", "6"}})["days_per_year"], 312);
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "168"}})["hours_per_day"], "24 h");
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "168"}})["days_per_year"], 364);
  // With days a year the week is spread over those; hours a day and hours a year rule.
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "80"}, {"days_per_year", "", "208"}})["hours_per_day"], "20 h");
  EXPECT_EQ(duty_of({{"hours_per_week", "h", "80"}, {"hours_per_day", "h", "12"}})["hours_per_day"], "12 h");
  EXPECT_EQ(duty_of({{"hours_per_day", "h", "12"}, {"days_per_week", "", "4"}})["days_per_year"], 208);
  EXPECT_EQ(duty_of({{"hours_per_year", "h", "5200"},
                     {"hours_per_week", "h", "80"},
                     {"days_per_week", "", "5"}})["hours_per_day"],
            "20 h");
  // What no week holds is left out and said.
  const Line wrong = line_of({{"hours_per_week", "h", "200"}, {"rated_power", "kW", "5"}, {"speed", "rpm", "36"}});
  ASSERT_EQ(wrong.problems.size(), 1u);
  EXPECT_EQ(wrong.problems.front().done, "left out");
  EXPECT_FALSE(wrong.enquiry.contains("duty"));
}

TEST(Line, AMachineOfItsOwnKind) {
  const Line line = line_of({{"machine", "", "Belt conveyor"},
                             {"machine.bucket_elevator.mass_flow", "t/h", "120"},
                             {"machine.belt_conveyor.speed", "m/s", "1.3"},
                             {"machine.belt_conveyor.length", "m", "46"},
                             {"machine.belt_conveyor.lift", "m", "14"},
                             {"machine.belt_conveyor.drum_diameter", "mm", "500"},
                             {"rated_power", "kW", "11"}});
  EXPECT_EQ(line.kind, "belt_conveyor");
  EXPECT_EQ(line.enquiry["machine"]["belt_conveyor"]["mass_flow"], "120 t/h");  // the same words of another kind
  EXPECT_FALSE(line.enquiry["machine"].contains("measured"));
  EXPECT_EQ(line.obstacle, "");
  EXPECT_EQ(line_of({{"machine", "", "Belt conveyor"}, {"rated_power", "kW", "5"}, {"speed", "rpm", "36"}}).kind,
            "measured");
  const Line unknown =
      line_of({{"machine", "", "Perpetuum mobile"}, {"rated_power", "kW", "5"}, {"speed", "rpm", "36"}});
  EXPECT_NE(unknown.notes.front().find("Perpetuum mobile"), std::string::npos);
}

TEST(Line, DefaultsFillWhatTheListLeavesOpen) {
  const std::map<std::string, std::string> defaults{{"speed_tolerance", "10 %"}, {"hours_per_day", "8 h"}};
  const Line line =
      line_of({{"rated_power", "kW", "5"}, {"speed", "rpm", "36"}, {"hours_per_day", "h", "20"}}, false, defaults);
  EXPECT_EQ(line.enquiry["duty"]["hours_per_day"], "20 h");
  EXPECT_DOUBLE_EQ(line.enquiry["wishes"]["speed_tolerance"].get<double>(), 0.1);
  const Line open = line_of({{"rated_power", "kW", "5"}, {"speed", "rpm", "36"}}, false, defaults);
  EXPECT_EQ(open.enquiry["duty"]["hours_per_day"], "8 h");
  const Line week =
      line_of({{"rated_power", "kW", "5"}, {"speed", "rpm", "36"}, {"hours_per_week", "h", "80"}}, false, defaults);
  EXPECT_EQ(week.enquiry["duty"]["hours_per_day"], "16 h");
}

Prover prover() {
  const auto lines = std::make_shared<Result<api::LineProver>>(api::LineProver::open(nullptr, api::LineMesh::rigid));
  return [lines](const Json& enquiry) { return (**lines).prove(enquiry); };
}

TEST(Answer, ALineIsProvedAndRanked) {
  const Line line = line_of({{"title", "", "Screw"},
                             {"rated_power", "kW", "5.5"},
                             {"rated_speed", "rpm", "1450"},
                             {"measured_power", "kW", "7"},
                             {"speed", "rpm", "36"},
                             {"gear", "", "worm, size 90"},
                             {"gear_torque", "Nm", "900"},
                             {"stoppage_hours", "h", "20"},
                             {"starting", "", "VFD"},
                             {"life", "h", "20000"}});
  const Json record = answer_line(line, {}, prover());
  EXPECT_EQ(record["title"], "Screw");
  EXPECT_FALSE(record["build_name"].get<std::string>().empty());
  EXPECT_GE(record["findings"].size(), 11u);
  EXPECT_GT(record["motor_load"].get<double>(), 1.1);  // 7 kW drawn, 5.5 kW rated
  EXPECT_GT(record["gear_load"].get<double>(), 1.5);
  EXPECT_DOUBLE_EQ(record["points"][0].get<double>(), 40);
  EXPECT_DOUBLE_EQ(record["points"][1].get<double>(), 15);
  EXPECT_GT(record["energy_saved"].get<double>(), 0);
  EXPECT_NE(record["why"]["si"].get<std::string>().find("gear unit carries"), std::string::npos);
  // The enquiry of a line is one that every other command takes.
  EXPECT_TRUE(api::Session().registry().run("check", Json{{"enquiry", line.enquiry}}).ok());
}

TEST(Answer, WhereItMayExplodeNothingIsSaved) {
  std::vector<Given> said{{"rated_power", "kW", "7.5"}, {"rated_speed", "rpm", "1450"}, {"measured_power", "kW", "6.5"},
                          {"speed", "rpm", "50"},       {"gear", "", "worm"},           {"ratio", "", "29"}};
  const Json safe = answer_line(line_of(said), {}, prover());
  EXPECT_GT(safe["energy_saved"].get<double>(), 0);
  EXPECT_TRUE(safe["figures"].contains("price"));
  said.push_back({"explosive_atmosphere", "", "yes"});
  const Json zone = answer_line(line_of(said), {}, prover());
  EXPECT_EQ(zone["status"], "not offered");
  EXPECT_FALSE(zone.contains("energy_saved"));
  EXPECT_FALSE(zone["figures"].contains("price"));
  EXPECT_NE(zone["why_none"].dump().find("zone"), std::string::npos) << zone["why_none"];
  // A line that names its build is no way round it.
  Line named = line_of(said);
  named.enquiry["build"] = {{"frame", "ring-265"}, {"lobes", 31}};
  EXPECT_EQ(answer_line(named, {}, prover())["status"], "not offered");
}

TEST(Answer, WhatTheEngineRefusesIsLeftOutOrStopsTheLine) {
  std::vector<Given> odd{{"rated_power", "kW", "5.5"}, {"rated_speed", "rpm", "1450"}, {"speed", "rpm", "36"}};
  odd.push_back({"power_factor", "", "7"});
  const Json record = answer_line(line_of(odd), {}, prover());
  ASSERT_EQ(record["problems"].size(), 1u);
  EXPECT_EQ(record["problems"][0]["column"], "D");
  EXPECT_EQ(record["problems"][0]["done"], "left out");
  EXPECT_NE(record["status"], "not proved");
  odd[2].cell = "90000";
  const Json stopped = answer_line(line_of(odd), {}, prover());
  EXPECT_EQ(stopped["status"], "not proved");
  EXPECT_DOUBLE_EQ(stopped["points"][3].get<double>(), 20);
  bool named = false;
  for (const Json& problem : stopped["problems"])
    named = named || (problem["column"] == "C" && problem["done"] == "the line is not proved");
  EXPECT_TRUE(named);
}

TEST(Line, PeopleAreRefusedByWordsInAnyColumn) {
  const auto of = [](const std::string& title, const std::string& remark) {
    Mapping mapping;
    mapping.columns = {
        {"Drive", 0, "title", "", ""}, {"kW", 1, "rated_power", "kW", ""}, {"n2", 2, "speed", "rpm", ""}};
    Row row;
    row.number = 3;
    row.cells = {{title, false}, {"11", false}, {"40", false}, {remark, false}};  // the last column is not mapped
    return read_line(row, mapping, fields());
  };
  for (const char* title :
       {"Passenger lift 2", "Man-riding winch", "Personenaufzug", "Ascenseur", "Výtah 3", "Lift 4"}) {
    const Line line = of(title, "");
    EXPECT_TRUE(line.refused) << title;
    EXPECT_NE(line.obstacle.find("refused"), std::string::npos) << line.obstacle;
    const Json record = answer_line(line, {}, [](const Json&) -> Result<Json> {
      ADD_FAILURE() << "nothing is worked out";
      return model_error("", "", "");
    });
    EXPECT_EQ(record["status"], "refused");
    EXPECT_EQ(record["total"], 0.0);
  }
  EXPECT_TRUE(of("Winch", "carries miners to the face").refused);
  EXPECT_FALSE(of("Bucket elevator, lift 14 m", "").refused);
  EXPECT_FALSE(of("Screw lift station", "").refused);
  const Line goods = of("Goods lift", "");
  EXPECT_FALSE(goods.refused);
  EXPECT_EQ(goods.lifts, "Goods lift");
}

TEST(Line, WordsForThePresentGearUnit) {
  const std::pair<const char*, const char*> said[] = {{"worm, size 90", "worm"},
                                                      {"Schneckengetriebe", "worm"},
                                                      {"réducteur à vis sans fin", "worm"},
                                                      {"przekładnia ślimakowa", "worm"},
                                                      {"Kegelstirnradgetriebe", "bevel_helical"},
                                                      {"Stirnrad", "helical_in_line"},
                                                      {"Flachgetriebe", "parallel_shaft"},
                                                      {"čelní převodovka", "helical_in_line"},
                                                      {"riduttore epicicloidale", "planetary"},
                                                      {"réducteur épicycloïdal", "planetary"},
                                                      {"Planetengetriebe", "planetary"},
                                                      {"cycloidal", "cycloidal"},
                                                      {"Zykloidgetriebe", "cycloidal"},
                                                      {"reductor cicloidal", "cycloidal"},
                                                      {"cyklo", "cycloidal"},
                                                      {"belt and helical", "belt_and_gear"}};
  for (const auto& [cell, kind] : said) EXPECT_EQ(gear_of(cell).value_or(""), kind) << cell;
  EXPECT_FALSE(gear_of("chain drive"));
  EXPECT_FALSE(gear_of("size 90"));
}

TEST(Line, ThePresentDriveIsSaidAsTheEnquirySaysIt) {
  const Line line = line_of({{"rated_power", "kW", "11"},
                             {"rated_speed", "rpm", "1460"},
                             {"measured_power", "kW", "9"},
                             {"speed", "rpm", "48"},
                             {"gear", "", "worm"},
                             {"gear_torque", "Nm", "2200"},
                             {"ratio", "", "30"},
                             {"efficiency", "%", "91"},
                             {"train_efficiency", "%", "70"}});
  const Json& in = line.enquiry["incumbent"];
  EXPECT_EQ(in["kind"], "worm");
  EXPECT_EQ(in["motor_power"], "11 kW");
  EXPECT_EQ(in["rated_torque"], "2200 Nm");
  EXPECT_EQ(in["ratio"], 30.0);
  EXPECT_DOUBLE_EQ(in["motor_efficiency"].get<double>(), 0.91);
  EXPECT_DOUBLE_EQ(in["efficiency"].get<double>(), 0.7);
  EXPECT_TRUE(line.problems.empty());
  const Line odd = line_of(
      {{"rated_power", "kW", "11"}, {"rated_speed", "rpm", "1460"}, {"speed", "rpm", "48"}, {"ratio", "", "60"}});
  ASSERT_EQ(odd.problems.size(), 1u);
  EXPECT_NE(odd.problems[0].message.find("30.4"), std::string::npos) << odd.problems[0].message;
  EXPECT_EQ(odd.problems[0].done, "the driven speed rules");
}

TEST(Answer, PlatesAloneServeUnderAConditionAndContradictionsStopTheLine) {
  const std::vector<Given> plates{{"rated_power", "kW", "11"}, {"rated_speed", "rpm", "1460"}, {"ratio", "", "29.4"}};
  const Json record = answer_line(line_of(plates, false, {{"speed_tolerance", "10 %"}}), {}, prover());
  EXPECT_EQ(record["status"], "serves under conditions") << record["reason"] << record["why"];
  EXPECT_NE(record["questions"].dump().find("What power or current"), std::string::npos);
  std::vector<Given> amps = plates;
  amps.push_back({"rated_current", "A", "21.5"});
  amps.push_back({"measured_current", "A", "60"});
  const Json refused = answer_line(line_of(amps), {}, prover());
  EXPECT_EQ(refused["status"], "not proved");
  EXPECT_NE(refused["reason"].get<std::string>().find("rated_current"), std::string::npos) << refused["reason"];
  std::vector<Given> plate = plates;
  plate.push_back({"gear", "", "helical"});
  plate.push_back({"gear_torque", "Nm", "5"});
  const Json aside = answer_line(line_of(plate, false, {{"speed_tolerance", "10 %"}}), {}, prover());
  EXPECT_FALSE(aside.contains("energy_saved"));
  ASSERT_EQ(aside["problems"].size(), 1u) << aside["problems"].dump();
  EXPECT_EQ(aside["problems"][0]["heading"], "hgear_torque");
}

}  // namespace
}  // namespace lobewise::survey
