#pragma once
// What a warm housing does to skin that touches it.

#include <array>

#include "engine/base/constants.h"

namespace lobewise::heat {

/// Surface temperature from which bare metal may burn skin within a time of contact.
struct BurnThreshold {
  double contact = 0;      ///< [s]
  double temperature = 0;  ///< [K]
  const char* contact_words = "";
};

/// Burn thresholds of smooth bare metal, the lower end where the standard gives a band. Painted metal is a few kelvin
/// better up to a few seconds, the same from a minute on. They are thresholds, no limits, and hold for a small part of
/// the skin. Source: ISO 13732-1, from memory: 1 s 65 to 70 degC, 10 s 56, 1 min 51, 10 min 48, 8 h 43; a touch of half
/// a second below 65 degC is not expected to burn (read in a quotation of clause 4.2.1.2).
inline constexpr std::array<BurnThreshold, 5> kBurnThresholds{
    {{1, kZeroCelsius + 65, "a touch of a second"},
     {10, kZeroCelsius + 56, "ten seconds, as when one leans on it"},
     {60, kZeroCelsius + 51, "a minute"},
     {600, kZeroCelsius + 48, "ten minutes"},
     {28800, kZeroCelsius + 43, "a shift"}}};

/// The shortest contact that burns at a surface temperature; null when it is cooler than every threshold.
[[nodiscard]] inline const BurnThreshold* burns_within(double surface_temperature) {
  for (const BurnThreshold& threshold : kBurnThresholds)
    if (surface_temperature >= threshold.temperature) return &threshold;
  return nullptr;
}

}  // namespace lobewise::heat
