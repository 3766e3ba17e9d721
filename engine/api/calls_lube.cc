// lube.*: properties of the lubricant and the film between lobes and rollers.
#include "engine/api/calls.h"
#include "engine/contact/film.h"
#include "engine/contact/lubricant.h"

namespace lobewise::api {
namespace {

constexpr model::Limits kViscosity{1e-7, 1};        // m2/s
constexpr model::Limits kIndexViscosity{2e-6, 1};   // m2/s, range of the viscosity index
constexpr model::Limits kOilTemperature{150, 700};  // K

}  // namespace

void add_lube_calls(Registry& registry) {
  registry.add("lube.viscosity", "Kinematic viscosity at a temperature from the values at 40 and 100 C",
               [](Arguments& in, Json& out) {
                 const double nu_40 = in.number("nu_40", Quantity::kinematic_viscosity, {1e-6, 1});
                 const double nu_100 = in.number("nu_100", Quantity::kinematic_viscosity, {5e-7, 1});
                 const double temperature = in.number("temperature", Quantity::temperature, kOilTemperature);
                 if (in.ok() && nu_100 >= nu_40) in.refuse("nu_100", "must be smaller than the viscosity at 40 C");
                 if (!in.ok()) return;
                 out["nu"] = contact::kinematic_viscosity(nu_40, nu_100, temperature);
               });
  registry.add("lube.viscosity_index", "Viscosity index from the viscosities at 40 and 100 C",
               [](Arguments& in, Json& out) {
                 const double nu_40 = in.number("nu_40", Quantity::kinematic_viscosity, kIndexViscosity);
                 const double nu_100 = in.number("nu_100", Quantity::kinematic_viscosity, kIndexViscosity);
                 if (in.ok() && nu_100 >= nu_40) in.refuse("nu_100", "must be smaller than the viscosity at 40 C");
                 if (!in.ok()) return;
                 out["VI"] = contact::viscosity_index(nu_40, nu_100);
               });
  registry.add("lube.nu100_from_vi", "Viscosity at 100 C from the viscosity at 40 C and the viscosity index",
               [](Arguments& in, Json& out) {
                 const double nu_40 = in.number("nu_40", Quantity::kinematic_viscosity, kIndexViscosity);
                 const double index = in.number("VI", Quantity::number);
                 if (!in.ok()) return;
                 const Result<double> nu_100 = contact::nu_100_from_index(nu_40, index);
                 if (!nu_100) return in.refuse(nu_100.errors());
                 out["nu_100"] = *nu_100;
               });
  registry.add("lube.oil_density", "Density of an oil at a temperature from its density at 15 C",
               [](Arguments& in, Json& out) {
                 const double density_15 = in.number("density_15", Quantity::density, kPositive);
                 const double temperature = in.number("temperature", Quantity::temperature, kOilTemperature);
                 if (!in.ok()) return;
                 out["density"] = contact::oil_density(density_15, temperature);
               });
  registry.add("lube.reference_viscosity", "Viscosity nu_1 that a rolling bearing asks for at its speed",
               [](Arguments& in, Json& out) {
                 const double speed = in.number("speed", Quantity::angular_speed, kPositive);
                 const double pitch = in.number("pitch_diameter", Quantity::length, kPositive);
                 if (!in.ok()) return;
                 out["nu_1"] = contact::reference_viscosity(speed, pitch);
               });
  registry.add("lube.kappa", "Viscosity ratio of a rolling bearing", [](Arguments& in, Json& out) {
    const double nu = in.number("nu", Quantity::kinematic_viscosity, kViscosity);
    const double speed = in.number("speed", Quantity::angular_speed, kPositive);
    const double pitch = in.number("pitch_diameter", Quantity::length, kPositive);
    if (!in.ok()) return;
    out["kappa"] = contact::viscosity_ratio(nu, speed, pitch);
  });
  registry.add("lube.speed_factor", "Speed factor n d_m in mm/min", [](Arguments& in, Json& out) {
    const double speed = in.number("speed", Quantity::angular_speed, kNotNegative);
    const double pitch = in.number("pitch_diameter", Quantity::length, kPositive);
    if (!in.ok()) return;
    out["n_dm"] = contact::speed_factor(speed, pitch);
  });
  registry.add("lube.line_film", "Film thickness of a line contact and the viscosity ratio it stands for",
               [](Arguments& in, Json& out) {
                 contact::FilmInput film;
                 film.entrainment_speed = in.number("entrainment_speed", Quantity::speed, kNotNegative);
                 film.radius = in.number("radius", Quantity::length, kPositive);
                 film.modulus_pair = in.number("modulus_pair", Quantity::pressure, kPositive);
                 film.pressure_viscosity = in.number("pressure_viscosity", Quantity::number, kPositive);
                 film.dynamic_viscosity = in.number("dynamic_viscosity", Quantity::dynamic_viscosity, kPositive);
                 film.load_per_length = in.number("load_per_length", Quantity::number, kPositive);
                 const double roughness = in.number("roughness", Quantity::length, kPositive);
                 if (!in.ok()) return;
                 const double thickness = contact::line_film(film);
                 out["h_min"] = thickness;
                 out["kappa"] = contact::viscosity_ratio_of_film(thickness / roughness);
               });
}

}  // namespace lobewise::api
