// Forces of one disc at a pose: an active set of contacts, Newton inside it.
#include <algorithm>

#include "engine/contact/elastic/disc_state.h"

namespace lobewise::contact::elastic {

bool DiscState::find_forces(double reference_force) {
  double scale = 0;
  for (const Contact& c : contacts) scale = std::max(scale, std::abs(c.delta));
  const double tolerance = 1e-13 * (scale > 0 ? scale : 1);
  active.clear();
  for (std::size_t i = 0; i < contacts.size(); ++i)
    if (contacts[i].force > 0) active.push_back(static_cast<int>(i));
  if (active.empty())
    for (std::size_t i = 0; i < contacts.size(); ++i)
      if (contacts[i].delta > 0) start_force(static_cast<int>(i), contacts[i].delta, reference_force);

  constexpr int kRounds = 200;
  constexpr int kCautious = 20;  // from this round on contacts join one at a time
  for (int round = 0; round < kRounds; ++round) {
    bool dropped = false;
    if (!solve_active(tolerance, dropped)) return false;
    if (dropped) continue;
    if (!add_pressed(1e3 * tolerance, reference_force, round > kCautious)) return true;
  }
  return false;
}

void DiscState::start_force(int contact, double gap, double reference_force) {
  Contact& c = contacts[contact];
  c.force = gap / (2 * c.law.slope(reference_force));
  active.insert(std::lower_bound(active.begin(), active.end(), contact), contact);
}

bool DiscState::solve_active(double tolerance, bool& dropped) {
  const int count = static_cast<int>(active.size());
  if (count == 0) return true;
  body().fill(flexibility, active, data_->depth);
  // The influences as they come, symmetric to about 0.1 %: active and inactive contacts must see the same ones, or a
  // contact on the verge could neither stay nor leave.
  Eigen::MatrixXd C(count, count);
  for (int a = 0; a < count; ++a)
    for (int b = 0; b < count; ++b) C(a, b) = influence(active[a], active[b]);
  Eigen::VectorXd F(count), unmet(count);
  for (int a = 0; a < count; ++a) F[a] = contacts[active[a]].force;
  std::vector<char> leaves(active.size(), 0);
  Eigen::MatrixXd H;
  constexpr int kSteps = 40;
  bool solved = false;
  for (int step = 0; step < kSteps && !solved && !dropped; ++step) {
    unmet = -C * F;
    H = C;
    for (int a = 0; a < count; ++a) {
      const Contact& c = contacts[active[a]];
      unmet[a] += c.delta - c.law.approach(F[a]);
      H(a, a) = std::max(H(a, a) + c.law.slope(F[a]), 0.1 * (H(a, a) + c.law.p));
    }
    factor.compute(H);
    solved = unmet.lpNorm<Eigen::Infinity>() <= tolerance;
    if (solved) break;
    const Eigen::VectorXd change = factor.solve(unmet);
    for (int a = 0; a < count; ++a) {
      if (F[a] + change[a] > 0.1 * F[a]) {
        F[a] += change[a];
        continue;
      }
      // Would it stay in contact without a force of its own?
      const double left = unmet[a] + contacts[active[a]].law.approach(F[a]) + C(a, a) * F[a];
      leaves[a] = left <= 0;
      dropped = dropped || left <= 0;
      if (left > 0) F[a] *= 0.1;
    }
  }
  std::vector<int> stay;
  for (int a = 0; a < count; ++a) {
    contacts[active[a]].force = leaves[a] ? 0 : F[a];
    if (!leaves[a]) stay.push_back(active[a]);
  }
  active = std::move(stay);
  return solved || dropped;
}

bool DiscState::add_pressed(double tolerance, double reference_force, bool one_at_a_time) {
  std::vector<std::pair<double, int>> pressed;  // by how much
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    if (contacts[i].force > 0) continue;
    double gap = contacts[i].delta;
    for (const int j : active) gap -= influence(static_cast<int>(i), j) * contacts[j].force;
    if (gap > tolerance) pressed.push_back({gap, static_cast<int>(i)});
  }
  if (pressed.empty()) return false;
  if (one_at_a_time) pressed = {*std::max_element(pressed.begin(), pressed.end())};
  for (const auto& [gap, contact] : pressed) start_force(contact, gap, reference_force);
  return true;
}

bool DiscState::within_law() const {
  return std::all_of(active.begin(), active.end(), [&](int i) {
    const LocalLaw& law = contacts[i].law;
    return law.slope(contacts[i].force) + influence(i, i) > 0.5 * law.w;
  });
}

}  // namespace lobewise::contact::elastic
