#include "engine/evidence/heat_working.h"

#include <algorithm>

#include "engine/base/formula/record.h"
#include "engine/evidence/service_factor.h"
#include "engine/heat/convection_terms.h"

namespace lobewise::evidence {
namespace {

using drive::Drive;
using formula::input;
using formula::named;
using formula::Term;

constexpr const char* kHeat = "derived, docs/theory/heat.md";
/// What is left of a balance, as a share of the losses.
constexpr double kCloses = 1e-6;

/// Power lost on the duty at the temperature of the lubricant.
Term record_losses(const Drive& drive, const Evaluation& e, double oil_temperature, Working& working) {
  std::vector<double> shares, losses;
  for (const enquiry::Block& block : drive.requirement.duty) {
    shares.push_back(block.time_share);
    losses.push_back(drive::running_losses(drive.build, drive.tables, drive.oil, drive.running(block, e.coefficients),
                                           oil_temperature, e.coefficients)
                         .places.total());
  }
  const Term running = sum(formula::inputs("t_k", "shares of the running time", shares, Quantity::share) *
                           formula::inputs("P_k", "losses in them at T_oil", losses, Quantity::power));
  const auto& cycle = drive.requirement.intermittent;
  Term mean = running;
  if (cycle) {
    const Term run = input("t_run", "running", cycle->first, Quantity::duration);
    mean = run / (run + input("t_rest", "resting", cycle->second, Quantity::duration)) * running;
  }
  return formula::record(working, "P", "power lost on the duty, averaged", Quantity::power, mean,
                         "derived, docs/theory/losses.md");
}

/// Surroundings and body of a housing under their symbols.
struct Shell {
  explicit Shell(const heat::Housing& body);
  /// Heat that its outer surface gives to the air, and by radiation, at a temperature.
  [[nodiscard]] formula::Term convection(const formula::Term& surface) const;
  [[nodiscard]] formula::Term radiation(const formula::Term& surface) const;

  const heat::Housing& housing;
  formula::Term ambient, area;
};

Shell::Shell(const heat::Housing& body)
    : housing(body),
      ambient(input("T_a", "surroundings", body.ambient_temperature, Quantity::temperature)),
      area(input("A", "outer area", body.area, Quantity::area)) {}

Term Shell::convection(const Term& surface) const {
  const Term h =
      heat::heat_transfer(input("D", "diameter of the cylinder that stands for it", housing.diameter, Quantity::length),
                          surface, ambient, input("v", "air speed", housing.air_speed, Quantity::speed),
                          input("H", "altitude", housing.altitude, Quantity::length));
  return input("f", "fins", housing.fin_factor) * h * area * (surface - ambient);
}

Term Shell::radiation(const Term& surface) const {
  return heat::radiation_terms(input("eps", "emissivity", housing.emissivity),
                               input("sigma", "Stefan-Boltzmann constant, W/(m2 K4)", kStefanBoltzmann), area, surface,
                               ambient);
}

/// Temperature of the outer surface: of the housing, or of the dust on it.
Term record_surface(const Shell& shell, const heat::SteadyState& warm, const Term& housing_temperature,
                    Working& working) {
  const heat::Housing& housing = shell.housing;
  if (!(housing.dust_resistance > 0)) return housing_temperature;
  const double shed = warm.flow.convection + warm.flow.radiation;
  const double surface = warm.housing_temperature - housing.dust_resistance * shed / housing.area;
  const Term T_d = input("T_d", "outside of the layer of dust", surface, Quantity::temperature);
  const Term through =
      shell.area * (housing_temperature - T_d) / input("R", "layer of dust (m2 K/W)", housing.dust_resistance);
  formula::record_solved(working, "T_d", "outside of the layer of dust: what passes through it is given off",
                         Quantity::temperature, surface, through - shell.convection(T_d) - shell.radiation(T_d),
                         kCloses * std::max(1.0, std::abs(shed)), heat::kDustLayer.source);
  return T_d;
}

}  // namespace

void record_heat_balance(const Drive& drive, const Evaluation& e, Working& working) {
  const heat::SteadyState& warm = *e.warm;
  const double ambient = drive.requirement.ambient_high;
  const heat::Housing housing = drive::housing_of(drive, ambient, e.coefficients);
  const Shell shell{housing};
  const Term losses = record_losses(drive, e, warm.oil_temperature, working);
  const Term oil = input("T_oil", "lubricant", warm.oil_temperature, Quantity::temperature);
  const Term to_housing = input("G_oil", "oil to housing", housing.oil_conductance, Quantity::thermal_conductance);
  const Term T_s = formula::record(working, "T_s", "housing", Quantity::temperature, oil - losses / to_housing, kHeat);
  const Term surface = record_surface(shell, warm, T_s, working);
  const Term convection =
      formula::record(working, "Q_conv",
                      drive.requirement.dusty ? "convection of the housing, fins half filled, under a layer of dust"
                                              : "convection of the housing, fins counted",
                      Quantity::power, shell.convection(surface),
                      "[churchill1975] [churchill1977] as in public code; combination common practice, no source");
  const Term radiation = formula::record(working, "Q_rad", "radiation", Quantity::power, shell.radiation(surface),
                                         "[codata2018] Stefan-Boltzmann law");
  const Term counterpart = formula::record(
      working, "T_f", "base and motor's flange in one: the base has the surroundings' temperature, the motor its own",
      Quantity::temperature,
      heat::counterpart_temperature(
          shell.ambient,
          input("q", "share of the conductance that leads into the motor", heat::kMotorShare.nominal, Quantity::share),
          input("dT_m", "rise of the motor's flange at rated load",
                heat::kMotorFlangeRise.nominal * e.coefficients.motor_rise_factor, Quantity::temperature_difference),
          input("x", "losses of the motor over those at its rating", drive::motor_loss_ratio(drive, e.coefficients))),
      heat::kMotorFlangeRise.source);
  const Term base = formula::record(
      working, "Q_base", "heat led into base and motor's flange", Quantity::power,
      input("G", "conductance", housing.flange_conductance, Quantity::thermal_conductance) * (T_s - counterpart),
      "common practice, no source");
  Term given = convection + radiation + base;
  if (drive.requirement.sun) {
    const range::Housing& body = drive.build.frame().housing;
    given = given - formula::record(working, "Q_sun", "heat taken up in the sun", Quantity::power,
                                    input("a_s", "share that is taken up", heat::kSunAbsorptivity.nominal) *
                                        input("G_s", "full sun (W/m2)", heat::kSunIrradiance.nominal) *
                                        input("D", "its diameter", body.diameter, Quantity::length) *
                                        input("l", "its length", body.length, Quantity::length),
                                    heat::kSunAbsorptivity.source);
  }
  formula::record_solved(working, "T_oil", "lubricant: losses and heat given off are equal", Quantity::temperature,
                         warm.oil_temperature, max(abs(given - losses), abs(to_housing * (oil - T_s) - losses)),
                         kCloses * warm.loss, kHeat);
}

void record_strength(const Context& context, Working& working) {
  const Drive& drive = context.drive;
  const double torque = drive.requirement.torque, found = context.strength_torque;
  const char* meaning = "largest torque, with its pull on the shaft, at which contact, life and shaft still hold";
  const char* source = "derived, docs/theory/rating.md";
  const auto margin = [&](double factor) {
    return margin_at_factor(drive, context.nominal.coefficients, factor, context.nominal.oil_temperature);
  };
  const Term T = input("T", "working torque", torque, Quantity::torque);
  const double step = kStrengthSearch.most / kStrengthSearch.steps;
  if (found < step * torque) {
    formula::record(working, "T_strength", meaning, Quantity::torque,
                    choose(
                        less(input("m_0", "tightest margin of them at next to no torque", margin(step)), 0),
                        [] { return Term(0.0); }, [&] { return T; }),
                    source);
    return;
  }
  if (found > (kStrengthSearch.most - 1.5 * step) * torque) {
    formula::record(working, "T_strength", meaning, Quantity::torque,
                    T * input("n_e", "times the working torque, where the search ends", kStrengthSearch.most) *
                        (1 - 1 / input("n_s", "steps of the search", kStrengthSearch.steps)),
                    source);
    return;
  }
  constexpr double kBeside = 1e-3;
  const double below = found * (1 - kBeside), above = found * (1 + kBeside);
  const Term T_strength = input("T_strength", "the solution", found, Quantity::torque);
  const Term m_below = input("m_a", "tightest margin of contact, life and shaft at T_a", margin(below / torque));
  const Term m_above = input("m_b", "the same at T_b", margin(above / torque));
  const Term straight = lerp(input("T_a", "torque just below", below, Quantity::torque),
                             input("T_b", "torque just above", above, Quantity::torque), m_below / (m_below - m_above));
  formula::record_solved(working, "T_strength",
                         (std::string(meaning) + ": the tightest margin passes zero there").c_str(), Quantity::torque,
                         found, formula::max({abs(straight / T_strength - 1), max(0, -m_below), max(0, m_above)}),
                         kBeside, source);
}

void record_heat_torque(const Context& context, const std::optional<heat::ThermalTorque>& capacity, Working& working) {
  const Drive& drive = context.drive;
  const drive::Coefficients& c = context.nominal.coefficients;
  const double ambient = drive.requirement.ambient_high, torque = drive.requirement.torque;
  const char* meaning = "torque that heat allows for ever at full speed, up to where the search ends";
  const char* source = "derived, docs/theory/heat.md; limits common practice, no source";
  const double found = capacity ? capacity->torque : 0;
  if (capacity && !capacity->limited) {
    formula::record(
        working, "T_heat", meaning, Quantity::torque,
        max(4 * input("T", "working torque", torque, Quantity::torque),
            2 * input("T_strength", "largest torque that strength carries", context.strength_torque, Quantity::torque)),
        source);
    return;
  }
  const Term limit = input("T_lim", "limit of lubricant and seals", drive::oil_limit(drive), Quantity::temperature);
  if (found <= 0) {
    // Without load already more is lost at the limit than the housing gives off.
    const drive::Running idle = drive.running({1, 0.0, drive.requirement.speed}, c);
    const double lost =
        drive::running_losses(drive.build, drive.tables, drive.oil, idle, drive::oil_limit(drive), c).places.total();
    const heat::Housing housing = drive::housing_of(drive, ambient, c);
    const double given = heat::heat_flow(housing, drive::oil_limit(drive) - lost / housing.oil_conductance).net();
    formula::record(
        working, "T_heat", meaning, Quantity::torque,
        choose(
            less(input("Q_lim", "heat given off with the lubricant at its limit", given, Quantity::power),
                 input("P_0", "power lost then without load", lost, Quantity::power)),
            [] { return Term(0.0); }, [&] { return input("T", "working torque", torque, Quantity::torque); }),
        source);
    return;
  }
  const heat::SteadyState& state = capacity->state;
  const Term T_heat = input("T_heat", "the solution", found, Quantity::torque);
  const double power = found * drive.output_speed;
  const Term losses =
      T_heat * input("w_2", "speed of the output", drive.output_speed, Quantity::angular_speed) *
      (1 / input("eta_h", "efficiency at that torque and temperature", power / (power + state.loss), Quantity::share) -
       1);
  const Term given =
      input("Q_h", "convection, radiation and conduction less sun then", state.flow.net(), Quantity::power);
  const Term oil = input("T_oil", "lubricant then", state.oil_temperature, Quantity::temperature);
  const Term led = input("G_oil", "oil to housing", drive::housing_of(drive, ambient, c).oil_conductance,
                         Quantity::thermal_conductance) *
                   (oil - input("T_s", "housing then", state.housing_temperature, Quantity::temperature));
  formula::record_solved(working, "T_heat", meaning, Quantity::torque, found,
                         formula::max({abs(given / losses - 1), abs(led / losses - 1), max(0, oil / limit - 1)}),
                         kCloses, std::string(source) + "; by halving: the largest with a balance below the limit");
}

}  // namespace lobewise::evidence
