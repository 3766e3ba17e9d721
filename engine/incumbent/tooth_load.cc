#include "engine/incumbent/tooth_load.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

/// Load per length of a contact line in relative terms; zero outside the path of contact.
double line_weight(const PairGeometry& geometry, double g) {
  if (g < -geometry.approach || g > geometry.recess) {
    return 0;
  }
  const double half = 1 + geometry.contact_ratio / 2;
  const double b0 = 1 / std::sqrt(half * half / 2 - 1);
  const double middle = (geometry.recess - geometry.approach) / 2;
  return std::cos(b0 * (g - middle) / geometry.base_pitch);
}

}  // namespace

double contact_modulus(double e1, double nu1, double e2, double nu2) {
  return 1 / ((1 - nu1 * nu1) / e1 + (1 - nu2 * nu2) / e2);
}

MeshInstant mesh_instant(const PairGeometry& geometry, const MeshLoad& load, double pinion_angle, int slices) {
  const bool internal = geometry.pair.internal;
  MeshInstant instant;
  instant.pinion_angle = pinion_angle;
  instant.pinion_tooth_angle = pinion_angle - half_tooth_angle(geometry, false, geometry.rw1);
  const double wheel_half = half_tooth_angle(geometry, true, geometry.rw2);
  instant.wheel_tooth_angle =
      internal ? wheel_half + pinion_angle / geometry.ratio : kPi - wheel_half - pinion_angle / geometry.ratio;
  instant.wheel_centre = {internal ? -geometry.centre_distance : geometry.centre_distance, 0};

  const double width = geometry.pair.face_width;
  const double slope = std::tan(geometry.base_helix);
  const double reach = width * slope / 2;
  const double g_first = geometry.rb1 * pinion_angle;
  const int lowest = static_cast<int>(std::ceil((-geometry.approach - reach - g_first) / geometry.base_pitch));
  const int highest = static_cast<int>(std::floor((geometry.recess + reach - g_first) / geometry.base_pitch));
  const double slice_width = width / slices;
  // Force in the transverse plane of action; a slice of face dy holds dy / cos beta_b of contact line and the force
  // normal to it is larger by the same factor, so the two cosines cancel in weight sums over the face.
  const double transverse_force = load.torque / geometry.rb1;
  const double normal_force = transverse_force / std::cos(geometry.base_helix);
  double total = 0;
  std::vector<double> peak;  // largest weight / relative curvature radius along each pair's line
  for (int index = lowest; index <= highest; ++index) {
    const double g_mid = g_first + index * geometry.base_pitch;
    double sum = 0;
    double largest = 0;
    for (int slice = 0; slice < slices; ++slice) {
      const double y = (slice + 0.5) * slice_width - width / 2;
      const double g = g_mid + y * slope;
      const double weight = line_weight(geometry, g);
      if (weight > 0) {
        sum += weight * slice_width;
        largest = std::max(largest, weight / curvature_at(geometry, g).relative);
      }
    }
    if (sum <= 0) {
      continue;
    }
    total += sum;
    peak.push_back(largest);
    ToothContact contact;
    contact.pair = index;
    contact.g = g_mid;
    contact.in_section = g_mid >= -geometry.approach && g_mid <= geometry.recess;
    if (contact.in_section) {
      contact.point = {geometry.rw1 + g_mid * std::sin(geometry.working_angle),
                       g_mid * std::cos(geometry.working_angle)};
      contact.sliding = sliding_speed(geometry, g_mid, load.pinion_speed);
    }
    contact.share = sum;
    instant.contacts.push_back(contact);
  }
  for (std::size_t i = 0; i < instant.contacts.size(); ++i) {
    ToothContact& contact = instant.contacts[i];
    contact.share /= total;
    contact.force = contact.share * normal_force;
    const double line_load_over_radius = load.face_load_factor * transverse_force * peak[i] / total;
    contact.pressure = std::sqrt(line_load_over_radius * std::cos(geometry.base_helix) * load.contact_modulus / kPi);
  }
  return instant;
}

MeshCycle mesh_cycle(const PairGeometry& geometry, const MeshLoad& load, int steps) {
  MeshCycle cycle;
  cycle.mean_pairs = geometry.total_contact_ratio();
  cycle.fewest_pairs = 1 << 20;
  const double pitch_angle = geometry.base_pitch / geometry.rb1;
  for (int step = 0; step < steps; ++step) {
    const MeshInstant instant = mesh_instant(geometry, load, pitch_angle * (step + 0.5) / steps);
    const int pairs = static_cast<int>(instant.contacts.size());
    cycle.fewest_pairs = std::min(cycle.fewest_pairs, pairs);
    cycle.most_pairs = std::max(cycle.most_pairs, pairs);
    for (const ToothContact& contact : instant.contacts) {
      cycle.largest_share = std::max(cycle.largest_share, contact.share);
      cycle.largest_pressure = std::max(cycle.largest_pressure, contact.pressure);
    }
  }
  return cycle;
}

}  // namespace lobewise::incumbent
