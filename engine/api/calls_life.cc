// life.*: rolling-contact life of bearings, lobes and output pins.
#include "engine/api/calls.h"
#include "engine/contact/cycle_forces.h"
#include "engine/contact/hertz.h"
#include "engine/strength/bearing_life.h"
#include "engine/strength/line_life.h"
#include "engine/strength/system_life.h"

namespace lobewise::api {
namespace {

constexpr model::Limits kReliability{1e-9, 1 - 1e-12};
constexpr model::Limits kContamination{0, 1};

// Lists that belong together must be as long as the first one.
void same_size(Arguments& in, std::string_view key, std::size_t size, std::size_t wanted) {
  if (in.ok() && size != wanted) in.refuse(key, "must have as many entries as the list beside it");
}
void not_empty(Arguments& in, std::string_view key, const std::vector<double>& list) {
  if (in.ok() && list.empty()) in.refuse(key, "at least one entry is needed");
}

void add_bearing_calls(Registry& registry) {
  registry.add("life.l10", "Basic rating life of a roller bearing", [](Arguments& in, Json& out) {
    const double C = in.number("C", Quantity::force, kPositive);
    const double P = in.number("P", Quantity::force, kPositive);
    const double speed = in.number_or("speed", Quantity::angular_speed, 0, kPositive);
    if (!in.ok()) return;
    const double revolutions = strength::basic_life(C, P);
    out["revolutions"] = revolutions;
    if (speed > 0) out["hours"] = strength::life_hours(revolutions, speed);
  });
  registry.add("life.equivalent_load", "Load that stands for a cyclic force, exponent 10/3",
               [](Arguments& in, Json& out) {
                 const std::vector<double> forces = in.numbers("forces", Quantity::force, kNotNegative);
                 const std::vector<double> weights = in.numbers_if_given("weights", Quantity::number, kNotNegative);
                 not_empty(in, "forces", forces);
                 if (!weights.empty()) same_size(in, "weights", weights.size(), forces.size());
                 if (!in.ok()) return;
                 out["P"] = strength::equivalent_load(forces, weights);
               });
  registry.add("life.duty_equivalent", "Load and speed that stand for a duty in the basic life",
               [](Arguments& in, Json& out) {
                 const std::vector<double> loads = in.numbers("loads", Quantity::force, kNotNegative);
                 const std::vector<double> speeds = in.numbers("speeds", Quantity::angular_speed, kNotNegative);
                 const std::vector<double> shares = in.numbers("time_shares", Quantity::share, kNotNegative);
                 not_empty(in, "loads", loads);
                 same_size(in, "speeds", speeds.size(), loads.size());
                 same_size(in, "time_shares", shares.size(), loads.size());
                 if (!in.ok()) return;
                 const strength::DutyEquivalent duty = strength::duty_equivalent(loads, speeds, shares);
                 out["P"] = duty.load;
                 out["mean_speed"] = duty.mean_speed;
               });
  registry.add("life.spectrum_life", "Life of a duty from the life in each block (Palmgren-Miner)",
               [](Arguments& in, Json& out) {
                 std::vector<double> shares, lives;
                 for (Arguments& block : in.records("blocks")) {
                   shares.push_back(block.number("time_share", Quantity::share, kNotNegative));
                   lives.push_back(block.number("hours", Quantity::number, kPositive));
                   in.absorb(block);
                 }
                 if (!in.ok()) return;
                 out["hours"] = strength::spectrum_life(shares, lives);
               });
  registry.add("life.roller_fc", "Factor f_c of a radial roller bearing", [](Arguments& in, Json& out) {
    const double pitch = in.number("pitch_diameter", Quantity::length, kPositive);
    const double diameter = in.number("roller_diameter", Quantity::length, kPositive);
    if (in.ok() && diameter >= pitch) in.refuse("roller_diameter", "must be smaller than the pitch diameter");
    if (!in.ok()) return;
    out["f_c"] = strength::roller_fc(diameter, pitch);
  });
  registry.add("life.roller_capacity", "Ratings C, C_0 and C_u of a single-row radial roller bearing",
               [](Arguments& in, Json& out) {
                 strength::RollerBearingGeometry bearing;
                 bearing.rollers = in.count("rollers", {1, 10000});
                 bearing.roller_diameter = in.number("roller_diameter", Quantity::length, kPositive);
                 bearing.roller_length = in.number("roller_length", Quantity::length, kPositive);
                 bearing.pitch_diameter = in.number("pitch_diameter", Quantity::length, kPositive);
                 if (in.ok() && bearing.roller_diameter >= bearing.pitch_diameter)
                   in.refuse("roller_diameter", "must be smaller than the pitch diameter");
                 if (!in.ok()) return;
                 const strength::BearingRating rating = strength::roller_rating(bearing);
                 out["C"] = rating.C;
                 out["C_0"] = rating.C_0;
                 out["C_u"] = rating.C_u;
               });
  registry.add("life.a1", "Life factor for reliability", [](Arguments& in, Json& out) {
    const double reliability = in.number("reliability", Quantity::share, kReliability);
    if (!in.ok()) return;
    out["a1"] = strength::reliability_factor(reliability);
  });
  registry.add("life.a_iso_roller", "Life modification factor of a radial roller bearing",
               [](Arguments& in, Json& out) {
                 const double kappa = in.number("kappa", Quantity::number, kPositive);
                 const double contamination = in.number("contamination", Quantity::number, kContamination);
                 const double limit = in.number("fatigue_limit_load", Quantity::force, kPositive);
                 const double load = in.number("load", Quantity::force, kPositive);
                 if (!in.ok()) return;
                 const Result<double> factor = strength::life_factor_roller(kappa, contamination * limit / load);
                 if (!factor) return in.refuse(factor.errors());
                 out["a_iso"] = *factor;
               });
  registry.add("life.modified_life", "Modified rating life of a radial roller bearing in hours",
               [](Arguments& in, Json& out) {
                 const double C = in.number("C", Quantity::force, kPositive);
                 const double P = in.number("P", Quantity::force, kPositive);
                 const double speed = in.number("speed", Quantity::angular_speed, kPositive);
                 const double reliability = in.number("reliability", Quantity::share, kReliability);
                 const double kappa = in.number("kappa", Quantity::number, kPositive);
                 const double contamination = in.number("contamination", Quantity::number, kContamination);
                 const double C_u = in.number("C_u", Quantity::force, kPositive);
                 if (!in.ok()) return;
                 const Result<double> factor = strength::life_factor_roller(kappa, contamination * C_u / P);
                 if (!factor) return in.refuse(factor.errors());
                 const double hours = strength::life_hours(strength::basic_life(C, P), speed);
                 out["hours"] = strength::reliability_factor(reliability) * *factor * hours;
                 out["a_iso"] = *factor;
               });
}

void add_line_calls(Registry& registry) {
  registry.add("life.hertz_line", "Hertz pressure and half width of a line contact of two steel bodies",
               [](Arguments& in, Json& out) {
                 const double force = in.number("force", Quantity::force, kNotNegative);
                 const double length = in.number("length", Quantity::length, kPositive);
                 const double rho_sum = in.number("rho_sum", Quantity::number, kPositive);
                 if (!in.ok()) return;
                 const double modulus = contact::contact_modulus({}, {});
                 out["pressure"] = contact::hertz_pressure(force / length, 1 / rho_sum, modulus);
                 out["half_width"] = contact::hertz_half_width(force / length, 1 / rho_sum, modulus);
               });
  registry.add("life.line_capacity", "Load that a line-contact track survives for a million revolutions",
               [](Arguments& in, Json& out) {
                 strength::LineTrack track;
                 track.curvature_sum = in.number("curvature_sum", Quantity::number, kPositive);
                 track.length = in.number("length", Quantity::length, kPositive);
                 track.track_length = in.number("track_length", Quantity::length, kPositive);
                 track.passes_per_revolution = in.number("passes_per_revolution", Quantity::number, kPositive);
                 track.material = in.number_or("material", Quantity::number, track.material, kPositive);
                 if (!in.ok()) return;
                 out["Q_c"] = strength::line_capacity(track);
               });
  using TrackLife = double (*)(std::span<const double>, std::span<const double>);
  const auto add_track = [&](std::string name, std::string help, TrackLife life) {
    registry.add(std::move(name), std::move(help), [life](Arguments& in, Json& out) {
      const std::vector<double> loads = in.numbers("loads", Quantity::force, kNotNegative);
      const std::vector<double> capacities = in.numbers("capacities", Quantity::force, kPositive);
      not_empty(in, "loads", loads);
      same_size(in, "capacities", capacities.size(), loads.size());
      if (!in.ok()) return;
      out["millions"] = life(loads, capacities);
    });
  };
  add_track("life.life_fixed_load_track", "Life of a track whose points always see their own load",
            strength::fixed_load_track_life);
  add_track("life.life_mixed_load_track", "Life of a track whose points see all loads in turn",
            strength::mixed_load_track_life);
  registry.add("life.contact_limit_ratio", "e_C C_u/P of a line contact by its pressure", [](Arguments& in, Json& out) {
    const double pressure = in.number("pressure", Quantity::pressure, kPositive);
    const double contamination = in.number("contamination", Quantity::number, kContamination);
    if (!in.ok()) return;
    out["ratio"] = strength::contact_limit_ratio(pressure, contamination);
  });
  registry.add("life.static_safety", "Static safety of a line contact by its pressure", [](Arguments& in, Json& out) {
    const double pressure = in.number("pressure", Quantity::pressure, kPositive);
    if (!in.ok()) return;
    out["s_0"] = strength::static_safety(pressure);
  });
  registry.add("life.lobe_ring_life",
               "Life of the lobes and of a ring roller, rigid equal-stiffness forces on one disc",
               [](Arguments& in, Json& out) {
                 mechanism::StageGeometry stage;
                 stage.lobes = in.count("lobes", {2, 1000});
                 stage.pitch_radius = in.number("pitch_radius", Quantity::length, kPositive);
                 stage.roller_radius = in.number("roller_radius", Quantity::length, kPositive);
                 stage.eccentricity = in.number("eccentricity", Quantity::length, kPositive);
                 stage.width = in.number("width", Quantity::length, kPositive);
                 const double torque = in.number("torque", Quantity::torque, kPositive);
                 if (in.ok() && stage.shortening() >= 1)
                   in.refuse("eccentricity", "must be smaller than pitch_radius / (lobes + 1)");
                 if (in.ok() && stage.roller_radius >= mechanism::roller_radius_limit(stage))
                   in.refuse("roller_radius", "the flank would be undercut");
                 if (!in.ok()) return;
                 const contact::CycleForces cycle = contact::equal_stiffness_cycle(stage, torque, 200);
                 const strength::LobeLife life = strength::lobe_life(stage, cycle.flank);
                 out["profile_length"] = life.profile_length;
                 out["passes_disc"] = life.passes_disc;
                 out["disc"] = life.disc;
                 out["roller_free"] = life.roller_free;
                 out["roller_fixed"] = strength::fixed_roller_life(stage, cycle.flank);
               });
  registry.add("life.output_pin_life", "Life of one hole and one sleeve of the output pins, rigid forces on one disc",
               [](Arguments& in, Json& out) {
                 mechanism::StageGeometry stage;
                 stage.pins = in.count("pins", {1, 1000});
                 stage.pin_circle_radius = in.number("pin_circle_radius", Quantity::length, kPositive);
                 stage.pin_radius = in.number("sleeve_radius", Quantity::length, kPositive);
                 const double hole_radius = in.number("hole_radius", Quantity::length, kPositive);
                 stage.hole_clearance = hole_radius - stage.pin_radius;
                 stage.lobes = in.count("lobes", {2, 1000});
                 stage.width = in.number("width", Quantity::length, kPositive);
                 const double torque = in.number("torque", Quantity::torque, kPositive);
                 if (in.ok() && hole_radius <= stage.pin_radius)
                   in.refuse("hole_radius", "must be larger than the radius of the sleeve");
                 if (!in.ok()) return;
                 const strength::RigidPinLife result = strength::rigid_output_pin_life(stage, torque);
                 out["Q_max"] = result.Q_max;
                 out["hole"] = result.life.hole;
                 out["sleeve"] = result.life.sleeve;
               });
}

void add_system_calls(Registry& registry) {
  registry.add("life.reliability", "Chance that all parts survive a time (Weibull slope 9/8)",
               [](Arguments& in, Json& out) {
                 const double time = in.number("time", Quantity::number, kNotNegative);
                 const std::vector<double> lives = in.numbers("lives", Quantity::number, kPositive);
                 not_empty(in, "lives", lives);
                 if (!in.ok()) return;
                 std::vector<strength::SystemPart> parts;
                 for (const double life : lives) parts.push_back({life});
                 out["reliability"] = strength::system_reliability(time, parts);
               });
  registry.add("life.system_life", "Life of all parts together (Weibull slope 9/8)", [](Arguments& in, Json& out) {
    const std::vector<double> lives = in.numbers("lives", Quantity::number, kPositive);
    not_empty(in, "lives", lives);
    if (!in.ok()) return;
    std::vector<strength::SystemPart> parts;
    for (const double life : lives) parts.push_back({life});
    out["L10"] = strength::system_life(parts);
  });
  registry.add("life.system_life_mixed", "Life of parts with different Weibull slopes together",
               [](Arguments& in, Json& out) {
                 std::vector<strength::SystemPart> parts;
                 for (Arguments& part : in.records("parts")) {
                   strength::SystemPart one;
                   one.L10 = part.number("L10", Quantity::number, kPositive);
                   one.weibull = part.number_or("weibull", Quantity::number, one.weibull, kPositive);
                   one.count = part.number_or("count", Quantity::number, one.count, kPositive);
                   parts.push_back(one);
                   in.absorb(part);
                 }
                 if (!in.ok()) return;
                 out["L10"] = strength::system_life(parts);
               });
}

}  // namespace

void add_life_calls(Registry& registry) {
  add_bearing_calls(registry);
  add_line_calls(registry);
  add_system_calls(registry);
}

}  // namespace lobewise::api
