#pragma once
// The unit in service and the candidate on the same duty and the same axes, and what an observed trouble points to.

#include <optional>
#include <string>
#include <vector>

#include "engine/incumbent/gear_unit.h"

namespace lobewise::incumbent {

/// A figure with what is known of its spread.
struct Figure {
  double nominal = 0, low = 0, high = 0;
};
[[nodiscard]] inline Figure exactly(double value) { return {value, value, value}; }

/// What the candidate and an offer for a new geared unit bring to the comparison; unknown fields are left out.
struct CandidateFigures {
  std::optional<Figure> contact_stress;   ///< highest at the working load, Pa
  std::optional<Figure> peak_contact;     ///< … in the worst moment, Pa
  std::optional<Figure> pin_bending;      ///< of its output pins at the working load, Pa
  std::optional<Figure> peak_bending;     ///< … in the worst moment, Pa
  std::optional<Figure> pairs;            ///< loaded lobes at a time, of one stage
  std::optional<Figure> efficiency;       ///< 0 … 1
  std::optional<Figure> loss;             ///< power lost at the working load, W
  std::optional<Figure> oil_temperature;  ///< K
  std::optional<Figure> peak_ratio;       ///< momentary torque it stands over T2
  std::optional<Figure> life;             ///< 99 % of units reach it before any fatigue, s
  std::optional<Figure> mass;             ///< kg
  std::optional<Figure> volume;           ///< of its envelope, m3
  std::optional<Figure> price;
  std::optional<Figure> delivery_time;  ///< s
};
struct OfferFigures {
  std::optional<Figure> price;
  std::optional<Figure> delivery_time;  ///< s
};

enum class Better { candidate, incumbent, even, unknown };

/// One line of "beside what you have".
struct Axis {
  std::string id;  ///< contact_stress, contact_at_equal_size, peak_contact, pairs, bending, peak_bending, peak, life,
                   ///< efficiency, losses, heat, mass, size, price, delivery
  std::string question;
  std::optional<Figure> candidate, incumbent;
  Quantity quantity = Quantity::number;
  Better better = Better::unknown;
  std::string remark;  ///< what the line does not say by itself
};

/// All axes; none is left out because the geared unit wins it.
/// A side is better only when its range lies clear of the other's nominal by more than 3 %; otherwise even.
/// Bending of a tooth root and of an output pin are no like for like: neither is called better; nor are contact
/// stresses of a bronze wheel and of hardened steel.
/// contact_at_equal_size scales the geared unit's stress by sqrt(V_incumbent / V_candidate): for line contact of
/// similar shape sigma^2 ~ T / V (derived, docs/theory/incumbent.md).
[[nodiscard]] std::vector<Axis> compare(const GearUnit& unit, const OfferFigures& offer,
                                        const CandidateFigures& candidate);

/// What the old unit may have done unnoticed and the new one does not. Always shown where it applies; local codes
/// decide.
[[nodiscard]] std::vector<std::string> replacement_cautions(const GearUnit& unit);

enum class Trouble {
  tooth_breakage,
  pitting,
  worm_wheel_wear,
  bearing_failure,
  overheating,
  oil_leak,
  noise,
  shaft_breakage,
  key_failure,
  belt_slip,
};

/// Whether the unit's own figures speak for the trouble that was seen.
struct TroubleReading {
  Trouble trouble = Trouble::noise;
  std::optional<bool> explained;  ///< true: the figures account for it; false: they do not; nothing: they cannot tell
  std::string text;               ///< one sentence: what was looked at
  std::string ask;                ///< what to ask or look at next; common practice, no source
  std::optional<double> value, limit;
  Quantity quantity = Quantity::number;
};
[[nodiscard]] TroubleReading read_trouble(Trouble trouble, const GearUnit& unit, const UnitDuty& duty);

}  // namespace lobewise::incumbent
