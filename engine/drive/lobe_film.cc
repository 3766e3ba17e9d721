#include "engine/drive/lobe_film.h"

#include "engine/contact/film.h"
#include "engine/contact/hertz.h"

namespace lobewise::drive {

double lobe_film_ratio(const Drive& drive, double oil_temperature, const Coefficients& c) {
  const range::Stage& stage = drive.build.last();
  const mechanism::StageGeometry& g = stage.geometry;
  const StageTable& table = *drive.tables.back();
  const double torque = drive.requirement.torque;
  const StageTable::Between around = table.between(torque);
  const MeshLevel& level = around.share < 0.5 ? *around.below : *around.above;
  const contact::Elastic steel;
  const contact::HardContact hardest =
      contact::hardest_lobe_contact(g, level.forces.flank, steel, stage.ring_rollers != range::Carried::fixed);
  contact::FilmInput film;
  film.entrainment_speed = hardest.entrainment * drive.output_speed * g.lobes;
  film.radius = hardest.radius;
  film.modulus_pair = 2 * contact::contact_modulus(steel, steel);
  film.pressure_viscosity = drive.oil.pressure_viscosity;
  film.dynamic_viscosity = drive.oil.eta(oil_temperature, c.viscosity_factor);
  film.load_per_length = table.at(torque, &MeshLevel::lobe_force) / g.width;
  return contact::line_film(film) / stage.profile_roughness;
}

}  // namespace lobewise::drive
