#include "engine/demand/machines/apron_feeder.h"

#include "engine/base/constants.h"
#include "engine/demand/cautions.h"

namespace lobewise::demand {
namespace {

using F = ApronFeeder;
constexpr const char* kBinLoad =
    "structure of bin-load theory (Arnold, McLean, Roberts), from memory; coefficient common practice";

constexpr double kSteepest = 0.5;  ///< sin 30 deg; common practice, no source

const Fields<F>& numbers() {
  static const Fields<F> list{
      number<&F::width>("width", "Width", "Between the skirts.", Quantity::length, {0.2, 5}, {},
                        "How wide is the feeder between its skirts?"),
      number<&F::length>("length", "Length", "Between the shafts.", Quantity::length, {1, 60}, {},
                         "How long is the feeder?"),
      number<&F::opening_length>("opening_length", "Hopper opening", "Length of the opening along the feeder.",
                                 Quantity::length, {0.2, 40}, {}, "How long is the hopper opening?"),
      number<&F::bed_height>("bed_height", "Bed height", "Of the material that leaves.", Quantity::length, {0.05, 3},
                             {}, "How high is the bed that leaves the hopper?"),
      number<&F::density>("density", "Bulk density", "As drawn.", Quantity::density, {100, 6000}, {},
                          "What does a cubic metre of it weigh?"),
      number<&F::speed>("speed", "Pan speed", "Of the pans.", Quantity::speed, {0.001, 1}, {},
                        "How fast do the pans run?"),
      number<&F::sprocket_diameter>("sprocket_diameter", "Sprocket diameter", "Pitch circle.", Quantity::length,
                                    {0.1, 3}, {}, "What are pitch and tooth count of the drive sprocket?"),
      number<&F::lift>("lift", "Lift", "Discharge above the feed end.", Quantity::length, {-10, 30},
                       {0, 0, 0, "taken level"}, "Does the feeder rise?"),
      number<&F::pan_mass>("pan_mass", "Pan mass", "Pans and chains, one run.", Quantity::line_mass, {10, 5000}, {},
                           "What do pans and chains weigh per metre?"),
      number<&F::rolling>("rolling", "Rolling resistance", "Pans on their rollers.", Quantity::number, {0.02, 0.3},
                          {0.08, 0.05, 0.15, kCommonPractice}, "Are the rollers greased and turning?"),
      number<&F::pressure_height>("pressure_height", "Pressure height",
                                  "Height of material that presses on the pans while it flows.", Quantity::length,
                                  {0.1, 20}, {}, "How deep is the hopper, how steep its walls, how long its opening?"),
      number<&F::start_pressure>("start_pressure", "Start pressure",
                                 "Pressure after filling an empty hopper over pressure in flow.", Quantity::number,
                                 {1, 6}, {2.5, 1.5, 4.0, kBinLoad},
                                 "Is the hopper ever filled from empty, and does it keep a bed to protect the pans?"),
      number<&F::shear>("shear", "Shear", "Of the material drawn out of the hopper.", Quantity::number, {0.1, 1},
                        {0.45, 0.35, 0.65, kBinLoad}, "Is the material free-flowing or does it interlock?"),
      number<&F::skirt_friction>("skirt_friction", "Skirt friction", "Material on the skirts.", Quantity::number,
                                 {0.1, 1}, {0.5, 0.4, 0.7, kCommonPractice}, ""),
  };
  return list;
}

template <class X>
void physics(Given<F>& in, Demand& out) {
  using namespace formula;
  const X width = in.term<X>("b", &F::width), length = in.term<X>("L", &F::length),
          opening = in.term<X>("L_o", &F::opening_length), bed = in.term<X>("h", &F::bed_height),
          density = in.term<X>("rho", &F::density);
  const X v = in.term<X>("v", &F::speed), sprocket = in.term<X>("D", &F::sprocket_diameter),
          lift = in.term<X>("H", &F::lift);
  if (in.ok() && value(opening) > value(length))
    in.contradict(&F::opening_length, &F::length, "The hopper opening cannot be longer than the feeder.");
  if (in.ok() && std::fabs(value(lift)) > kSteepest * value(length))
    in.contradict(&F::lift, &F::length, "no apron rises steeper than about 30 degrees: the bed would slide.");
  if (!in.ok()) return;
  Working& w = out.working;
  const X g = gravity<X>();
  const double wide = value(width);
  const X height = in.term<X>("h_p", &F::pressure_height, {wide, 0.5 * wide, 2 * wide, kBinLoad});
  const X pans = in.term<X>("q_p", &F::pan_mass, {250 * wide, 150 * wide, 450 * wide, kCommonPractice});
  const X press = record(w, "V", "weight that presses on the pans under the hopper, in flow", Quantity::force,
                         density * g * width * opening * height, kBinLoad);
  const X rolling = in.term<X>("w_r", &F::rolling), shear = in.term<X>("mu_s", &F::shear),
          skirt_friction = in.term<X>("mu_w", &F::skirt_friction);
  const X empty = record(w, "F_0", "rolling of the empty pans, both runs", Quantity::force,
                         rolling * 2.0 * pans * g * length, kCommonPractice);
  const X roll = record(w, "F_1", "rolling of pans and material", Quantity::force,
                        empty + rolling * (density * g * width * bed * (length - opening) + press), kCommonPractice);
  const X draw = record(w, "F_2", "shear of the material drawn out", Quantity::force, shear * press, kBinLoad);
  constexpr double kSidePressure = 0.4;
  const X side = as<X>("K", "lateral over vertical pressure of loose bulk; common practice, no source", kSidePressure);
  const X skirts =
      record(w, "F_3", "skirts, both sides", Quantity::force,
             skirt_friction * side * density * g * pow(bed, 2.0) * length, "derived: two sides, triangular pressure");
  const X raise = record(w, "F_4", "lift", Quantity::force, density * g * width * bed * lift, kDerived);
  const X force =
      record(w, "F", "pull, full or empty", Quantity::force, max(roll + draw + skirts + raise, empty), kDerived);
  out.torque.value =
      value(record(w, "T", "running torque at the sprocket", Quantity::torque, force * sprocket / 2.0, kDerived));
  out.speed.value = value(record(w, "w", "sprocket speed", Quantity::angular_speed, 2.0 * v / sprocket, kDerived));
  const X start = in.term<X>("k", &F::start_pressure);
  out.starting_torque.value =
      value(record(w, "T_0", "torque to start under a freshly filled hopper", Quantity::torque,
                   (force + (start - 1.0) * (rolling + shear) * press) * sprocket / 2.0, kBinLoad));
  out.inertia.value = value(
      record(w, "J", "inertia at the sprocket, sprockets as a tenth", Quantity::inertia,
             1.1 * (2.0 * pans * length + density * width * bed * length) * pow(sprocket / 2.0, 2.0), kCommonPractice));
  if (value(raise) > 0) {
    out.holding_torque.value = value(record(w, "T_b", "backstop torque, no friction credited", Quantity::torque,
                                            raise * sprocket / 2.0, kCommonPractice));
    out.runback_torque.value = value(record(w, "T_r", "torque that turns it back without power", Quantity::torque,
                                            max(0.0, raise - roll - skirts) * sprocket / 2.0, kDerived));
    for (auto caution : {runback_caution, backstop_caution}) out.cautions.push_back(caution());
  } else if (value(raise) < 0) {
    out.overhauling_torque.value =
        value(record(w, "T_g", "torque with which the bed drives the sprocket, half the friction credited",
                     Quantity::torque, max(0.0, -raise - 0.5 * (roll + skirts)) * sprocket / 2.0, kCommonPractice));
    out.holding_torque.value = value(record(w, "T_b", "holding torque, no friction credited", Quantity::torque,
                                            -raise * sprocket / 2.0, kCommonPractice));
    out.cautions.push_back(downhill_caution());
  }
  out.cautions.push_back(
      stored_energy_caution("the chain wound up under the hopper, and material above it that may break through",
                            "run the feeder empty or close the gate and secure the material, slacken the take-up, then "
                            "open coupling or backstop"));
  const bool crusher = in.machine().feeds_crusher.value_or(true);
  if (!in.machine().feeds_crusher)
    in.ask({in.path("feeds_crusher"), "Does it feed a crusher, or do trucks or shovels tip lumps on it?", 0.4});
  out.shock_class = crusher ? ShockClass::striking : ShockClass::uneven;
  out.shock_reason = crusher ? "lumps fall on it and wedge at the crusher" : "drawn evenly from a hopper";
  out.practice_machine = "apron under a hopper";
  out.jam.sudden = true;
  out.jam.angle = {0.1, 0.01, 0.4, "common practice, no source: a lump wedges at the gate; chain stretch and slack"};
  out.jam.text =
      "A lump wedges between pans and hopper gate or at the crusher's mouth; only chain stretch and slack soften the "
      "stop.";
  out.cautions.push_back(jam_caution());
  out.cautions.push_back({"hopper",
                          "Nobody enters a hopper above a feeder unless the feeder is locked out and the material "
                          "secured; rules for confined spaces and engulfment apply."});
  out.cautions.push_back(guard_caution());
}

}  // namespace

Result<Demand> compute(const ApronFeeder& feeder) {
  return with_ranges(feeder, numbers(), physics<formula::Term>, physics<double>);
}

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ApronFeeder>() {
  using demand::ApronFeeder;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ApronFeeder::feeds_crusher>("feeds_crusher", "Feeds a crusher",
                                                             "Or is loaded with lumps by trucks or shovels.")});
  return type;
}
