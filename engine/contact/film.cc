#include "engine/contact/film.h"

namespace lobewise::contact {

double line_film(const FilmInput& c) {
  return line_film_of<double>(c.entrainment_speed, c.radius, c.modulus_pair, c.pressure_viscosity, c.dynamic_viscosity,
                              c.load_per_length);
}

}  // namespace lobewise::contact
