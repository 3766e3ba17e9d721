// Everything an enquiry says is heard: contradictions are named with both fields, a place decides what may be offered.
#include <gtest/gtest.h>

#include <algorithm>

#include "engine/base/constants.h"
#include "engine/enquiry/contradictions.h"
#include "engine/enquiry/requirement.h"

namespace lobewise::enquiry {
namespace {

constexpr double kRpm = 2 * kPi / 60;

Enquiry plain() {
  Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = 500;
  machine.speed = 5;
  enquiry.machine.measured = machine;
  return enquiry;
}

/// An error at the first field whose text names the second.
bool names(const Result<Requirement>& result, std::string_view first, std::string_view second) {
  if (result.ok()) return false;
  for (const Error& error : result.errors())
    if (error.path == first && error.message.find(second) != std::string::npos) return true;
  return false;
}

TEST(Said, SixPolesAtSixtyHertzDoNotTurnAt1460) {
  Enquiry enquiry = plain();
  enquiry.supply = Supply{};
  enquiry.supply->frequency = 60;
  enquiry.supply->poles = 6;
  enquiry.supply->motor_speed = 1460 * kRpm;
  EXPECT_TRUE(names(require(enquiry), "supply.motor_speed", "supply.poles"));
  enquiry.supply->motor_speed = 1170 * kRpm;
  EXPECT_TRUE(require(enquiry).ok());
  enquiry.supply->poles.reset();
  enquiry.supply->motor_speed = 1460 * kRpm;  // of no pole count at 60 Hz
  EXPECT_TRUE(names(require(enquiry), "supply.motor_speed", "supply.frequency"));
  enquiry.supply->frequency = 50;
  EXPECT_TRUE(require(enquiry).ok());
}

TEST(Said, PolesComeInPairs) {
  Enquiry enquiry = plain();
  enquiry.supply = Supply{};
  enquiry.supply->poles = 3;
  EXPECT_TRUE(names(require(enquiry), "supply.poles", "2, 4, 6 or 8"));
}

TEST(Said, InverterFrequenciesNeedAnInverter) {
  Enquiry enquiry = plain();
  enquiry.supply = Supply{};
  enquiry.supply->inverter_low = 20;
  enquiry.supply->inverter_high = 60;
  const auto taken = require(enquiry);
  ASSERT_TRUE(taken.ok());
  EXPECT_EQ(taken->starting, Starting::inverter);  // who has an inverter starts by it
  EXPECT_EQ(taken->inverter_low, 20);
  enquiry.supply->starting = Starting::direct;
  EXPECT_TRUE(names(require(enquiry), "supply.inverter_low", "supply.starting"));
  enquiry.supply->starting = Starting::inverter;
  enquiry.supply->inverter_low = 70;
  EXPECT_TRUE(names(require(enquiry), "supply.inverter_low", "supply.inverter_high"));
}

TEST(Said, SixtyAmpsOnAMotorOfTwentyOne) {
  Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.rated_power = 11e3;
  machine.rated_speed = 1460 * kRpm;
  machine.rated_current = 21.5;
  machine.measured_current = 60;
  machine.speed = 5;
  enquiry.machine.measured = machine;
  EXPECT_TRUE(names(require(enquiry), "machine.measured.measured_current", "machine.measured.rated_current"));
  enquiry.machine.measured->measured_current = 19;
  EXPECT_TRUE(require(enquiry).ok());
  // 11 kW at 400 V takes about 21 A; on a plate of 95 A something is misread.
  enquiry.supply = Supply{};
  enquiry.supply->voltage = 400;
  EXPECT_TRUE(require(enquiry).ok());
  enquiry.machine.measured->rated_current = 95;
  enquiry.machine.measured->measured_current = 80;
  EXPECT_TRUE(names(require(enquiry), "machine.measured.rated_current", "supply.voltage"));
}

TEST(Said, APlateOfElevenKilowattsDoesNotGiveFiveNewtonMetres) {
  Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.rated_power = 11e3;
  machine.measured_torque = 5;
  machine.speed = 20 * kRpm;
  enquiry.machine.measured = machine;
  EXPECT_TRUE(names(require(enquiry), "machine.measured.measured_torque", "machine.measured.rated_power"));
  enquiry.machine.measured->measured_torque = 4000;
  EXPECT_TRUE(require(enquiry).ok());
}

TEST(Said, ACycleSaysStartsAndHours) {
  Enquiry enquiry = plain();
  enquiry.cycle = Cycle{600, 1800};
  const auto taken = require(enquiry);
  ASSERT_TRUE(taken.ok());
  EXPECT_DOUBLE_EQ(taken->starts_per_hour, 6);               // of running
  EXPECT_DOUBLE_EQ(taken->hours_per_day, 0.25 * 24 * 3600);  // no more fit into a day
  enquiry.duty = demand::Duty{};
  enquiry.duty->starts_per_hour = 2;
  EXPECT_TRUE(names(require(enquiry), "duty.starts_per_hour", "cycle.run_time"));
  enquiry.duty->starts_per_hour = 6;
  enquiry.duty->hours_per_day = 16 * 3600.0;
  EXPECT_TRUE(names(require(enquiry), "duty.hours_per_day", "cycle.rest_time"));
  enquiry.cycle->rest_time = 0;
  EXPECT_TRUE(names(require(enquiry), "cycle.rest_time", "a rest"));
}

TEST(Said, BlocksOfOtherSpeedsNeedAnInverter) {
  Enquiry enquiry = plain();
  enquiry.duty = demand::Duty{};
  enquiry.duty->blocks = {{0.5, 1, 1}, {0.5, 1, 0.6}};
  EXPECT_TRUE(require(enquiry).ok());  // nobody said how it starts
  enquiry.supply = Supply{};
  enquiry.supply->starting = Starting::direct;
  EXPECT_TRUE(names(require(enquiry), "duty.blocks[1].speed", "supply.starting"));
  enquiry.supply->starting = Starting::inverter;
  EXPECT_TRUE(require(enquiry).ok());
  enquiry.duty->blocks = {{1, 1, 0}};
  EXPECT_TRUE(names(require(enquiry), "duty.blocks", "must turn"));
}

TEST(Said, PlaceContradictions) {
  Enquiry enquiry = plain();
  enquiry.site = Site{};
  enquiry.site->ambient_low = 310;
  enquiry.site->ambient_high = 300;
  EXPECT_TRUE(names(require(enquiry), "site.ambient_low", "site.ambient_high"));
  enquiry.site = Site{};
  enquiry.site->place = Place::indoors;
  enquiry.site->air_speed = 20;
  EXPECT_TRUE(names(require(enquiry), "site.air_speed", "site.place"));
  enquiry.site = Site{};
  enquiry.site->explosive_atmosphere = false;
  enquiry.site->explosive = Explosive{};
  enquiry.site->explosive->zone = Zone::zone_2;
  EXPECT_TRUE(names(require(enquiry), "site.explosive_atmosphere", "site.explosive"));
  // What is taken for one end never passes the end that was said.
  enquiry.site = Site{};
  enquiry.site->ambient_high = kZeroCelsius - 5;
  const auto cold_store = require(enquiry);
  ASSERT_TRUE(cold_store.ok());
  EXPECT_LE(cold_store->ambient_low, cold_store->ambient_high);
}

TEST(Said, ACouplingHasNoWheel) {
  Enquiry enquiry = plain();
  enquiry.connection = Connection{};
  enquiry.connection->pitch_diameter = 0.2;
  EXPECT_TRUE(names(require(enquiry), "connection.pitch_diameter", "connection.link"));
  enquiry.connection = Connection{};
  enquiry.connection->position = 0.05;
  EXPECT_TRUE(names(require(enquiry), "connection.position", "connection.link"));
  enquiry.connection->radial_force = 4000;
  EXPECT_TRUE(require(enquiry).ok());
  enquiry.connection = Connection{};
  enquiry.connection->link = demand::Link::single_chain;
  enquiry.connection->pitch_diameter = 4;
  enquiry.connection->ratio = 10;  // 4 m at 50 rad/s: 100 m/s of chain
  EXPECT_TRUE(names(require(enquiry), "connection.pitch_diameter", "connection.link"));
}

TEST(Said, NothingIsOfferedInAnExplosivePlaceUntilItIsDescribed) {
  Enquiry enquiry = plain();
  const auto silent = require(enquiry);
  ASSERT_TRUE(silent.ok());
  EXPECT_TRUE(silent->not_offered.empty());
  EXPECT_TRUE(std::any_of(silent->questions.begin(), silent->questions.end(),
                          [](const auto& q) { return q.path == "site.explosive_atmosphere"; }));
  enquiry.site = Site{};
  enquiry.site->explosive_atmosphere = true;
  const auto bare = require(enquiry);
  ASSERT_TRUE(bare.ok());
  for (const char* word : {"Not offered for this zone", "zone", "group or category", "temperature class", "certifies"})
    EXPECT_NE(bare->not_offered.find(word), std::string::npos) << word;
  Explosive all;
  all.zone = Zone::zone_21;
  all.group = ExplosiveGroup::iiib;
  all.surface_temperature = kZeroCelsius + 125;
  all.certifier = "the plant's inspection body";
  // Each of the four is needed.
  for (const auto strip :
       {+[](Explosive& e) { e.zone.reset(); }, +[](Explosive& e) { e.group.reset(); },
        +[](Explosive& e) { e.surface_temperature.reset(); }, +[](Explosive& e) { e.certifier.clear(); }}) {
    enquiry.site->explosive = all;
    strip(*enquiry.site->explosive);
    EXPECT_FALSE(require(enquiry)->not_offered.empty());
  }
  enquiry.site->explosive = all;
  EXPECT_TRUE(require(enquiry)->not_offered.empty());
  // Zone 20 asks for category 1, which no drive of a general range has.
  enquiry.site->explosive->zone = Zone::zone_20;
  EXPECT_NE(require(enquiry)->not_offered.find("category 1"), std::string::npos);
  enquiry.site->explosive->zone = Zone::zone_1;  // gas, with a dust group
  EXPECT_TRUE(names(require(enquiry), "site.explosive.group", "site.explosive.zone"));
}

TEST(Said, TemperatureClassesKeepTheirDistance) {
  // T4 135 degC less 5 K, T2 300 degC less 10 K (IEC 60079-0 and ISO 80079-36, from memory).
  Explosive place;
  EXPECT_FALSE(hottest_surface(place).has_value());
  place.temperature_class = TemperatureClass::t4;
  EXPECT_DOUBLE_EQ(*hottest_surface(place), kZeroCelsius + 130);
  place.temperature_class = TemperatureClass::t2;
  EXPECT_DOUBLE_EQ(*hottest_surface(place), kZeroCelsius + 290);
  place.surface_temperature = kZeroCelsius + 125;
  EXPECT_DOUBLE_EQ(*hottest_surface(place), kZeroCelsius + 125);
}

TEST(Said, PeopleAreRefusedInEveryText) {
  const auto with = [](auto write) {
    Enquiry enquiry = plain();
    write(enquiry);
    return require(enquiry);
  };
  EXPECT_FALSE(with([](Enquiry& e) { e.title = "Passenger lift, hall 3"; }).ok());
  EXPECT_FALSE(with([](Enquiry& e) { e.note = "drives the chairlift"; }).ok());
  EXPECT_FALSE(with([](Enquiry& e) {
                 e.duty = demand::Duty{};
                 e.duty->shocks = {{"man riding stopped short", 2, 3}};
               }).ok());
  EXPECT_FALSE(with([](Enquiry& e) {
                 e.incumbent = Incumbent{};
                 e.incumbent->note = "man winch";
               }).ok());
  EXPECT_TRUE(with([](Enquiry& e) { e.title = "Bucket elevator 3"; }).ok());
  EXPECT_TRUE(with([](Enquiry& e) { e.customer = "Cable Car Company"; }).ok());
}

demand::Agitator agitator() {
  demand::Agitator machine;
  machine.diameter = 0.9;
  machine.speed = 68 * kRpm;
  machine.impeller = demand::Impeller::pitched_turbine;
  machine.liquid = demand::Liquid::solids;
  return machine;
}

TEST(Said, AnAgitatorsShaftLoadIsOpenUntilItIsStated) {
  Enquiry enquiry;
  enquiry.machine.agitator = agitator();
  EXPECT_FALSE(require(enquiry)->shaft_load_open.empty());
  enquiry.machine.agitator->reducer_carries_shaft = true;
  EXPECT_FALSE(require(enquiry)->shaft_load_open.empty());
  enquiry.machine.agitator->shaft_length = 1.5;
  enquiry.machine.agitator->side_force = 700;
  EXPECT_NE(require(enquiry)->shaft_load_open.find("thrust"), std::string::npos);
  enquiry.machine.agitator->thrust = 900;
  enquiry.machine.agitator->impeller_mass = 60;
  const auto stated = require(enquiry);
  ASSERT_TRUE(stated.ok());
  EXPECT_TRUE(stated->shaft_load_open.empty());
  EXPECT_DOUBLE_EQ(stated->radial_force, 700);
  EXPECT_DOUBLE_EQ(stated->position, 1.5);
  EXPECT_DOUBLE_EQ(stated->axial_force, 60 * kGravity + 900);
  // A shaft in bearings of its own puts nothing on the reducer, and then nothing of it may be stated.
  enquiry.machine.agitator = agitator();
  enquiry.machine.agitator->reducer_carries_shaft = false;
  EXPECT_TRUE(require(enquiry)->shaft_load_open.empty());
  enquiry.machine.agitator->thrust = 900;
  EXPECT_TRUE(names(require(enquiry), "machine.agitator.thrust", "machine.agitator.reducer_carries_shaft"));
}

TEST(Said, BothForcesOnTheConnectionAnswerForTheMachine) {
  Enquiry enquiry;
  enquiry.machine.agitator = agitator();
  enquiry.connection = Connection{};
  enquiry.connection->radial_force = 1200;
  EXPECT_FALSE(require(enquiry)->shaft_load_open.empty());
  enquiry.connection->axial_force = 800;
  EXPECT_TRUE(require(enquiry)->shaft_load_open.empty());
}

TEST(Said, WordsHaveTheirLines) {
  Enquiry enquiry = plain();
  enquiry.site = Site{};
  enquiry.site->dusty = true;
  enquiry.site->food_area = true;
  enquiry.site->washed_down = true;
  enquiry.site->explosive_atmosphere = true;
  enquiry.mounting = Mounting{};
  enquiry.mounting->orientation = Orientation::output_down;
  enquiry.wishes = Wishes{};
  enquiry.wishes->service_factor = 1.5;
  const auto requirement = require(enquiry);
  ASSERT_TRUE(requirement.ok());
  std::string all;
  for (const Condition& condition : requirement->conditions) all += condition.text + "\n";
  for (const char* word : {"explosive", "food", "washed down", "dusty", "upright"})
    EXPECT_NE(all.find(word), std::string::npos) << word;
  EXPECT_TRUE(std::any_of(requirement->lines.begin(), requirement->lines.end(), [](const RequirementLine& line) {
    return line.path == "wishes.service_factor" && line.value == 1.5;
  }));
}

}  // namespace
}  // namespace lobewise::enquiry
