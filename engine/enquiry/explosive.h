#pragma once
// A place where the air may explode: what must be stated about it before anything is offered there.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/result.h"

namespace lobewise::enquiry {

/// How often an explosive mixture is there: gas 0, 1, 2, dust 20, 21, 22 (IEC 60079-10-1 and -10-2, from memory), or a
/// mine with firedamp.
enum class Zone { zone_0, zone_1, zone_2, zone_20, zone_21, zone_22, mine };
/// I mines, II gases, III dusts (IEC 60079-0, from memory).
enum class ExplosiveGroup { i, iia, iib, iic, iiia, iiib, iiic };
enum class TemperatureClass { t1, t2, t3, t4, t5, t6 };

struct Explosive {
  std::optional<Zone> zone;
  std::optional<ExplosiveGroup> group;
  std::optional<int> category;  ///< of equipment 1 … 3, 1 is the strictest
  std::optional<TemperatureClass> temperature_class;
  std::optional<double> surface_temperature;  ///< highest allowed, as stated for a dust [K]
  std::string certifier;                      ///< who certifies the drive for this place
};

/// What is not stated yet, in words; empty when everything is.
[[nodiscard]] std::vector<std::string> missing_particulars(const Explosive& explosive);

/// Category that a zone asks for: 1 in zones 0 and 20 and in mines, 2 in 1 and 21, 3 in 2 and 22. Source: Directive
/// 2014/34/EU and 1999/92/EC Annex II, read on a page of an inspection body; mines hold M1 and M2, both taken as 1
/// here.
[[nodiscard]] int category_of(Zone zone);

/// Hottest that a surface may get: the temperature class less 5 K (T3 to T6) or 10 K (T1, T2), or the temperature
/// stated for a dust, whichever is lower [K]; nothing when neither is stated. Classes T1 450, T2 300, T3 200, T4 135,
/// T5 100, T6 85 degC (ISO 80079-36 and IEC 60079-0, from memory); the distance is that of type tests there (from
/// memory).
[[nodiscard]] std::optional<double> hottest_surface(const Explosive& explosive);

/// `zone 21, group IIIB, T 135 degC …` in words, as far as it is stated.
[[nodiscard]] std::string in_words(const Explosive& explosive);

/// Particulars that contradict each other: a gas zone with a dust group, a category below the zone's.
[[nodiscard]] Errors contradictions(const Explosive& explosive);

}  // namespace lobewise::enquiry
