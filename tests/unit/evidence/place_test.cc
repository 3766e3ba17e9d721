// Where it stands and what was asked reach their verdicts.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "engine/base/constants.h"
#include "engine/demand/caution_duty.h"
#include "engine/evidence/service_factor.h"
#include "support.h"

namespace lobewise::evidence {
namespace {

constexpr double kRpm = 2 * kPi / 60;

enquiry::Enquiry conveyor() {
  enquiry::Enquiry enquiry;
  demand::MeasuredDrive machine;
  machine.measured_torque = 1200;
  machine.speed = 50 * kRpm;
  machine.start_factor = 1.2;
  machine.run_up_time = 1.0;
  machine.feed = demand::Feed::even;
  machine.can_run_back = false;
  enquiry.machine.measured = machine;
  enquiry.site = enquiry::Site{};
  return enquiry;
}

drive::Drive drive_for(const enquiry::Enquiry& enquiry) {
  const auto requirement = enquiry::require(enquiry);
  EXPECT_TRUE(requirement.ok());
  return drive_of(*requirement, "ring-265", 31);
}

Evidence proved(const enquiry::Enquiry& enquiry) {
  return prove(drive_for(enquiry), {.samples = 20, .in_time = false});
}

enquiry::Site ordinary() {
  enquiry::Site site;
  site.explosive_atmosphere = site.dusty = site.washed_down = site.food_area = false;
  return site;
}

enquiry::Explosive zone_21() {
  enquiry::Explosive place;
  place.zone = enquiry::Zone::zone_21;
  place.group = enquiry::ExplosiveGroup::iiib;
  place.temperature_class = enquiry::TemperatureClass::t3;
  place.certifier = "the plant's inspection body";
  return place;
}

TEST(Place, HoldsOnlyWhereEveryQuestionWasAnswered) {
  enquiry::Enquiry enquiry = conveyor();
  const Finding silent = finding(proved(enquiry), "place");
  EXPECT_EQ(silent.verdict, Verdict::holds_if);
  EXPECT_NE(silent.condition.pattern.find("cannot explode"), std::string::npos);
  enquiry.site = ordinary();
  EXPECT_EQ(finding(proved(enquiry), "place").verdict, Verdict::holds);
  enquiry.site->altitude = 4500;  // beyond what a motor's standard rates
  EXPECT_EQ(finding(proved(enquiry), "place").verdict, Verdict::does_not_hold);
}

TEST(Place, AnExplosiveZoneNeverHoldsOutright) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  enquiry.site->explosive_atmosphere = true;
  const Finding bare = finding(proved(enquiry), "place");
  EXPECT_EQ(bare.verdict, Verdict::does_not_hold);
  EXPECT_NE(bare.answer.pattern.find("Not offered for this zone"), std::string::npos);
  EXPECT_EQ(bare.missing.size(), 4u);
  EXPECT_EQ(finding(proved(enquiry), "cost").verdict, Verdict::cannot_be_judged);
  enquiry.site->explosive = zone_21();
  const Evidence stated = proved(enquiry);
  EXPECT_EQ(finding(stated, "place").verdict, Verdict::holds_if);
  EXPECT_NE(finding(stated, "place").condition.pattern.find("the plant's inspection body"), std::string::npos);
}

TEST(Place, TheTemperatureClassOutranksTheLubricant) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  enquiry.site->explosive = zone_21();
  enquiry.site->explosive_atmosphere = true;
  const Finding loose = finding(proved(enquiry), "heat");
  ASSERT_EQ(loose.checks.size(), 2u);
  EXPECT_NE(loose.verdict, Verdict::does_not_hold);
  // At the limit the verdict turns: the hottest surface is the lip of a seal, 20 K above the oil.
  const double oil = loose.checks[0].figure;
  enquiry.site->explosive->temperature_class.reset();
  enquiry.site->explosive->surface_temperature = oil + 19;
  EXPECT_EQ(finding(proved(enquiry), "heat").verdict, Verdict::does_not_hold);
  enquiry.site->explosive->surface_temperature = oil + 21;
  EXPECT_NE(finding(proved(enquiry), "heat").verdict, Verdict::does_not_hold);
}

TEST(Place, DustWarmsAndWaterShortensLife) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  const Evidence clean = proved(enquiry);
  enquiry.site->dusty = true;
  const Evidence dusty = proved(enquiry);
  EXPECT_GT(finding(dusty, "heat").checks[0].figure, finding(clean, "heat").checks[0].figure + 1);
  EXPECT_LT(worst(finding(dusty, "life"))->margin(), worst(finding(clean, "life"))->margin());
  enquiry.site->dusty = false;
  enquiry.site->washed_down = true;
  const Evidence washed = proved(enquiry);
  EXPECT_DOUBLE_EQ(finding(washed, "heat").checks[0].figure, finding(clean, "heat").checks[0].figure);
  EXPECT_LT(worst(finding(washed, "life"))->margin(), worst(finding(clean, "life"))->margin());
}

TEST(Place, FoodNeedsARegisteredFill) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  enquiry.site->food_area = true;
  EXPECT_EQ(finding(proved(enquiry), "place").verdict, Verdict::holds);
  drive::Drive without = drive_for(enquiry);
  without.oil.fill.food_grade = false;
  EXPECT_EQ(finding(prove(without, {.samples = 20, .in_time = false}), "place").verdict, Verdict::does_not_hold);
}

TEST(Place, TheHoistAboveItMustLiftUnitAndMotor) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  enquiry.mounting = enquiry::Mounting{};
  enquiry.mounting->lifting = 5000;
  const Finding strong = finding(proved(enquiry), "place");
  EXPECT_EQ(strong.verdict, Verdict::holds);
  const auto mass = std::find_if(strong.checks.begin(), strong.checks.end(),
                                 [](const Check& c) { return c.quantity == Quantity::mass; });
  ASSERT_NE(mass, strong.checks.end());
  enquiry.mounting->lifting = 0.5 * (mass->figure + *mass->high);
  EXPECT_EQ(finding(proved(enquiry), "place").verdict, Verdict::holds_if);
  enquiry.mounting->lifting = 0.99 * mass->figure;
  EXPECT_EQ(finding(proved(enquiry), "place").verdict, Verdict::does_not_hold);
}

TEST(Place, TheCentreOfMassIsTheLeverLaw) {
  const Evidence evidence = proved(conveyor());
  int found = 0;
  for (const WorkingStep& step : finding(evidence, "place").working) {
    if (step.symbol == "x_m") {
      ++found;
      const auto in = [&](const char* symbol) {
        for (const WorkingInput& input : step.inputs)
          if (input.symbol == symbol) return input.value;
        throw std::runtime_error(symbol);
      };
      const double m_1 = in("m_1"), m_2 = in("m_2"), l_1 = in("L_1"), l_2 = in("L_2");
      EXPECT_NEAR(step.value, (m_1 * l_1 / 2 + m_2 * (l_1 + l_2 / 2)) / (m_1 + m_2), 1e-12);
      EXPECT_LT(step.value, l_1 + l_2);
    }
  }
  EXPECT_EQ(found, 1);
}

TEST(Service, TheFactorAskedForTurnsItsVerdictAtTheTorqueThatStrengthCarries) {
  enquiry::Enquiry enquiry = conveyor();
  const Finding plain = finding(proved(enquiry), "service");
  const double carried = plain.checks[0].figure;
  ASSERT_GT(carried, 0.9);
  EXPECT_EQ(plain.verdict, carried >= 1 ? Verdict::holds : Verdict::does_not_hold);
  enquiry.wishes = enquiry::Wishes{};
  enquiry.wishes->service_factor = 1.01 * carried;
  EXPECT_EQ(finding(proved(enquiry), "service").verdict, Verdict::does_not_hold);
  enquiry.wishes->service_factor = 0.99 * carried;
  EXPECT_NE(finding(proved(enquiry), "service").verdict, Verdict::does_not_hold);
  enquiry.wishes->service_factor = 0.8;
  const drive::Drive drive = drive_for(enquiry);
  EXPECT_GT(margin_at_factor(drive, {}, 0.99 * carried, evaluate(drive, {}).oil_temperature), 0);
  EXPECT_LT(margin_at_factor(drive, {}, 1.01 * carried, evaluate(drive, {}).oil_temperature), 0);
}

TEST(Heat, SixtyThreeDegreesHaveTheirCaution) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  for (double ambient = 0; ambient < 60; ambient += 2) {
    enquiry.site->ambient_low = kZeroCelsius - 10;
    enquiry.site->ambient_high = kZeroCelsius + ambient;
    const drive::Drive drive = drive_for(enquiry);
    const Evaluation e = evaluate(drive, {});
    if (!e.warm) break;
    const double housing = e.warm->housing_temperature - kZeroCelsius;
    const Finding heat = finding(prove(drive, {.samples = 0, .in_time = false}), "heat");
    const auto caution = std::find_if(heat.cautions.begin(), heat.cautions.end(),
                                      [](const Caution& c) { return c.key == "hot_surface"; });
    EXPECT_EQ(caution != heat.cautions.end(), housing >= 51) << housing;
    if (housing >= 56 && housing < 65) {
      EXPECT_NE(caution->text.find("ten seconds"), std::string::npos) << housing;
    }
  }
}

TEST(Heat, ARunawayHasNoFigure) {
  enquiry::Enquiry enquiry = conveyor();
  enquiry.site = ordinary();
  enquiry.machine.measured->measured_torque = 1200;
  drive::Drive drive = drive_for(enquiry);
  drive.requirement.torque *= 60;
  for (enquiry::Block& block : drive.requirement.duty) block.torque *= 60;
  const Evaluation e = evaluate(drive, {});
  const Finding heat = finding(prove(drive, {.samples = 0, .in_time = false}), "heat");
  EXPECT_EQ(heat.verdict, Verdict::does_not_hold);
  EXPECT_NE(heat.answer.pattern.find("cannot be computed"), std::string::npos);
  for (const Value& value : heat.answer.values) EXPECT_LE(value.si, kZeroCelsius + 200);
  (void)e;
}

TEST(Heat, TheMotorsFlangeCounts) {
  enquiry::Enquiry enquiry = conveyor();
  const drive::Drive drive = drive_for(enquiry);
  const double x = drive::motor_loss_ratio(drive, {});
  EXPECT_GT(x, drive::kFixedLossShare * 0.99);
  EXPECT_LT(x, 1.2);
  const heat::Housing housing = drive::housing_of(drive, 313.15, {});
  EXPECT_NEAR(*housing.flange_temperature, 313.15 + heat::kMotorShare.nominal * heat::kMotorFlangeRise.nominal * x,
              1e-9);
  drive::Coefficients cold;
  cold.motor_rise_factor = 0;
  EXPECT_LT(evaluate(drive, cold).oil_temperature, evaluate(drive, {}).oil_temperature);
}

TEST(Overhung, AnAgitatorsShaftLoadNobodyStatedCannotBeJudged) {
  enquiry::Enquiry enquiry;
  demand::Agitator agitator;
  agitator.diameter = 0.9;
  agitator.speed = 50 * kRpm;
  agitator.impeller_mass = 60;
  enquiry.machine.agitator = agitator;
  EXPECT_EQ(finding(proved(enquiry), "overhung").verdict, Verdict::cannot_be_judged);
  enquiry.machine.agitator->reducer_carries_shaft = false;
  EXPECT_NE(finding(proved(enquiry), "overhung").verdict, Verdict::cannot_be_judged);
  enquiry.machine.agitator->reducer_carries_shaft = true;
  enquiry.machine.agitator->shaft_length = 0.3;
  enquiry.machine.agitator->side_force = 300;
  enquiry.machine.agitator->thrust = 500;
  EXPECT_NE(finding(proved(enquiry), "overhung").verdict, Verdict::cannot_be_judged);
  enquiry.machine.agitator->side_force = 2e5;
  EXPECT_EQ(finding(proved(enquiry), "overhung").verdict, Verdict::does_not_hold);
}

}  // namespace
}  // namespace lobewise::evidence
