#pragma once
// Gaps between the ring rollers and the flank of one disc in any pose near the ideal one. The hot loop of every mesh
// level: structure of arrays, no trigonometric function, no cancellation. Derivation: docs/theory/mesh.md.
#include <vector>

#include "engine/contact/part_offsets.h"
#include "engine/mechanism/stage_geometry.h"
#include "engine/mechanism/vec2.h"

namespace lobewise::contact {

/// Deviation of a disc from its ideal pose.
struct DiscShift {
  mechanism::Vec2 u;    ///< of the disc centre [m]
  double rotation = 0;  ///< beta, counter-clockwise [rad]
};

/// Gaps of all rollers, one array a figure, index = roller. `gap` < 0 is approach of the contact.
struct RingGaps {
  explicit RingGaps(int rollers);
  std::vector<double> gap;       ///< [m]
  std::vector<double> normal_x;  ///< n, force direction on the disc, ring frame
  std::vector<double> normal_y;
  std::vector<double> arm;     ///< cross(roller - disc centre, n): lever arm about the disc centre [m]
  std::vector<double> radius;  ///< rho: effective radius of curvature of roller and flank [m]
  std::vector<double> foot;    ///< profile parameter of the foot less the ideal one, th + f/N [rad]
};

/// Finds gaps for one stage; set the crank angle of the disc, then evaluate as many poses as needed.
class RingGapFinder {
 public:
  /// Precondition: `check_model` found nothing.
  explicit RingGapFinder(const mechanism::StageGeometry& stage);

  /// Rollers of one unit as it was made, from here on; kept when the crank turns. Precondition: `check_offsets` found
  /// nothing. Curvature and law of a contact stay those of the nominal radii, which micrometres move by 1e-5 of a
  /// force.
  /// @param disc  whose flanks count
  void set_offsets(const PartOffsets& offsets, std::size_t disc);
  /// Crank angle f of the disc.
  void set_crank(double disc_crank_angle);
  /// Gaps at a pose: for each roller the foot of the perpendicular on the flank by Newton; with relief the larger gap
  /// of the two turned profiles.
  void evaluate(const DiscShift& shift, RingGaps& gaps);
  /// e^{i th} of a roller.
  [[nodiscard]] mechanism::Vec2 roller_direction(int roller) const {
    const auto k = static_cast<std::size_t>(roller);
    return {unit_x_[k], unit_y_[k]};
  }

 private:
  void turn_offsets();
  void pass(mechanism::Vec2 u, double rotation, RingGaps& gaps);
  [[nodiscard]] double nearest_foot(std::size_t k, double rotation) const;
  void start(mechanism::Vec2 turn, mechanism::Vec2 u);
  template <bool kNear>
  void foot_step(double rotation);
  template <bool kNear>
  void finish(mechanism::Vec2 turn, RingGaps& gaps);

  int rollers_;
  double lobes_, count_, pitch_, eccentricity_, roller_, cut_pitch_, roller_offset_, cut_roller_, shortening_, relief_,
      pitch_offset_;
  mechanism::Vec2 frame_{1, 0};                    ///< e^{i psi} of the ideal pose
  mechanism::Vec2 lobe_{1, 0};                     ///< e^{i Z t}, the same for all rollers
  std::vector<double> unit_x_, unit_y_;            ///< e^{i th}
  std::vector<double> ray_x_, ray_y_;              ///< e^{i t}, t = th + f/N
  std::vector<double> foot_, step_;                ///< deviation of the foot, last Newton step [rad]
  std::vector<double> q_x_, q_y_, off_x_, off_y_;  ///< roller centre in the disc frame; its distance from w(t) [m]
  std::vector<double> radial_, tangential_, radius_error_;  ///< of the rollers; radius with the flank's error [m]
  std::vector<double> away_x_, away_y_;  ///< centre of each roller from its nominal place, ideal disc frame [m]
  RingGaps second_;                      ///< of the other turned profile
};

}  // namespace lobewise::contact
