#include "engine/contact/mesh_model.h"

#include <fmt/core.h>

#include <cmath>

#include "engine/mechanism/profile.h"

namespace lobewise::contact {
namespace {

std::string joined(std::string_view path, std::string_view member) {
  return path.empty() ? std::string(member) : fmt::format("{}.{}", path, member);
}

void need(bool holds, Errors& errors, std::string_view path, std::string_view member, double value,
          const char* message) {
  if (!holds || !std::isfinite(value))
    errors.push_back(input_error(joined(path, member), fmt::format("{:.6g}", value), message));
}

void check_law(const LawSettings& law, Errors& errors, const std::string& path) {
  need(law.multiplier > 0, errors, path, "multiplier", law.multiplier, "must be greater than zero.");
  need(law.extra_compliance >= 0, errors, path, "extra_compliance", law.extra_compliance, "must be zero or more.");
  need(law.depth > 0, errors, path, "depth", law.depth, "must be a length greater than zero.");
  need(law.linear_stiffness > 0, errors, path, "linear_stiffness", law.linear_stiffness, "must be greater than zero.");
}

}  // namespace

Errors check_model(const MeshModel& model, std::string_view path) {
  Errors errors = mechanism::check_geometry(model.stage, joined(path, "stage"));
  const bool geometry_exists = errors.empty();
  need(model.material.modulus > 0, errors, path, "material.modulus", model.material.modulus,
       "must be greater than zero.");
  need(model.material.poisson >= 0 && model.material.poisson < 0.5, errors, path, "material.poisson",
       model.material.poisson, "must be at least 0 and below 0.5.");
  check_law(model.ring_law, errors, joined(path, "ring_law"));
  check_law(model.pin_law, errors, joined(path, "pin_law"));
  need(model.support.stiffness > 0, errors, path, "support.stiffness", model.support.stiffness,
       "must be greater than zero.");
  need(model.support.clearance >= 0, errors, path, "support.clearance", model.support.clearance,
       "must be zero or more.");
  if (geometry_exists) {
    const double root_radius = -1 / mechanism::Profile(model.stage).curvature(0);
    if (root_radius > 0 && model.stage.roller_radius >= root_radius)
      errors.push_back(
          input_error(joined(path, "stage.roller_radius"), fmt::format("{:.6g} mm", model.stage.roller_radius * 1e3),
                      fmt::format("must be below the radius of the lobe roots, {:.6g} mm, or the rollers jam there.",
                                  root_radius * 1e3)));
  }
  return errors;
}

}  // namespace lobewise::contact
