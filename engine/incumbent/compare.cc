#include "engine/incumbent/compare.h"

#include <algorithm>
#include <cmath>

#include "engine/base/constants.h"

namespace lobewise::incumbent {
namespace {

constexpr double kEven = 0.03;
/// Usual upper oil temperature of mineral gear oil, and where nitrile seals harden; common practice, no source.
constexpr double kOilLimit = 90 + kZeroCelsius;

Figure figure(const Coefficient& c) { return {c.nominal, c.low, c.high}; }

Better judge(const std::optional<Figure>& candidate, const std::optional<Figure>& incumbent, bool more_is_better) {
  if (!candidate || !incumbent) {
    return Better::unknown;
  }
  // The smaller side must stay below the other even at its upper end.
  const auto clearly_less = [](const Figure& a, const Figure& b) {
    return a.nominal < b.nominal * (1 - kEven) && a.high < b.nominal && a.nominal < b.low;
  };
  if (clearly_less(*candidate, *incumbent)) {
    return more_is_better ? Better::incumbent : Better::candidate;
  }
  if (clearly_less(*incumbent, *candidate)) {
    return more_is_better ? Better::candidate : Better::incumbent;
  }
  return Better::even;
}

/// Power lost, with the range of the efficiency.
Figure loss_of(const GearUnit& unit) {
  const auto loss = [&](double efficiency) { return unit.output_power * (1 / efficiency - 1); };
  return {loss(unit.efficiency.nominal), loss(unit.efficiency.high), loss(unit.efficiency.low)};
}

}  // namespace

std::vector<Axis> compare(const GearUnit& unit, const OfferFigures& offer, const CandidateFigures& c) {
  std::vector<Axis> axes;
  const auto add = [&](const char* id, const char* question, const std::optional<Figure>& candidate,
                       const std::optional<Figure>& incumbent, Quantity quantity, bool more_is_better,
                       std::string remark) {
    axes.push_back(
        {id, question, candidate, incumbent, quantity, judge(candidate, incumbent, more_is_better), std::move(remark)});
  };
  const double volume = unit.length * unit.width * unit.height;
  const bool worm = unit.kind == UnitKind::worm;
  /// Of a unit without gears nothing inside is known.
  const auto of_gears = [&](double value) { return unit.geared() ? std::optional(exactly(value)) : std::nullopt; };
  const std::optional<Figure> stress = of_gears(unit.contact_stress);
  add("contact_stress", "Contact stress at the working load", c.contact_stress, stress, Quantity::pressure, false,
      worm ? "A bronze wheel stands about a seventh of what hardened steel stands: compare safeties, not stresses."
           : "");
  std::optional<Figure> scaled;
  if (c.volume && unit.geared()) {
    scaled = exactly(unit.contact_stress * std::sqrt(volume / c.volume->nominal));
  }
  add("contact_at_equal_size", "Contact stress if both had the candidate's volume", c.contact_stress, scaled,
      Quantity::pressure, false, "Scaled with stress squared in proportion to torque over volume.");
  double peak_contact = 0;
  std::optional<double> peak_bending;
  for (const UnitStage& stage : unit.stages) {
    peak_contact = std::max(peak_contact, stage.peak_contact_stress);
    if (stage.peak_bending_stress) {
      peak_bending = std::max(peak_bending.value_or(0), *stage.peak_bending_stress);
    }
  }
  add("peak_contact", "Contact stress in the worst moment", c.peak_contact, of_gears(peak_contact), Quantity::pressure,
      false,
      "The momentary torque that the candidate's stiffness and play make, on both; couplings soften it in a real "
      "drive.");
  add("pairs", "Teeth or lobes that carry at a time", c.pairs, of_gears(unit.fewest_pairs), Quantity::number, true,
      "Mean of the stage with fewest; more pairs share the load but each contact of a lobe is only as wide as its "
      "disc.");
  const auto bending = [&](const char* id, const char* question, const std::optional<Figure>& pin,
                           const std::optional<double>& root) {
    if (pin || root) {
      axes.push_back({id, question, pin, root ? std::optional(exactly(*root)) : std::nullopt, Quantity::pressure,
                      Better::unknown,
                      "Tooth root against output pin: different places, each to be held against its own limit. Lobes "
                      "have no root that bends."});
    }
  };
  bending("bending", "Bending stress at the working load", c.pin_bending, unit.bending_stress);
  bending("peak_bending", "Bending stress in the worst moment", c.peak_bending, peak_bending);
  std::optional<Figure> peak;
  if (unit.static_ratio) {
    peak = exactly(*unit.static_ratio);
  }
  add("peak", "Momentary torque it stands, as a multiple of the working torque", c.peak_ratio, peak, Quantity::number,
      true, "Gear teeth by their static strength; shafts, keys and couplings may give way before either.");
  std::optional<Figure> life;
  if (unit.life && std::isfinite(*unit.life)) {
    life = exactly(*unit.life);
  }
  add("life", "Hours that 99 % reach before the first fatigue", c.life, life, Quantity::duration, true,
      !unit.geared()
          ? "What stands in a cycloidal unit in service is not known: ask for its rating and what was renewed."
      : unit.life && !std::isfinite(*unit.life)
          ? "The gear teeth stay below their endurance limit: they win this line; what ends such a unit is its "
            "bearings "
            "and seals, which are not known. The candidate's figure includes its bearings."
          : "Of the gear teeth alone, whose bearings are not known; the candidate's figure includes its bearings.");
  if (unit.life && !std::isfinite(*unit.life)) {
    axes.back().better = Better::incumbent;
  }
  add("efficiency", "Share of the power that arrives", c.efficiency, figure(unit.efficiency), Quantity::share, true,
      "At the working load; below it the losses that do not depend on load weigh more.");
  add("losses", "Power lost at the working load", c.loss, loss_of(unit), Quantity::power, false, "");
  add("heat", "Oil temperature on this duty", c.oil_temperature, figure(unit.oil_temperature), Quantity::temperature,
      false, "");
  add("mass", "Mass without motor", c.mass, figure(unit.mass), Quantity::mass, false, "");
  add("size", "Volume of the envelope", c.volume, exactly(volume), Quantity::volume, false, "");
  add("price", "Price", c.price, offer.price, Quantity::money, false, "");
  add("delivery", "Delivery time", c.delivery_time, offer.delivery_time, Quantity::lead_time, false,
      "Geared units of usual sizes are stocked widely; ask for both.");
  if (worm) {  // bronze on steel against steel on steel: stresses say nothing
    for (Axis& axis : axes) {
      if (axis.id.find("contact") != std::string::npos) {
        axis.better = Better::unknown;
      }
    }
  }
  return axes;
}

std::vector<std::string> replacement_cautions(const GearUnit& unit) {
  std::vector<std::string> cautions;
  if (unit.reverse_efficiency_at_rest && *unit.reverse_efficiency_at_rest <= 0) {
    cautions.push_back(
        "At rest the worm held the load by its friction; the new reducer runs back. Where a load can run back a brake "
        "or "
        "backstop is needed, and the old friction was never a permissible one.");
  }
  if (unit.belt_in_front()) {
    cautions.push_back(
        "A slipping belt may have been the only overload protection. Without it a jam reaches reducer, coupling and "
        "machine: "
        "provide a torque limiter or check every link.");
  }
  if (unit.static_ratio) {
    cautions.push_back(
        "If the new unit stands more momentary torque, the weakest link moves on to coupling, key or driven shaft.");
  }
  return cautions;
}

TroubleReading read_trouble(Trouble trouble, const GearUnit& unit, const UnitDuty& duty) {
  TroubleReading r;
  r.trouble = trouble;
  switch (trouble) {
    case Trouble::tooth_breakage:
      r.ask = "Fresh fracture or beach marks? Which gear? What jammed, and how often does it start under load?";
      r.quantity = Quantity::number;
      r.text = "The worst momentary torque against the static strength of the weakest tooth root.";
      if (unit.static_ratio) {
        r.value = duty.peak_ratio;
        r.limit = *unit.static_ratio;
        r.explained = *r.value > *r.limit;
      }
      break;
    case Trouble::pitting:
      r.ask = "On which gear and on which part of the flank? Is the oil clean, and which grade is it?";
      r.quantity = Quantity::number;
      r.text = "Safety of the flanks at the working load for the life asked for.";
      for (const UnitStage& stage : unit.stages) {
        for (const auto& rating : {stage.rating, stage.ring_rating}) {
          if (rating) {
            r.value = std::min(r.value.value_or(rating->contact_safety), rating->contact_safety);
          }
        }
      }
      if (r.value) {
        r.limit = 1;
        r.explained = *r.value < *r.limit;
      }
      break;
    case Trouble::worm_wheel_wear:
      r.ask = "Bronze in the oil? Backlash at the output? Oil grade and last change?";
      r.text = "Working torque against what the bronze stands for 25 000 h.";
      for (const UnitStage& stage : unit.stages) {
        if (stage.worm_rating) {
          r.value = stage.worm_rating->torque_safety;
          r.limit = 1;
          r.explained = *r.value < 1;
        }
      }
      break;
    case Trouble::overheating:
    case Trouble::oil_leak:
      r.ask = trouble == Trouble::oil_leak ? "Which shaft? Is the breather open, is the level too high?"
                                           : "Measured where, at which load? Is the housing clean, is the fan free?";
      r.quantity = Quantity::temperature;
      r.text = "Oil temperature settled on this duty against the usual limit of mineral oil and nitrile seals.";
      r.value = unit.oil_temperature.nominal;
      r.limit = kOilLimit;
      // Only where the whole range lies on one side do the figures decide.
      if (unit.oil_temperature.low > kOilLimit) {
        r.explained = true;
      } else if (unit.oil_temperature.high < kOilLimit) {
        r.explained = false;
      }
      break;
    case Trouble::bearing_failure:
      r.text = "Bearings of the unit in service are not known, so their life is not computed.";
      r.ask =
          "Which bearing? Overhung chain, belt or pinion? Water or dust in the oil? Stray current from an inverter?";
      break;
    case Trouble::noise:
      r.text = "Noise alone does not tell its source.";
      r.ask =
          "Once a turn, at tooth frequency, or only when starting? Did it begin after a change of oil, bearing or "
          "coupling?";
      break;
    case Trouble::shaft_breakage:
    case Trouble::key_failure:
      r.text = "Shafts and keys of the unit in service are not known.";
      r.ask = "Torsion or bending fracture? Overhung load and where it acts? Does it reverse or jam?";
      break;
    case Trouble::belt_slip:
      r.text = "Tension and state of the belt decide; they are not known.";
      r.ask =
          "Number and section of belts, tension, alignment? A slipping belt may be the only overload protection there "
          "is.";
      break;
  }
  if (!unit.geared() && trouble != Trouble::overheating && trouble != Trouble::oil_leak && trouble != Trouble::noise) {
    r.text = "What stands inside a cycloidal unit in service is not known; its parts list would say.";
  }
  return r;
}

}  // namespace lobewise::incumbent
