#include "apps/handover/unit_views.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "apps/handover/proportions.h"
#include "engine/base/constants.h"

namespace lobewise::handover {

std::string length_text(double metres, const std::string& units) {
  const bool us = units == "us";
  std::string text = fmt::format("{:.{}f}", us ? metres / 0.0254 : metres * 1000, us ? 3 : 1);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

namespace {

class Views {
 public:
  Views(const Source& source, double letter, double scale)
      : units_(source.units), d_(source.dimensions), shaft_(d_["shaft"]), unit_(d_["unit"]) {
    per_metre_ = units_ == "us" ? 1 / 0.0254 : 1000;
    step_ = 3.2 * letter * scale;
    out_.letter = letter * scale;
    out_.unit = units_ == "us" ? "in" : "mm";
    foot_ = d_["mounting"] == "foot";
  }

  Drawing draw(bool shaft_end) {
    side_view();
    const Box side = out_.box();
    front_view({side.right + 2.5 * step_ + front_half_width(), 0});
    if (shaft_end) section_view({0, side.bottom - 2.5 * step_ - shaft("diameter") / 2});
    return std::move(out_);
  }

 private:
  [[nodiscard]] double u(double metres) const { return metres * per_metre_; }
  [[nodiscard]] double unit(const char* key) const { return u(unit_[key].get<double>()); }
  [[nodiscard]] double shaft(const char* key) const { return u(shaft_[key].get<double>()); }
  [[nodiscard]] std::string say(double drawn) const { return length_text(drawn / per_metre_, units_); }
  [[nodiscard]] double body_radius() const {
    double radius = 0;
    for (const Json& body : d_["bodies"]) radius = std::max(radius, u(body["diameter"].get<double>()) / 2);
    return radius;
  }
  [[nodiscard]] bool has_motor() const { return d_.contains("motor") && d_["motor"].is_object(); }
  [[nodiscard]] double motor(const char* key) const { return u(d_["motor"][key].get<double>()); }
  [[nodiscard]] double flange_face() const { return u(d_["bodies"][0]["from"].get<double>()); }

  void across(Point a, Point b, double y, std::string text = "", bool text_before = false) {
    Dimension d{a, b, false, y, std::move(text), text_before};
    if (d.text.empty()) d.text = say(d.measured());
    out_.dimensions.push_back(std::move(d));
  }
  void upright(Point a, Point b, double x, std::string text = "") {
    Dimension d{a, b, true, x, std::move(text), false};
    if (d.text.empty()) d.text = say(d.measured());
    out_.dimensions.push_back(std::move(d));
  }
  void title(Point at, const std::string& text) {
    out_.letterings.push_back({Layer::text, at, out_.letter, text, Anchor::middle, false});
  }
  void arc(Layer layer, Point c, double r, double from, double to) {
    constexpr int kSteps = 72;
    Stroke s{layer, {}, false};
    for (int i = 0; i <= kSteps; ++i) {
      const double a = from + (to - from) * i / kSteps;
      s.points.push_back(c + Point{r * std::cos(a), r * std::sin(a)});
    }
    out_.strokes.push_back(std::move(s));
  }
  void cross(Point c, double r) {
    const double reach = r + 0.8 * out_.letter;
    out_.line(Layer::centre, {c.x - reach, c.y}, {c.x + reach, c.y});
    out_.line(Layer::centre, {c.x, c.y - reach}, {c.x, c.y + reach});
  }

  void shaft_end_side() {
    const double L = shaft("length"), r = shaft("diameter") / 2, c = 0.06 * r;
    out_.strokes.push_back(
        {Layer::outline, {{0, r}, {-L + c, r}, {-L, r - c}, {-L, c - r}, {-L + c, -r}, {0, -r}}, false});
    out_.line(Layer::outline, {-L + c, r}, {-L + c, -r});
    const double key = shaft("key_length"), depth = shaft("key_shaft_depth");
    if (key > 0) {
      const double from = -(L + key) / 2, to = from + key, top = r - depth + shaft("key_height");
      out_.strokes.push_back({Layer::outline, {{from, r}, {from, top}, {to, top}, {to, r}}, false});
      out_.strokes.push_back({Layer::hidden, {{from, r}, {from, r - depth}, {to, r - depth}, {to, r}}, false});
    }
  }

  void side_view() {
    shaft_end_side();
    const double hub = u(d_["hub_diameter"].get<double>()) / 2, face = flange_face(), length = u(d_["length"]);
    if (face > 0) out_.rectangle(Layer::outline, {0, -hub}, {face, hub});
    for (const Json& body : d_["bodies"])
      out_.rectangle(Layer::outline, {u(body["from"]), -u(body["diameter"].get<double>()) / 2},
                     {u(body["to"]), u(body["diameter"].get<double>()) / 2});
    double end = length;
    if (has_motor()) end = motor_side(length);
    out_.line(Layer::centre, {-shaft("length") - 0.4 * step_, 0}, {end + 0.4 * step_, 0});
    foot_ ? foot_side() : flange_side();
    side_dimensions(length, end);
  }

  double motor_side(double from) {
    const double r = motor("outline_diameter") / 2;
    double plate_end = from;
    if (d_["motor"].contains("flange")) {
      const double plate = u(d_["motor"]["flange"]["outside"].get<double>()) / 2;
      plate_end = from + kAdapterOverMotor * 2 * plate;
      out_.rectangle(Layer::typical, {from, -plate}, {plate_end, plate});
    }
    const double end = from + motor("outline_length");
    out_.rectangle(Layer::typical, {plate_end, -r}, {end, r});
    return end;
  }

  [[nodiscard]] double plate_top() const { return -unit("shaft_height") * (1 - kPlateOverHeight); }

  void foot_side() {
    const double first = unit("shoulder_to_hole"), last = first + unit("foot_holes_along");
    const double edge = kPlateEdge * unit("foot_hole"), floor = -unit("shaft_height"), hole = unit("foot_hole") / 2;
    out_.rectangle(Layer::outline, {first - edge, floor}, {last + edge, plate_top()});
    const double bottom = -u(d_["bodies"][0]["diameter"].get<double>()) / 2;
    const double web_from = std::max(first - 0.4 * edge, flange_face());
    if (plate_top() < bottom) {
      out_.line(Layer::outline, {web_from, plate_top()}, {web_from, bottom});
      out_.line(Layer::outline, {last + 0.4 * edge, plate_top()}, {last + 0.4 * edge, bottom});
    }
    for (double x : {first, last}) {
      for (double side : {-hole, hole}) out_.line(Layer::hidden, {x + side, floor}, {x + side, plate_top()});
      out_.line(Layer::centre, {x, floor - 0.8 * out_.letter}, {x, plate_top() + 0.8 * out_.letter});
    }
    across({0, -shaft("diameter") / 2}, {first, floor}, floor - step_, "", true);
    across({first, floor}, {last, floor}, floor - step_);
  }

  void flange_side() {
    const double r = unit("flange_outside") / 2, spigot = unit("flange_spigot") / 2, face = flange_face();
    out_.rectangle(Layer::outline, {face, -r}, {face + kFlangeOverOutside * 2 * r, r});
    out_.rectangle(Layer::outline, {face - std::min(u(kSpigotLength), face), -spigot}, {face, spigot});
    across({0, -shaft("diameter") / 2}, {face, -r}, -r - step_, fmt::format("({})", say(face)));
  }

  void side_dimensions(double length, double end) {
    const double L = shaft("length"), r = body_radius(), d = shaft("diameter");
    const double top =
        std::max({r, has_motor() ? motor("outline_diameter") / 2 : 0.0, foot_ ? 0.0 : unit("flange_outside") / 2});
    across({-L, d / 2}, {0, d / 2}, top + step_, "", true);
    across({0, d / 2}, {length, r}, top + step_);
    if (has_motor()) {
      across({length, r}, {end, motor("outline_diameter") / 2}, top + step_,
             fmt::format("≈ {}", say(motor("outline_length"))));
      upright({end, -motor("outline_diameter") / 2}, {end, motor("outline_diameter") / 2}, end + step_,
              fmt::format("≈ ⌀{}", say(motor("outline_diameter"))));
    }
    across({-L, d / 2}, {end, r}, top + 2 * step_, fmt::format("{}{}", has_motor() ? "≈ " : "", say(L + end)));
    upright({-L, -d / 2}, {-L, d / 2}, -L - step_, fmt::format("⌀{}", say(d)));
    if (foot_) upright({-L, 0}, {unit("shoulder_to_hole"), -unit("shaft_height")}, -L - 2 * step_);
    title({(end - L) / 2, top + 3.2 * step_}, "Side");
  }

  [[nodiscard]] double front_half_width() const {
    return std::max({unit("width") / 2, body_radius(), foot_ ? 0.0 : unit("flange_outside") / 2});
  }
  [[nodiscard]] double front_half_height() const {
    return foot_ ? std::max(unit("height") - unit("shaft_height"), body_radius())
                 : std::max(body_radius(), unit("flange_outside") / 2);
  }

  void front_view(Point at) {
    const double hub = u(d_["hub_diameter"].get<double>()) / 2;
    foot_ ? foot_front(at) : flange_front(at);
    out_.circles.push_back({Layer::outline, at, hub});
    shaft_face(at);
    cross(at, front_half_width());
    title({at.x, at.y + front_half_height() + 2.2 * step_}, "From the output shaft");
  }

  /// Shaft end with its key seen along the axis.
  void shaft_face(Point at) {
    const double r = shaft("diameter") / 2, b = shaft("key_width") / 2;
    if (b <= 0 || b >= r || shaft("key_length") <= 0) {
      out_.circles.push_back({Layer::outline, at, r});
      return;
    }
    const double low = at.y + r - shaft("key_shaft_depth"), high = low + shaft("key_height");
    const double half = std::asin(b / r);
    arc(Layer::outline, at, r, kPi / 2 + half, 2.5 * kPi - half);
    out_.rectangle(Layer::outline, {at.x - b, low}, {at.x + b, high});
  }

  void foot_front(Point at) {
    const double r = u(d_["bodies"][0]["diameter"].get<double>()) / 2, w = unit("width") / 2;
    const double web = std::min(0.92 * w, 0.98 * r), floor = at.y - unit("shaft_height"), plate = at.y + plate_top();
    const double meet = -std::acos(web / r);
    arc(Layer::outline, at, r, meet, kPi - meet);
    for (double side : {-1.0, 1.0}) {
      out_.line(Layer::outline, at + Point{side * web, r * std::sin(meet)}, {at.x + side * web, plate});
      out_.line(Layer::outline, {at.x + side * web, plate}, {at.x + side * w, plate});
      out_.line(Layer::outline, {at.x + side * w, plate}, {at.x + side * w, floor});
      const double x = at.x + side * unit("foot_holes_across") / 2;
      for (double edge : {-0.5, 0.5})
        out_.line(Layer::hidden, {x + edge * unit("foot_hole"), floor}, {x + edge * unit("foot_hole"), plate});
      out_.line(Layer::centre, {x, floor - 0.8 * out_.letter}, {x, plate + 0.8 * out_.letter});
    }
    out_.line(Layer::outline, {at.x - w, floor}, {at.x + w, floor});
    const double half = unit("foot_holes_across") / 2;
    across({at.x - half, floor}, {at.x + half, floor}, floor - step_);
    across({at.x - w, floor}, {at.x + w, floor}, floor - 2 * step_);
    upright({at.x + w, floor}, {at.x, floor + unit("height")}, at.x + std::max(w, r) + step_);
    across({at.x - r, at.y}, {at.x + r, at.y}, at.y + front_half_height() + step_, fmt::format("⌀{}", say(2 * r)));
    out_.letterings.push_back({Layer::dimension,
                               {at.x + w + 0.6 * step_, floor - 1.6 * step_},
                               out_.letter,
                               fmt::format("4 holes ⌀{}", say(unit("foot_hole"))),
                               Anchor::start,
                               false});
  }

  void flange_front(Point at) {
    const double r = unit("flange_outside") / 2, bolts = unit("flange_bolt_circle") / 2;
    const int holes = unit_["flange_holes"];
    out_.circles.push_back({Layer::outline, at, r});
    out_.circles.push_back({Layer::outline, at, unit("flange_spigot") / 2});
    out_.circles.push_back({Layer::centre, at, bolts});
    for (int k = 0; k < holes; ++k) {
      const double a = 2 * kPi * (k + 0.5) / holes;
      const Point hole = at + Point{bolts * std::cos(a), bolts * std::sin(a)};
      out_.circles.push_back({Layer::outline, hole, unit("flange_hole") / 2});
      cross(hole, unit("flange_hole") / 2);
    }
    const double s = unit("flange_spigot") / 2;
    across({at.x - s, at.y}, {at.x + s, at.y}, at.y - r - step_, fmt::format("⌀{} spigot", say(2 * s)));
    across({at.x - bolts, at.y}, {at.x + bolts, at.y}, at.y - r - 2 * step_,
           fmt::format("⌀{} bolt circle, {} × ⌀{}", say(2 * bolts), holes, say(unit("flange_hole"))));
    across({at.x - r, at.y}, {at.x + r, at.y}, at.y + r + step_, fmt::format("⌀{}", say(2 * r)));
  }

  void section_view(Point at) {
    const double r = shaft("diameter") / 2, b = shaft("key_width") / 2;
    shaft_face(at);
    cross(at, r);
    if (shaft("key_length") <= 0) return;
    const double over = shaft("key_height") - shaft("key_shaft_depth");
    across({at.x - b, at.y + r + over}, {at.x + b, at.y + r + over}, at.y + r + over + step_, "", true);
    upright({at.x, at.y - r}, {at.x + b, at.y + r + over}, at.x + r + step_);
    across({at.x - r, at.y}, {at.x + r, at.y}, at.y - r - step_, fmt::format("⌀{}", say(2 * r)));
    out_.letterings.push_back(
        {Layer::text, {at.x + r + 2.6 * step_, at.y - out_.letter / 2}, out_.letter, key_text(), Anchor::start, false});
  }

  /// Shaft and key are metric parts: in inches their own sizes are named too.
  [[nodiscard]] std::string key_text() const {
    const auto all = [&](const std::string& units) {
      return fmt::format("{} × {} × {}", length_text(shaft_["key_width"], units),
                         length_text(shaft_["key_height"], units), length_text(shaft_["key_length"], units));
    };
    if (units_ != "us") return fmt::format("Shaft end, key {}", all("si"));
    return fmt::format("Shaft end, key {}; metric: ⌀{}, key {} mm", all("us"), length_text(shaft_["diameter"], "si"),
                       all("si"));
  }

  std::string units_;
  const Json& d_;
  const Json& shaft_;
  const Json& unit_;
  double per_metre_ = 1000, step_ = 1;
  bool foot_ = true;
  Drawing out_;
};

}  // namespace

Drawing unit_views(const Source& source, double letter, double scale, bool shaft_end) {
  return Views(source, letter, scale).draw(shaft_end);
}

}  // namespace lobewise::handover
