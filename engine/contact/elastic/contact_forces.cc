// Forces of one disc at a pose: an active set of contacts, Newton inside it.
#include <algorithm>

#include "engine/contact/elastic/disc_state.h"

namespace lobewise::contact::elastic {

double DiscState::largest_approach() const {
  double scale = 0;
  for (const Contact& c : contacts) scale = std::max(scale, std::abs(c.delta));
  return scale > 0 ? scale : 1;
}

void DiscState::list_active(double reference_force) {
  active.clear();
  for (std::size_t i = 0; i < contacts.size(); ++i)
    if (contacts[i].force > 0) active.push_back(static_cast<int>(i));
  if (active.empty())
    for (std::size_t i = 0; i < contacts.size(); ++i)
      if (contacts[i].delta > 0) start_force(static_cast<int>(i), contacts[i].delta, reference_force);
}

bool DiscState::find_forces(double reference_force) {
  list_active(reference_force);
  constexpr int kRounds = 200;
  constexpr int kCautious = 20;  // from this round on contacts join one at a time
  for (int round = 0; round < kRounds; ++round) {
    bool dropped = false;
    if (!solve_active(dropped)) return false;
    if (dropped) continue;
    if (!add_pressed(reference_force, round > kCautious)) return true;
  }
  return false;
}

void DiscState::start_force(int contact, double gap, double reference_force) {
  Contact& c = contacts[contact];
  c.force = gap / (2 * c.law.slope(reference_force));
  active.insert(std::lower_bound(active.begin(), active.end(), contact), contact);
}

void DiscState::linearise() {
  const int count = static_cast<int>(active.size());
  body().fill(flexibility, active, data_->depth);
  // The influences as they come, symmetric to about 0.1 %: active and inactive contacts must see the same ones, or a
  // contact on the verge could neither stay nor leave.
  C_.resize(count, count);
  unmet.setZero(count);
  for (int b = 0; b < count; ++b) {
    const double force = contacts[active[b]].force;
    for (int a = 0; a < count; ++a) {
      C_(a, b) = influence(active[a], active[b]);
      unmet[a] -= C_(a, b) * force;
    }
  }
  H_ = C_;
  for (int a = 0; a < count; ++a) {
    const Contact& c = contacts[active[a]];
    unmet[a] += c.delta - c.law.approach(c.force);
    H_(a, a) = std::max(C_(a, a) + c.law.slope(c.force), 0.1 * (C_(a, a) + c.law.p));
  }
  factor.compute(H_);
}

void DiscState::advance(const Eigen::VectorXd& change, const Eigen::VectorXd& approach) {
  std::vector<int> stay;
  for (int a = 0; a < static_cast<int>(active.size()); ++a) {
    Contact& c = contacts[active[a]];
    const double before = c.force;
    c.force += change[a];
    if (c.force > 0.1 * before) {
      stay.push_back(active[a]);
      continue;
    }
    // Would it stay in contact without a force of its own, the others changed?
    const double left =
        unmet[a] + c.law.approach(before) + approach[a] - C_.row(a).dot(change) + C_(a, a) * (before + change[a]);
    c.force = left > 0 ? 0.1 * before : 0;
    if (left > 0) stay.push_back(active[a]);
  }
  active = std::move(stay);
}

bool DiscState::solve_active(bool& dropped) {
  const std::size_t count = active.size();
  if (count == 0) return true;
  const double allowed = tolerance();
  const Eigen::VectorXd no_motion = Eigen::VectorXd::Zero(static_cast<Eigen::Index>(count));
  constexpr int kSteps = 40;
  for (int step = 0; step < kSteps; ++step) {
    linearise();
    if (unmet.lpNorm<Eigen::Infinity>() <= allowed) return true;
    advance(factor.solve(unmet), no_motion);
    dropped = active.size() < count;
    if (dropped) return true;
  }
  return false;
}

bool DiscState::add_pressed(double reference_force, bool one_at_a_time) {
  const double least = 1e3 * tolerance();
  std::vector<std::pair<double, int>> pressed;  // by how much
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    if (contacts[i].force > 0) continue;
    double gap = contacts[i].delta;
    for (const int j : active) gap -= influence(static_cast<int>(i), j) * contacts[j].force;
    if (gap > least) pressed.push_back({gap, static_cast<int>(i)});
  }
  if (pressed.empty()) return false;
  if (one_at_a_time) pressed = {*std::max_element(pressed.begin(), pressed.end())};
  for (const auto& [gap, contact] : pressed) start_force(contact, gap, reference_force);
  return true;
}

Eigen::VectorXd DiscState::bent() const {
  Eigen::VectorXd force(static_cast<Eigen::Index>(active.size()));
  for (std::size_t a = 0; a < active.size(); ++a) force[static_cast<Eigen::Index>(a)] = contacts[active[a]].force;
  return C_ * force;
}

bool DiscState::within_law() const {
  return std::all_of(active.begin(), active.end(), [&](int i) {
    const LocalLaw& law = contacts[i].law;
    return law.slope(contacts[i].force) + influence(i, i) > 0.5 * law.w;
  });
}

}  // namespace lobewise::contact::elastic
