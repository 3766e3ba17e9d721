#include "engine/contact/elastic/plane.h"

#include "engine/base/constants.h"

namespace lobewise::contact::elastic {
using mechanism::dot;
using mechanism::norm;
using mechanism::turned;
using mechanism::turned_back;

namespace {
/// Nearer than this a stress is that of the load itself [m].
constexpr double kLoadItself = 1e-10;
}  // namespace

SingularField::SingularField(PlaneMaterial material, Vec2 point, Vec2 normal, double depth)
    : material_(material), point_(point), normal_(normal), depth_(depth) {}

SingularField::SingularField(PlaneMaterial material, Vec2 point, Vec2 normal, double depth, Vec2 centre)
    : SingularField(material, point, normal, depth) {
  centre_ = centre;
  hole_radius_ = norm(point - centre);
  // D = n (k - 1) / (2 pi (k + 1)) with k = (3 - nu')/(1 + nu') cancels the Burgers vector of the half-plane field.
  dislocation_ = (1 - material.poisson) / (4 * kPi);
}

Vec2 SingularField::displacement(Vec2 x) const {
  const Vec2 d = turned_back(x - point_, normal_);
  const double r2 = dot(d, d);
  const double nu = material_.poisson;
  const double scale = 1 / (kPi * material_.modulus);
  const double along = -std::log(r2 / (depth_ * depth_)) - (1 + nu) * d.y * d.y / r2;
  double angle = std::atan2(d.y, d.x);
  Vec2 dislocation;
  if (hole_radius_ > 0) {
    // arg d - arg z in one: its cut is the stretch from the load to the hole's centre, while those of the two parts run
    // on to infinity, and straight behind a load rounding would decide on which side of each a point lies.
    const Vec2 z = turned_back(x - centre_, normal_);
    angle = std::atan2(mechanism::cross(z, d), dot(z, d));
    dislocation = single_valued_dislocation(z);
  }
  const double across = (1 + nu) * d.x * d.y / r2 - (1 - nu) * angle;
  return turned(Vec2{scale * along, scale * across} + dislocation, normal_);
}

Vec2 SingularField::dislocation_displacement(Vec2 x) const {
  if (hole_radius_ <= 0) return {};
  const Vec2 z = turned_back(x - centre_, normal_);
  const double nu = material_.poisson;
  const double angle = (1 - nu) * std::atan2(z.y, z.x) / (kPi * material_.modulus);
  return turned(single_valued_dislocation(z) + Vec2{0, angle}, normal_);
}

Vec2 SingularField::single_valued_dislocation(Vec2 z) const {
  const double r2 = dot(z, z);
  const double nu = material_.poisson;
  const double k = (3 - nu) / (1 + nu);
  const double scale = dislocation_ * (1 + nu) / material_.modulus;  // D / (2 mu)
  return scale * Vec2{0.5 * (k - 1) * std::log(r2 / (hole_radius_ * hole_radius_)) - (z.x * z.x - z.y * z.y) / r2,
                      -2 * z.x * z.y / r2};
}

Stress SingularField::stress(Vec2 x, double core) const {
  const Vec2 d = x - point_;
  const double r = norm(d);
  Stress s;
  if (r > kLoadItself) {
    const Vec2 e = (1 / r) * d;
    const double rr = -2 / kPi * dot(e, normal_) / std::fmax(r, core);
    s = {rr * e.x * e.x, rr * e.y * e.y, rr * e.x * e.y};
  } else {
    const double rr = -2 / (kPi * core);
    s = {rr * normal_.x * normal_.x, rr * normal_.y * normal_.y, rr * normal_.x * normal_.y};
  }
  if (hole_radius_ > 0) {
    const Vec2 z = x - centre_;
    const double r2 = dot(z, z);
    const Vec2 D = dislocation_ * normal_;
    const Vec2 over_z = (1 / r2) * turned_back(D, z);                        // D / z
    const Vec2 squared = (1 / r2) * turned_back(turned_back(over_z, z), z);  // conj(z) D / z^2
    const Vec2 conjugate = (1 / r2) * turned_back({D.x, -D.y}, z);           // conj(D) / z
    const double sum = 4 * over_z.x;
    const Vec2 difference = 2.0 * (conjugate - squared);
    s += {(sum - difference.x) / 2, (sum + difference.x) / 2, difference.y / 2};
  }
  return s;
}

SingularField::Source<double> SingularField::source() const {
  return {point_.x, point_.y, normal_.x, normal_.y, centre_.x, centre_.y, dislocation_};
}

double bore_load_frame(PlaneMaterial material, double bore_radius, double depth) {
  const double nu = material.poisson;
  return -(2 * std::log(bore_radius / depth) - 0.5 + (1 + nu) / 2 + (1 - nu) / 4 + (1 - nu * nu) / 4) /
         (kPi * material.modulus);
}

}  // namespace lobewise::contact::elastic
