// gears: a helical pair for the same duty with its teeth in contact, to be drawn beside the lobes.
#include "engine/api/calls.h"
#include "engine/api/evidence_json.h"
#include "engine/base/constants.h"
#include "engine/incumbent/gear_unit.h"
#include "engine/incumbent/tooth_load.h"

namespace lobewise::api {
namespace {

constexpr int kInstants = 24;       ///< over one pitch of the pinion
constexpr int kPointsPerFlank = 9;  ///< of a tooth's outline

Json outline_json(const incumbent::PairGeometry& pair, bool wheel) {
  Json list = Json::array();
  for (const incumbent::Point& p : incumbent::tooth_outline(pair, wheel, kPointsPerFlank))
    list.push_back(Json::array({p.x, p.y}));
  return list;
}

Json contact_json(const incumbent::ToothContact& contact) {
  Json json{{"pair", contact.pair},
            {"share", contact.share},
            {"force", contact.force},
            {"pressure", contact.pressure},
            {"in_section", contact.in_section}};
  if (contact.in_section) json["point"] = Json::array({contact.point.x, contact.point.y});
  return json;
}

void gears(Arguments& in, Json& out) {
  incumbent::UnitDuty duty;
  duty.output_torque = in.number("torque", Quantity::torque, kPositive);
  duty.output_speed = in.number("output_speed", Quantity::angular_speed, kPositive);
  duty.input_speed = in.number("input_speed", Quantity::angular_speed, kPositive);
  duty.service_time = in.number_or("life", Quantity::duration, duty.service_time, kPositive);
  if (!in.ok()) return;
  incumbent::UnitInService unit;
  unit.kind = incumbent::UnitKind::parallel_shaft;
  const Result<incumbent::GearUnit> built = incumbent::gear_unit(unit, duty);
  if (!built) return in.refuse(built.errors());
  const incumbent::UnitStage& stage = built->stages.back();
  if (!stage.pair) return in.refuse("torque", "no helical pair was found for this duty");
  const incumbent::PairGeometry& pair = *stage.pair;
  incumbent::MeshLoad load;
  load.torque = stage.input_torque;
  load.pinion_speed = stage.input_speed;
  load.contact_modulus = incumbent::contact_modulus(incumbent::kSteelModulus, incumbent::kSteelPoisson,
                                                    incumbent::kSteelModulus, incumbent::kSteelPoisson);
  Json instants = Json::array();
  Json centre;
  const double pitch = 2 * kPi / pair.pair.pinion.teeth;
  for (int i = 0; i < kInstants; ++i) {
    const incumbent::MeshInstant instant = incumbent::mesh_instant(pair, load, pitch * i / kInstants);
    Json contacts = Json::array();
    for (const incumbent::ToothContact& contact : instant.contacts) contacts.push_back(contact_json(contact));
    instants.push_back({{"pinion_tooth_angle", instant.pinion_tooth_angle},
                        {"wheel_tooth_angle", instant.wheel_tooth_angle},
                        {"contacts", std::move(contacts)}});
    centre = Json::array({instant.wheel_centre.x, instant.wheel_centre.y});
  }
  const incumbent::MeshCycle cycle = incumbent::mesh_cycle(pair, load);
  out["stages"] = built->stages.size();
  out["ratio"] = built->ratio;
  out["last_ratio"] = pair.ratio;
  out["pinion"] = {{"teeth", pair.pair.pinion.teeth}, {"tip_radius", pair.ra1}, {"outline", outline_json(pair, false)}};
  out["wheel"] = {{"teeth", pair.pair.wheel.teeth},
                  {"tip_radius", pair.ra2},
                  {"centre", std::move(centre)},
                  {"outline", outline_json(pair, true)}};
  // Direction of the force on the wheel in the drawn section: along the line of action.
  out["force_direction"] = kPi / 2 - pair.working_angle;
  out["pitch"] = pitch;
  out["instants"] = std::move(instants);
  out["facts"] = Json::array({
      Json{{"label", "Module"}, {"value", quantity_json(pair.pair.module, Quantity::length)}},
      Json{{"label", "Helix angle"}, {"value", quantity_json(pair.pair.helix, Quantity::angle)}},
      Json{{"label", "Face width"}, {"value", quantity_json(pair.pair.face_width, Quantity::length)}},
      Json{{"label", "Centre distance"}, {"value", quantity_json(pair.centre_distance, Quantity::length)}},
      Json{{"label", "Tooth pairs in contact, mean"}, {"value", quantity_json(cycle.mean_pairs, Quantity::number)}},
      Json{{"label", "Largest share of one pair"}, {"value", quantity_json(cycle.largest_share, Quantity::share)}},
      Json{{"label", "Largest contact stress"}, {"value", quantity_json(cycle.largest_pressure, Quantity::pressure)}},
  });
  if (stage.bending_stress)
    out["facts"].push_back(
        {{"label", "Largest root stress"}, {"value", quantity_json(*stage.bending_stress, Quantity::pressure)}});
}

}  // namespace

void add_gear_calls(Registry& registry) {
  registry.add("gears", "The last helical pair of a parallel-shaft unit for a duty, with the load on every tooth",
               gears);
}

}  // namespace lobewise::api
