#include "engine/contact/elastic/seat.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"
#include "engine/contact/elastic/loads.h"

namespace lobewise::contact::elastic {
namespace {

using mechanism::dot;
using mechanism::unit;

constexpr int kSteps = 18;

/// Own displacement along the normal of unit loads at the given angles on the unit circle, u = -S on the held nodes.
std::vector<double> own_displacement(const Mesh& mesh, PlaneMaterial material, const std::vector<char>& held,
                                     const std::vector<double>& angles) {
  const PlaneBody body(mesh, material, held);
  const BoundaryQuadrature quadrature(mesh);
  NodeBlock block(mesh.nodes.size());
  std::vector<double> own;
  for (std::size_t first = 0; first < angles.size(); first += kBlock) {
    const int count = static_cast<int>(std::min<std::size_t>(kBlock, angles.size() - first));
    block.clear();
    std::vector<EdgePoint> places;
    std::vector<SingularField> fields;
    for (int k = 0; k < count; ++k) {
      const Vec2 e = unit(angles[first + k]);
      places.push_back(foot_on_loop(mesh, 0, edge_at(mesh, 0, e), e));
      fields.emplace_back(material, places[k].point, -e, 1.0);
    }
    quadrature.add_removed_tractions(fields, block);
    for (std::size_t node = 0; node < mesh.nodes.size(); ++node)
      for (int k = 0; held[2 * node] && k < count; ++k) {
        const Vec2 u = fields[k].displacement(mesh.nodes[node]);
        block.at(2 * node)[k] = -u.x;
        block.at(2 * node + 1)[k] = -u.y;
      }
    body.solve_boundary(block);
    for (int k = 0; k < count; ++k)
      own.push_back(dot(-unit(angles[first + k]), displacement_at(mesh, block, places[k], k)));
  }
  return own;
}

double depth_term(double modulus, double radius_over_depth) {
  return 2 * std::log(radius_over_depth) / (kPi * modulus);
}

}  // namespace

SeatedRoller::SeatedRoller(PlaneMaterial material) : modulus_(material.modulus) {
  // The seat's half circle is centred on the x axis; its ends at +-90 deg, where the stress is singular, get small
  // elements.
  const Mesh mesh = circle_mesh(0, 48, 6, 0.4);
  std::vector<char> held(2 * mesh.nodes.size(), 0);
  for (const int node : mesh.loops[0].nodes)
    if (mesh.nodes[node].x > -1e-9) held[2 * node] = held[2 * node + 1] = 1;
  std::vector<double> angles;
  for (int i = 0; i <= kSteps; ++i) angles.push_back(kPi + kLargestAngle * i / kSteps);
  values_ = own_displacement(mesh, material, held, angles);
}

double SeatedRoller::constant(double gamma, double radius_over_depth) const {
  // Four-point Lagrange interpolation; even in gamma.
  const double x = std::min(std::abs(gamma), kLargestAngle) / kLargestAngle * kSteps;
  const int first = std::min(static_cast<int>(x), kSteps - 2) - 1;
  double value = 0;
  for (int a = 0; a < 4; ++a) {
    double weight = 1;
    for (int b = 0; b < 4; ++b)
      if (b != a) weight *= (x - first - b) / (a - b);
    value += weight * values_[std::abs(first + a)];
  }
  return value + depth_term(modulus_, radius_over_depth);
}

double cored_pin_constant(PlaneMaterial material, double core_over_radius, double radius_over_depth) {
  const Mesh mesh = circle_mesh(core_over_radius, 48, 6, 0);
  std::vector<char> held(2 * mesh.nodes.size(), 0);
  for (const int node : mesh.loops[1].nodes) held[2 * node] = held[2 * node + 1] = 1;
  return own_displacement(mesh, material, held, {0.0})[0] + depth_term(material.modulus, radius_over_depth);
}

}  // namespace lobewise::contact::elastic
