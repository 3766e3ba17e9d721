// losses.*: friction of rollers, sleeves, bearings, seals and oil; efficiency.
#include "engine/api/calls.h"
#include "engine/losses/friction.h"
#include "engine/losses/mesh_loss.h"
#include "engine/losses/parts.h"

namespace lobewise::api {
namespace {

constexpr model::Limits kFriction{0, 10};

}  // namespace

void add_losses_calls(Registry& registry) {
  registry.add("losses.bearing_friction", "Palmgren's friction moments of a rolling bearing",
               [](Arguments& in, Json& out) {
                 const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
                 const double nu = in.number("nu", Quantity::kinematic_viscosity, kPositive);
                 losses::BearingDrag bearing;
                 bearing.mean_diameter = in.number("mean_diameter", Quantity::length, kPositive);
                 const double load = in.number("load", Quantity::force, kNotNegative);
                 bearing.f0 = in.number("f0", Quantity::number, kNotNegative);
                 bearing.f1 = in.number("f1", Quantity::number, kNotNegative);
                 if (!in.ok()) return;
                 const losses::BearingLoss loss = losses::bearing_friction(bearing, speed, nu, load);
                 out["M_0"] = loss.M_0;
                 out["M_1"] = loss.M_1;
                 out["power"] = loss.power;
               });
  registry.add("losses.churning_loss", "Reynolds number and drag torque of a part turning in oil",
               [](Arguments& in, Json& out) {
                 const double density = in.number("density", Quantity::density, kPositive);
                 const double nu = in.number("nu", Quantity::kinematic_viscosity, kPositive);
                 const double speed = in.number("speed", Quantity::angular_speed, kPositive);
                 const double radius = in.number("radius", Quantity::length, kPositive);
                 const double chord = in.number("chord", Quantity::length, kPositive);
                 const double area = in.number("wetted_area", Quantity::area, kNotNegative);
                 if (!in.ok()) return;
                 const losses::ChurningLoss loss = losses::churning_loss(density, nu, speed, radius, chord, area);
                 out["reynolds"] = loss.reynolds;
                 out["torque"] = loss.torque;
               });
  registry.add("losses.efficiency", "Sum of losses and efficiency at an output power", [](Arguments& in, Json& out) {
    const double power = in.number("output_power", Quantity::power, kPositive);
    const std::vector<double> losses = in.numbers("losses", Quantity::power, kNotNegative);
    if (!in.ok()) return;
    const losses::Efficiency result = losses::efficiency(power, losses);
    out["loss"] = result.loss;
    out["efficiency"] = result.efficiency;
  });
  registry.add("losses.gap_shear_loss", "Power to shear the oil in a gap", [](Arguments& in, Json& out) {
    const double eta = in.number("dynamic_viscosity", Quantity::dynamic_viscosity, kNotNegative);
    const double speed = in.number("relative_speed", Quantity::speed, kNotNegative);
    const double area = in.number("area", Quantity::area, kNotNegative);
    const double gap = in.number("gap", Quantity::length, kPositive);
    const double share = in.number("wetted_share", Quantity::share, {0, 1});
    if (!in.ok()) return;
    out["power"] = losses::gap_shear_loss(eta, speed, area, gap, share);
  });
  registry.add("losses.mesh_loss",
               "Friction torque of the lobes of one disc at the input, rigid equal-stiffness forces",
               [](Arguments& in, Json& out) {
                 mechanism::StageGeometry stage;
                 stage.lobes = in.count("lobes", {2, 1000});
                 stage.pitch_radius = in.number("pitch_radius", Quantity::length, kPositive);
                 stage.roller_radius = in.number("roller_radius", Quantity::length, kPositive);
                 stage.eccentricity = in.number("eccentricity", Quantity::length, kPositive);
                 const double torque = in.number("torque", Quantity::torque, kNotNegative);
                 const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
                 const double mu = in.number("mu", Quantity::number, kFriction);
                 if (in.ok() && stage.shortening() >= 1)
                   in.refuse("eccentricity", "must be smaller than pitch_radius / (lobes + 1)");
                 if (!in.ok()) return;
                 const double friction = losses::lobe_friction_torque(stage, torque, mu);
                 out["torque_input"] = friction;
                 out["power"] = friction * speed;
               });
  registry.add("losses.mixed_friction", "Friction coefficient of a roller sliding on the lobe, over the film ratio",
               [](Arguments& in, Json& out) {
                 const double ratio = in.number("lambda_ratio", Quantity::number, kNotNegative);
                 if (!in.ok()) return;
                 out["mu"] = losses::mixed_friction(ratio);
                 out["asperity_share"] = losses::asperity_share(ratio);
               });
  registry.add("losses.pin_loss", "Friction torque of the output pins of one disc at the input",
               [](Arguments& in, Json& out) {
                 mechanism::StageGeometry stage;
                 stage.pins = in.count("pins", {1, 1000});
                 stage.pin_circle_radius = in.number("pin_circle_radius", Quantity::length, kPositive);
                 stage.eccentricity = in.number("eccentricity", Quantity::length, kPositive);
                 stage.lobes = in.count("lobes", {2, 1000});
                 const double torque = in.number("torque", Quantity::torque, kNotNegative);
                 const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
                 const double mu = in.number("mu", Quantity::number, kFriction);
                 if (!in.ok()) return;
                 const double friction = losses::pin_friction_torque(stage, torque, mu);
                 out["torque_input"] = friction;
                 out["power"] = friction * speed;
               });
  registry.add("losses.roller_side_factor", "Effective friction coefficient of a roller that may turn on its pin",
               [](Arguments& in, Json& out) {
                 const double outer = in.number("mu_outer", Quantity::number, kFriction);
                 const double inner = in.number("mu_inner", Quantity::number, kFriction);
                 const double ratio = in.number("inner_over_outer", Quantity::number, {0, 1});
                 if (!in.ok()) return;
                 out["mu_effective"] = losses::roller_side_factor(outer, inner, ratio);
               });
  registry.add("losses.seal_loss", "Power of a radial shaft seal", [](Arguments& in, Json& out) {
    const double diameter = in.number("shaft_diameter", Quantity::length, kPositive);
    const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
    const double nu_40 = in.number("nu_40", Quantity::kinematic_viscosity, {1e-6, 1});
    const double temperature = in.number("temperature", Quantity::temperature, {150, 700});
    if (!in.ok()) return;
    out["power"] = losses::seal_loss(diameter, speed, nu_40, temperature);
  });
  registry.add("losses.seal_loss_line_force", "Torque of a seal lip from its line force", [](Arguments& in, Json& out) {
    const double diameter = in.number("shaft_diameter", Quantity::length, kPositive);
    const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
    const double force = in.number("line_force", Quantity::number, kNotNegative);
    const double mu = in.number("mu", Quantity::number, kFriction);
    if (!in.ok()) return;
    const double torque = losses::seal_torque(diameter, force, mu);
    out["torque"] = torque;
    out["power"] = torque * speed;
  });
  registry.add("losses.sleeve_friction", "Hersey number and friction coefficient of a plain sleeve on its pin",
               [](Arguments& in, Json& out) {
                 const double eta = in.number("dynamic_viscosity", Quantity::dynamic_viscosity, kNotNegative);
                 const double speed = in.number("relative_speed", Quantity::angular_speed, kNotNegative);
                 const double pressure = in.number("pressure", Quantity::pressure, kPositive);
                 if (!in.ok()) return;
                 const double hersey = losses::hersey_number(eta, speed, pressure);
                 out["hersey"] = hersey;
                 out["mu"] = losses::sleeve_friction(hersey);
               });
}

}  // namespace lobewise::api
