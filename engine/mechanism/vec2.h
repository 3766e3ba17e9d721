#pragma once
// Plane vectors. Counter-clockwise is positive; the shaft axis is the origin and points at the reader.
#include <cmath>

namespace lobewise::mechanism {

struct Vec2 {
  double x = 0;
  double y = 0;

  constexpr Vec2& operator+=(Vec2 o) { return x += o.x, y += o.y, *this; }
  constexpr Vec2& operator-=(Vec2 o) { return x -= o.x, y -= o.y, *this; }
  friend constexpr Vec2 operator+(Vec2 a, Vec2 b) { return {a.x + b.x, a.y + b.y}; }
  friend constexpr Vec2 operator-(Vec2 a, Vec2 b) { return {a.x - b.x, a.y - b.y}; }
  friend constexpr Vec2 operator-(Vec2 a) { return {-a.x, -a.y}; }
  friend constexpr Vec2 operator*(double s, Vec2 a) { return {s * a.x, s * a.y}; }
};

[[nodiscard]] constexpr double dot(Vec2 a, Vec2 b) { return a.x * b.x + a.y * b.y; }
/// Moment of b acting at a, about the origin.
[[nodiscard]] constexpr double cross(Vec2 a, Vec2 b) { return a.x * b.y - a.y * b.x; }
/// A quarter turn counter-clockwise.
[[nodiscard]] constexpr Vec2 quarter_turn(Vec2 a) { return {-a.y, a.x}; }
/// `a` turned by the angle of the unit vector `direction` (product of complex numbers).
[[nodiscard]] constexpr Vec2 turned(Vec2 a, Vec2 direction) {
  return {a.x * direction.x - a.y * direction.y, a.x * direction.y + a.y * direction.x};
}
/// `a` turned back by the angle of the unit vector `direction`.
[[nodiscard]] constexpr Vec2 turned_back(Vec2 a, Vec2 direction) {
  return {a.x * direction.x + a.y * direction.y, a.y * direction.x - a.x * direction.y};
}
[[nodiscard]] inline Vec2 unit(double angle) { return {std::cos(angle), std::sin(angle)}; }
[[nodiscard]] inline double norm(Vec2 a) { return std::sqrt(dot(a, a)); }

}  // namespace lobewise::mechanism
