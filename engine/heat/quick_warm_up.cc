#include "engine/heat/quick_warm_up.h"

#include <algorithm>
#include <cmath>

namespace lobewise::heat {
namespace {

constexpr double kStep = 1;          ///< of the oil [K]
constexpr double kLongest = 600;     ///< step [s]
constexpr double kSettled = 0.1;     ///< change in the longest step that counts as none [K]
constexpr std::size_t kMost = 300;   ///< steps
constexpr double kLinearRise = 20;   ///< of the housing over its surroundings, where its conductance is read [K]
constexpr double kLeastLoss = 1e-6;  ///< [W]

}  // namespace

LossCurve::LossCurve(FunctionRef<double(double)> loss, double from, double to)
    : from_(from), step_(std::max(1.0, (to - from) / (kNodes - 1))) {
  for (std::size_t i = 0; i < kNodes; ++i)
    logarithm_[i] = std::log(std::max(kLeastLoss, loss(from + step_ * static_cast<double>(i))));
}

double LossCurve::operator()(double temperature) const {
  const double at = (temperature - from_) / step_;
  const auto below = static_cast<std::size_t>(std::clamp(at, 0.0, static_cast<double>(kNodes - 2)));
  return std::exp(logarithm_[below] + (at - static_cast<double>(below)) * (logarithm_[below + 1] - logarithm_[below]));
}

std::vector<WarmUpPoint> quick_warm_up(const Housing& housing, const LossCurve& loss) {
  const double ambient = housing.ambient_temperature, G = housing.oil_conductance;
  const double at_rest = heat_flow(housing, ambient).net();  // below zero in the sun
  const double A = (heat_flow(housing, ambient + kLinearRise).net() - at_rest) / kLinearRise;
  std::vector<WarmUpPoint> out{{0, ambient, ambient}};
  out.reserve(64);
  while (out.size() < kMost) {
    const WarmUpPoint& now = out.back();
    const double power = loss(now.oil);
    const double rate = (power - G * (now.oil - now.housing)) / housing.oil_capacity;
    const double dt = std::min(kLongest, kStep / std::max(std::abs(rate), kStep / kLongest));
    // C_o (x - x0)/dt = P - G (x - y);  C_h (y - y0)/dt = G (x - y) - Q_0 - A (y - T_a)
    const double o = housing.oil_capacity / dt, h = housing.housing_capacity / dt;
    const double right_oil = o * now.oil + power, right_housing = h * now.housing - at_rest + A * ambient;
    const double determinant = (o + G) * (h + G + A) - G * G;
    const WarmUpPoint next{now.time + dt, ((h + G + A) * right_oil + G * right_housing) / determinant,
                           (G * right_oil + (o + G) * right_housing) / determinant};
    const bool settled =
        dt == kLongest && std::abs(next.oil - now.oil) < kSettled && std::abs(next.housing - now.housing) < kSettled;
    out.push_back(next);
    if (settled) break;
  }
  return out;
}

}  // namespace lobewise::heat
