#pragma once
// Charts of the lubricant over its temperature: how thick it is beside what the bearings ask for, and how long it
// serves.

#include "engine/base/constants.h"
#include "engine/base/formula/term.h"
#include "engine/evidence/questions.h"

namespace lobewise::evidence {

/// Viscosity over viscosity asked for below which the surfaces touch most of the time and additives must carry. Common
/// practice, no source.
inline constexpr double kLeastViscosityRatio = 0.4;

/// Renewal falls from this temperature of the lubricant on, to a half with every so many kelvins [K]. Common practice,
/// no source.
inline constexpr double kRenewalFalls = kZeroCelsius + 70, kRenewalHalves = 10;
/// Renewal below that temperature: 8000 h of mineral oil and grease, 16 000 h of synthetic oil [s]. Common practice, no
/// source.
[[nodiscard]] double renewal_when_cool(const drive::Oil& oil);
/// Interval after which it is renewed [s]: t_0 2^(-max(0, T - 70 degC)/10 K).
/// @param temperature  T of the lubricant [K]
template <class X>
[[nodiscard]] X renewal_of(const X& cool, const X& temperature, const X& falls, const X& halves) {
  using namespace formula;
  return cool * pow(X(2), -(max(X(0), temperature - falls) / halves));
}
[[nodiscard]] double renewal_interval(const drive::Oil& oil, double temperature);

/// Viscosity over temperature (contact/lubricant.h) with what the bearings ask for at full speed (ISO 281 reference
/// viscosity) and the temperatures of this machine; renewal interval over temperature with the point of this machine.
[[nodiscard]] std::vector<Chart> lubricant_charts(const drive::Drive& drive, const Evaluation& e);

/// Adds to those charts where the lubricant's temperature may lie.
/// @param low, high  5 and 95 % over what is not known exactly [K]
void mark_temperature_range(const drive::Drive& drive, double low, double high, std::vector<Chart>& charts);

}  // namespace lobewise::evidence
