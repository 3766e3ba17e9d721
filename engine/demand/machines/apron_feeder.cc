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

void physics(Given<F>& in, Demand& out) {
  const double width = in(&F::width), length = in(&F::length), opening = in(&F::opening_length),
               bed = in(&F::bed_height), density = in(&F::density);
  const double v = in(&F::speed), radius = in(&F::sprocket_diameter) / 2, lift = in(&F::lift);
  if (in.ok() && opening > length)
    in.contradict(&F::opening_length, &F::length, "The hopper opening cannot be longer than the feeder.");
  if (in.ok() && std::fabs(lift) > kSteepest * length)
    in.contradict(&F::lift, &F::length, "no apron rises steeper than about 30 degrees: the bed would slide.");
  if (!in.ok()) return;
  Working& w = out.working;
  const double height = in(&F::pressure_height, {width, 0.5 * width, 2 * width, kBinLoad});
  const double pans = in(&F::pan_mass, {250 * width, 150 * width, 450 * width, kCommonPractice});
  const double press = step(w, "V", "weight that presses on the pans under the hopper, in flow", "V = rho g b L_o h_p",
                            {{"rho", "bulk density", density, Quantity::density},
                             {"b", "width", width, Quantity::length},
                             {"L_o", "opening", opening, Quantity::length},
                             {"h_p", "pressure height", height, Quantity::length}},
                            density * kGravity * width * opening * height, Quantity::force, kBinLoad);
  const double carried = density * kGravity * width * bed * (length - opening);
  const double rolling = in(&F::rolling), shear = in(&F::shear), skirt_friction = in(&F::skirt_friction);
  const double roll =
      step(w, "F_1", "rolling of pans and material", "F_1 = w (2 q_p g L + rho g b h (L - L_o) + V)",
           {{"w", "rolling resistance", rolling},
            {"q_p", "pans", pans, Quantity::line_mass},
            {"h", "bed height", bed, Quantity::length}},
           rolling * (2 * pans * kGravity * length + carried + press), Quantity::force, kCommonPractice);
  const double draw = step(w, "F_2", "shear of the material drawn out", "F_2 = mu_s V", {{"mu_s", "shear", shear}},
                           shear * press, Quantity::force, kBinLoad);
  constexpr double kSidePressure = 0.4;  // lateral over vertical pressure of loose bulk; common practice, no source
  const double skirts = step(w, "F_3", "skirts, both sides", "F_3 = mu_w K rho g h^2 L",
                             {{"mu_w", "skirt friction", skirt_friction}, {"K", "side pressure", kSidePressure}},
                             skirt_friction * kSidePressure * density * kGravity * bed * bed * length, Quantity::force,
                             "derived: two sides, triangular pressure");
  const double raise = step(w, "F_4", "lift", "F_4 = rho g b h H", {{"H", "lift", lift, Quantity::length}},
                            density * kGravity * width * bed * lift, Quantity::force, kDerived);
  const double force = std::max(roll + draw + skirts + raise, rolling * 2 * pans * kGravity * length);
  out.torque.value =
      step(w, "T", "running torque at the sprocket", "T = (F_1 + F_2 + F_3 + F_4) D / 2",
           {{"D", "sprocket", 2 * radius, Quantity::length}}, force * radius, Quantity::torque, kDerived);
  out.speed.value = step(w, "w", "sprocket speed", "w = 2 v / D", {{"v", "pan speed", v, Quantity::speed}}, v / radius,
                         Quantity::angular_speed, kDerived);
  const double start = in(&F::start_pressure);
  out.starting_torque.value =
      step(w, "T_0", "torque to start under a freshly filled hopper",
           "T_0 = (F_1 + F_2 + F_3 + F_4 + (k - 1) (w + mu_s) V) D / 2", {{"k", "start pressure", start}},
           (force + (start - 1) * (rolling + shear) * press) * radius, Quantity::torque, kBinLoad);
  out.inertia.value = step(
      w, "J", "inertia at the sprocket, sprockets as a tenth", "J = 1.1 (2 q_p L + rho b h L) (D / 2)^2", {},
      1.1 * (2 * pans * length + density * width * bed * length) * radius * radius, Quantity::inertia, kCommonPractice);
  if (raise > 0) {
    out.holding_torque.value = raise * radius;
    out.runback_torque.value = std::max(0.0, raise - roll - skirts) * radius;
    for (auto caution : {runback_caution, backstop_caution}) out.cautions.push_back(caution());
  } else if (raise < 0) {
    out.overhauling_torque.value = std::max(0.0, -raise - 0.5 * (roll + skirts)) * radius;
    out.holding_torque.value = -raise * radius;
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

Result<Demand> compute(const ApronFeeder& feeder) { return with_ranges(feeder, numbers(), physics); }

}  // namespace lobewise::demand

template <>
const lobewise::model::RecordType& lobewise::model::describe<lobewise::demand::ApronFeeder>() {
  using demand::ApronFeeder;
  static const RecordType type = demand::record_type(
      demand::numbers(), {field<&ApronFeeder::feeds_crusher>("feeds_crusher", "Feeds a crusher",
                                                             "Or is loaded with lumps by trucks or shovels.")});
  return type;
}
