#pragma once
// Where everything stands and how fast it moves at a crank angle, in the ideal (unloaded, clearance-free) pose, ring
// held. Derivation: docs/theory/mesh.md. Precondition of every function: `check_geometry(stage)` found nothing.
#include "engine/mechanism/stage_geometry.h"
#include "engine/mechanism/vec2.h"

namespace lobewise::mechanism {

/// Crank angle of disc `disc` when the shaft stands at `crank_angle`: f = phi + 2 pi d / n_d [rad].
[[nodiscard]] double disc_crank_angle(const StageGeometry& stage, double crank_angle, int disc);

/// Angle of ring roller `roller` on the pitch circle: th_k = 2 pi k / Z [rad].
[[nodiscard]] double roller_angle(const StageGeometry& stage, int roller);

struct DiscPose {
  Vec2 centre;          ///< c [m]
  double rotation = 0;  ///< psi of the profile [rad]
};
/// Ideal pose: c = e e^{if}, psi = -f / N, f the disc's own crank angle. The holes of all discs stand at -phi / N
/// instead: the lobes of disc d are offset to its holes by -2 pi d / (n_d N).
[[nodiscard]] DiscPose ideal_pose(const StageGeometry& stage, double crank_angle, int disc);

/// Rotation of output pins, flange and holes: -phi / N [rad].
[[nodiscard]] double output_rotation(const StageGeometry& stage, double crank_angle);

/// Centre of output pin `pin` [m].
[[nodiscard]] Vec2 pin_centre(const StageGeometry& stage, double crank_angle, int pin);

/// One ring roller in the ideal pose of a disc with crank angle f. Speeds are per unit input speed [m/rad], along i n.
struct RollerMesh {
  double distance = 0;           ///< S: roller centre to instant centre P = e Z e^{if} [m]
  Vec2 force_direction;          ///< n: of the force on the disc, unit
  Vec2 contact;                  ///< contact point, ring frame [m]
  double profile_parameter = 0;  ///< t = th + f / N [rad]
  double lever_arm = 0;  ///< of the force about the disc centre, e N R sin(f - th) / S, counter-clockwise positive [m]
  double sliding_speed = 0;       ///< v = (S - r) / N: disc surface past a fixed roller [m/rad]
  double direction_rate = 0;      ///< al = d(arg n)/df = e Z (e Z - R cos(f - th)) / S^2
  double disc_rolling_speed = 0;  ///< u2 = v - r al: disc surface past the contact point [m/rad]
  double roller_rolling_speed =
      0;  ///< u1 = -r al: fixed roller's surface past the contact point; a free roller has u2 [m/rad]
};
[[nodiscard]] RollerMesh roller_mesh(const StageGeometry& stage, double disc_crank_angle, int roller);

/// Speed of the output pin in its hole per unit input speed, e Z / N [m/rad].
[[nodiscard]] double pin_sliding_speed(const StageGeometry& stage);
/// Speed of the disc on its eccentric per unit input speed, Z / N.
[[nodiscard]] double eccentric_bearing_speed(const StageGeometry& stage);

}  // namespace lobewise::mechanism
