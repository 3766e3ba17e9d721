#include "apps/handover/step_plan.h"

#include <algorithm>
#include <cmath>

#include "apps/handover/proportions.h"
#include "engine/base/constants.h"

namespace lobewise::handover {
namespace {

double mm(const Json& metres) { return 1000 * metres.get<double>(); }

Json cylinder(std::array<double, 3> from, std::array<double, 3> direction, double radius, double length) {
  return Json{{"cylinder", {{"from", from}, {"direction", direction}, {"radius", radius}, {"length", length}}}};
}
Json along_x(double from, double to, double radius) { return cylinder({from, 0, 0}, {1, 0, 0}, radius, to - from); }
Json box(std::array<double, 3> low, std::array<double, 3> high) {
  return Json{{"box", {{"low", low}, {"high", high}}}};
}

class Plan {
 public:
  explicit Plan(const Source& source) : d_(source.dimensions), unit_(d_["unit"]), shaft_(d_["shaft"]) {}

  Json reducer() {
    const double face = mm(d_["bodies"][0]["from"]), d = mm(shaft_["diameter"]);
    add_.push_back(along_x(-mm(shaft_["length"]), 0, d / 2));
    if (face > 0) add_.push_back(along_x(0, face, mm(d_["hub_diameter"]) / 2));
    for (const Json& body : d_["bodies"])
      add_.push_back(along_x(mm(body["from"]), mm(body["to"]), mm(body["diameter"]) / 2));
    d_["mounting"] == "foot" ? foot(face) : flange(face);
    keyway(d);
    return Json{{"name", d_["build_name"]}, {"add", add_}, {"cut", cut_}};
  }

  [[nodiscard]] Json motor() const {
    const Json& m = d_["motor"];
    const double from = mm(d_["length"]);
    double plate_end = from;
    Json add = Json::array();
    if (m.contains("flange")) {
      plate_end += kAdapterOverMotor * mm(m["flange"]["outside"]);
      add.push_back(along_x(from, plate_end, mm(m["flange"]["outside"]) / 2));
    }
    add.push_back(along_x(plate_end, from + mm(m["outline_length"]), mm(m["outline_diameter"]) / 2));
    return Json{{"name", "Motor, typical outline"}, {"add", add}, {"cut", Json::array()}};
  }

 private:
  void foot(double face) {
    const double h = mm(unit_["shaft_height"]), hole = mm(unit_["foot_hole"]), w = mm(unit_["width"]) / 2;
    const double first = mm(unit_["shoulder_to_hole"]), last = first + mm(unit_["foot_holes_along"]);
    const double edge = kPlateEdge * hole, top = -h * (1 - kPlateOverHeight), r = mm(d_["bodies"][0]["diameter"]) / 2;
    const double web = std::min(0.92 * w, 0.98 * r);
    add_.push_back(box({first - edge, -w, -h}, {last + edge, w, top}));
    add_.push_back(box({std::max(first - 0.4 * edge, face), -web, top}, {last + 0.4 * edge, web, 0}));
    for (double x : {first, last})
      for (double side : {-0.5, 0.5})
        cut_.push_back(cylinder({x, side * mm(unit_["foot_holes_across"]), -h - 1}, {0, 0, 1}, hole / 2, top + h + 2));
  }

  void flange(double face) {
    const double outside = mm(unit_["flange_outside"]), thick = kFlangeOverOutside * outside;
    const double spigot = std::min(1000 * kSpigotLength, face);
    add_.push_back(along_x(face, face + thick, outside / 2));
    if (spigot > 0) add_.push_back(along_x(face - spigot, face, mm(unit_["flange_spigot"]) / 2));
    const int holes = unit_["flange_holes"];
    for (int k = 0; k < holes; ++k) {
      const double a = 2 * kPi * (k + 0.5) / holes, r = mm(unit_["flange_bolt_circle"]) / 2;
      cut_.push_back(
          cylinder({face - 1, r * std::cos(a), r * std::sin(a)}, {1, 0, 0}, mm(unit_["flange_hole"]) / 2, thick + 2));
    }
  }

  /// Slot with round ends, in the middle of the shaft end.
  void keyway(double d) {
    const double key = mm(shaft_["key_length"]), b = mm(shaft_["key_width"]),
                 floor = d / 2 - mm(shaft_["key_shaft_depth"]);
    if (key <= b || b <= 0 || b >= d) return;
    const double middle = -mm(shaft_["length"]) / 2, half = (key - b) / 2;
    cut_.push_back(box({middle - half, -b / 2, floor}, {middle + half, b / 2, d / 2 + 1}));
    for (double end : {middle - half, middle + half})
      cut_.push_back(cylinder({end, 0, floor}, {0, 0, 1}, b / 2, d / 2 + 1 - floor));
  }

  const Json& d_;
  const Json& unit_;
  const Json& shaft_;
  Json add_ = Json::array(), cut_ = Json::array();
};

}  // namespace

Json step_plan(const Source& source) {
  Plan plan(source);
  Json parts = Json::array({plan.reducer()});
  if (source.dimensions.contains("motor") && source.dimensions["motor"].is_object()) parts.push_back(plan.motor());
  return Json{{"name", source.build_name()}, {"date", source.order.date}, {"parts", parts}};
}

}  // namespace lobewise::handover
