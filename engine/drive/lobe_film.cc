#include "engine/drive/lobe_film.h"

#include "engine/contact/film.h"
#include "engine/contact/hertz.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::drive {
namespace {

double ratio(const range::Stage& stage, double radius, double entrainment, double force, const FilmOil& oil) {
  const contact::Elastic steel;
  contact::FilmInput film;
  film.entrainment_speed = entrainment;
  film.radius = radius;
  film.modulus_pair = 2 * contact::contact_modulus(steel, steel);
  film.pressure_viscosity = oil.pressure_viscosity;
  film.dynamic_viscosity = oil.eta;
  film.load_per_length = force / stage.geometry.width;
  return contact::line_film(film) / stage.profile_roughness;
}

}  // namespace

double lobe_film_ratio(const range::Stage& stage, const StageTable& table, double torque, double input_speed,
                       const FilmOil& oil) {
  const StageTable::Between around = table.between(torque);
  const contact::HardContact& hardest = (around.share < 0.5 ? *around.below : *around.above).hardest;
  return ratio(stage, hardest.radius, hardest.entrainment * input_speed, table.at(torque, &MeshLevel::lobe_force), oil);
}

double pin_film_ratio(const range::Stage& stage, const StageTable& table, double torque, double input_speed,
                      const FilmOil& oil) {
  const mechanism::StageGeometry& g = stage.geometry;
  const double hole = g.hole_radius();
  const double pin = stage.output_rollers == range::Carried::fixed ? g.pin_radius : hole;
  const double round = input_speed * mechanism::eccentric_bearing_speed(g);
  return ratio(stage, 1 / (1 / g.pin_radius - 1 / hole), 0.5 * (hole + pin) * round,
               table.at(torque, &MeshLevel::pin_force), oil);
}

double lobe_film_ratio(const Drive& drive, double oil_temperature, const Coefficients& c) {
  const range::Stage& stage = drive.build.last();
  const StageTable& table = *drive.tables.back();
  return lobe_film_ratio(stage, table, drive.requirement.torque * table.hardest_disc(),
                         drive.output_speed * stage.geometry.lobes,
                         {drive.oil.eta(oil_temperature, c.viscosity_factor), drive.oil.pressure_viscosity});
}

}  // namespace lobewise::drive
