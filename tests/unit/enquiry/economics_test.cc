// The drive in service and the money, read and written.
#include <gtest/gtest.h>

#include "engine/api/json_io.h"
#include "engine/enquiry/enquiry.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::enquiry {
namespace {

using api::Json;

const Json kRecord = Json::parse(R"({
  "machine": {"belt_conveyor": {"mass_flow": "60 t/h", "speed": "1.2 m/s", "length": "30 m", "lift": "8 m",
                                "drum_diameter": "400 mm"}},
  "incumbent": {"kind": "worm", "rated_power": "7.5 kW", "input_speed": "1450 rpm", "output_speed": "29 rpm",
                "running_time": "30000 h", "oil_viscosity_40": "460 cSt", "trouble": "bronze in the oil",
                "troubles": [{"what": "worm_wheel_wear", "per_year": 0.5}],
                "dimensions": {"shaft_height": "200 mm", "hollow_shaft": "no"}},
  "economics": {"years": 8, "energy_price": "0.12 … 0.2 /kWh", "stop_cost": ["200 /h", "400 /h", "1000 /h"],
                "stops_per_year": [0.5, 2], "discount_rate": "8 %"}})");

TEST(Economics, ReadsRangesAndComesBackTheSame) {
  const Result<Enquiry> enquiry = api::read<Enquiry>(kRecord, api::Numbers::need_unit);
  ASSERT_TRUE(enquiry.ok()) << enquiry.errors().front().path << ": " << enquiry.errors().front().message;
  const Economics& money = *enquiry->economics;
  EXPECT_DOUBLE_EQ(money.energy_price->likely, 0.16 / 3.6e6);
  EXPECT_DOUBLE_EQ(money.stop_cost->likely, 400);
  EXPECT_DOUBLE_EQ(money.stop_cost->high, 1000);
  EXPECT_DOUBLE_EQ(money.stops_per_year->likely, 1.25);
  EXPECT_TRUE(money.discount_rate->exact());
  const Json si = api::write(*enquiry);
  const Result<Enquiry> again = api::read<Enquiry>(si, api::Numbers::si);
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(api::write(*again), si);
}

TEST(Economics, RefusalsNameTheField) {
  Json record = kRecord;
  record["economics"]["energy_price"] = "0.3 … 0.2 /kWh";
  record["economics"]["discount_rate"] = "300 %";
  record["economics"]["stop_cost"] = Json::array({1, 2, 3, 4});
  record["incumbent"]["kind"] = "wurm";
  const Result<Enquiry> enquiry = api::read<Enquiry>(record, api::Numbers::need_unit);
  ASSERT_FALSE(enquiry.ok());
  std::vector<std::string> paths;
  for (const Error& error : enquiry.errors()) paths.push_back(error.path);
  for (const char* path :
       {"economics.energy_price", "economics.discount_rate", "economics.stop_cost", "incumbent.kind"})
    EXPECT_NE(std::find(paths.begin(), paths.end(), path), paths.end()) << path;
}

TEST(Economics, ACountryIsOneThatFiguresAreKnownOf) {
  Enquiry enquiry;
  enquiry.machine.measured.emplace();
  enquiry.machine.measured->measured_torque = 300;
  enquiry.machine.measured->speed = 6;
  enquiry.economics.emplace();
  for (const char* known : {"DEU", "deu", "Germany", "poland", "United States", "EU"}) {
    enquiry.economics->country = known;
    EXPECT_TRUE(require(enquiry).ok()) << known;
  }
  for (const char* unknown : {"Atlantis", "DE", "Germ", "Germany2"}) {
    enquiry.economics->country = unknown;
    const Result<Requirement> refused = require(enquiry);
    ASSERT_FALSE(refused.ok()) << unknown;
    EXPECT_EQ(refused.errors().front().path, "economics.country");
    EXPECT_NE(refused.errors().front().message.find("DEU, "), std::string::npos);
  }
}

TEST(UnitInService, NameplateSpeedsGiveTheRatio) {
  const Enquiry enquiry = api::read<Enquiry>(kRecord, api::Numbers::need_unit).value();
  const incumbent::UnitInService unit = unit_in_service(*enquiry.incumbent);
  EXPECT_NEAR(*unit.ratio, 50, 1e-9);
  EXPECT_NEAR(*unit.rated_torque, 7500 / (29 * 2 * 3.14159265358979 / 60), 1e-6);
  // ISO VG 460 mineral oil has about 160 mm2/s at 60 °C (viscosity index 95).
  EXPECT_NEAR(*unit.oil_viscosity, 160e-6, 15e-6);
}

}  // namespace
}  // namespace lobewise::enquiry
