// shaft.*: reactions, stress, fatigue, key, output pins, overhung force.
#include "engine/api/calls.h"
#include "engine/strength/shaft.h"
#include "engine/strength/shaft_key.h"
#include "engine/strength/shaft_overhung.h"
#include "engine/strength/shaft_pins.h"

namespace lobewise::api {
namespace {

struct Fatigue {
  strength::FatigueLoad load;
  double S_e = 1, S_ut = 1;
};
Fatigue read_fatigue(Arguments& in) {
  Fatigue out;
  out.S_e = in.number("S_e", Quantity::pressure, kPositive);
  out.S_ut = in.number("S_ut", Quantity::pressure, kPositive);
  out.load.moment_amplitude = in.number_or("M_a", Quantity::torque, 0);
  out.load.moment_mean = in.number_or("M_m", Quantity::torque, 0);
  out.load.torque_amplitude = in.number_or("T_a", Quantity::torque, 0);
  out.load.torque_mean = in.number_or("T_m", Quantity::torque, 0);
  out.load.K_f = in.number_or("K_f", Quantity::number, 1, kPositive);
  out.load.K_fs = in.number_or("K_fs", Quantity::number, 1, kPositive);
  return out;
}

void add_stress_calls(Registry& registry) {
  registry.add("shaft.reactions", "Bearing reactions and bending at B", [](Arguments& in, Json& out) {
    strength::ShaftLoad load;
    load.span = in.number("span", Quantity::length, kPositive);
    load.position = in.number("load_position", Quantity::length);
    load.radial_force = in.number("radial_force", Quantity::force);
    load.axial_force = in.number_or("axial_force", Quantity::force, 0);
    load.axial_radius = in.number_or("axial_radius", Quantity::length, 0);
    if (!in.ok()) return;
    const strength::Reactions result = strength::reactions(load);
    out["R_A"] = result.at_A;
    out["R_B"] = result.at_B;
    out["bending_moment_B"] = result.moment_B;
    out["bending_moment_max"] = result.moment_max;
  });
  registry.add("shaft.nominal_stress", "Nominal stresses of a round shaft", [](Arguments& in, Json& out) {
    const double moment = in.number_or("bending_moment", Quantity::torque, 0);
    const double torque = in.number_or("torque", Quantity::torque, 0);
    const double axial = in.number_or("axial_force", Quantity::force, 0);
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const double bore = in.number_or("bore", Quantity::length, 0, kNotNegative);
    if (in.ok() && bore >= diameter) in.refuse("bore", "must be smaller than the diameter");
    if (!in.ok()) return;
    const strength::NominalStress stress = strength::nominal_stress(moment, torque, axial, diameter, bore);
    out["bending"] = stress.bending;
    out["shear"] = stress.shear;
    out["axial"] = stress.axial;
    out["von_mises"] = strength::von_mises(stress);
  });
  registry.add("shaft.endurance_limit", "Endurance limit of a machined steel shaft", [](Arguments& in, Json& out) {
    const double strength = in.number("tensile_strength", Quantity::pressure, kPositive);
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const double reliability = in.number_or("reliability", Quantity::share, 0.9, {0, 1});
    if (!in.ok()) return;
    const auto limit = strength::endurance_limit(strength, diameter, reliability);
    if (!limit) return in.refuse(limit.errors());
    out["S_e"] = *limit;
  });
  registry.add("shaft.goodman_safety", "Safety by distortion energy and Goodman's line", [](Arguments& in, Json& out) {
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const Fatigue fatigue = read_fatigue(in);
    if (in.ok()) out["safety"] = strength::goodman_safety(fatigue.load, diameter, fatigue.S_e, fatigue.S_ut);
  });
  registry.add("shaft.goodman_diameter", "Diameter by distortion energy and Goodman's line",
               [](Arguments& in, Json& out) {
                 const double safety = in.number("safety", Quantity::number, kPositive);
                 const Fatigue fatigue = read_fatigue(in);
                 if (in.ok()) {
                   out["diameter"] = strength::goodman_diameter(fatigue.load, safety, fatigue.S_e, fatigue.S_ut);
                 }
               });
  registry.add("shaft.bearing_equivalent", "Equivalent dynamic load of a bearing", [](Arguments& in, Json& out) {
    const double radial = in.number("radial", Quantity::force, kNotNegative);
    const double axial = in.number("axial", Quantity::force, kNotNegative);
    const double X = in.number("X", Quantity::number, kNotNegative);
    const double Y = in.number("Y", Quantity::number, kNotNegative);
    const double e = in.number("e", Quantity::number, kNotNegative);
    if (in.ok()) out["P"] = strength::bearing_equivalent(radial, axial, X, Y, e);
  });
}

void add_part_calls(Registry& registry) {
  registry.add("shaft.parallel_key", "Pressures and shear of a parallel key", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque, kNotNegative);
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    strength::ParallelKey key;
    key.width = in.number("width", Quantity::length, kPositive);
    key.height = in.number("height", Quantity::length, kPositive);
    key.shaft_depth = in.number("shaft_depth", Quantity::length, kPositive);
    key.length = in.number("length", Quantity::length, kPositive);
    key.round_ends = in.text_or("ends", "round", {"round", "square"}) == "round";
    const bool two = in.flag_or("two_keys", false);
    if (in.ok() && key.shaft_depth >= key.height) in.refuse("shaft_depth", "must be less than the height of the key");
    if (in.ok() && key.round_ends && key.width >= key.length) in.refuse("length", "must exceed the width: round ends");
    if (!in.ok()) return;
    const strength::KeyStress stress = strength::parallel_key(key, torque, diameter, two ? 2 : 1);
    out["hub_pressure"] = stress.hub_pressure;
    out["shaft_pressure"] = stress.shaft_pressure;
    out["shear"] = stress.shear;
  });
  registry.add("shaft.pin_load", "Largest force on an output pin, rigid and exact", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque, kNotNegative);
    const int pins = in.count("pins", {1, 1000});
    const double radius = in.number("pin_circle_radius", Quantity::length, kPositive);
    if (in.ok()) out["Q_max"] = strength::pin_load(torque, pins, radius);
  });
  registry.add("shaft.pin_bending", "Bending of an output pin", [](Arguments& in, Json& out) {
    const double force = in.number("force", Quantity::force, kNotNegative);
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const double lever = in.number("lever", Quantity::length, kPositive);
    const std::string support = in.text_or("support", "cantilever", {"cantilever", "guided"});
    if (!in.ok()) return;
    const auto kind = support == "guided" ? strength::PinSupport::guided : strength::PinSupport::cantilever;
    const strength::PinBending pin = strength::pin_bending(force, diameter, lever, kind);
    out["moment"] = pin.moment;
    out["stress"] = pin.stress;
    out["deflection"] = pin.deflection;
  });
  registry.add("shaft.pin_two_discs", "Bending of an output pin pushed by two discs in turn",
               [](Arguments& in, Json& out) {
                 const double torque = in.number("torque_per_disc", Quantity::torque, kNotNegative);
                 const int pins = in.count("pins", {1, 1000});
                 const double radius = in.number("pin_circle_radius", Quantity::length, kPositive);
                 const double diameter = in.number("diameter", Quantity::length, kPositive);
                 const double near = in.number("lever_near", Quantity::length, kPositive);
                 const double far = in.number("lever_far", Quantity::length, kPositive);
                 if (!in.ok()) return;
                 const strength::PinBending pin = strength::pin_two_discs(torque, pins, radius, diameter, near, far);
                 out["moment"] = pin.moment;
                 out["stress"] = pin.stress;
               });
  registry.add("shaft.overhung_force", "Radial force of what sits on the shaft", [](Arguments& in, Json& out) {
    const double torque = in.number("torque", Quantity::torque, kNotNegative);
    const double diameter = in.number("diameter", Quantity::length, kPositive);
    const double factor = in.number_or("factor", Quantity::number, 1, kPositive);
    if (in.ok()) out["radial_force"] = strength::overhung_force(torque, diameter, factor);
  });
  registry.add("shaft.allowable_overhung", "Radial force allowed at a position from bearing A",
               [](Arguments& in, Json& out) {
                 const double position = in.number("position", Quantity::length, kPositive);
                 strength::OverhungShaft shaft;
                 shaft.span = in.number("span", Quantity::length, kPositive);
                 shaft.C_A = in.number("C_A", Quantity::force, kPositive);
                 shaft.C_B = in.number("C_B", Quantity::force, kPositive);
                 shaft.speed = in.number("speed", Quantity::angular_speed, kPositive);
                 shaft.hours = in.number("hours", Quantity::number, kPositive);
                 shaft.C0_A = in.number("C0_A", Quantity::force, kPositive);
                 shaft.C0_B = in.number("C0_B", Quantity::force, kPositive);
                 shaft.diameter_B = in.number("diameter_B", Quantity::length, kPositive);
                 shaft.S_e = in.number("S_e", Quantity::pressure, kPositive);
                 shaft.S_ut = in.number("S_ut", Quantity::pressure, kPositive);
                 shaft.torque_mean = in.number_or("torque_mean", Quantity::torque, 0, kNotNegative);
                 shaft.life_exponent = in.number_or("life_exponent", Quantity::number, shaft.life_exponent, {1, 10});
                 shaft.static_safety = in.number_or("static_safety", Quantity::number, shaft.static_safety, kPositive);
                 shaft.K_f = in.number_or("K_f", Quantity::number, shaft.K_f, kPositive);
                 shaft.K_fs = in.number_or("K_fs", Quantity::number, shaft.K_fs, kPositive);
                 shaft.safety = in.number_or("safety", Quantity::number, shaft.safety, kPositive);
                 shaft.axial_force = in.number_or("axial_force", Quantity::force, 0, kNotNegative);
                 shaft.axial_radius = in.number_or("axial_radius", Quantity::length, 0, kNotNegative);
                 if (!in.ok()) return;
                 const strength::AllowableForce result = strength::allowable_overhung(shaft, position);
                 out["force"] = result.force;
                 out["limit"] = strength::name(result.limit);
               });
}

}  // namespace

void add_shaft_calls(Registry& registry) {
  add_stress_calls(registry);
  add_part_calls(registry);
}

}  // namespace lobewise::api
