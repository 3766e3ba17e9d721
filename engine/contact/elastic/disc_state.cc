#include "engine/contact/elastic/disc_state.h"

#include <algorithm>

#include "engine/base/constants.h"

namespace lobewise::contact::elastic {

using mechanism::cross;
using mechanism::dot;
using mechanism::norm;
using mechanism::quarter_turn;
using mechanism::unit;

DiscState::DiscState(const ElasticDisc::Data& data, int number)
    : gaps(data.model.stage.rollers()),
      flexibility({}),
      data_(&data),
      number_(number),
      compliance_(1 / (data.model.material.modulus * data.model.stage.width)),
      laws_(data.model, data.depth),
      perfect_(data.model.stage),
      finder_(data.model.stage) {
  set_offsets({});
}

double DiscState::set_offsets(const PartOffsets& offsets) {
  const auto& stage = data_->model.stage;
  const auto rollers = static_cast<std::size_t>(stage.rollers()), pins = static_cast<std::size_t>(stage.pins);
  const auto d = static_cast<std::size_t>(number_);
  finder_.set_offsets(offsets, d);
  double most = 0;
  const auto note = [&](Vec2 away, double radius) { most = std::max(most, norm(away) + std::abs(radius)); };
  for (std::size_t k = 0; k < rollers; ++k)
    note({PartOffsets::of(offsets.roller_radial, k), PartOffsets::of(offsets.roller_tangential, k)},
         PartOffsets::of(offsets.roller_radius, k));
  pin_away_.resize(pins);
  hole_away_.resize(pins);
  pin_clearance_.resize(pins);
  for (std::size_t j = 0; j < pins; ++j) {
    pin_away_[j] = {PartOffsets::of(offsets.pin_radial, j), PartOffsets::of(offsets.pin_tangential, j)};
    hole_away_[j] = {PartOffsets::of(offsets.hole_radial, d, j), PartOffsets::of(offsets.hole_tangential, d, j)};
    pin_clearance_[j] = PartOffsets::of(offsets.hole_radius, d, j) - PartOffsets::of(offsets.pin_radius, j);
    note(pin_away_[j], pin_clearance_[j]);
    note(hole_away_[j], 0);
  }
  return most;
}

Vec2 DiscState::pin_centre(int pin) const { return mechanism::pin_centre(data_->model.stage, shaft_angle_, pin); }

Contact DiscState::ring_contact(int roller) const {
  const ElasticModel& model = data_->model;
  const double r = model.stage.roller_radius;
  const Vec2 n = {gaps.normal_x[roller], gaps.normal_y[roller]};
  const Vec2 seat = -unit(mechanism::roller_angle(model.stage, roller));  // the force on the roller presses it along -n
  const double gamma = std::atan2(cross(seat, n), dot(seat, n));
  Contact c;
  c.kind = Kind::ring;
  c.index = roller;
  c.rho = gaps.radius[roller];
  c.law = laws_.body(c.rho) + laws_.body(c.rho);
  c.law.p += compliance_ * data_->seat.constant(gamma, r / data_->depth) + model.ring_compliance;
  c.slide_curvature = (1 - c.rho / r) / r;  // kap / (1 + kap r)
  c.slide_direction = quarter_turn(n);
  c.point = mechanism::roller_mesh(model.stage, crank_angle, roller).contact - pose_.centre;
  return c;
}

Contact DiscState::pin_contact(int pin) const {
  const ElasticModel& model = data_->model;
  const double rw = model.stage.pin_radius, rh = model.stage.hole_radius();
  const Vec2 n = -unit(crank_angle);
  Contact c;
  c.kind = Kind::pin;
  c.index = pin;
  c.rho = 1 / (1 / rw - 1 / rh);
  if (model.pin_core_radius > 0) {
    c.law = laws_.body(c.rho) + laws_.body(c.rho);
    c.law.p += compliance_ * data_->pin_constant;
  } else {
    c.law = laws_.body(c.rho) + laws_.sleeve(c.rho, rw);
  }
  c.law.p += model.pin_compliance;
  c.slide_curvature = -1 / (rh - rw);
  c.slide_direction = quarter_turn(n);
  c.point = pin_centre(pin) + rh * n;
  return c;
}

Contact DiscState::bearing_contact(int roller) const {
  const ElasticModel& model = data_->model;
  const double r = model.rollers.radius, rb = model.bore_radius;
  const double outer = 1 / (1 / r - 1 / rb), inner = 1 / (1 / r + 1 / (rb - 2 * r));
  const double angle = model.rollers.phase + model.rollers.cage_speed * shaft_angle_ +
                       2 * kPi * number_ / model.stage.discs + 2 * kPi * roller / model.rollers.count;
  Contact c;
  c.kind = Kind::bearing;
  c.index = roller;
  c.rho = inner;
  c.law = laws_.body(outer) + laws_.sleeve(outer, r) + laws_.body(inner) + laws_.sleeve(inner, r);
  c.slide_direction = quarter_turn(unit(angle));
  c.point = rb * unit(angle);
  return c;
}

void DiscState::place(double shaft_angle) {
  const ElasticModel& model = data_->model;
  const auto& stage = model.stage;
  shaft_angle_ = shaft_angle;
  crank_angle = mechanism::disc_crank_angle(stage, shaft_angle, number_);
  pose_ = mechanism::ideal_pose(stage, shaft_angle, number_);
  perfect_.set_crank(crank_angle);
  perfect_.evaluate({}, gaps);
  finder_.set_crank(crank_angle);
  const std::vector<Contact> old = std::move(contacts);
  contacts.clear();
  std::vector<SurfacePoint> points;
  for (int k = 0; k < stage.rollers(); ++k) {
    contacts.push_back(ring_contact(k));
    const double ideal = mechanism::roller_mesh(stage, crank_angle, k).profile_parameter;
    points.push_back(body().on_flank(map().angle(ideal + gaps.foot[k])));
  }
  if (model.torque_by_pins)
    for (int j = 0; j < stage.pins; ++j) {
      contacts.push_back(pin_contact(j));
      points.push_back(body().on_hole(map().hole(j, stage.pins), map().angle(crank_angle + kPi - pose_.rotation)));
    }
  if (model.bore == BoreModel::rollers)
    for (int i = 0; i < model.rollers.count; ++i) {
      contacts.push_back(bearing_contact(i));
      const Vec2 at = contacts.back().point;
      points.push_back(body().on_bore(map().angle(std::atan2(at.y, at.x) - pose_.rotation)));
    }
  flexibility = Flexibility(std::move(points));
  for (std::size_t i = 0; i < std::min(old.size(), contacts.size()); ++i) {
    contacts[i].force = old[i].force;
    contacts[i].correction = old[i].correction;
  }
}

void DiscState::forget() {
  for (Contact& c : contacts) c.force = c.correction = 0;
}

void DiscState::evaluate(double output_rotation) {
  const ElasticModel& model = data_->model;
  finder_.evaluate(shift, gaps);
  for (Contact& c : contacts) {
    switch (c.kind) {
      case Kind::ring: {
        const int k = c.index;
        c.delta = -gaps.gap[k];
        c.rate = {-gaps.normal_x[k], -gaps.normal_y[k], -gaps.arm[k], 0};
        break;
      }
      case Kind::pin: {
        const Vec2 ideal = pin_centre(c.index);
        const auto j = static_cast<std::size_t>(c.index);
        const Vec2 outward = (1 / norm(ideal)) * ideal;
        const Vec2 pin = turned(ideal + turned(pin_away_[j], outward), unit(output_rotation));
        const Vec2 hole = turned(ideal + turned(hole_away_[j], outward), unit(shift.rotation));
        const Vec2 v = pin - (pose_.centre + shift.u + hole);
        const double length = norm(v);
        const Vec2 n = (1 / length) * v;
        c.delta = length - (model.stage.hole_radius() - model.stage.pin_radius) - pin_clearance_[j];
        c.rate = {-n.x, -n.y, -cross(hole, n), cross(pin, n)};
        break;
      }
      case Kind::bearing: {
        const Vec2 n = -quarter_turn(c.slide_direction);
        c.delta = -model.rollers.clearance - dot(n, shift.u);
        c.rate = {-n.x, -n.y, 0, 0};
        break;
      }
    }
    c.delta -= c.correction;
  }
}

double DiscState::correct(double output_rotation) {
  double most = 0;
  for (std::size_t i = 0; i < contacts.size(); ++i) {
    Contact& c = contacts[i];
    if (c.kind == Kind::bearing) continue;
    Vec2 motion = shift.u + shift.rotation * quarter_turn(c.point);
    if (c.kind == Kind::pin) motion -= output_rotation * quarter_turn(pin_centre(c.index));
    const double rigid = dot(c.slide_direction, motion);
    double elastic = 0;
    for (const int j : active) elastic += flexibility.tangential(static_cast<int>(i), j) * contacts[j].force;
    elastic *= map().hand * compliance_;
    const double correction = 0.5 * c.slide_curvature * elastic * (2 * rigid + elastic);
    most = std::max(most, std::abs(correction - c.correction));
    c.correction = correction;
  }
  return most;
}

}  // namespace lobewise::contact::elastic
