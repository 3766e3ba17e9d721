#include "apps/handover/unit_drawing.h"

#include <fmt/format.h>

#include <cmath>

#include "apps/handover/page.h"
#include "apps/handover/text.h"
#include "apps/handover/unit_views.h"

namespace lobewise::handover {
namespace {

constexpr double kScales[] = {1, 2, 2.5, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50};

/// Views at the largest scale at which they fit.
struct Fitted {
  Drawing drawing;
  double ratio = 1;  ///< 1 : ratio
  double scale = 1;  ///< drawing units per millimetre of paper
};

Fitted fit(const Source& source, double letter, double width, double height, bool shaft_end = true) {
  const double millimetre = source.units == "us" ? 1 / 25.4 : 1;
  Fitted last;
  for (double ratio : kScales) {
    last = {unit_views(source, letter, ratio * millimetre, shaft_end), ratio, ratio * millimetre};
    const Box box = last.drawing.box();
    if (box.width() <= width * last.scale && box.height() <= height * last.scale) break;
  }
  return last;
}

struct Line {
  std::string text;
  double height;
};

/// Title block in the lower right corner.
void add_title_block(const Source& source, Sheet& sheet, double ratio) {
  const double mm = sheet.scale, right = sheet.paper.right, bottom = sheet.paper.bottom;
  constexpr double kWidth = 92, kHeight = 34;
  sheet.drawing.rectangle(Layer::frame, {right - kWidth * mm, bottom}, {right, bottom + kHeight * mm});
  const std::string customer = source.customer();
  const Line lines[] = {
      {source.build_name(), 3.2},
      {shortened(source.title(), 60), 2},
      {customer.empty() ? "" : "For " + shortened(customer, 60), 2},
      {fmt::format("{}, {} · scale 1:{} · {}", source.serves() ? "Dimension drawing" : "Closest build, not offered",
                   sheet.drawing.unit, ratio, source.order.date),
       2},
      {fmt::format("Mass without motor {} · ≈: typical, the motor’s drawing decides",
                   source.shown(source.offer()["mass"])),
       1.7},
      {fmt::format("{}, version {}: for planning, not for manufacture",
                   source.offer()["range"].value("name", std::string("Range")),
                   source.offer()["range"].value("version", std::string("–"))),
       1.7}};
  double y = bottom + (kHeight - 6.5) * mm;
  for (const Line& line : lines) {
    if (line.text.empty()) continue;
    sheet.drawing.letterings.push_back(
        {Layer::text, {right - (kWidth - 3) * mm, y}, line.height * mm, clean(line.text), Anchor::start, false});
    y -= 5 * mm;
  }
}

}  // namespace

Sheet unit_sheet(const Source& source) {
  const bool letter = source.order.paper == "letter";
  const double width = (letter ? 279.4 : 297) - 24, height = (letter ? 215.9 : 210) - 26;
  constexpr double kInset = 6, kTitle = 34;
  Fitted views = fit(source, 2.2, width - 2 * kInset, height - 2 * kInset - kTitle);
  Sheet sheet{std::move(views.drawing), {}, views.scale};
  const Box box = sheet.drawing.box();
  const double free = height * sheet.scale - box.height() - kTitle * sheet.scale;
  sheet.paper.left = (box.left + box.right - width * sheet.scale) / 2;
  sheet.paper.right = sheet.paper.left + width * sheet.scale;
  sheet.paper.bottom = box.bottom - kTitle * sheet.scale - free / 2;
  sheet.paper.top = sheet.paper.bottom + height * sheet.scale;
  sheet.drawing.rectangle(Layer::frame, {sheet.paper.left, sheet.paper.bottom}, {sheet.paper.right, sheet.paper.top});
  add_title_block(source, sheet, views.ratio);
  return sheet;
}

std::string sheet_svg(const Source& source, const Sheet& sheet) {
  Box box = sheet.paper;  // half the width of the frame's line more on every side
  const double edge = 0.3 * sheet.scale;
  box.add({box.left - edge, box.bottom - edge});
  box.add({box.right + edge, box.top + edge});
  return drawing_svg(sheet.drawing, box, sheet.scale, "Dimension drawing of " + source.build_name());
}

std::string sheet_html(const Source& source, const Sheet& sheet) {
  return html_page(
      source, "Dimension drawing",
      "<style>@page{margin:11mm 11mm 13mm 11mm}</style><main class=\"sheet\">" + sheet_svg(source, sheet) + "</main>",
      true);
}

std::string unit_picture(const Source& source) {
  const Fitted views = fit(source, 2.0, 165, 68, false);
  Box box = views.drawing.box();
  const double edge = 2 * views.scale;
  box.add({box.left - edge, box.bottom - edge});
  box.add({box.right + edge, box.top + edge});
  return drawing_svg(views.drawing, box, views.scale, "Outline of " + source.build_name());
}

}  // namespace lobewise::handover
