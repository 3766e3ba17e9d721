// The engine beside a general solver of GSL on the same equations, and the same problems written out for the solvers of
// SciPy (peers.py). Prints one JSON object; times are CPU time on one thread.
#include <gsl/gsl_errno.h>
#include <gsl/gsl_multiroots.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <nlohmann/json.hpp>
#include <vector>

#include "engine/base/constants.h"
#include "engine/contact/elastic/disc_state.h"
#include "engine/contact/mesh_solver.h"
#include "engine/mechanism/kinematics.h"

namespace {
using namespace lobewise;
using namespace lobewise::contact;
using mechanism::Vec2;
using Json = nlohmann::json;

constexpr int kAngles = 64;
constexpr double kTorque = 600;

double cpu() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// Seconds of one call of `run`, the best of three rounds of at least 50 ms.
template <class Run>
double seconds(Run&& run) {
  double best = 1e9;
  for (int round = 0; round < 3; ++round) {
    int count = 0;
    const double start = cpu();
    do {
      run();
      ++count;
    } while (cpu() - start < 0.05);
    best = std::min(best, (cpu() - start) / count);
  }
  return best;
}

MeshModel model() {
  MeshModel m;
  m.stage = {17, 0.080, 0.007, 0.003, 0.014, 2, 10, 0.050, 0.008, 1e-5, 5e-6, -5e-6, 0};
  return m;
}

double angle(int i) { return 2 * kPi / 18 * i / kAngles; }

/// Level l2 as three equations: moments of both discs and of the output, unknown their rotations. The engine's own gaps
/// and contact law; only the solver is GSL's.
class Equations {
 public:
  explicit Equations(const MeshModel& m)
      : model_(m),
        ring_law_(m.ring_law, m.material, m.stage.width, m.stage.roller_radius),
        pin_law_(m.pin_law, m.material, m.stage.width, m.stage.pin_radius),
        finders_(2, RingGapFinder(m.stage)),
        gaps_(m.stage.rollers()) {}
  void place(double phi) {
    phi_ = phi;
    for (int d = 0; d < 2; ++d)
      finders_[static_cast<std::size_t>(d)].set_crank(mechanism::disc_crank_angle(model_.stage, phi, d));
  }
  /// x: rotations [0.1 mrad]; f: moments over T.
  void residual(const double* x, double* f) {
    const auto& s = model_.stage;
    f[2] = -1;
    for (int d = 0; d < 2; ++d) {
      const double beta = 1e-4 * x[d];
      finders_[static_cast<std::size_t>(d)].evaluate({{}, beta}, gaps_);
      double moment = 0;
      for (std::size_t k = 0; k < gaps_.gap.size(); ++k)
        if (gaps_.gap[k] < 0) moment += ring_law_.force(-gaps_.gap[k], gaps_.radius[k]).force * gaps_.arm[k];
      const Vec2 crank = mechanism::unit(mechanism::disc_crank_angle(s, phi_, d));
      for (int j = 0; j < s.pins; ++j) {
        const Vec2 ideal = mechanism::pin_centre(s, phi_, j);
        const Vec2 pin = mechanism::turned(ideal, mechanism::unit(1e-4 * x[2]));
        const Vec2 hole = mechanism::turned(ideal, mechanism::unit(beta));
        const Vec2 apart = pin - hole - s.eccentricity * crank;
        const double distance = mechanism::norm(apart);
        const double gap = s.hole_clearance + s.eccentricity - distance;
        if (!(gap < 0)) continue;
        const Vec2 v = (1 / distance) * apart;
        const double force = pin_law_.force(-gap, pin_radius_).force;
        moment += force * mechanism::cross(hole, v);
        f[2] += force * mechanism::cross(pin, v) / kTorque;
      }
      f[d] = moment / kTorque;
    }
    ++evaluations;
  }
  long evaluations = 0;

 private:
  MeshModel model_;
  ContactLaw ring_law_, pin_law_;
  std::vector<RingGapFinder> finders_;
  RingGaps gaps_;
  double phi_ = 0;
  double pin_radius_ = 1 / (1 / model_.stage.pin_radius - 1 / model_.stage.hole_radius());
};

Json rigid() {
  MeshSolver solver(model());
  std::vector<double> engine(kAngles), gsl(kAngles);
  const auto ours = [&] {
    solver.forget();
    for (int i = 0; i < kAngles; ++i) {
      if (solver.solve(Level::l2, angle(i), kTorque) != Outcome::converged) std::abort();
      engine[static_cast<std::size_t>(i)] = solver.output_rotation();
    }
  };
  // GSL starts from the solution 0.02 rad before the first angle; ours starts cold.
  if (solver.solve(Level::l2, angle(0) - 0.02, kTorque) != Outcome::converged) std::abort();
  const std::array<double, 3> first = {solver.discs()[0].shift.rotation, solver.discs()[1].shift.rotation,
                                       solver.output_rotation()};
  Equations equations(model());
  gsl_set_error_handler_off();
  gsl_multiroot_function function{[](const gsl_vector* x, void* p, gsl_vector* f) {
                                    static_cast<Equations*>(p)->residual(x->data, f->data);
                                    return 0;
                                  },
                                  3, &equations};
  gsl_multiroot_fsolver* root = gsl_multiroot_fsolver_alloc(gsl_multiroot_fsolver_hybrids, 3);
  gsl_vector* x = gsl_vector_alloc(3);
  int failed = 0;
  const auto theirs = [&] {
    failed = 0;
    for (std::size_t u = 0; u < 3; ++u) gsl_vector_set(x, u, 1e4 * first[u]);
    for (int i = 0; i < kAngles; ++i) {  // warm: from the last angle
      equations.place(angle(i));
      gsl_multiroot_fsolver_set(root, &function, x);
      int status = GSL_CONTINUE;
      for (int step = 0; step < 100 && status == GSL_CONTINUE; ++step) {
        if (gsl_multiroot_fsolver_iterate(root) != 0) break;
        status = gsl_multiroot_test_residual(root->f, 1e-10);
      }
      failed += status == GSL_SUCCESS ? 0 : 1;
      gsl_vector_memcpy(x, root->x);
      gsl[static_cast<std::size_t>(i)] = 1e-4 * gsl_vector_get(x, 2);
    }
  };
  const double t_ours = seconds(ours), t_theirs = seconds(theirs);
  double differs = 0;
  for (std::size_t i = 0; i < engine.size(); ++i) differs = std::max(differs, std::abs(engine[i] / gsl[i] - 1));
  gsl_vector_free(x);
  gsl_multiroot_fsolver_free(root);
  return {{"engine_seconds", t_ours},  {"gsl_seconds", t_theirs}, {"gsl_failed", failed}, {"gsl_differs", differs},
          {"output_rotation", engine}, {"first", first},          {"torque", kTorque}};
}

/// Gaps and contact laws a second, and the arithmetic in them.
Json kernels() {
  const MeshModel m = model();
  RingGapFinder finder(m.stage);
  RingGaps gaps(m.stage.rollers());
  const ContactLaw law(m.ring_law, m.material, m.stage.width, m.stage.roller_radius);
  finder.set_crank(0.3);
  double sum = 0, beta = 1e-4;
  const double gap = seconds([&] {
    for (int i = 0; i < 100; ++i) {
      finder.evaluate({{1e-6, 2e-6}, beta}, gaps);
      beta += 1e-9;
      sum += gaps.gap[3];
    }
  });
  const double force = seconds([&] {
    for (int i = 0; i < 1800; ++i) sum += law.force(1e-6 + 1e-9 * i, 0.006).force;
  });
  // What one core does: multiplications and additions on sixteen running sums, 128-bit vectors as the build uses them.
  using Pair = double __attribute__((vector_size(16)));
  Pair sums[8] = {};
  const Pair factor = {1 + 1e-9, 1 - 1e-9};
  constexpr int kTurns = 100000;
  const double peak = seconds([&] {
    for (int i = 0; i < kTurns; ++i)
      for (Pair& s : sums) s = s * factor + factor;
  });
  for (const Pair& s : sums) sum += s[0] + s[1];
  return {{"gaps_per_second", 1800 / gap},
          {"laws_per_second", 1800 / force},
          {"flops_per_second", 2.0 * 16 * kTurns / peak},
          {"check", sum}};
}

/// One disc with everything that a general solver needs for the contact problem, gaps linear in the pose.
Json bending() {
  ElasticModel m;
  m.stage = {17, 0.080, 0.007, 0.003, 0.014, 1, 10, 0.050, 0.008};
  m.bore_radius = 0.028;
  m.rollers = {16, 0.0035, 0, 0.1, 0};
  m.rollers.cage_speed = cage_speed(17, m.bore_radius, m.rollers.radius);
  m.pin_core_radius = 0.004;
  constexpr double kOneDisc = 300;
  const auto disc = ElasticDisc::build(m);
  ElasticSolver solver(*disc);
  Json problems = Json::array();
  constexpr int kProblems = 4;
  const auto crank = [](int i) { return 0.1 + 0.37 * i; };
  const double seconds_each = seconds([&] {
                                for (int i = 0; i < kProblems; ++i) {
                                  solver.forget();
                                  if (solver.solve(crank(i), kOneDisc) != Outcome::converged) std::abort();
                                }
                              }) /
                              kProblems;
  for (int i = 0; i < kProblems; ++i) {
    const double phi = crank(i);
    solver.forget();
    if (solver.solve(phi, kOneDisc) != Outcome::converged) std::abort();
    elastic::DiscState state(disc->data(), 0);
    state.place(phi);
    state.evaluate(0);
    std::vector<int> all;
    for (int c = 0; c < state.flexibility.size(); ++c) all.push_back(c);
    state.body().fill(state.flexibility, all, working_depth(m));
    Json p{{"engine_seconds", seconds_each}, {"torque", kOneDisc}, {"pitch_radius", m.stage.pitch_radius}};
    for (const auto& c : state.contacts) {
      p["delta"].push_back(c.delta);
      p["rate"].push_back(c.rate);
      p["p"].push_back(c.law.p);
      p["w"].push_back(c.law.w);
    }
    for (const int a : all) {
      Json row;
      for (const int b : all) row.push_back(state.compliance() * state.flexibility.normal(a, b));
      p["C"].push_back(row);
    }
    const ElasticLoads& loads = solver.discs()[0];
    for (const auto* forces : {&loads.ring_force, &loads.pin_force, &loads.bearing_force})
      for (const double force : *forces) p["force"].push_back(force);
    problems.push_back(p);
  }
  return problems;
}

}  // namespace

int main() {
  std::puts(Json{{"rigid", rigid()}, {"kernels", kernels()}, {"bending", bending()}}.dump().c_str());
  return 0;
}
