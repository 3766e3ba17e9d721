#include "engine/contact/elastic/loads.h"

#include <cmath>

namespace lobewise::contact::elastic {

BoundaryQuadrature::BoundaryQuadrature(const Mesh& mesh) {
  // Five-point Gauss-Legendre rule (Abramowitz & Stegun table 25.4, from memory):
  // x = 0, +-sqrt(5 -+ 2 sqrt(10/7))/3, w = 128/225, (322 +- 13 sqrt 70)/900.
  const double near = std::sqrt(5 - 2 * std::sqrt(10.0 / 7)) / 3, far = std::sqrt(5 + 2 * std::sqrt(10.0 / 7)) / 3;
  const double heavy = (322 + 13 * std::sqrt(70.0)) / 900, light = (322 - 13 * std::sqrt(70.0)) / 900;
  const std::array<double, 5> x = {-far, -near, 0, near, far};
  const std::array<double, 5> w = {light, heavy, 128.0 / 225, heavy, light};
  for (const Loop& loop : mesh.loops) {
    std::vector<Sample> samples;
    for (int edge = 0; edge < loop.edges(); ++edge) {
      const std::array<int, 3> nodes = {loop.nodes[2 * edge], loop.nodes[2 * edge + 1],
                                        loop.nodes[(2 * edge + 2) % static_cast<int>(loop.nodes.size())]};
      for (std::size_t g = 0; g < x.size(); ++g) {
        const auto shape = edge_shape(x[g]), slope = edge_slope(x[g]);
        Vec2 point, tangent;
        for (std::size_t a = 0; a < 3; ++a) {
          point += shape[a] * mesh.nodes[nodes[a]];
          tangent += slope[a] * mesh.nodes[nodes[a]];
        }
        samples.push_back({point, (-loop.outward * w[g]) * mechanism::quarter_turn(tangent), nodes, shape});
      }
    }
    samples_.push_back(std::move(samples));
  }
}

template <class Lanes>
[[gnu::always_inline]] inline void BoundaryQuadrature::add(
    const std::array<SingularField::Source<double>, kBlock>& loads, NodeBlock& forces) const {
  constexpr int kLanes = kBlock / kParts<Lanes>;
  std::array<SingularField::Source<Lanes>, kParts<Lanes>> sources;
  for (int k = 0; k < kBlock; ++k) {
    auto& to = sources[k / kLanes];
    const auto& from = loads[k];
    to.point_x[k % kLanes] = from.point_x;
    to.point_y[k % kLanes] = from.point_y;
    to.normal_x[k % kLanes] = from.normal_x;
    to.normal_y[k % kLanes] = from.normal_y;
    to.centre_x[k % kLanes] = from.centre_x;
    to.centre_y[k % kLanes] = from.centre_y;
    to.dislocation[k % kLanes] = from.dislocation;
  }
  for (const auto& loop : samples_)
    for (const Sample& sample : loop)
      for (int part = 0; part < kParts<Lanes>; ++part) {
        Lanes t_x{}, t_y{};
        add_traction(sources[part], sample.point, sample.outward, t_x, t_y);
        for (std::size_t a = 0; a < 3; ++a) {
          lanes<Lanes>(forces.at(2 * sample.nodes[a]), 0)[part] -= sample.shape[a] * t_x;
          lanes<Lanes>(forces.at(2 * sample.nodes[a] + 1), 0)[part] -= sample.shape[a] * t_y;
        }
      }
}

#if defined(__x86_64__)
LOBEWISE_WIDE void BoundaryQuadrature::add_wide(const std::array<SingularField::Source<double>, kBlock>& loads,
                                                NodeBlock& forces) const {
  add<Quad>(loads, forces);
}
#endif

void BoundaryQuadrature::add_removed_tractions(std::span<const SingularField> fields, NodeBlock& forces) const {
  // A case that is not asked for repeats the first one without its forces.
  std::array<SingularField::Source<double>, kBlock> loads;
  for (std::size_t k = 0; k < loads.size(); ++k) {
    loads[k] = fields[k < fields.size() ? k : 0].source();
    if (k >= fields.size()) loads[k].normal_x = loads[k].normal_y = 0;
  }
#if defined(__x86_64__)
  if (has_wide()) return add_wide(loads, forces);
#endif
  add<Pair>(loads, forces);
}

Vec2 displacement_at(const Mesh& mesh, const NodeBlock& block, const EdgePoint& place, int load_case) {
  const Loop& loop = mesh.loops[place.loop];
  const int count = static_cast<int>(loop.nodes.size());
  const auto shape = edge_shape(place.s);
  Vec2 u;
  for (int a = 0; a < 3; ++a) {
    const std::size_t node = loop.nodes[(2 * place.edge + a) % count];
    u += shape[a] * Vec2{block.at(2 * node)[load_case], block.at(2 * node + 1)[load_case]};
  }
  return u;
}

}  // namespace lobewise::contact::elastic
