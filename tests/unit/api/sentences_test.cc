// Every sentence of a finding is a template with values: a figure that stands in the template itself was put there by
// hand, and no reader in another system of units or another language ever gets it right.
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>

#include "engine/api/json_io.h"
#include "engine/enquiry/enquiry.h"
#include "engine/evidence/prove.h"
#include "engine/range/demo_range.h"
#include "engine/sizing/size.h"
#include "tests/support/machines.h"

namespace lobewise::api {
namespace {

/// Constants that belong to the wording: standards, sources, symbols, bounds of models and rules as published; and
/// names of ratios.
const std::regex kConstants(
    R"(ISO( TR)? \d+(-\d+)?( and -\d+)?|IEC \d+(-\d+)*|\[[a-z]+\d+[a-z]?\]|level L\d|C_0|L_10h?|F\^4)"
    R"(|kappa below 0\.1|A life factor above 5|90 to 95 % a stage|about 59:1|63\.5 %|65\.3 %|a peak of 81 %)"
    R"(|30 to 100 % on a direct start|0\.4 % less torque|5 % and the 95 % case|5–95 %)"
    R"(|of 100 units|\{\} of 100 run|in 90 of 100|(\d+ × \d+ = )?\d+:1)");

std::string without_constants(const std::string& pattern) { return std::regex_replace(pattern, kConstants, ""); }
bool has_digit(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

/// Templates of a finding: what it says and names its lines by.
std::vector<Text> sentences_of(const evidence::Finding& finding) {
  std::vector<Text> out{finding.answer, finding.condition};
  out.insert(out.end(), finding.notes.begin(), finding.notes.end());
  for (const evidence::Chart& chart : finding.charts)
    for (const evidence::Series& series : chart.series) out.push_back({series.name, series.values});
  return out;
}

std::size_t holes(const std::string& pattern) {
  std::size_t count = 0;
  for (std::size_t at = pattern.find("{}"); at != std::string::npos; at = pattern.find("{}", at + 2)) ++count;
  return count;
}

evidence::Evidence proof_of(const Json& json) {
  const Result<enquiry::Enquiry> enquiry = read<enquiry::Enquiry>(json, Numbers::si);
  EXPECT_TRUE(enquiry.ok()) << enquiry.errors().front().path << ": " << enquiry.errors().front().message;
  if (!enquiry) return {};
  const Result<enquiry::Requirement> requirement = enquiry::require(*enquiry);
  EXPECT_TRUE(requirement.ok());
  if (!requirement) return {};
  const drive::TableSource rigid = [](const range::Stage& stage) -> Result<std::shared_ptr<const drive::StageTable>> {
    Result<drive::StageTable> table = drive::rigid_stage_table(stage);
    if (!table) return table.errors();
    return std::make_shared<const drive::StageTable>(std::move(*table));
  };
  const sizing::Sources sources{rigid, nullptr};
  sizing::Search search(*requirement, range::demo_range(), sources);
  const sizing::Candidate* best = search.next();
  if (best == nullptr) return {};
  const Result<drive::Drive> drive = drive::assemble(*requirement, best->build, rigid);
  return evidence::prove(*drive, {.samples = 20});
}

/// A conveyor with everything beside it that opens a question: duty, place, link, wishes, what stands there, money.
const Json kEverything = Json::parse(R"({
  "machine": {"belt_conveyor": {"mass_flow": "120 t/h", "speed": "1.3 m/s", "length": "46 m", "lift": "14 m",
    "drum_diameter": "500 mm", "feed": "uneven"}},
  "duty": {"hours_per_day": "16 h", "starts_per_hour": 2,
    "shocks": [{"what": "overload", "torque": 2, "per_year": 10}]},
  "site": {"place": "outdoors_shaded", "ambient_low": "-10 °C", "ambient_high": "40 °C", "altitude": "1500 m"},
  "connection": {"link": "single_chain", "pitch_diameter": "220 mm", "position": "55 mm", "pull": "along"},
  "supply": {"frequency": "50 Hz", "starting": "direct"},
  "wishes": {"life": "25000 h", "speed_tolerance": "5 %", "service_factor": 1.5},
  "incumbent": {"kind": "worm", "ratio": 30, "rated_power": "11 kW", "input_speed": "1460 rpm", "motor_power": "11 kW",
    "running_time": "38000 h", "dimensions": {"shaft_height": "280 mm", "shaft_diameter": "75 mm", "length": "1250 mm"}},
  "economics": {"years": 10, "energy_price": "0.18 /kWh", "stop_cost": "300 /h", "stops_per_year": 0.7,
    "repair_time": "10 h"}})");

TEST(Sentences, NoFigureStandsInATemplate) {
  std::set<std::string> templates;
  std::vector<Json> enquiries = test::kMachines;
  enquiries.push_back(kEverything);
  for (const Json& machine : enquiries)
    for (const evidence::Finding& finding : proof_of(machine).findings)
      for (const Text& text : sentences_of(finding)) {
        EXPECT_FALSE(has_digit(without_constants(text.pattern))) << finding.id << ": " << text.pattern;
        EXPECT_EQ(holes(text.pattern), text.values.size()) << finding.id << ": " << text.pattern;
        templates.insert(text.pattern);
      }
  EXPECT_GT(templates.size(), 150u) << "too few sentences were seen";
}

}  // namespace
}  // namespace lobewise::api
