// More load never lengthens a life, and the other monotone truths of a gear pair.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "engine/incumbent/gear_unit.h"
#include "engine/incumbent/rating.h"
#include "engine/incumbent/tooth_load.h"

namespace lobewise::incumbent {
namespace {

double within(double low, double high) { return low + (high - low) * *rc::gen::inRange(0, 10001) / 10000.0; }

GearPair any_pair() {
  GearPair pair;
  pair.pinion = {*rc::gen::inRange(18, 40), 0, 1};
  pair.wheel = {*rc::gen::inRange(18, 150), 0, 1};
  pair.module = within(1e-3, 8e-3);
  pair.helix = within(0, 0.5);
  pair.face_width = pair.module * within(5, 25);
  return pair;
}

RC_GTEST_PROP(GearProperty, MoreLoadNeverLengthensLife, ()) {
  const Result<PairGeometry> g = pair_geometry(any_pair());
  RC_PRE(g.ok());
  PairDuty duty;
  duty.pinion_torque = within(1, 2000);
  duty.pinion_speed = within(1, 300);
  duty.service_time = 3600 * within(10, 1e5);
  const PairRating light = rate_pair(*g, kCaseCarburised, duty);
  duty.pinion_torque *= within(1, 4);
  const PairRating heavy = rate_pair(*g, kCaseCarburised, duty);
  RC_ASSERT(heavy.contact_life <= light.contact_life);
  RC_ASSERT(heavy.bending_life <= light.bending_life);
  RC_ASSERT(heavy.contact_stress >= light.contact_stress);
  RC_ASSERT(heavy.contact_safety <= light.contact_safety);
}

RC_GTEST_PROP(GearProperty, LifeAndSafetyAgree, ()) {
  // Safety 1 against pitting means a life of just the time asked for.
  const Result<PairGeometry> g = pair_geometry(any_pair());
  RC_PRE(g.ok());
  PairDuty duty;
  duty.pinion_torque = within(1, 5000);
  duty.pinion_speed = within(10, 300);
  duty.service_time = 3600 * within(100, 1e5);
  const PairRating r = rate_pair(*g, kCaseCarburised, duty);
  RC_ASSERT((r.contact_life >= duty.service_time * (1 - 1e-9)) == (r.contact_safety >= 1 - 1e-9));
}

RC_GTEST_PROP(GearProperty, SharesSumToOneEverywhere, ()) {
  const Result<PairGeometry> g = pair_geometry(any_pair());
  RC_PRE(g.ok());
  const MeshLoad load = {100, 100, contact_modulus(kSteelModulus, kSteelPoisson, kSteelModulus, kSteelPoisson), 1};
  const MeshInstant instant = mesh_instant(*g, load, within(-10, 10));
  double sum = 0;
  for (const ToothContact& contact : instant.contacts) {
    RC_ASSERT(contact.share > 0);
    sum += contact.share;
  }
  RC_ASSERT(sum > 1 - 1e-9);
  RC_ASSERT(sum < 1 + 1e-9);
}

RC_GTEST_PROP(GearProperty, BiggerDutyNeverGivesALighterUnit, ()) {
  UnitInService unit;
  unit.kind = UnitKind::parallel_shaft;
  UnitDuty duty;
  duty.input_speed = 150;
  duty.output_speed = 150 / within(8, 30);
  duty.output_torque = within(50, 3000);
  const Result<GearUnit> small = gear_unit(unit, duty);
  duty.output_torque *= 2;
  const Result<GearUnit> large = gear_unit(unit, duty);
  RC_PRE(small.ok() && large.ok());
  RC_ASSERT(large->mass.nominal > small->mass.nominal);
}

}  // namespace
}  // namespace lobewise::incumbent
