#include "engine/demand/machines/bucket_elevator.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using E = BucketElevator;
constexpr const char* kDigging =
    "common practice, no source: 1.5 m fed into slow buckets, 6 m for lumps dug from the boot";
/// Bucket speed squared over g and head radius: thrown cleanly at about 1, too early far above. Common practice, no
/// source.
constexpr double kMostThrown = 3;
constexpr const char* kMethod = "equivalent digging height method, terms as in the US elevator handbook draft";

const Fields<E>& numbers() {
  static const Fields<E> list{
      number<&E::mass_flow>("mass_flow", "Mass flow", "Bulk lifted at full load.", Quantity::mass_flow, {0, 1000}, {},
                            "How many tonnes an hour does it lift at most?"),
      number<&E::lift>("lift", "Lift", "Between head and boot shaft.", Quantity::length, {1, 200}, {},
                       "How far apart are head and boot shaft?"),
      number<&E::speed>("speed", "Bucket speed", "Speed of belt or chain.", Quantity::speed, {0.1, 6}, {},
                        "How fast do the buckets run?"),
      number<&E::head_diameter>("head_diameter", "Head diameter",
                                "Drum over lagging, or pitch circle of the head sprocket.", Quantity::length, {0.1, 3},
                                {}, "What is the diameter at the head?"),
      number<&E::digging_height>("digging_height", "Digging height", "Scooping in the boot, as height.",
                                 Quantity::length, {0, 20}, {3.0, 1.5, 6.0, kDigging},
                                 "Is it fed into the buckets or do they dig it from the boot, and how lumpy is it?"),
      number<&E::losses>("losses", "Loss factor", "Bending and bearings at head and boot.", Quantity::number, {1, 2},
                         {1.10, 1.05, 1.20, kCommonPractice}, ""),
      number<&E::strand_mass>("strand_mass", "Strand mass", "Belt or chain with empty buckets, one leg.",
                              Quantity::line_mass, {1, 500}, {25, 10, 60, kCommonPractice},
                              "What do belt or chain and buckets weigh per metre?"),
      number<&E::boot_factor>("boot_factor", "Boot factor", "Digging force at start over running.", Quantity::number,
                              {1, 6}, {2.0, 1.0, 4.0, kCommonPractice}, "Must it ever start with a full boot?"),
  };
  return list;
}

/// What no elevator can do.
void plausible(Given<E>& in) {
  constexpr double kSteelPerPull = 51e3;  // [N/(kg/m)]: see chain_conveyor.cc; a belt of that mass carries less
  const E& m = in.machine();
  const double load = *m.mass_flow / *m.speed;
  if (m.strand_mass && kGravity * (load + *m.strand_mass) * *m.lift > kSteelPerPull * *m.strand_mass)
    in.contradict(&E::strand_mass, &E::mass_flow,
                  "belt or chain of that mass would break under the load in the rising buckets; check strand mass, "
                  "flow, bucket speed and lift.");
}

template <class X>
void physics(Given<E>& in, Demand& out) {
  using namespace formula;
  const X flow = in.term<X>("Q", &E::mass_flow), lift = in.term<X>("H", &E::lift), v = in.term<X>("v", &E::speed),
          head = in.term<X>("D", &E::head_diameter);
  const X digging = in.term<X>("H_0", &E::digging_height), losses = in.term<X>("k", &E::losses);
  if (!in.ok()) return;
  plausible(in);
  if (!in.ok()) return;
  if (value(v) * value(v) > kMostThrown * kGravity * value(head) / 2)
    out.cautions.push_back({"doubt_discharge",
                            "At that speed on that head the buckets would throw their load before they reach the "
                            "chute: check bucket speed and head diameter."});
  Working& w = out.working;
  const X g = gravity<X>();
  const X load = record(w, "q", "material in the rising buckets", Quantity::line_mass, flow / v, kDerived);
  const X power =
      record(w, "P", "power at the head shaft", Quantity::power, g * flow * (lift + digging) * losses, kMethod);
  const X speed = record(w, "w", "head speed", Quantity::angular_speed, 2.0 * v / head, kDerived);
  out.speed.value = value(speed);
  out.torque.value =
      value(record(w, "T", "running torque at the head shaft", Quantity::torque, power / speed, kDerived));
  const X boot = in.term<X>("k_b", &E::boot_factor);
  out.starting_torque.value =
      value(record(w, "T_0", "torque to start with full buckets and full boot", Quantity::torque,
                   load * g * (lift + boot * digging) * losses * head / 2.0, kCommonPractice));
  const X strand = in.term<X>("q_s", &E::strand_mass);
  out.inertia.value = value(record(w, "J", "inertia at the head shaft, drums as a tenth", Quantity::inertia,
                                   1.1 * (2.0 * strand + load) * lift * pow(head / 2.0, 2.0), kCommonPractice));
  const X holding = record(w, "T_b", "backstop torque, up-leg full, no friction credited", Quantity::torque,
                           load * g * lift * head / 2.0, kCommonPractice);
  out.holding_torque.value = value(holding);
  out.runback_torque.value =
      value(record(w, "T_r", "torque that turns it back without power", Quantity::torque, holding / losses, kDerived));
  classify_by_feed(in, out, in.machine().feed, "buckets filled evenly", "buckets that dig or throw");
  out.jam.sudden = true;
  out.jam.angle = {0.15, 0.02, 0.5, "common practice, no source: a bucket catches in the boot or casing"};
  out.jam.text =
      "A bucket catches in the boot or a lump wedges under it; a chain elevator stops within a few links, a belt slips "
      "first.";
  out.cautions.push_back(
      stored_energy_caution("the full buckets of the rising leg, which turn the head back",
                            "run it empty; where it stopped full, clamp the strand of the rising leg before brake or "
                            "backstop is let off, and stay out of the boot"));
  for (auto caution : {runback_caution, backstop_caution, holding_caution, jam_caution, guard_caution})
    out.cautions.push_back(caution());
}

}  // namespace

Result<Demand> compute(const BucketElevator& elevator) {
  return with_ranges(elevator, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::BucketElevator>() {
  using demand::BucketElevator;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&BucketElevator::feed>("feed", "Feed", "How evenly material arrives.")});
  return type;
}
