#include "engine/motion/chain.h"

#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

namespace lobewise::motion {

double damping_from_ratio(double ratio, double stiffness, double inertia_1, double inertia_2) {
  return 2 * ratio * std::sqrt(stiffness * inertia_1 * inertia_2 / (inertia_1 + inertia_2));
}

std::vector<double> natural_frequencies(const Chain& chain) {
  Eigen::MatrixXd matrix = Eigen::MatrixXd::Zero(chain.size, chain.size);
  for (int l = 0; l + 1 < chain.size; ++l) {
    const auto i = static_cast<std::size_t>(l);
    const double k = chain.link[i].stiffness;
    matrix(l, l) += k / chain.inertia[i];
    matrix(l + 1, l + 1) += k / chain.inertia[i + 1];
    matrix(l, l + 1) = matrix(l + 1, l) = -k / std::sqrt(chain.inertia[i] * chain.inertia[i + 1]);
  }
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solver(matrix, Eigen::EigenvaluesOnly);
  std::vector<double> out;
  for (int i = 0; i < chain.size; ++i) {
    out.push_back(i == 0 ? 0.0 : std::sqrt(std::max(solver.eigenvalues()(i), 0.0)));
  }
  return out;
}

}  // namespace lobewise::motion
