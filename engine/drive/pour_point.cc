#include "engine/drive/pour_point.h"

#include <cmath>
#include <string_view>

#include "data/pour_points.h"
#include "engine/base/constants.h"

namespace lobewise::drive {
namespace {

std::string_view word(range::BaseOil base) {
  switch (base) {
    case range::BaseOil::pao:
      return "pao";
    case range::BaseOil::pag:
      return "pag";
    case range::BaseOil::mineral:
      break;
  }
  return "mineral";
}

Coefficient in_kelvin(const data::PourPointsRow& row) {
  return {kZeroCelsius + row.usual_c, kZeroCelsius + row.low_c, kZeroCelsius + row.high_c, row.status.data()};
}

/// Straight over the logarithm of the grade; rows of one kind and base stand together, grades rising. Greases have one
/// row without a grade.
Coefficient usual(bool grease, range::BaseOil base, double grade) {
  const data::PourPointsRow* below = nullptr;
  for (const data::PourPointsRow& row : data::kPourPoints) {
    if (row.kind != (grease ? "grease" : "oil") || row.base != word(base)) continue;
    if (!row.grade || (below == nullptr && grade <= *row.grade)) return in_kelvin(row);
    if (below != nullptr && grade <= *row.grade) {
      const double share = std::log(grade / *below->grade) / std::log(*row.grade / *below->grade);
      const Coefficient a = in_kelvin(*below), b = in_kelvin(row);
      const auto between = [&](double Coefficient::*end) { return a.*end + share * (b.*end - a.*end); };
      return {between(&Coefficient::nominal), between(&Coefficient::low), between(&Coefficient::high), a.source};
    }
    below = &row;
  }
  return in_kelvin(*below);
}

}  // namespace

PourPoint pour_point(const range::Lubricant& fill) {
  const bool grease = fill.kind == range::LubricantKind::grease;
  PourPoint out;
  out.stated = fill.pour_point.has_value();
  out.at = out.stated ? Coefficient{*fill.pour_point, *fill.pour_point, *fill.pour_point, "stated by the range"}
                      : usual(grease, fill.base, fill.viscosity_40 * 1e6);
  out.lowest = out.at.nominal + (grease ? 0 : kAbovePourPoint);
  return out;
}

}  // namespace lobewise::drive
