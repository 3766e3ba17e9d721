#include "engine/contact/lubricant.h"

#include <array>
#include <cmath>
#include <string>

#include "engine/base/constants.h"

namespace lobewise::contact {
namespace {

constexpr double kMm2 = 1e-6;  // m2/s in a mm2/s
// ASTM D2270, from memory.
constexpr std::array<IndexRow, 16> kIndexRows{{
    {3.8, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
    {4.4, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
    {5.0, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
    {6.4, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
    {7.0, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
    {7.7, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
    {9.0, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
    {12.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
    {15.0, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
    {18.0, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
    {22.0, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
    {28.0, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
    {40.0, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
    {55.0, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
    {70.0, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940},
    {HUGE_VAL, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947},
}};

}  // namespace

ViscosityCurve viscosity_curve(double nu_40, double nu_100) {
  const double slope = curve_slope<double>(nu_40, nu_100);
  return {curve_height<double>(nu_40, slope), slope};
}

double kinematic_viscosity(const ViscosityCurve& curve, double temperature) {
  return viscosity_on<double>(curve.a, curve.b, temperature);
}

double kinematic_viscosity(double nu_40, double nu_100, double temperature) {
  return kinematic_viscosity(viscosity_curve(nu_40, nu_100), temperature);
}

double viscosity_fall(const ViscosityCurve& curve, double temperature) {
  const double log_sum = std::pow(10.0, curve.a - curve.b * std::log10(temperature)) * std::log(10.0);
  const double sum = std::exp(log_sum);  // nu + 0.7
  return curve.b * log_sum / temperature * sum / (sum - 0.7);
}

const IndexRow& index_row(double nu_100) {
  std::size_t i = 0;
  while (nu_100 / kMm2 > kIndexRows[i].end) ++i;
  return kIndexRows[i];
}

double viscosity_index(double nu_40, double nu_100) { return index_by_row<double>(nu_40, nu_100, index_row(nu_100)); }

Result<double> nu_100_from_index(double nu_40, double index) {
  double low = 2 * kMm2, high = nu_40;
  if (!(high > low) || !(viscosity_index(nu_40, low) <= index) || !(viscosity_index(nu_40, high) >= index)) {
    return model_error("VI", std::to_string(index),
                       "No viscosity at 100 C between 2 mm2/s and the viscosity at 40 C gives this viscosity index.");
  }
  // 60 halvings leave nothing of the interval.
  for (int i = 0; i < 60; ++i) {
    const double middle = 0.5 * (low + high);
    (viscosity_index(nu_40, middle) < index ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

double reference_viscosity(double speed, double pitch_diameter) {
  return reference_viscosity_of<double>(speed, pitch_diameter);
}

double viscosity_ratio(double nu, double speed, double pitch_diameter) {
  return nu / reference_viscosity(speed, pitch_diameter);
}

double speed_factor(double speed, double mean_diameter) { return speed_factor_of<double>(speed, mean_diameter); }

}  // namespace lobewise::contact
