#include "engine/contact/part_offsets.h"

#include <fmt/core.h>

#include <algorithm>
#include <cmath>
#include <string>

namespace lobewise::contact {
namespace {

/// Share of a part's radius that its deviation stays below.
constexpr double kMostShare = 0.1;

class Checker {
 public:
  explicit Checker(Errors& errors) : errors_(errors) {}

  void list(const std::string& name, const std::vector<double>& values, int count, const char* parts, double radius) {
    if (values.empty()) return;
    if (values.size() != static_cast<std::size_t>(count)) {
      errors_.push_back(input_error(name, fmt::format("{} values", values.size()),
                                    fmt::format("must hold one value for each of the {} {}.", count, parts)));
      return;
    }
    for (std::size_t i = 0; i < values.size(); ++i)
      if (!(std::abs(values[i]) < kMostShare * radius))
        errors_.push_back(input_error(
            fmt::format("{}[{}]", name, i), fmt::format("{:.6g} mm", values[i] * 1e3),
            fmt::format("must be smaller than a tenth of the radius, {:.4g} mm: the contacts are looked for "
                        "near their nominal place.",
                        kMostShare * radius * 1e3)));
  }

  void lists(const std::string& name, const std::vector<std::vector<double>>& values, int discs, int count,
             const char* parts, double radius) {
    if (values.empty()) return;
    if (values.size() != static_cast<std::size_t>(discs)) {
      errors_.push_back(input_error(name, fmt::format("{} lists", values.size()),
                                    fmt::format("must hold one list of {} for each of the {} discs.", parts, discs)));
      return;
    }
    for (std::size_t d = 0; d < values.size(); ++d)
      list(fmt::format("{}[{}]", name, d), values[d], count, parts, radius);
  }

 private:
  Errors& errors_;
};

}  // namespace

Errors check_offsets(const PartOffsets& offsets, const mechanism::StageGeometry& stage) {
  Errors errors;
  Checker check(errors);
  check.list("roller_radial", offsets.roller_radial, stage.rollers(), "ring rollers", stage.roller_radius);
  check.list("roller_tangential", offsets.roller_tangential, stage.rollers(), "ring rollers", stage.roller_radius);
  check.list("roller_radius", offsets.roller_radius, stage.rollers(), "ring rollers", stage.roller_radius);
  check.lists("hole_radial", offsets.hole_radial, stage.discs, stage.pins, "holes", stage.pin_radius);
  check.lists("hole_tangential", offsets.hole_tangential, stage.discs, stage.pins, "holes", stage.pin_radius);
  check.lists("hole_radius", offsets.hole_radius, stage.discs, stage.pins, "holes", stage.pin_radius);
  check.lists("flank", offsets.flank, stage.discs, stage.rollers(), "flanks", stage.roller_radius);
  check.list("pin_radial", offsets.pin_radial, stage.pins, "output pins", stage.pin_radius);
  check.list("pin_tangential", offsets.pin_tangential, stage.pins, "output pins", stage.pin_radius);
  check.list("pin_radius", offsets.pin_radius, stage.pins, "output pins", stage.pin_radius);
  return errors;
}

double roller_gap_change(double shortening, double behind_crank, double radial, double tangential, double radius) {
  const double c = std::cos(behind_crank);
  const double distance = std::sqrt(1 + shortening * shortening - 2 * shortening * c);
  return (radial * (1 - shortening * c) - tangential * shortening * std::sin(behind_crank)) / distance - radius;
}

}  // namespace lobewise::contact
