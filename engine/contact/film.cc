#include "engine/contact/film.h"

#include <cmath>

namespace lobewise::contact {

double line_film(const FilmInput& c) {
  const double scale = c.modulus_pair * c.radius;
  return 2.65 * c.radius * std::pow(c.dynamic_viscosity * c.entrainment_speed / scale, 0.7) *
         std::pow(c.pressure_viscosity * c.modulus_pair, 0.54) * std::pow(c.load_per_length / scale, -0.13);
}

double viscosity_ratio_of_film(double lambda_ratio) { return std::pow(lambda_ratio, 1.3); }

}  // namespace lobewise::contact
