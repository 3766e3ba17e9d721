#include "engine/strength/disc_share.h"

#include <numeric>

#include "engine/base/constants.h"

namespace lobewise::strength {

double pin_compliance_at(double diameter, double lever, double length, PinSupport support, double modulus) {
  const double square = diameter * diameter;
  const double stiffness = modulus * kPi / 64 * square * square;
  const double cube = lever * lever * lever;
  return support == PinSupport::cantilever ? cube / (3 * stiffness)
                                           : cube * (4 * length - 3 * lever) / (12 * length * stiffness);
}

double pin_turn(double compliance, int pins, double pin_circle_radius) {
  return 4 * compliance / (pins * pin_circle_radius * pin_circle_radius);
}

std::vector<double> disc_shares(double mesh_compliance, const std::vector<double>& pin_compliance) {
  std::vector<double> shares;
  for (const double compliance : pin_compliance) shares.push_back(1 / (mesh_compliance + compliance));
  const double mean = std::accumulate(shares.begin(), shares.end(), 0.0) / static_cast<double>(shares.size());
  for (double& share : shares) share /= mean;
  return shares;
}

}  // namespace lobewise::strength
