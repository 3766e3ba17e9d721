// Whatever may be said of the present drive and of the money moves something that is answered; a new field that nobody
// hears fails here.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "engine/api/json_io.h"
#include "engine/api/registry.h"

namespace lobewise::api {
namespace {

constexpr double kHour = 3600, kYear = 31557600, kDay = 86400;

const Session& session() {
  static const Session kept;
  return kept;
}

Json base() {
  return Json{{"machine", {{"measured", {{"measured_torque", 1200.0}, {"speed", 5.2}, {"feed", "even"}}}}},
              {"build", {{"frame", "ring-265"}, {"lobes", 27}}},
              {"incumbent",
               {{"kind", "parallel_shaft"},
                {"ratio", 29.0},
                {"rated_power", 9e3},
                {"motor_power", 7.5e3},
                {"running_time", 30000 * kHour},
                {"troubles", {{{"what", "overheating"}}}}}},
              {"economics",
               {{"years", 10},
                {"discount_rate", 0.08},
                {"country", "DEU"},
                {"energy_price", 5e-8},
                {"carbon_price", 0.1},
                {"stop_cost", 200.0},
                {"spare_on_shelf", true},
                {"labour_rate", 50.0},
                {"upkeep_time", 8 * kHour},
                {"replacement_price", 1200.0}}}};
}

/// What is answered, without what only repeats the enquiry.
std::string answered(const Json& enquiry) {
  Json out = Json::object();
  for (const char* name : {"compare", "prove"}) {
    Json input{{"enquiry", enquiry}};
    if (std::string_view(name) == "prove") input.update({{"samples", 0}, {"in_time", false}, {"questions", false}});
    const Result<Json> answer = session().registry().run(name, input);
    if (!answer) return "refused: " + answer.errors().front().path + ": " + answer.errors().front().message;
    out[name] = *answer;
  }
  out["compare"].erase("requirement");
  return out.dump();
}

/// A field, what is said beside it, and two things it may say.
struct Said {
  Json beside;
  Json one, other;
};

std::map<std::string, Said> incumbent_fields() {
  const Json none = Json::object();
  const Json conveyor{{"machine",
                       {{"measured", nullptr},
                        {"belt_conveyor",
                         {{"mass_flow", 33.0},
                          {"speed", 1.3},
                          {"length", 46.0},
                          {"lift", 14.0},
                          {"drum_diameter", 0.5},
                          {"feed", "uneven"}}}}},
                      {"incumbent", {{"motor_power", 7e3}}}};
  return {{"kind", {none, "worm", "cycloidal"}},
          {"ratio", {none, 29.0, 40.0}},
          {"rated_power", {none, 9e3, 15e3}},
          {"rated_torque", {none, 2000.0, 4000.0}},
          {"input_speed", {{{"incumbent", {{"ratio", nullptr}, {"output_speed", 5.2}}}}, 150.0, 200.0}},
          {"output_speed", {{{"incumbent", {{"ratio", nullptr}, {"input_speed", 152.0}}}}, 5.2, 4.0}},
          {"stages", {none, 2, 3}},
          {"belt_ratio", {none, 1.5, 2.5}},
          {"belt_pulley", {{{"incumbent", {{"belt_ratio", 2.0}}}}, 0.2, 0.3}},
          {"through_hardened", {none, true, false}},
          {"oil_viscosity_40", {none, 220e-6, 460e-6}},
          {"mass", {none, 100.0, 200.0}},
          {"runs_now", {conveyor, true, false}},
          {"running_time", {none, 20000 * kHour, 60000 * kHour}},
          {"age", {{{"incumbent", {{"running_time", nullptr}}}}, 3 * kYear, 12 * kYear}},
          {"efficiency", {none, 0.9, 0.8}},
          {"motor_power", {none, 7.5e3, 11e3}},
          {"motor_efficiency", {none, 0.88, 0.93}},
          {"oil_temperature", {none, 340.0, 370.0}},
          {"troubles",
           {none, Json::array({{{"what", "bearing_failure"}, {"per_year", 0.5}}}),
            Json::array({{{"what", "bearing_failure"}, {"per_year", 1.5}}})}},
          {"trouble", {none, "loud", "hot"}},
          {"dimensions", {none, {{"shaft_height", 0.2}}, {{"shaft_height", 0.3}}}}};
}

std::map<std::string, Said> economics_fields() {
  const Json none = Json::object();
  return {{"currency", {{{"economics", {{"exchange_rate", 1.5}}}}, "EUR", "USD"}},
          {"exchange_rate", {{{"economics", {{"currency", "EUR"}}}}, 1.5, 2.0}},
          {"years", {none, 8, 15}},
          {"discount_rate", {none, 0.05, 0.1}},
          {"country", {none, "DEU", "FRA"}},
          {"energy_price", {none, 4e-8, 8e-8}},
          {"energy_growth", {none, 0.0, 0.02}},
          {"grid_carbon", {none, 5e-8, 9e-8}},
          {"carbon_price", {none, 0.05, 0.2}},
          {"stop_cost", {none, 100.0, 400.0}},
          {"stops_per_year", {none, 0.5, 2.0}},
          {"repair_time", {none, 4 * kHour, 20 * kHour}},
          {"repair_cost", {none, 200.0, 900.0}},
          {"spare_on_shelf", {none, true, false}},
          {"candidate_spare", {none, true, false}},
          {"spare_wait", {none, 7 * kDay, 60 * kDay}},
          {"labour_rate", {none, 40.0, 90.0}},
          {"upkeep_time", {none, 4 * kHour, 20 * kHour}},
          {"lubricant_cost", {none, 50.0, 200.0}},
          {"must_be_replaced", {none, true, false}},
          {"replacement_price", {none, 900.0, 1800.0}},
          {"replacement_delivery", {none, 7 * kDay, 30 * kDay}},
          {"candidate_price", {none, 900.0, 1800.0}},
          {"candidate_delivery", {none, 7 * kDay, 30 * kDay}},
          {"installation", {none, 100.0, 500.0}},
          {"adapters", {none, 0.0, 300.0}},
          {"motor_price", {none, 300.0, 900.0}}};
}

void every_field_is_heard(const char* record, const std::map<std::string, Said>& fields) {
  const Json schema = *session().registry().run("schema", Json{{"of", "enquiry"}});
  const std::set<std::string> words{"note"};  // for people
  for (const auto& [key, described] : schema["properties"][record]["properties"].items()) {
    if (words.count(key) > 0) continue;
    const auto said = fields.find(key);
    ASSERT_NE(said, fields.end()) << record << '.' << key << " is new: what does it move?";
    std::string heard[2];
    for (int i = 0; i < 2; ++i) {
      Json enquiry = base();
      enquiry.merge_patch(said->second.beside);
      enquiry[record][key] = i == 0 ? said->second.one : said->second.other;
      heard[i] = answered(enquiry);
      EXPECT_NE(heard[i].substr(0, 8), "refused:") << record << '.' << key << ": " << heard[i];
    }
    EXPECT_NE(heard[0], heard[1]) << record << '.' << key << " moves nothing";
  }
}

TEST(Heard, EveryFieldOfThePresentDrive) { every_field_is_heard("incumbent", incumbent_fields()); }
TEST(Heard, EveryFieldOfTheMoney) { every_field_is_heard("economics", economics_fields()); }

}  // namespace
}  // namespace lobewise::api
