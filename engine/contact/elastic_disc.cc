#include "engine/contact/elastic_disc.h"

#include <fmt/core.h>

#include <cmath>

#include "engine/contact/elastic/stage_data.h"

namespace lobewise::contact {
namespace elastic {

std::optional<BodyMap> same_body(int lobes, int holes, double offset, double body_offset) {
  constexpr double kSame = 1e-9;
  for (int hand = 1; hand >= -1; hand -= 2)
    for (int lobe = 0; lobe < lobes; ++lobe) {
      const double turn = 2 * kPi * lobe / lobes;
      // hole j of the disc stands at hand (2 pi j / M + offset - turn) in the body.
      const double shift = (hand * (offset - turn) - body_offset) * holes / (2 * kPi);
      if (holes > 0 && std::abs(shift - std::round(shift)) > kSame) continue;
      return BodyMap{0, turn, static_cast<int>(std::lround(shift)), static_cast<double>(hand)};
    }
  return std::nullopt;
}

}  // namespace elastic

namespace {

std::string in_path(std::string_view path, std::string_view member) {
  return path.empty() ? std::string(member) : fmt::format("{}.{}", path, member);
}

/// The change-over depth in plane stress as a share of the width: three-dimensional elements of a block under a line
/// contact, docs/theory/elastic.md.
constexpr double kPlaneStressDepth = 0.04;

}  // namespace

double cage_speed(int lobes, double bore_radius, double roller_radius) {
  const double outer = bore_radius, inner = bore_radius - 2 * roller_radius;
  return (inner - outer / lobes) / (inner + outer);
}

double working_depth(const ElasticModel& model) {
  if (model.depth > 0) return model.depth;
  return model.body == BodyState::plane_stress ? kPlaneStressDepth * model.stage.width : model.stage.width;
}

Errors check_model(const ElasticModel& model, std::string_view path) {
  Errors errors = mechanism::check_geometry(model.stage, in_path(path, "stage"));
  if (!errors.empty()) return errors;
  const auto reject = [&](std::string_view member, double value, std::string message) {
    errors.push_back(input_error(in_path(path, member), fmt::format("{:.6g}", value), std::move(message)));
  };
  const auto not_negative = [&](std::string_view member, double value) {
    if (!(value >= 0) || !std::isfinite(value)) reject(member, value, "must be zero or more.");
  };
  if (!(model.material.modulus > 0) || !std::isfinite(model.material.modulus))
    reject("material.modulus", model.material.modulus, "must be greater than zero.");
  if (!(model.material.poisson >= 0 && model.material.poisson < 0.5))
    reject("material.poisson", model.material.poisson, "must be at least 0 and below 0.5.");
  not_negative("ring_compliance", model.ring_compliance);
  not_negative("pin_compliance", model.pin_compliance);
  not_negative("depth", model.depth);
  const auto& stage = model.stage;
  if (model.holes) {
    for (Error& error : mechanism::check_bore(stage, model.bore_radius, in_path(path, "bore_radius")))
      errors.push_back(std::move(error));
  } else {
    const double root = stage.cut_pitch_radius() - stage.eccentricity - stage.cut_roller_radius();
    if (!(model.bore_radius > 0 && model.bore_radius < 0.95 * root))
      reject("bore_radius", model.bore_radius, "must be above zero and leave a rim under the lobes.");
  }
  if (stage.roller_radius <= stage.eccentricity)
    reject("stage.roller_radius", stage.roller_radius,
           "must exceed the eccentricity for the elastic disc: the contact's half-plane would cut the lobe.");
  if (model.torque_by_pins && !model.holes)
    reject("holes", 0, "must be cut in the discs when the output pins carry the torque.");
  if (model.torque_by_pins && !(model.pin_core_radius >= 0 && model.pin_core_radius < stage.pin_radius))
    reject("pin_core_radius", model.pin_core_radius, "must be zero or more and below the output pin's outer radius.");
  if (model.bore == BoreModel::rollers) {
    const BoreRollers& rollers = model.rollers;
    if (rollers.count < 3)
      reject("rollers.count", rollers.count,
             "must be at least 3 for the rollers of the eccentric bearing to hold the disc.");
    if (!(rollers.radius > 0 && 2 * rollers.radius < model.bore_radius))
      reject("rollers.radius", rollers.radius, "must be above zero and leave an inner race inside the bore.");
    not_negative("rollers.clearance", rollers.clearance);
  }
  if (model.intervals_per_lobe != 0 && model.intervals_per_lobe < 4)
    reject("intervals_per_lobe", model.intervals_per_lobe, "must be 4 or more, or 0 for the recommended number.");
  if (model.layers < 0) reject("layers", model.layers, "must be 0 for the recommended number, or more.");
  return errors;
}

Result<ElasticDisc> ElasticDisc::build(const ElasticModel& model) {
  if (Errors errors = check_model(model); !errors.empty()) return errors;
  const auto& stage = model.stage;
  const double nu = model.material.poisson;
  const auto material = model.body == BodyState::plane_stress ? elastic::plane_stress(nu) : elastic::plane_strain(nu);
  const double depth = working_depth(model);
  auto density = elastic::default_density(stage.lobes);
  if (model.intervals_per_lobe > 0) density.per_lobe = model.intervals_per_lobe;
  if (model.layers > 0) density.layers = model.layers;
  auto data = std::make_shared<Data>(Data{model, depth, {}, {}, elastic::SeatedRoller(material), 0});
  const int holes = model.holes ? stage.pins : 0;
  std::vector<double> offsets;
  for (int disc = 0; disc < stage.discs; ++disc) {
    const double offset = 2 * kPi * disc / (stage.discs * stage.lobes);
    std::optional<elastic::BodyMap> map;
    for (std::size_t body = 0; body < offsets.size() && !map; ++body) {
      map = elastic::same_body(stage.lobes, holes, offset, offsets[body]);
      if (map) map->body = static_cast<int>(body);
    }
    if (!map) {
      const elastic::DiscShape shape{stage, model.bore_radius, model.holes, offset};
      std::optional<elastic::TableDensity> table;
      if (model.table) table = elastic::default_table(shape);
      auto body = elastic::DiscBody::build(
          shape, material, model.bore == BoreModel::glued ? elastic::BoreBase::glued : elastic::BoreBase::frame,
          density, table);
      if (!body) return body.errors();
      map = elastic::BodyMap{static_cast<int>(offsets.size()), 0, 0, 1};
      data->bodies.push_back(std::move(body).value());
      offsets.push_back(offset);
    }
    data->maps.push_back(*map);
  }
  if (model.torque_by_pins && model.pin_core_radius > 0)
    data->pin_constant =
        elastic::cored_pin_constant(material, model.pin_core_radius / stage.pin_radius, stage.pin_radius / depth);
  return ElasticDisc(std::move(data));
}

const ElasticModel& ElasticDisc::model() const { return data_->model; }

}  // namespace lobewise::contact
