#include "engine/mechanism/kinematics.h"

#include "engine/base/constants.h"

namespace lobewise::mechanism {

double disc_crank_angle(const StageGeometry& stage, double crank_angle, int disc) {
  return crank_angle + 2 * kPi * disc / stage.discs;
}

double roller_angle(const StageGeometry& stage, int roller) { return 2 * kPi * roller / stage.rollers(); }

DiscPose ideal_pose(const StageGeometry& stage, double crank_angle, int disc) {
  const double f = disc_crank_angle(stage, crank_angle, disc);
  return {stage.eccentricity * unit(f), -f / stage.lobes};
}

double output_rotation(const StageGeometry& stage, double crank_angle) { return -crank_angle / stage.lobes; }

Vec2 pin_centre(const StageGeometry& stage, double crank_angle, int pin) {
  return stage.pin_circle_radius * unit(2 * kPi * pin / stage.pins + output_rotation(stage, crank_angle));
}

RollerMesh roller_mesh(const StageGeometry& stage, double disc_crank_angle, int roller) {
  const double f = disc_crank_angle;
  const double th = roller_angle(stage, roller);
  const double R = stage.pitch_radius;
  const double r = stage.roller_radius;
  const double eZ = stage.eccentricity * stage.rollers();
  const double N = stage.lobes;
  const Vec2 centre = R * unit(th);
  RollerMesh mesh;
  mesh.distance = std::sqrt(R * R + eZ * eZ - 2 * R * eZ * std::cos(f - th));
  mesh.force_direction = (1 / mesh.distance) * (eZ * unit(f) - centre);
  mesh.contact = centre + r * mesh.force_direction;
  mesh.profile_parameter = th + f / N;
  mesh.lever_arm = stage.eccentricity * N * R * std::sin(f - th) / mesh.distance;
  mesh.sliding_speed = (mesh.distance - r) / N;
  mesh.direction_rate = eZ * (eZ - R * std::cos(f - th)) / (mesh.distance * mesh.distance);
  mesh.roller_rolling_speed = -r * mesh.direction_rate;
  mesh.disc_rolling_speed = mesh.sliding_speed + mesh.roller_rolling_speed;
  return mesh;
}

double pin_sliding_speed(const StageGeometry& stage) { return stage.eccentricity * stage.rollers() / stage.lobes; }

double eccentric_bearing_speed(const StageGeometry& stage) {
  return static_cast<double>(stage.rollers()) / stage.lobes;
}

}  // namespace lobewise::mechanism
