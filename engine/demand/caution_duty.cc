#include "engine/demand/caution_duty.h"

#include <algorithm>
#include <iterator>

namespace lobewise::demand {
namespace {

constexpr const char* kPlant = "the plant's engineer";
constexpr const char* kFitter = "the fitter";
constexpr const char* kSeller = "who offers it";
constexpr const char* kSafety = "the plant's safety engineer";
constexpr const char* kEveryone = "whoever works on it";

constexpr const char* kBeforeOffer = "before it is offered";
constexpr const char* kBeforeOrder = "before it is ordered";
constexpr const char* kBeforeStart = "before the first start";
constexpr const char* kBeforeWork = "each time before work on it";
constexpr const char* kAtMounting = "when it is mounted";

// In the order of gravity.
constexpr CautionDuty kDuties[] = {
    {"no_people", 1, kSafety, "always"},
    {"explosive", 2, "a specialist for explosive places", kBeforeOffer},
    {"stored_energy", 3, kEveryone, kBeforeWork},
    {"lockout", 4, kEveryone, kBeforeWork},
    {"runback", 5, kPlant, kBeforeOrder},
    {"holding", 6, kPlant, kBeforeOrder},
    {"lifting", 7, "the crane or winch maker", kBeforeOrder},
    {"lifting_unit", 8, kFitter, "when it is lifted"},
    {"downhill", 9, kPlant, kBeforeOrder},
    {"instead_brake", 9, kPlant, kBeforeOrder},
    {"vessel_entry", 10, kSafety, kBeforeWork},
    {"hopper", 10, kSafety, kBeforeWork},
    {"mixer_lid", 10, "the mixer's maker", kBeforeStart},
    {"relief_valve", 11, kPlant, kBeforeStart},
    {"storm", 11, "the crane's operator", "when the wind rises and at the end of work"},
    {"weathervane", 11, "the crane's operator", "at the end of work"},
    {"travel_path", 11, kPlant, kBeforeStart},
    {"rocking", 12, kEveryone, kBeforeWork},
    {"windmilling", 12, kEveryone, kBeforeWork},
    {"inverter_charge", 12, "an electrician", kBeforeWork},
    {"guards", 13, kPlant, kBeforeStart},
    {"backstop", 14, kPlant, kBeforeOrder},
    {"hot_surface", 15, kSafety, kBeforeStart},
    {"hot_drum", 16, kPlant, kBeforeOrder},
    {"food_leak", 17, kPlant, kBeforeOrder},
    {"food", 18, kPlant, "at every filling"},
    {"food_residue", 19, kFitter, "at the first filling"},
    {"jam", 20, kPlant, kBeforeOrder},
    {"overload", 21, kPlant, kBeforeOrder},
    {"instead_belt", 21, kPlant, kBeforeOrder},
    {"agitator_shaft", 22, "the agitator's maker", kBeforeOrder},
    {"screw_thrust", 22, "the screw's maker", kBeforeOrder},
    {"extruder_thrust", 22, "the extruder's maker", kBeforeOrder},
    {"overhung", 23, kFitter, kAtMounting},
    {"cold", 24, kPlant, "before the first frost"},
    {"washdown", 25, kPlant, kBeforeOrder},
    {"dust", 26, "the plant's cleaners", "every week, or as the layer grows"},
    {"outdoors", 27, kFitter, kAtMounting},
    {"altitude", 28, "the motor's supplier", kBeforeOrder},
    {"motor_overloaded", 29, kSeller, kBeforeOffer},
    {"measurement", 29, kSeller, kBeforeOffer},
    {"doubt_", 29, kSeller, kBeforeOffer},
    {"service_factor", 30, kSeller, kBeforeOffer},
    {"instead_", 31, kPlant, kBeforeOrder},
    {"replace_", 31, kFitter, kAtMounting},
    {"case_estimate", 40, "who decides on the money", kBeforeOrder},
    {"estimate", 41, "a licensed engineer", "before anybody relies on it"},
};

}  // namespace

const CautionDuty* find_duty(std::string_view key) {
  const auto exact = std::find_if(std::begin(kDuties), std::end(kDuties), [&](const auto& d) { return d.key == key; });
  if (exact != std::end(kDuties)) return exact;
  const auto family = std::find_if(std::begin(kDuties), std::end(kDuties),
                                   [&](const auto& d) { return d.key.ends_with('_') && key.starts_with(d.key); });
  return family == std::end(kDuties) ? nullptr : family;
}

const CautionDuty& duty_of_caution(std::string_view key) {
  static constexpr CautionDuty kUnlisted{"", 35, kPlant, kBeforeStart};
  const CautionDuty* found = find_duty(key);
  return found != nullptr ? *found : kUnlisted;
}

}  // namespace lobewise::demand
