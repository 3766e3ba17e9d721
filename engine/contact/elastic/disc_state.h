#pragma once
// One disc while a stage is being solved: its pose, its contacts, their forces.
#include <Eigen/Core>
#include <Eigen/LU>
#include <vector>

#include "engine/contact/elastic/local_law.h"
#include "engine/contact/elastic/stage_data.h"
#include "engine/contact/ring_gaps.h"
#include "engine/mechanism/kinematics.h"

namespace lobewise::contact::elastic {

enum class Kind { ring, pin, bearing };

struct Contact {
  Kind kind = Kind::ring;
  int index = 0;
  LocalLaw law;
  double rho = 0;                ///< effective radius [m]
  double slide_curvature = 0;    ///< k' of the second-order term [1/m]
  Vec2 slide_direction;          ///< i n in the ideal pose, ring frame
  Vec2 point;                    ///< contact point less disc centre in the ideal pose [m]
  double delta = 0;              ///< approach wanted by the pose [m]
  double correction = 0;         ///< second-order term, from the last pass [m]
  double force = 0;              ///< [N]
  std::array<double, 4> rate{};  ///< d delta / d (ux, uy, beta of the disc, beta_o)
};

class DiscState {
 public:
  /// `data` must outlive the state.
  DiscState(const ElasticDisc::Data& data, int number);

  /// See `ElasticSolver::set_offsets`. Returns the largest of them [m].
  double set_offsets(const PartOffsets& offsets);
  /// Contact points, laws and sliding directions of the ideal pose at crank angle phi of the shaft; forces and
  /// corrections stay by number as a start.
  void place(double crank_angle);
  /// Approaches and their rates at the pose `shift` under the output's rotation error.
  void evaluate(double output_rotation);
  /// Forces at the evaluated pose: loc(F) + C F = delta, F >= 0. Unique, because C + loc' is positive definite. False:
  /// no solution was found.
  bool find_forces(double reference_force);
  /// Steps of a Newton solution of pose and forces together, at the evaluated pose:
  /// the contacts with a force become active, or those the pose presses when none has one;
  void list_active(double reference_force);
  /// `unmet` and `factor` at the present forces (active contacts not empty);
  void linearise();
  /// forces after a step that changes them by `change` and the approaches by `approach`, as far as they stay positive;
  void advance(const Eigen::VectorXd& change, const Eigen::VectorXd& approach);
  /// contacts that the deflected body still presses together become active. False: none.
  bool add_pressed(double reference_force, bool one_at_a_time);
  /// What `unmet` may be, and the approach it is measured by [m].
  [[nodiscard]] double tolerance() const { return 1e-13 * largest_approach(); }
  [[nodiscard]] double largest_approach() const;

  /// False when a contact is so wide that its whole compliance, law and body, has fallen to what one more natural
  /// logarithm of the width would take away: half-plane and body no longer split. Independent of the change-over depth.
  [[nodiscard]] bool within_law() const;
  /// Second-order term of the approach (docs/theory/elastic.md, sliding) from the present forces. Largest change [m].
  double correct(double output_rotation);
  /// C F over the active contacts, as it was linearised last: what the body gives there [m].
  [[nodiscard]] Eigen::VectorXd bent() const;
  /// Dropped: forces and corrections.
  void forget();

  DiscShift shift;
  double crank_angle = 0;  ///< f of this disc [rad]
  std::vector<Contact> contacts;
  std::vector<int> active;                      ///< contacts that carry
  Eigen::PartialPivLU<Eigen::MatrixXd> factor;  ///< of C + diag(loc') over them
  Eigen::VectorXd unmet;                        ///< delta - loc(F) - C F over them [m]
  RingGaps gaps;
  Flexibility flexibility;
  /// 1/(E b): turns the pure numbers of the flexibility into m/N.
  [[nodiscard]] double compliance() const { return compliance_; }
  [[nodiscard]] const BodyMap& map() const { return data_->maps[static_cast<std::size_t>(number_)]; }
  [[nodiscard]] const DiscBody& body() const { return data_->bodies[static_cast<std::size_t>(map().body)]; }

 private:
  [[nodiscard]] double influence(int i, int j) const { return compliance_ * flexibility.normal(i, j); }
  [[nodiscard]] Contact ring_contact(int roller) const;
  [[nodiscard]] Contact pin_contact(int pin) const;
  [[nodiscard]] Contact bearing_contact(int roller) const;
  [[nodiscard]] mechanism::Vec2 pin_centre(int pin) const;
  /// Newton over the active contacts; `dropped` when some left, which then are active no longer.
  bool solve_active(bool& dropped);
  void start_force(int contact, double gap, double reference_force);

  const ElasticDisc::Data* data_;
  int number_;
  double compliance_;
  LocalLaws laws_;
  RingGapFinder perfect_;  ///< of the unit as drawn: where its contacts stand
  RingGapFinder finder_;   ///< of the unit as made
  /// By output pin: pin and hole from their places, outward and counter-clockwise; what their radii do to the gap [m].
  std::vector<Vec2> pin_away_, hole_away_;
  std::vector<double> pin_clearance_;
  double shaft_angle_ = 0;
  mechanism::DiscPose pose_;
  Eigen::MatrixXd C_, H_;  ///< influences of the active contacts; with their laws' slopes
};

}  // namespace lobewise::contact::elastic
