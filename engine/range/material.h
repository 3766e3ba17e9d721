#pragma once
// What a part is made of, as far as it grows with temperature.
#include "engine/base/working.h"

namespace lobewise::range {

enum class Material { steel, ductile_iron, grey_iron, aluminium };

/// Linear expansion between 20 and 100 degC [1/K]. Source: handbook values, from memory.
[[nodiscard]] constexpr Coefficient expansion(Material material) {
  constexpr const char* kSource = "linear expansion from 20 to 100 °C, handbook values, from memory";
  switch (material) {
    case Material::steel:
      return {11.5e-6, 11.0e-6, 12.5e-6, kSource};
    case Material::ductile_iron:
      return {11.5e-6, 11.0e-6, 12.5e-6, kSource};
    case Material::grey_iron:
      return {10.5e-6, 10.0e-6, 11.7e-6, kSource};
    case Material::aluminium:
      break;
  }
  return {23.0e-6, 21.0e-6, 24.0e-6, kSource};
}
/// Ring of a range that does not say: cast iron as a rule, perhaps steel.
inline constexpr Coefficient kUnknownRing{10.5e-6, 10.0e-6, 12.5e-6,
                                          "cast iron taken, steel possible; handbook values, from memory"};

}  // namespace lobewise::range
