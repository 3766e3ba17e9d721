#include "engine/contact/elastic/plane_body.h"

#include <Eigen/OrderingMethods>
#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>
#include <algorithm>
#include <array>
#include <cmath>

namespace lobewise::contact::elastic {
namespace {

using Sparse = Eigen::SparseMatrix<double, Eigen::ColMajor, int>;

/// Derivatives of the nine shape functions at (xi, eta); lattice order of `Mesh::elements`.
struct ShapeSlopes {
  std::array<double, 9> xi, eta;
};
ShapeSlopes slopes_at(double xi, double eta) {
  const auto a = edge_shape(xi), b = edge_shape(eta), da = edge_slope(xi), db = edge_slope(eta);
  ShapeSlopes slopes{};
  for (std::size_t j = 0; j < 3; ++j)
    for (std::size_t i = 0; i < 3; ++i) {
      slopes.xi[3 * j + i] = da[i] * b[j];
      slopes.eta[3 * j + i] = a[i] * db[j];
    }
  return slopes;
}

struct Jacobian {
  Vec2 xi, eta;
  [[nodiscard]] double determinant() const { return mechanism::cross(xi, eta); }
};
Jacobian jacobian(const Mesh& mesh, const std::array<int, 9>& element, const ShapeSlopes& slopes) {
  Jacobian j;
  for (std::size_t a = 0; a < 9; ++a) {
    j.xi += slopes.xi[a] * mesh.nodes[element[a]];
    j.eta += slopes.eta[a] * mesh.nodes[element[a]];
  }
  return j;
}

struct GaussPoint {
  ShapeSlopes slopes;
  double weight;
};
std::array<GaussPoint, 9> gauss_points() {
  // Three-point Gauss-Legendre rule (Abramowitz & Stegun table 25.4, from memory): 0 and +-sqrt(3/5), 8/9 and 5/9.
  const std::array<double, 3> x = {-std::sqrt(0.6), 0, std::sqrt(0.6)};
  const std::array<double, 3> w = {5.0 / 9, 8.0 / 9, 5.0 / 9};
  std::array<GaussPoint, 9> points{};
  for (std::size_t j = 0; j < 3; ++j)
    for (std::size_t i = 0; i < 3; ++i) points[3 * j + i] = {slopes_at(x[i], x[j]), w[i] * w[j]};
  return points;
}

struct Elasticity {
  double direct, cross, shear;
};
Elasticity elasticity(PlaneMaterial material) {
  const double factor = material.modulus / (1 - material.poisson * material.poisson);
  return {factor, factor * material.poisson, factor * (1 - material.poisson) / 2};
}

/// 18 x 18 stiffness, row-major, freedoms 2 node + direction.
using ElementMatrix = std::array<double, 18 * 18>;
void element_stiffness(const Mesh& mesh, const std::array<int, 9>& element, const Elasticity& D,
                       const std::array<GaussPoint, 9>& points, ElementMatrix& K) {
  K.fill(0);
  for (const GaussPoint& gauss : points) {
    const Jacobian j = jacobian(mesh, element, gauss.slopes);
    const double det = j.determinant();
    std::array<double, 9> dx{}, dy{};
    for (std::size_t a = 0; a < 9; ++a) {
      dx[a] = (j.eta.y * gauss.slopes.xi[a] - j.xi.y * gauss.slopes.eta[a]) / det;
      dy[a] = (j.xi.x * gauss.slopes.eta[a] - j.eta.x * gauss.slopes.xi[a]) / det;
    }
    const double w = gauss.weight * det;
    for (std::size_t a = 0; a < 9; ++a)
      for (std::size_t b = 0; b <= a; ++b) {
        double* row = &K[2 * a * 18 + 2 * b];
        row[0] += w * (D.direct * dx[a] * dx[b] + D.shear * dy[a] * dy[b]);
        row[1] += w * (D.cross * dx[a] * dy[b] + D.shear * dy[a] * dx[b]);
        row[18] += w * (D.cross * dy[a] * dx[b] + D.shear * dx[a] * dy[b]);
        row[19] += w * (D.direct * dy[a] * dy[b] + D.shear * dx[a] * dx[b]);
      }
  }
}

/// Order in which to eliminate the nodes (approximate minimum degree on the graph of the nodes, so that both freedoms
/// of a node stay together).
std::vector<int> elimination_order(const Mesh& mesh) {
  const int count = static_cast<int>(mesh.nodes.size());
  std::vector<Eigen::Triplet<double>> pairs;
  pairs.reserve(mesh.elements.size() * 81);
  for (const auto& element : mesh.elements)
    for (const int a : element)
      for (const int b : element) pairs.emplace_back(a, b, 1.0);
  Sparse graph(count, count);
  graph.setFromTriplets(pairs.begin(), pairs.end());
  Eigen::PermutationMatrix<Eigen::Dynamic, Eigen::Dynamic, int> order(count);
  Eigen::AMDOrdering<int>()(graph, order);
  return {order.indices().data(), order.indices().data() + count};
}

}  // namespace

double least_jacobian(const Mesh& mesh) {
  const auto points = gauss_points();
  double least = 1;
  for (const auto& element : mesh.elements) {
    double low = 1e300, high = 0;
    for (const GaussPoint& gauss : points) {
      const double det = jacobian(mesh, element, gauss.slopes).determinant();
      low = std::min(low, det);
      high = std::max(high, std::abs(det));
    }
    least = std::min(least, high > 0 ? low / high : 0);
  }
  return least;
}

struct PlaneBody::Factor {
  std::vector<int> freedoms;  ///< original freedom at each place of the elimination order
  std::vector<int> boundary;  ///< places of the freedoms on the boundary
  PanelFactor stiffness;      ///< of the free freedoms in elimination order
  std::size_t entries = 0;
  struct Coupling {
    int row, held;
    double stiffness;
  };
  std::vector<Coupling> couplings;  ///< place of a free freedom, original held freedom
};

PlaneBody::~PlaneBody() = default;
PlaneBody::PlaneBody(PlaneBody&&) noexcept = default;
PlaneBody& PlaneBody::operator=(PlaneBody&&) noexcept = default;

PlaneBody::PlaneBody(const Mesh& mesh, PlaneMaterial material, const std::vector<char>& held) {
  auto factor = std::make_unique<Factor>();
  std::vector<int> place(held.size(), -1);
  for (const int node : elimination_order(mesh))
    for (int direction = 0; direction < 2; ++direction) {
      const int freedom = 2 * node + direction;
      if (held[freedom]) continue;
      place[freedom] = static_cast<int>(factor->freedoms.size());
      factor->freedoms.push_back(freedom);
    }

  const auto points = gauss_points();
  const Elasticity D = elasticity(material);
  std::vector<Eigen::Triplet<double>> triplets;
  triplets.reserve(mesh.elements.size() * 171);
  ElementMatrix K{};
  for (const auto& element : mesh.elements) {
    element_stiffness(mesh, element, D, points, K);
    for (int a = 0; a < 18; ++a)
      for (int b = 0; b <= a; ++b) {
        const double k = K[18 * a + b];
        const int fa = 2 * element[a / 2] + a % 2, fb = 2 * element[b / 2] + b % 2;
        const int pa = place[fa], pb = place[fb];
        if (pa >= 0 && pb >= 0) {
          // A node that stands twice in a collapsed element meets itself off the element's diagonal: both triangles.
          if (pa == pb && a != b) {
            triplets.emplace_back(pa, pa, 2 * k);
          } else {
            triplets.emplace_back(std::max(pa, pb), std::min(pa, pb), k);
          }
        } else if (pa >= 0) {
          factor->couplings.push_back({pa, fb, k});
        } else if (pb >= 0) {
          factor->couplings.push_back({pb, fa, k});
        }
      }
  }
  const int count = static_cast<int>(factor->freedoms.size());
  Sparse stiffness(count, count);
  stiffness.setFromTriplets(triplets.begin(), triplets.end());
  const Eigen::SimplicialLDLT<Sparse, Eigen::Lower, Eigen::NaturalOrdering<int>> ldlt(stiffness);
  const Sparse& L = ldlt.matrixL().nestedExpression();
  const Eigen::VectorXd diagonal = ldlt.vectorD();  // a copy every time it is asked for
  std::vector<int> starts, rows;
  std::vector<double> entries;
  starts.reserve(count + 1);
  rows.reserve(L.nonZeros());
  entries.reserve(L.nonZeros());
  for (int column = 0; column < count; ++column) {
    starts.push_back(static_cast<int>(rows.size()));
    for (Sparse::InnerIterator entry(L, column); entry; ++entry) {
      if (entry.row() <= column) continue;
      rows.push_back(static_cast<int>(entry.row()));
      entries.push_back(entry.value());
    }
  }
  starts.push_back(static_cast<int>(rows.size()));
  std::vector<char> wanted(count, 0);
  for (const Loop& loop : mesh.loops)
    for (const int node : loop.nodes)
      for (const int freedom : {2 * node, 2 * node + 1})
        if (place[freedom] >= 0) {
          wanted[place[freedom]] = 1;
          factor->boundary.push_back(place[freedom]);
        }
  for (const auto& coupling : factor->couplings) wanted[coupling.row] = 1;
  factor->entries = entries.size();
  factor->stiffness =
      PanelFactor({starts, rows, entries, {diagonal.data(), static_cast<std::size_t>(diagonal.size())}}, wanted);
  factor_ = std::move(factor);
}

void PlaneBody::solve(NodeBlock& block, Answer answer) const {
  const Factor& f = *factor_;
  const std::size_t count = f.freedoms.size();
  std::vector<double> x(count * kBlock);
  const auto move = [&](std::size_t i, bool in) {
    double* inside = &x[i * kBlock];
    double* outside = block.at(f.freedoms[i]);
    for (int k = 0; k < kBlock; ++k) (in ? inside : outside)[k] = (in ? outside : inside)[k];
  };
  const auto move_all = [&](bool in) {
    if (answer == Answer::boundary)
      for (const int i : f.boundary) move(i, in);
    else
      for (std::size_t i = 0; i < count; ++i) move(i, in);
  };
  move_all(true);
  for (const auto& c : f.couplings) {
    const double* given = block.at(c.held);
    double* target = &x[static_cast<std::size_t>(c.row) * kBlock];
    for (int k = 0; k < kBlock; ++k) target[k] -= c.stiffness * given[k];
  }
  if (answer == Answer::boundary)
    f.stiffness.solve_wanted(x);
  else
    f.stiffness.solve(x);
  move_all(false);
}

void PlaneBody::solve(NodeBlock& block) const { solve(block, Answer::everywhere); }
void PlaneBody::solve_boundary(NodeBlock& block) const { solve(block, Answer::boundary); }

std::size_t PlaneBody::factor_entries() const { return factor_->entries; }

std::vector<Stress> corner_stress(const Mesh& mesh, PlaneMaterial material, const NodeBlock& block, int load_case) {
  const Elasticity D = elasticity(material);
  std::vector<Stress> sum(mesh.nodes.size());
  std::vector<int> met(mesh.nodes.size(), 0);
  constexpr std::array<std::size_t, 4> kCorners = {0, 2, 6, 8};
  for (const auto& element : mesh.elements)
    for (const std::size_t corner : kCorners) {
      const auto slopes = slopes_at(corner % 3 == 0 ? -1 : 1, corner < 3 ? -1 : 1);
      const Jacobian j = jacobian(mesh, element, slopes);
      const double det = j.determinant();
      double exx = 0, eyy = 0, gxy = 0;
      for (std::size_t a = 0; a < 9; ++a) {
        const double dx = (j.eta.y * slopes.xi[a] - j.xi.y * slopes.eta[a]) / det;
        const double dy = (j.xi.x * slopes.eta[a] - j.eta.x * slopes.xi[a]) / det;
        const double ux = block.at(2 * element[a])[load_case], uy = block.at(2 * element[a] + 1)[load_case];
        exx += dx * ux;
        eyy += dy * uy;
        gxy += dy * ux + dx * uy;
      }
      sum[element[corner]] += {D.direct * exx + D.cross * eyy, D.cross * exx + D.direct * eyy, D.shear * gxy};
      ++met[element[corner]];
    }
  for (std::size_t i = 0; i < sum.size(); ++i)
    if (met[i] > 0) sum[i] = (1.0 / met[i]) * sum[i];
  return sum;
}

}  // namespace lobewise::contact::elastic
