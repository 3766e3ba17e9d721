#include "apps/handover/demo_model.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::handover {
namespace {

/// Outside of the ring over its roller circle: leaves a wall behind the rollers.
constexpr double kRingOverPitch = 1.22;
constexpr int kFine = 96, kSmall = 40;  ///< points of large and small circles
constexpr double kLeastWall = 0.8;      ///< two lines of a common nozzle [mm]; common practice, no source

/// Measures of the model in millimetres.
struct Measures {
  int lobes, rollers, pins, discs;
  double R, r, e, Rw, rw, rh, bore;  ///< pitch, roller, eccentricity, pin circle, pin, hole, bore
  double outside, clearance;
  double thick;  ///< of a disc
  double floor;  ///< of the output flange
  double gap;    ///< between discs
};

Measures measure(const Json& g, double size, double clearance) {
  const double k = demo_scale(g, size) * 1000;  // to millimetres
  Measures m{};
  m.lobes = g["lobes"];
  m.rollers = g["rollers"];
  m.pins = g["pins"];
  m.discs = std::min(g["discs"].get<int>(), 2);  // a third could not be put on the eccentric in one piece
  m.R = k * g["pitch_radius"].get<double>();
  m.r = k * g["roller_radius"].get<double>();
  m.e = k * g["eccentricity"].get<double>();
  m.Rw = k * g["pin_circle_radius"].get<double>();
  m.rw = k * g["pin_radius"].get<double>();
  m.rh = k * g["hole_radius"].get<double>();
  m.bore = k * g["bore_radius"].get<double>();
  m.outside = size / 2;
  m.clearance = clearance;
  m.thick = std::max(4.0, 0.05 * size);
  m.floor = std::max(3.0, 0.03 * size);
  m.gap = std::max(1.6, 4 * clearance);
  return m;
}

/// Height of everything that turns inside the ring, from the flange's face.
double stack_height(const Measures& m) { return m.discs * m.thick + (m.discs + 1) * m.gap; }

/// Inside of the ring: the wall, and every roller standing out of it, counter-clockwise.
/// @param wall  radius between the rollers
Loop roller_contour(const Measures& m, double wall) {
  // Angle at the roller's centre between the outward radius and the point where its circle meets the wall.
  const double cosine = (wall * wall - m.R * m.R - m.r * m.r) / (2 * m.R * m.r);
  const double meet = std::acos(std::clamp(cosine, -1.0, 1.0));
  const double at_wall = std::atan2(m.r * std::sin(meet), m.R + m.r * std::cos(meet));
  constexpr int kArc = 20, kBetween = 4;
  Loop loop;
  for (int k = 0; k < m.rollers; ++k) {
    const double th = 2 * kPi * k / m.rollers;
    const Point centre{m.R * std::cos(th), m.R * std::sin(th)};
    for (int i = 0; i <= kArc; ++i) {  // round the inner side of the roller
      const double a = th + 2 * kPi - meet - (2 * kPi - 2 * meet) * i / kArc;
      loop.push_back(centre + Point{m.r * std::cos(a), m.r * std::sin(a)});
    }
    const double from = th + at_wall, to = th + 2 * kPi / m.rollers - at_wall;
    for (int i = 1; i < kBetween; ++i) {
      const double a = from + (to - from) * i / kBetween;
      loop.push_back({wall * std::cos(a), wall * std::sin(a)});
    }
  }
  return loop;
}

/// Ring: rollers in front, behind them a plain bore in which the output flange turns.
Result<Solid> ring(const Measures& m, double flange) {
  // Between the rollers the lobe tips reach out to R - r + 2 e.
  const double wall = std::max(m.R, m.R - m.r + 2 * m.e + 2 * m.clearance);
  const double bore = flange + m.clearance;  // for the output flange
  if (wall > m.R + 0.8 * m.r || bore > m.R - m.r - kLeastWall / 2 || wall + kLeastWall > m.outside)
    return model_error("model", "", "the rollers of this stage cannot be printed in one piece with their ring");
  Solid body;
  body.name = "Ring with rollers";
  const Loop outside = circle({}, m.outside, 2 * kFine), inner = roller_contour(m, wall),
             back = circle({}, bore, kFine);
  const double step = m.floor + m.clearance, top = step + stack_height(m);
  body.wall(outside, 0, top, false);
  body.wall(back, 0, step, true);
  body.wall(inner, step, top, true);
  body.face(outside, {back}, 0, false);
  body.face(inner, {back}, step, true);  // ledge under the rollers, on which nothing rubs
  body.face(outside, {inner}, top, true);
  return body;
}

Solid disc(const Measures& m, const Loop& outline, int number) {
  Solid body;
  body.name = m.discs == 1 ? "Disc" : fmt::format("Disc {}", number + 1);
  // The lobes of disc d stand at -2 pi d / (discs N) to its holes; here the lobes stay and the holes turn.
  const double shift = 2 * kPi * number / (m.discs * m.lobes);
  std::vector<Loop> holes{circle({}, m.bore, kFine)};
  for (int k = 0; k < m.pins; ++k) {
    const double a = 2 * kPi * k / m.pins + shift;
    holes.push_back(circle({m.Rw * std::cos(a), m.Rw * std::sin(a)}, m.rh + m.clearance, kSmall));
  }
  body.prism(outline, holes, 0, m.thick);
  return body;
}

/// Output flange with its pins and the hole in which the eccentric runs.
Solid output(const Measures& m, double flange, double stub) {
  Solid body;
  body.name = "Output flange with pins";
  const Loop outside = circle({}, flange, kFine), hole = circle({}, stub + m.clearance, kSmall);
  std::vector<Loop> openings{hole};
  const double top = m.floor + stack_height(m) - m.gap;
  for (int k = 0; k < m.pins; ++k) {
    const double a = 2 * kPi * k / m.pins;
    const Loop pin = circle({m.Rw * std::cos(a), m.Rw * std::sin(a)}, m.rw, kSmall);
    body.wall(pin, m.floor, top, false);
    body.face(pin, {}, top, true);
    openings.push_back(pin);
  }
  body.wall(outside, 0, m.floor, false);
  body.wall(hole, 0, m.floor, true);
  body.face(outside, {hole}, 0, false);
  body.face(outside, openings, m.floor, true);
  return body;
}

constexpr int kSides = 6;  ///< of the end on which the crank sits

/// Eccentric: a stub in the flange, a cam for each disc with a collar between, a six-sided end for the crank.
Solid eccentric(const Measures& m, double stub) {
  Solid body;
  body.name = "Eccentric";
  const double cam = m.bore - m.clearance;
  const Loop pivot = circle({}, stub, kSmall), end = circle({}, 0.9 * stub, kSides);
  // The collar keeps the discs apart and clears the output pins.
  const Loop collar = circle({}, (cam + m.e + m.Rw - m.rw - m.clearance) / 2, kFine);
  body.face(pivot, {}, 0, false);
  double z = m.floor + m.gap / 2;
  body.wall(pivot, 0, z, false);
  const Loop* below = &pivot;
  for (int d = 0; d < m.discs; ++d) {
    const double a = 2 * kPi * d / m.discs;
    const Loop disc_cam = circle({m.e * std::cos(a), m.e * std::sin(a)}, cam, kFine);
    d == 0 ? body.face(disc_cam, {*below}, z, false) : body.face(*below, {disc_cam}, z, true);
    const bool last = d + 1 == m.discs;
    const double top = m.floor + (d + 1) * (m.gap + m.thick) + (last ? 0.5 : 0.25) * m.gap;
    body.wall(disc_cam, z, top, false);
    z = top;
    if (last) {
      body.face(disc_cam, {end}, z, true);
    } else {
      body.face(collar, {disc_cam}, z, false);
      body.wall(collar, z, z + m.gap / 2, false);
      z += m.gap / 2;
      below = &collar;
    }
  }
  const double reach = z + std::max(8.0, 2 * m.thick);
  body.wall(end, z, reach, false);
  body.face(end, {}, reach, true);
  return body;
}

Solid crank(const Measures& m, double stub) {
  Solid body;
  body.name = "Crank";
  const double hub = stub + 2.5, width = std::max(4.0, 0.6 * hub), thick = std::max(4.0, 0.6 * m.thick);
  const double length = std::max(0.55 * m.outside, hub + 2 * width);
  // Outline: a large and a small round end, their tangents between.
  const double lean = std::asin((hub - width) / length);
  Loop arm;
  constexpr int kHalf = 24;
  for (int i = 0; i <= kHalf; ++i) {
    const double a = kPi / 2 - lean + (kPi + 2 * lean) * i / kHalf;
    arm.push_back({hub * std::cos(a), hub * std::sin(a)});
  }
  for (int i = 0; i <= kHalf; ++i) {
    const double a = -kPi / 2 + lean + (kPi - 2 * lean) * i / kHalf;
    arm.push_back({length + width * std::cos(a), width * std::sin(a)});
  }
  // A six-sided hole that clears the end by the gap on every side.
  const double corner = 0.9 * stub + m.clearance / std::cos(kPi / kSides);
  const Loop socket = circle({}, corner, kSides), knob = circle({length, 0}, 0.7 * width, kSmall);
  const double top = thick + std::max(10.0, 2 * m.thick);
  body.wall(arm, 0, thick, false);
  body.wall(socket, 0, thick, true);
  body.face(arm, {socket}, 0, false);
  body.face(arm, {socket, knob}, thick, true);
  body.wall(knob, thick, top, false);
  body.face(knob, {}, top, true);
  return body;
}

/// Rows of parts with room between them.
void lay_out(std::vector<Solid>& parts, double plate) {
  constexpr double kRoom = 5;
  double x = 0, y = 0, deep = 0;
  for (Solid& part : parts) {
    const Box box = part.footprint();
    if (x > 0 && x + box.width() > plate) {
      x = 0;
      y += deep + kRoom;
      deep = 0;
    }
    part.shift(x - box.left, y - box.bottom, 0);
    x += box.width() + kRoom;
    deep = std::max(deep, box.height());
  }
}

}  // namespace

double demo_scale(const Json& geometry, double size) {
  return size / 1000 / (2 * kRingOverPitch * geometry["pitch_radius"].get<double>());
}

Result<std::vector<Solid>> demo_parts(const Json& stage, double size, double clearance) {
  const Json& g = stage["geometry"];
  const Measures m = measure(g, size, clearance);
  const double k = demo_scale(g, size) * 1000;
  Loop outline;
  for (const Json& p : stage["outline"]) outline.push_back({k * p[0].get<double>(), k * p[1].get<double>()});
  // The flange is wider than its pins and slides inside the rollers.
  const double flange = (m.Rw + m.rw + m.R - m.r) / 2 - m.clearance;
  const double stub = 0.8 * (m.bore - m.clearance - m.e);
  if (stub < 2 || m.rw < kLeastWall || m.r < kLeastWall)
    return model_error("model", "", "parts of this stage become too small to be printed at this size");
  Result<Solid> outer = ring(m, flange);
  if (!outer) return outer.errors();
  std::vector<Solid> parts{std::move(*outer), output(m, flange, stub)};
  for (int d = 0; d < m.discs; ++d) parts.push_back(disc(m, outline, d));
  parts.push_back(eccentric(m, stub));
  parts.push_back(crank(m, stub));
  for (const Solid& part : parts)
    if (!part.watertight()) return Error{ErrorKind::internal, "model", part.name, "this part is not watertight", 0};
  lay_out(parts, 2.2 * size);
  return parts;
}

}  // namespace lobewise::handover
