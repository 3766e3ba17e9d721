#include "engine/base/quantity.h"

#include <gtest/gtest.h>

#include <cmath>

#include "engine/base/fitting_unit.h"
#include "engine/base/text.h"

namespace lobewise {
namespace {

struct Written {
  const char* text;
  Quantity quantity;
  double si;
};

// Conversion factors: NIST SP 811, appendix B (exact definitions of inch, pound and standard gravity; 1 hp = 550 ft
// lbf/s).
const Written kWritten[] = {
    {"7.5 hp", Quantity::power, 7.5 * 745.69987158227022},
    {"7,5 kW", Quantity::power, 7500},
    {"10 PS", Quantity::power, 7354.9875},
    {"25 in-lb", Quantity::torque, 25 * 0.1129848290276167},
    {"25 lb-in", Quantity::torque, 25 * 0.1129848290276167},
    {"10 ft·lbf", Quantity::torque, 13.558179483314004},
    {"1.2 kN·m", Quantity::torque, 1200},
    {"1.2 kN m", Quantity::torque, 1200},
    {"1.2kNm", Quantity::torque, 1200},
    {"400 N.m", Quantity::torque, 400},
    {"1 450 rpm", Quantity::angular_speed, 151.84364492350666},
    {"1450 min-1", Quantity::angular_speed, 151.84364492350666},
    {"1450 1/min", Quantity::angular_speed, 151.84364492350666},
    {"1\u202F450 r/min", Quantity::angular_speed, 151.84364492350666},
    {"80 °F", Quantity::temperature, 299.81666666666666},
    {"-10 °C", Quantity::temperature, 263.15},
    {"\u221240 °C", Quantity::temperature, 233.15},
    {"14 ft", Quantity::length, 4.2672},
    {"120 t/h", Quantity::mass_flow, 33.333333333333336},
    {"120 tph", Quantity::mass_flow, 33.333333333333336},
    {"3/8 in", Quantity::length, 0.009525},
    {"1 3/8 in", Quantity::length, 0.034925},
    {"1-3/8 in", Quantity::length, 0.034925},
    {"1½ in", Quantity::length, 0.0381},
    {"12.5 mm", Quantity::length, 0.0125},
    {"5 µm", Quantity::length, 5e-6},
    {"1e3 N", Quantity::force, 1000},
    {"1,234,567 N", Quantity::force, 1234567},
    {"1'200 N", Quantity::force, 1200},
    {"12 345 N", Quantity::force, 12345},
    {"95 %", Quantity::share, 0.95},
    {"0.95", Quantity::share, 0.95},
    {"16 h", Quantity::duration, 57600},
    {"5 Nm/arcmin", Quantity::torsional_stiffness, 5 * 60 * 180 / M_PI},
    {"220 cSt", Quantity::kinematic_viscosity, 220e-6},
    {"12", Quantity::money, 12},
};

TEST(ParseQuantity, ReadsWhatPeopleWrite) {
  for (const Written& written : kWritten) {
    const Result<double> value = parse_quantity(written.text, written.quantity, "x");
    ASSERT_TRUE(value.ok()) << written.text << ": " << value.errors().front().message;
    EXPECT_NEAR(*value, written.si, 1e-13 * std::abs(written.si)) << written.text;
  }
}

TEST(ParseQuantity, RefusesWithFieldTextAndWhatIsAllowed) {
  const Result<double> hardness = parse_quantity("60 HRC", Quantity::torque, "machine.torque");
  ASSERT_FALSE(hardness.ok());
  EXPECT_EQ(hardness.errors().front().path, "machine.torque");
  EXPECT_EQ(hardness.errors().front().offending, "60 HRC");
  EXPECT_EQ(
      hardness.errors().front().message,
      "'HRC' is a unit of hardness; a torque is needed: a number with one of N·m, kN·m, N·mm, lbf·in, lbf·ft, kgf·m");
  for (const char* bad :
       {"", "N·m", "400", "400 Q", "1e400 N·m", "nan N·m", "--3 N·m", "1,450 N·m", "3/0 N·m", "1,23,456 N·m"})
    EXPECT_FALSE(parse_quantity(bad, Quantity::torque, "x").ok()) << bad;
}

TEST(ParseQuantity, NamesBothReadingsOfAnAmbiguousComma) {
  const Result<double> value = parse_quantity("1,450 rpm", Quantity::angular_speed, "speed");
  ASSERT_FALSE(value.ok());
  EXPECT_NE(value.errors().front().message.find("1450 or 1.4500"), std::string::npos) << value.errors().front().message;
}

TEST(FittingUnit, IsTheOneThatTheTextWouldHave) {
  EXPECT_EQ(fitting_unit(195, Quantity::power, UnitSystem::si).name, "W");
  EXPECT_EQ(fitting_unit(11e3, Quantity::power, UnitSystem::si).name, "kW");
  EXPECT_EQ(fitting_unit(0.002, Quantity::angle, UnitSystem::us).name, "arcmin");
  EXPECT_EQ(fitting_unit(-40e3, Quantity::force, UnitSystem::si).name, "kN");
  EXPECT_EQ(fitting_unit(40e3, Quantity::force, UnitSystem::us).name, "lbf");
  const Unit& fahrenheit = fitting_unit(300, Quantity::temperature, UnitSystem::us);
  EXPECT_NEAR((313.15 - fahrenheit.offset) / fahrenheit.factor, 104, 1e-9);
}

TEST(FormatQuantity, RoundsToSensibleDigitsInBothSystems) {
  EXPECT_EQ(format_quantity(600, Quantity::torque, UnitSystem::si), "600 N·m");
  EXPECT_EQ(format_quantity(600, Quantity::torque, UnitSystem::us), "5310 lbf·in");
  EXPECT_EQ(format_quantity(15000, Quantity::torque, UnitSystem::si), "15 kN·m");
  EXPECT_EQ(format_quantity(151.84364492350666, Quantity::angular_speed, UnitSystem::si), "1450 rpm");
  EXPECT_EQ(format_quantity(1.0671e9, Quantity::pressure, UnitSystem::si), "1067 MPa");
  EXPECT_EQ(format_quantity(5e-6, Quantity::length, UnitSystem::si), "5 µm");
  EXPECT_EQ(format_quantity(0.9174, Quantity::share, UnitSystem::si), "91.7 %");
  EXPECT_EQ(format_quantity(299.81666666666666, Quantity::temperature, UnitSystem::us), "80 °F");
  EXPECT_EQ(format_quantity(0, Quantity::force, UnitSystem::us), "0 lbf");
  EXPECT_EQ(format_number(1.5e12, 3), "1.5e12");
}

TEST(FormatQuantity, AChanceBelowAMillionthIsPracticallyNone) {
  EXPECT_EQ(format_quantity(2.42e-147, Quantity::share, UnitSystem::si), "practically none");
  EXPECT_EQ(format_quantity(9.9e-7, Quantity::share, UnitSystem::us), "practically none");
  EXPECT_EQ(format_quantity(2e-6, Quantity::share, UnitSystem::si), "0.0002 %");
  EXPECT_EQ(format_quantity(0, Quantity::share, UnitSystem::si), "0 %");
  EXPECT_EQ(format_quantity(2.42e-147, Quantity::number, UnitSystem::si), "2.42e-147");
}

TEST(FormatQuantity, EveryDisplayUnitIsReadBack) {
  for (const QuantityInfo& quantity : all_quantities()) {
    for (UnitSystem system : {UnitSystem::si, UnitSystem::us}) {
      for (double si : {1.25e-5, 0.5, 3.0, 321.0, 2.5e6}) {
        const std::string text = format_quantity(si, quantity.quantity, system, 12);
        const Result<double> back = parse_quantity(text, quantity.quantity, "x");
        ASSERT_TRUE(back.ok()) << text << ": " << back.errors().front().message;
        const double tolerance =
            quantity.quantity == Quantity::temperature ? 0.06 : 1e-10 * si;  // temperatures show 0.1
        EXPECT_NEAR(*back, si, tolerance) << text;
      }
    }
  }
}

TEST(Registry, IsInTheOrderOfItsEnum) {
  for (const QuantityInfo& quantity : all_quantities()) EXPECT_EQ(&info(quantity.quantity), &quantity);
}

TEST(TextOf, PutsValuesIntoTheSentence) {
  const Text text{"{} of {} allowed", {{1.067e9, Quantity::pressure}, {1.5e9, Quantity::pressure}}};
  EXPECT_EQ(render(text, UnitSystem::si), "1067 MPa of 1500 MPa allowed");
  EXPECT_EQ(render(text, UnitSystem::us), "154800 psi of 217600 psi allowed");
}

TEST(FormatQuantity, AgeInMonthsThenYears) {
  const double year = 31557600;
  EXPECT_EQ(format_quantity(12 * year, Quantity::age, UnitSystem::si), "12 years");
  EXPECT_EQ(format_quantity(12.5 * year, Quantity::age, UnitSystem::us), "12.5 years");
  EXPECT_EQ(format_quantity(year, Quantity::age, UnitSystem::si), "1 year");
  EXPECT_EQ(format_quantity(0.5 * year, Quantity::age, UnitSystem::si), "6 months");
  EXPECT_EQ(format_quantity(0, Quantity::age, UnitSystem::si), "0 years");
  for (const char* text : {"12 years", "12 a", "12 yr", "12 Years", "144 months", "105192 h"})
    EXPECT_DOUBLE_EQ(*parse_quantity(text, Quantity::age, "field"), 12 * year) << text;
  EXPECT_DOUBLE_EQ(*parse_quantity("2 years", Quantity::duration, "field"), 2 * year);
  EXPECT_FALSE(parse_quantity("12", Quantity::age, "field").ok());
}

TEST(FormatQuantity, CalendarTimeInDaysThenWeeks) {
  EXPECT_EQ(format_quantity(3 * 86400.0, Quantity::lead_time, UnitSystem::si), "3 d");
  EXPECT_EQ(format_quantity(8 * 604800.0, Quantity::lead_time, UnitSystem::us), "8 weeks");
  EXPECT_DOUBLE_EQ(*parse_quantity("8 weeks", Quantity::lead_time, "field"), 8 * 604800.0);
}

}  // namespace
}  // namespace lobewise
